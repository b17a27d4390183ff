/**
 * `npm run mutation [-- --room NAME --lines N --seed S --keep FILE]`: changes a seeded sample of the functions in each room,
 * one place at a time, runs the room's tests against each, and prints how many were noticed and which were not.
 * The script installs Stryker first and saves it nowhere: 164 packages that nobody else needs. `npm ci` takes them away.
 */
import { spawnSync } from "node:child_process";
import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { share as shareFrom } from "../../src/stats/index.ts";
import { sampleOf } from "./sample.ts";

/** What is read of a report, in the open format of mutation testing reports. */
interface Report {
  readonly files: Readonly<Record<string, { readonly mutants: readonly Mutant[] }>>;
}
interface Mutant {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly status: string;
  readonly location: { readonly start: { readonly line: number; readonly column: number } };
}

const rooms = ["flight", "contact", "stats", "gap", "reading"];
/** Written by a program, and tables of words. */
const leaveOut: Readonly<Record<string, readonly string[]>> = {
  flight: ["step.ts"],
  reading: ["words.ts", "months.ts"],
};
const folder = "out/mutation";

type Placed = Mutant & { readonly file: string };

/** Every mutant of these stretches of a room, with what became of it. */
function mutantsOf(room: string, mutate: readonly string[]): Placed[] {
  const options = `${folder}/${room}.options.json`;
  const report = `${folder}/${room}.report.json`;
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    options,
    JSON.stringify({
      mutate,
      testRunner: "vitest",
      vitest: { configFile: "tests/mutation/vitest.config.ts", related: false },
      plugins: ["@stryker-mutator/vitest-runner"],
      // What a sentence says is held to by the tests of pages and commands, which take minutes.
      mutator: { excludedMutations: ["StringLiteral"] },
      coverageAnalysis: "perTest",
      // What runs when a module is loaded is run again by tests, where it is more than a table.
      ignoreStatic: true,
      concurrency: 1,
      // A busy machine is no endless loop: a mutant that is slow for its own sake is slower than this.
      timeoutMS: 120_000,
      dryRunTimeoutMinutes: 60,
      reporters: ["json"],
      jsonReporter: { fileName: report },
      ignorePatterns: ["dist", "tests/golden", "out"],
      tempDirName: `${folder}/copy`,
      disableTypeChecks: false,
    }),
  );
  const { status } = spawnSync(
    process.execPath,
    ["node_modules/@stryker-mutator/core/bin/stryker.js", "run", options],
    // Its progress is no part of the table.
    { stdio: ["ignore", process.stderr, process.stderr], env: { ...process.env, MUTATED_ROOM: room } },
  );
  if (status !== 0) throw new Error(`the mutation run of ${room} ended with ${status}`);
  const { files } = JSON.parse(readFileSync(report, "utf8")) as Report;
  return Object.entries(files).flatMap(([file, { mutants }]) => mutants.map((m) => ({ file, ...m })));
}

const { values } = parseArgs({
  options: {
    room: { type: "string", multiple: true },
    lines: { type: "string", default: "150" },
    seed: { type: "string", default: "0.14" },
    keep: { type: "string" },
  },
});
const write = (text: string): void => {
  process.stdout.write(text);
  if (values.keep !== undefined) appendFileSync(values.keep, text);
};
const percent = (value: number | null): string => (value === null ? "" : (100 * value).toFixed(0));

/** A mutant that no test noticed: where it is, and what stood there instead. */
function lineOf({ file, location, mutatorName, replacement, status }: Placed): string {
  const changed = (replacement ?? "").replaceAll(/\s+/g, " ").slice(0, 120);
  return `${file}:${location.start.line}:${location.start.column} ${mutatorName} ${status}: ${changed}\n`;
}

// What is known is written at once: a run that is cut short has told something.
for (const room of values.room ?? rooms) {
  const sample = sampleOf(`src/${room}`, Number(values.lines), Number(values.seed), leaveOut[room]);
  const mutants = mutantsOf(
    room,
    sample.map(({ file, first, last }) => `${file}:${first}-${last}`),
  ).filter(({ status }) => status !== "Ignored" && status !== "CompileError");
  const missed = mutants.filter(({ status }) => status !== "Killed" && status !== "Timeout");
  const noticed = mutants.length - missed.length;
  const slow = mutants.filter(({ status }) => status === "Timeout").length;
  const { share, low, high } = shareFrom(noticed, mutants.length);
  write(
    `${room}: ${noticed} of ${mutants.length} noticed, ${slow} of these by taking too long: ${percent(share)} % (95 %: ${percent(low)} to ${percent(high)})\n`,
  );
  for (const mutant of missed) write(lineOf(mutant));
}
