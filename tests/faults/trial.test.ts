/** A few of the random faults that `npm run faults` tries by the thousand: nothing lost, nothing silent, nothing hung. */
import { existsSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { tryFaults, type Outcome } from "./trial.ts";

const count = 30;

it(`${count} random faults lose nothing, say what they did and end`, { timeout: 600_000 }, async () => {
  const folder = await mkdtemp(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "faults-"));
  try {
    const outcomes: Outcome[] = [];
    await tryFaults({ count, seed: 0.7, folder, only: ["add", "forget", "enrich"] }, (outcome) =>
      outcomes.push(outcome),
    );
    expect(outcomes.flatMap((outcome) => outcome.wrong)).toEqual([]);
    expect(outcomes.filter((outcome) => outcome.ended !== "unharmed").length).toBeGreaterThan(count / 3);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
