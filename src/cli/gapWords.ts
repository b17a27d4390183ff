/** What `batted gap` prints for people. */
import { gapAnswer } from "../gap/answer.ts";
import type { Across } from "../gap/across.ts";
import type { Figure, SplitGap } from "../gap/parts.ts";
import { roundToTotal } from "../stats/split.ts";
import { capital, signedNumber } from "../swing/words.ts";
import { shownNumber, shownUnit, unitSign, type UnitSystem } from "../units/system.ts";
import { chanceSentence } from "../views/sentences/changes.ts";
import { gapWords } from "../views/sentences/gap.ts";
import { foldedLines } from "../views/sentences/stabilizes.ts";
import { timingSentence } from "../views/sentences/timing.ts";
import { signedRange, signedWords, valueWords } from "../views/words.ts";
import type { GapReport } from "./gapReport.ts";
import { tableText } from "./table.ts";

const comparedAlone = "Only balls that were hit are compared; bats, balls and days differ too.";

/** All hitters in one table: a line each, the group's, and how to see the rest. */
export function shortWords(across: Across, system: UnitSystem): string {
  const rows = across.hitters.map((h) => [
    h.hitter,
    h.raw.value === null ? "no gap" : `n ${h.n.from} and ${h.n.to}`,
    h.raw.value === null
      ? ""
      : h.raw.low === null
        ? signedWords(h.raw.value, across.unit, system)
        : signedRange(h.raw, across.unit, system),
    h.pooled === null ? "" : `pooled ${signedRange(h.pooled, across.unit, system)}`,
    h.warning ?? "",
  ]);
  return text([
    `${across.title}, ${across.from} to ${across.to}, hitter by hitter. ${across.method}`,
    ...table(rows),
    ...indented(across.notes),
    "--full prints every measure and part; --hitter NAME, one hitter's.",
    comparedAlone,
  ]);
}

/** The whole report. */
export const reportWords = (report: GapReport, system: UnitSystem): string =>
  text([
    ...report.hitters.flatMap((hitter) => [...hitterLines(hitter, report, system), ""]),
    ...report.across.flatMap((across) => [...acrossLines(across, system), ""]),
    ...stableLines(report),
    comparedAlone,
  ]);

const text = (lines: readonly string[]): string => `${lines.join("\n")}\n`;

const indented = (lines: readonly string[], indent = 2): string[] =>
  lines.map((line) => `${" ".repeat(indent)}${line}`);

const table = (rows: readonly (readonly string[])[], indent = 2): string[] =>
  rows.length > 0 ? [tableText(rows, { indent }).trimEnd()] : [];

const signed = (value: number): string => signedNumber(value, 1);

/** One hitter: the answer, every measure, what each gap is made of, and the timing. */
function hitterLines(
  hitter: GapReport["hitters"][number],
  { from, to }: GapReport,
  system: UnitSystem,
): string[] {
  const asked = hitter.measures.find((m) => m.measure === "exit_velocity") ?? hitter.measures[0];
  const answer = asked === undefined ? [] : gapAnswer(hitter, asked, { from, to }, system);
  const chance = chanceSentence(hitter.measures.filter((m) => m.low !== null).length);
  return [
    `${hitter.hitter}, ${from} to ${to}: ${hitter.swings.from} and ${hitter.swings.to} swings`,
    ...indented(hitter.notes),
    ...indented(answer.map((said, i) => (i === 0 ? capital(said) : said))),
    ...measureLines(hitter, system),
    ...indented(chance === null ? [] : [chance]),
    ...partLines("Exit velocity, in parts", "mph", hitter.exitVelocity, system),
    ...partLines("Launch angle, in parts", "deg", hitter.launchAngle, system),
    ...hitter.timing.flatMap((view) => {
      const told = timingSentence(view.input, view);
      return [...indented(told === null ? [] : [told]), ...indented(view.notes, 4)];
    }),
  ];
}

function measureLines({ measures }: GapReport["hitters"][number], system: UnitSystem): string[] {
  const rows = measures
    .filter((m) => m.value !== null)
    .map((m) => {
      const side = (v: number | null): string => valueWords(v, m.unit, system, m.unit === "share" ? 0 : 1);
      return [
        m.title,
        `${side(m.from.value)} → ${side(m.to.value)}`,
        `n ${m.from.n} and ${m.to.n}`,
        m.low === null ? signedWords(m.value, m.unit, system) : signedRange(m, m.unit, system),
        gapWords(m, m.unit, system),
      ];
    });
  return table(rows);
}

/** A gap in parts, rounded so that they add up. */
function partLines(
  title: string,
  unit: "mph" | "deg",
  { gap, parts, notes }: SplitGap,
  system: UnitSystem,
): string[] {
  if (gap.value === null) return [`  ${title}: ${gap.reason}.`];
  const number = (value: number): number => shownNumber(value, unit, system);
  const interval = ({ low, high }: Pick<Figure, "low" | "high">): string =>
    low === null || high === null ? "" : ` (${signed(number(low))} to ${signed(number(high))})`;
  const shown = roundToTotal(
    parts.map((p) => number(p.value ?? 0)),
    1,
  );
  const rows = parts.map((p, i) => [
    p.part,
    p.value === null ? "unknown" : signed(shown[i]!),
    p.value === null ? `${p.reason}; it is in ${parts.at(-1)!.part}` : interval(p).trim(),
  ]);
  const whole = `in all ${signed(shown.reduce((a, b) => a + b, 0))}${interval(gap)}`;
  return [
    `  ${title}, ${unitSign(shownUnit(unit, system))}:`,
    ...table(rows, 4),
    ...indented([whole, ...notes], 4),
  ];
}

function acrossLines(across: Across, system: UnitSystem): string[] {
  const rows = across.hitters.map((h) => [
    h.hitter,
    h.raw.value === null ? "no gap" : signedWords(h.raw.value, across.unit, system),
    h.pooled === null ? "" : `pooled ${signedRange(h.pooled, across.unit, system)}`,
    h.warning ?? "",
  ]);
  return [
    `${across.title}, across hitters, ${across.from} to ${across.to}. ${across.method}`,
    ...table(rows),
    ...indented(across.notes),
  ];
}

/** How many swings a measure takes, for the two kinds of work compared. */
function stableLines({ stabilizing, from, to }: GapReport): string[] {
  const stable = stabilizing.filter((s) => s.input === from || s.input === to);
  if (stable.length === 0) return [];
  const folded = [from, to].flatMap((input) =>
    foldedLines(stable.filter((s) => s.input === input).map((s) => s.words)).map(
      (line) => `${input}: ${line}`,
    ),
  );
  return [
    "Swings until a measure tells these hitters apart with a reliability of 0.7:",
    ...indented([...folded, ...new Set(stable.flatMap((s) => s.caveat ?? []))]),
  ];
}
