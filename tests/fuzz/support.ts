/**
 * What the fuzz tests share: arbitrary files with hostile headings and cells, and what must hold whatever is in them.
 * `FUZZ_RUNS=5000` runs each property that often instead of a few times.
 */
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { expect } from "vitest";
import { hitterFields, sessionFields, swingFields, targetFields } from "../../src/swing/fields.ts";
import { hostile } from "./hostile.ts";

const wished = Number(process.env["FUZZ_RUNS"] ?? "0");

/** How often a property runs: so many times, or as often as the environment asks for. */
export const often = (n: number): { numRuns: number } => ({ numRuns: wished > 0 ? wished : n });

/** Time for a test that runs a property so many times, at most so many ms each. */
export const time = (n: number, each: number): number => 20_000 + often(n).numRuns * each;

/** Text of any kind: hostile, half a formula, an object's own names, any letters at all. */
export const text: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom(...hostile),
  fc.constantFrom("toString", "hasOwnProperty", "__defineGetter__", "prototype", "length", "valueOf", "then"),
  fc.constantFrom(
    "/",
    "..",
    ".",
    "../x",
    "..\\x",
    "/etc/passwd",
    "C:\\x",
    "CON",
    "nul.csv",
    "%2e%2e%2f",
    "a/../../b",
    "~",
  ),
  fc
    .tuple(
      fc.constantFrom("=", "+", "-", "@", "'", "''=", " =", "\t=", "＝", "\u2212", "-1+"),
      fc.string({ maxLength: 6 }),
    )
    .map(([mark, rest]) => mark + rest),
  fc.string({ unit: "binary", maxLength: 12 }),
  fc.string({ unit: "grapheme", maxLength: 12 }),
);

const fieldNames = [...swingFields, ...sessionFields, ...hitterFields, ...targetFields].map((f) => f.name);

const cell = fc.oneof(
  { arbitrary: text, weight: 2 },
  {
    arbitrary: fc.constantFrom(
      "",
      "-",
      "--",
      "NA",
      "tee",
      "flip",
      "live",
      "Ana",
      "R",
      "L",
      "in_play",
      "miss",
      "90",
      "12.5",
      "-7",
      "+3",
      "-12,5",
      "1e999",
      "NaN",
      "2026-05-01",
      "03/04/2025",
      "2026-05-01T10:00",
      "1,234",
      '"',
      '""',
      '"a',
      'a"b',
      "\n",
      "\r",
      "\u0000",
    ),
    weight: 4,
  },
  { arbitrary: fc.double().map(String), weight: 1 },
);

const quote = (value: string): string => `"${value.replaceAll('"', '""')}"`;

/** A file of headings and cells, some of it well formed; at least the headings that swings need. */
export const swingsFile: fc.Arbitrary<string> = fc
  .record({
    headings: fc.array(fc.oneof(fc.constantFrom(...fieldNames), text), { maxLength: 7 }),
    rows: fc.array(fc.array(cell, { minLength: 1, maxLength: 12 }), { minLength: 1, maxLength: 8 }),
    good: fc.array(
      fc.tuple(text, text, text, fc.integer({ min: 5, max: 130 }), fc.integer({ min: -90, max: 90 })),
      { maxLength: 5 },
    ),
    delimiter: fc.constantFrom(",", ";", "\t"),
    end: fc.constantFrom("\n", "\r\n", "\r"),
    quoted: fc.boolean(),
  })
  .map(({ headings, rows, good, delimiter, end, quoted }) => {
    const own = ["hitter", "session", "drill", "input", "exit_velocity_mph", "launch_angle_deg"];
    // A heading that stands twice would have the whole file refused, every time.
    const more = headings.filter((h) => !own.includes(h.trim().toLowerCase()));
    const whole = good.map(([hitter, session, drill, speed, angle]) =>
      [hitter, session, drill, "tee", String(speed), String(angle), ...more.map(() => drill)].map(quote),
    );
    const rest = rows.map((row) => (quoted ? row.map(quote) : row));
    const head = [...own, ...more.map(quote)];
    return [head, ...whole, ...rest].map((row) => row.join(delimiter)).join(end);
  });

const builtIns = [Object.prototype, Array.prototype, String.prototype, Function.prototype, Map.prototype];
const before = builtIns.map((object) => Object.getOwnPropertyNames(object).join());

/** No built-in object has gained or lost a name, and no plain object has one of its own accord. */
export function expectUnpolluted(): void {
  expect(builtIns.map((object) => Object.getOwnPropertyNames(object).join())).toEqual(before);
  const names: string[] = [];
  for (const name in {} as Record<string, unknown>) names.push(name);
  expect(names).toEqual([]);
}

/** Does the work, which may not take longer than this: what grows too fast with its input would hang on a file. */
export async function within<T>(ms: number, work: () => Promise<T>): Promise<T> {
  const start = performance.now();
  const result = await work();
  expect(performance.now() - start).toBeLessThan(ms);
  return result;
}

/** Whether a spreadsheet would compute a cell: what begins as a formula does and is no number nor the mark for unknown. */
export function startsFormula(value: string): boolean {
  if (!/^\s*[=+\-@＝＋－＠]|^[\t\r]/u.test(value)) return false;
  return !/^[-+]?[\d.,]+(e[-+]?\d+)?$/i.test(value) && value !== "-" && value !== "--";
}

/** Every cell of a CSV as another parser reads it. */
export function cellsOf(csv: string): string[][] {
  return parse(csv, { relax_column_count: false }) as string[][];
}

/** Every file below a folder, by its path from there. */
export async function filesBelow(dir: string): Promise<string[]> {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1))
    .sort();
}

/** No CSV below a folder, the given ones apart, has a cell that a spreadsheet would compute. */
export async function expectNoFormula(dir: string, except: readonly string[]): Promise<number> {
  let cells = 0;
  for (const name of await filesBelow(dir)) {
    if (!name.endsWith(".csv") || except.includes(name)) continue;
    for (const value of cellsOf(await readFile(join(dir, name), "utf8")).flat()) {
      cells++;
      if (startsFormula(value)) expect.fail(`${name} has the cell ${JSON.stringify(value)}`);
    }
  }
  return cells;
}

/** A command's text on a terminal: no control character but the end of a line, and none that turns the direction. */
export function expectPrintable(said: string): void {
  expect(said).not.toMatch(/[^\P{Cc}\n]|[\u202a-\u202e\u2066-\u2069]/u);
}
