/**
 * How often what the kit says is wrong, by hitters whose truth is known (claims/squad.ts).
 *
 * `npm run claims` runs every line at every setting and writes claims.json, which the pages tell of; it takes an hour or two.
 * `npm run claims -- --line same-swings --days much --runs 100` runs a part and prints it; with `--write` what it
 * found takes the place of the same lines in claims.json. `-- --table` prints the developers' page's table of what is kept.
 */
import { Command } from "commander";
import { readFile } from "node:fs/promises";
import { fileURLToPath, pathToFileURL } from "node:url";
import { format, resolveConfig } from "prettier";
import { driftLines } from "./claims/drift.ts";
import { gapLines } from "./claims/gaps.ts";
import { groupLines } from "./claims/group.ts";
import { foundBy, type Claims, type Found, type Line } from "./claims/line.ts";
import { reportLines } from "./claims/reports.ts";
import { tableText } from "./claims/table.ts";
import { writeWhole } from "../src/library/write.ts";

/** Every line. */
export const lines: readonly Line[] = [...gapLines, ...groupLines, ...reportLines, ...driftLines];

const path = fileURLToPath(new URL("claims.json", import.meta.url));
const about = "Simulated hitters whose truth is known. Invented; written by data/claims.ts.";

const percent = (v: number | null): string => (v === null ? "" : (100 * v).toFixed(1));

function wantedWords(wanted: Found["wanted"]): string {
  if ("told" in wanted) return "";
  return "most" in wanted ? `≤ ${percent(wanted.most)}` : `${percent(wanted.low)} to ${percent(wanted.high)}`;
}

function tableOf(found: readonly Found[]): string {
  const rows = found.map((f) => [
    f.line,
    f.what,
    String(f.swings),
    String(f.sessions),
    f.days,
    percent(f.share),
    `${percent(f.low)} to ${percent(f.high)}`,
    String(f.n),
    wantedWords(f.wanted),
    f.verdict === "told" ? "" : f.verdict,
  ]);
  return columns([["line", "what", "swings", "sessions", "days", "%", "95%", "n", "wanted", ""], ...rows]);
}

function columns(all: readonly (readonly string[])[]): string {
  const wide = all[0]!.map((_, c) => Math.max(...all.map((r) => r[c]!.length)));
  return all
    .map((r) =>
      r
        .map((cell, c) => cell.padEnd(wide[c]!))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

/** Each figure over all its settings, by the days. */
function summaryOf(found: readonly Found[]): string {
  const names = [...new Set(found.map((f) => `${f.line}\u0000${f.what}`))];
  const rows = names.map((name) => {
    const own = found.filter((f) => `${f.line}\u0000${f.what}` === name);
    const of = (days: string): string => {
      const some = own.filter((f) => f.days === days);
      const [count, n] = [some.reduce((a, f) => a + f.count, 0), some.reduce((a, f) => a + f.n, 0)];
      return n === 0 ? "" : `${percent(count / n)} (${n})`;
    };
    const outside = own.filter((f) => f.verdict === "outside").length;
    const first = own[0]!;
    return [
      first.line,
      first.what,
      of("none"),
      of("some"),
      of("much"),
      wantedWords(first.wanted),
      "told" in first.wanted ? "" : `${outside} of ${own.length}`,
    ];
  });
  return columns([["line", "what", "none, % (n)", "some", "much", "wanted", "outside"], ...rows]);
}

async function known(): Promise<Claims> {
  try {
    return JSON.parse(await readFile(path, "utf8")) as Claims;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "ENOENT") throw error;
    return { about, lines: [] };
  }
}

/** Puts what was found of some lines in place of what was known of them. */
async function write(
  chosen: readonly Line[],
  runs: (line: Line) => number,
  found: readonly Found[],
): Promise<void> {
  const before = await known();
  const of = (line: Line): Claims["lines"][number] | undefined => {
    if (!chosen.includes(line)) return before.lines.find((l) => l.name === line.name);
    const own = found.filter((f) => f.line === line.name);
    const whats = [...new Map(own.map((f) => [f.what, f.wanted]))];
    const at = (what: string, s: Line["settings"][number], pick: "count" | "n"): number =>
      own.find(
        (f) => f.what === what && f.swings === s.swings && f.sessions === s.sessions && f.days === s.days,
      )?.[pick] ?? 0;
    return {
      name: line.name,
      about: line.about,
      runs: runs(line),
      settings: line.settings.map((s) => [s.swings, s.sessions, s.days]),
      found: whats.map(([what, wanted]) => ({
        what,
        wanted,
        count: line.settings.map((s) => at(what, s, "count")),
        n: line.settings.map((s) => at(what, s, "n")),
      })),
    };
  };
  const all: Claims = { about, lines: lines.flatMap((line) => of(line) ?? []) };
  const settings = { ...(await resolveConfig(path)), filepath: path };
  await writeWhole(path, [await format(JSON.stringify(all), settings)]);
}

interface Call {
  readonly line?: string[];
  readonly runs?: string;
  readonly days?: string;
  readonly swings?: string;
  readonly sessions?: string;
  readonly write?: true;
  readonly table?: true;
}

/** What never happened and is only told says nothing. */
const telling = (found: readonly Found[]): Found[] =>
  found.filter(
    (f) => !("told" in f.wanted) || found.some((o) => o.line === f.line && o.what === f.what && o.count > 0),
  );

async function main(): Promise<void> {
  const call = new Command()
    .option("--line <names...>", `some lines: ${lines.map((l) => l.name).join(", ")}`)
    .option("--runs <count>", "runs a setting, instead of each line's own")
    .option("--days <kind>", "none, some or much alone")
    .option("--swings <count>", "one number of swings alone")
    .option("--sessions <count>", "one number of sessions alone")
    .option("--write", "put what was found into claims.json, though not every line was run")
    .option("--table", "print the table of what is kept, for DEVELOPERS.md")
    .parse()
    .opts<Call>();
  if (call.table === true) {
    process.stdout.write(`${tableText(await known())}\n`);
    return;
  }
  const chosen = lines.filter((l) => call.line === undefined || call.line.includes(l.name));
  if (chosen.length === 0) throw new RangeError(`there is no line named ${call.line?.join(", ")}`);
  const whole = [call.days, call.swings, call.sessions].every((v) => v === undefined);
  if (call.write && !whole) throw new RangeError("--write takes whole lines, at every setting");
  const found: Found[] = [];
  for (const line of chosen) {
    const settings = line.settings.filter(
      (s) =>
        (call.days === undefined || s.days === call.days) &&
        (call.swings === undefined || s.swings === Number(call.swings)) &&
        (call.sessions === undefined || s.sessions === Number(call.sessions)),
    );
    settings.forEach((setting, i) => {
      process.stderr.write(`${line.name}: ${i + 1} of ${settings.length}\n`);
      found.push(...foundBy(line, setting, Number(call.runs ?? line.runs)));
    });
  }
  const told = telling(found);
  process.stdout.write(`${tableOf(told)}\n\n${summaryOf(told)}\n`);
  if (call.write === true || (call.line === undefined && call.runs === undefined && whole))
    await write(chosen, (l) => Number(call.runs ?? l.runs), told);
}

const started = process.argv[1];
if (started !== undefined && import.meta.url === pathToFileURL(started).href) await main();
