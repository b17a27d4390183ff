/**
 * `npm run faults [-- --count N --seed S --from N --keep FILE]`: random faults over the commands that write, and a table
 * of what came of them. What is kept in a file, a fault a line, needn't be tried again: a run goes on after it.
 */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { commands, kinds, tryFaults, type Outcome } from "./trial.ts";

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "1000" },
    seed: { type: "string", default: "0.12" },
    from: { type: "string", default: "1" },
    keep: { type: "string" },
  },
});
const count = Number(values.count);
const first = Number(values.from);
const { keep } = values;
// A disk in memory, where there is one, takes the pushes to it at once.
const folder = await mkdtemp(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "faults-"));
const kept = keep !== undefined && existsSync(keep) ? readFileSync(keep, "utf8").trim().split("\n") : [];
const outcomes = kept.map((line) => JSON.parse(line) as Outcome);
const rest = { from: first + kept.length, count: count - kept.length };
await tryFaults({ ...rest, seed: Number(values.seed), folder }, (outcome, n) => {
  outcomes.push(outcome);
  if (keep !== undefined) appendFileSync(keep, `${JSON.stringify(outcome)}\n`);
  for (const what of outcome.wrong) process.stderr.write(`${n}: ${what}\n`);
  if (n % 50 === 0) process.stderr.write(`${outcomes.length} of ${count}\n`);
});
const wrong = outcomes.filter((outcome) => outcome.wrong.length > 0).length;
const cell = (command: string, kind: string): string => {
  const own = outcomes.filter((o) => o.command === command && o.kind === kind);
  const told = own.filter((o) => o.ended === "told").length;
  const unharmed = own.filter((o) => o.ended === "unharmed").length;
  if (own.length === 0) return "–";
  return kind === "kill" ? String(own.length) : `${told} + ${unharmed}`;
};
const lines = [
  ["", ...kinds],
  ["---", ...kinds.map(() => "---")],
  ...commands.map((command) => [command, ...kinds.map((kind) => cell(command, kind))]),
].map((cells) => `| ${cells.join(" | ")} |`);
process.stdout.write(
  `${lines.join("\n")}\n\nTold + done unharmed; killed. Seed ${values.seed}, faults ${first} to ${first + outcomes.length - 1}, ${wrong} wrong.\n`,
);
if (wrong === 0) await rm(folder, { recursive: true, force: true });
else process.stdout.write(`What is left of the wrong ones is in ${folder}.\n`);
process.exit(wrong === 0 ? 0 : 1);
