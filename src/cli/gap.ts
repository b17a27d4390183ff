/** `batted gap`: how much of one kind of work shows up in another, and what takes the rest away. */
import { Option, type Command } from "commander";
import type { Across } from "../gap/across.ts";
import type { HitterGap, MeasureRow } from "../gap/gap.ts";
import type { Figure, SplitGap } from "../gap/parts.ts";
import type { Stabilizing } from "../gap/stabilizing.ts";
import { inputs, type Input } from "../swing/fields.ts";
import type { TimingView } from "../views/timing.ts";
import { spanMeant } from "./days.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import { fieldsOption } from "./ownFields.ts";
import { readSource } from "./source.ts";
import type { Out } from "./out.ts";
import { tableText } from "./table.ts";

interface Call {
  readonly library?: string;
  readonly sessions?: string;
  readonly hitters?: string;
  readonly fields?: string;
  readonly thresholds?: string;
  readonly hitter?: string;
  readonly from: Input;
  readonly to: Input;
  readonly measure?: string;
  readonly drill?: string;
  readonly since?: string;
  readonly until?: string;
  readonly full?: true;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  const kind = (flag: string, what: string, otherwise: Input): Option =>
    new Option(`${flag} <input>`, what).choices([...inputs]).default(otherwise);
  program
    .command("gap")
    .description("the gap between two kinds of work, tee and live as a rule, and the parts it is made of")
    .argument("[csv...]", "files of swings; without any, a library")
    .option("--library <dir>", "the library's folder (default: data/demo)")
    .option("--sessions <csv>", "with CSV files: the sessions' dates, air and where pitch speed was measured")
    .option("--hitters <csv>", "with CSV files: the hitters' sides, heights and levels")
    .option(fieldsOption[0], `with CSV files: ${fieldsOption[1]}`)
    .option(
      "--thresholds <json>",
      "with CSV files: your own figures in place of some of data/thresholds.json",
    )
    .option("--hitter <name>", "this hitter alone, without what is told across hitters")
    .addOption(kind("--from", "the work that comes first", "tee"))
    .addOption(kind("--to", "the work it is held against", "live"))
    .option("--measure <name>", "this measure alone; exit_velocity, launch_angle, misses …")
    .option("--drill <name>", "narrows the side that has this drill")
    .option("--since <date>", "from this day on, like 2025-03-03")
    .option("--until <date>", "up to this day, it included")
    .option("--full", "all hitters: every measure, part and note of each, and what stabilizes when")
    .option("--json", "print every figure as JSON")
    .action((files: string[], call: Call) => run(out, files, call));
}

/** What `--json` prints. */
export interface GapReport {
  readonly source: string;
  readonly from: Input;
  readonly to: Input;
  readonly scope: {
    readonly drill: string | null;
    readonly since: string | null;
    readonly until: string | null;
  };
  readonly refused: number;
  /** Every measure of every hitter in each kind of work. */
  readonly table: readonly MeasureRow[];
  readonly hitters: readonly (HitterGap & {
    readonly timing: readonly Omit<TimingView, "balls">[];
  })[];
  /** All hitters together; empty for one hitter alone. */
  readonly across: readonly Across[];
  /** Likewise. */
  readonly stabilizing: readonly Stabilizing[];
}

async function run(out: Out, files: string[], call: Call): Promise<void> {
  if (call.from === call.to)
    throw new Fault(`A gap lies between two kinds of work: --from and --to are both ${call.from}.`, 2);
  const { since, until } = spanMeant(call);
  const { measuresIn } = await import("../views/measures.ts");
  const measures =
    call.measure === undefined
      ? undefined
      : [
          nameMeant(
            call.measure,
            measuresIn("gap").map((m) => m.name),
            "measure",
          ),
        ];
  const source = await readSource(out, { ...call, files });
  const [
    { enricher },
    { makeReady },
    { gap, measureTable },
    { acrossHitters, beyondPitch },
    { stabilizing },
    timing,
  ] = await Promise.all([
    import("../contact/enrich.ts"),
    import("../gap/rows.ts"),
    import("../gap/gap.ts"),
    import("../gap/across.ts"),
    import("../gap/stabilizing.ts"),
    import("../views/timing.ts"),
  ]);
  // A ceiling's shape is pooled over all hitters; beyond that, one hitter's work is worked out alone.
  const { enrich } = enricher(source);
  const names = [...new Set(source.swings.map((s) => s.hitter))].sort();
  const alone = call.hitter === undefined ? null : nameMeant(call.hitter, names, "hitter");
  const chosen = alone === null ? names : [alone];
  const counted = alone === null ? source.swings : source.swings.filter((s) => s.hitter === alone);
  const ready = makeReady({ ...source, swings: counted.map(enrich) });
  const drills = [...new Set(source.swings.flatMap((s) => s.drill ?? []))];
  const drill = call.drill === undefined ? null : nameMeant(call.drill, drills, "drill");
  const { from, to } = call;
  const scope = { drill, since, until };
  const options = { ...scope, from, to, ...(measures === undefined ? {} : { measures }) };
  if (alone === null && ready.hitters.length > 1 && call.full !== true && call.json !== true)
    return out.print(await short(acrossHitters(ready, measures?.[0] ?? beyondPitch, options)));
  const heights = new Map(source.hitters.map((h) => [h.hitter, h.height_in]));
  const { sidesOf } = await import("../gap/rows.ts");
  const report: GapReport = {
    source: source.name,
    from,
    to,
    scope,
    refused: source.refused,
    table: chosen.flatMap((hitter) => measureTable(ready, hitter, options)),
    hitters: chosen.map((hitter) => {
      // Against the tee whatever is compared: that is where a ball is met on time.
      const own = inputs.flatMap(
        (input) => sidesOf(ready, hitter, { ...scope, from: input, to: input }).from,
      );
      const views = ([from, to].filter((i) => i !== "tee") as ("flip" | "live")[]).map((input) => {
        const { balls: _, ...view } = timing.timingView(own, input, {
          sessions: source.sessions,
          thresholds: ready.thresholds,
          zone: ready.thresholds,
          height_in: heights.get(hitter) ?? null,
        });
        return view;
      });
      return { ...gap(ready, hitter, options), timing: views };
    }),
    across:
      ready.hitters.length < 2
        ? []
        : (
            measures ??
            measuresIn("group").flatMap(({ name }) =>
              name === "exit_velocity" ? [name, beyondPitch] : [name],
            )
          ).map((measure) => acrossHitters(ready, measure, options)),
    stabilizing:
      alone !== null
        ? []
        : inputs
            .flatMap((input) => stabilizing(ready, input, scope))
            .filter((s) => measures === undefined || measures.includes(s.measure)),
  };
  if (call.json === true) out.json(report);
  else out.print(await words(report));
}

const comparedAlone = "Only balls that were hit are compared; bats, balls and days differ too.";

/** All hitters in one table: a line each, the group's, and how to see the rest. */
async function short(across: Across): Promise<string> {
  const { signedRange, signedWords } = await import("../views/words.ts");
  const rows = across.hitters.map((h) => [
    h.hitter,
    h.raw.value === null ? "no gap" : `n ${h.n.from} and ${h.n.to}`,
    h.raw.value === null
      ? ""
      : h.raw.low === null
        ? signedWords(h.raw.value, across.unit)
        : signedRange(h.raw, across.unit),
    h.pooled === null ? "" : `pooled ${signedRange(h.pooled, across.unit)}`,
    h.warning ?? "",
  ]);
  const title = `${across.title}, ${across.from} to ${across.to}, hitter by hitter. ${across.method}`;
  const lines = [
    title,
    tableText(rows, { indent: 2 }).trimEnd(),
    ...across.notes.map((note) => `  ${note}`),
    "--full prints every measure and part; --hitter NAME, one hitter's.",
    comparedAlone,
  ];
  return `${lines.join("\n")}\n`;
}

/** The report for people. */
async function words(report: GapReport): Promise<string> {
  const { signedNumber } = await import("../swing/words.ts");
  const { signedRange, signedWords, valueWords } = await import("../views/words.ts");
  const { roundToTotal } = await import("../stats/split.ts");
  const { gapAnswer } = await import("../gap/answer.ts");
  const { timingSentence } = await import("../views/sentences/timing.ts");
  const { chanceSentence } = await import("../views/sentences/changes.ts");
  const { foldedLines } = await import("../views/sentences/stabilizes.ts");
  const { from, to } = report;
  const lines: string[] = [];
  const signed = (value: number): string => signedNumber(value, 1);
  const interval = ({ low, high }: Pick<Figure, "low" | "high">): string =>
    low === null || high === null ? "" : ` (${signed(low)} to ${signed(high)})`;
  const put = (rows: readonly (readonly string[])[], indent = 2): void => {
    if (rows.length > 0) lines.push(tableText(rows, { indent }).trimEnd());
  };
  const parts = (title: string, unit: string, { gap, parts: list, notes }: SplitGap): void => {
    if (gap.value === null) {
      lines.push(`  ${title}: ${gap.reason}.`);
      return;
    }
    lines.push(`  ${title}, ${unit}:`);
    const shown = roundToTotal(
      list.map((p) => p.value ?? 0),
      1,
    );
    put(
      list.map((p, i) => [
        p.part,
        p.value === null ? "unknown" : signed(shown[i]!),
        p.value === null ? `${p.reason}; it is in ${list.at(-1)!.part}` : interval(p).trim(),
      ]),
      4,
    );
    lines.push(`    in all ${signed(shown.reduce((a, b) => a + b, 0))}${interval(gap)}`);
    for (const note of notes) lines.push(`    ${note}`);
  };
  for (const hitter of report.hitters) {
    const { exitVelocity: split } = hitter;
    lines.push(`${hitter.hitter}, ${from} to ${to}: ${hitter.swings.from} and ${hitter.swings.to} swings`);
    for (const note of hitter.notes) lines.push(`  ${note}`);
    const asked = hitter.measures.find((m) => m.measure === "exit_velocity") ?? hitter.measures[0];
    if (asked !== undefined)
      gapAnswer(hitter, asked, { from, to }).forEach((text, i) =>
        lines.push(`  ${i === 0 ? text[0]!.toUpperCase() + text.slice(1) : text}`),
      );
    put(
      hitter.measures
        .filter((m) => m.value !== null)
        .map((m) => {
          const digits = m.unit === "share" ? 0 : 1;
          const side = (v: number | null): string => valueWords(v, m.unit, "us", digits);
          return [
            m.title,
            `${side(m.from.value)} → ${side(m.to.value)}`,
            `n ${m.from.n} and ${m.to.n}`,
            m.low === null ? signedWords(m.value, m.unit) : signedRange(m, m.unit),
            m.words,
          ];
        }),
    );
    const chance = chanceSentence(hitter.measures.filter((m) => m.low !== null).length);
    if (chance !== null) lines.push(`  ${chance}`);
    parts("Exit velocity, in parts", "mph", split);
    parts("Launch angle, in parts", "°", hitter.launchAngle);
    for (const view of hitter.timing) {
      const told = timingSentence(view.input, view);
      if (told !== null) lines.push(`  ${told}`);
      for (const note of view.notes) lines.push(`    ${note}`);
    }
    lines.push("");
  }
  for (const across of report.across) {
    lines.push(`${across.title}, across hitters, ${from} to ${to}. ${across.method}`);
    put(
      across.hitters.map((h) => [
        h.hitter,
        h.raw.value === null ? "no gap" : signedWords(h.raw.value, across.unit),
        h.pooled === null ? "" : `pooled ${signedRange(h.pooled, across.unit)}`,
        h.warning ?? "",
      ]),
    );
    for (const note of across.notes) lines.push(`  ${note}`);
    lines.push("");
  }
  const stable = report.stabilizing.filter((s) => s.input === from || s.input === to);
  if (stable.length > 0)
    lines.push("Swings until a measure tells these hitters apart with a reliability of 0.7:");
  for (const input of [from, to])
    for (const line of foldedLines(stable.filter((s) => s.input === input).map((s) => s.words)))
      lines.push(`  ${input}: ${line}`);
  for (const caveat of new Set(stable.flatMap((s) => s.caveat ?? []))) lines.push(`  ${caveat}`);
  lines.push(comparedAlone);
  return `${lines.join("\n")}\n`;
}
