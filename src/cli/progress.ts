/** `batted progress`: what has changed over a hitter's sessions, and how many more swings it takes to tell. */
import type { Command } from "commander";
import type { HitterProgress } from "../season/progress.ts";
import type { Needed } from "../season/swingsNeeded.ts";
import type { WithinLine } from "../season/withinSession.ts";
import { byName } from "../swing/byName.ts";
import type { SwingScope } from "../views/filter.ts";
import { Fault } from "./errors.ts";
import { filterMeant, noneLeft, withFilter, type FilterCall } from "./filtering.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
import { readSource, withSource, type SourceOptions } from "./source.ts";
import { tableText } from "./table.ts";
import { unitsOption, type UnitsCall } from "./units.ts";
import type { UnitSystem } from "../units/system.ts";

interface Call extends FilterCall, SourceOptions, UnitsCall {
  readonly hitter?: string;
  readonly change?: string;
  readonly swings?: string;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  withFilter(
    withSource(
      program
        .command("progress")
        .description("what has changed over a hitter's sessions, and how many more swings it takes to tell"),
      { sessions: "dates, air and balls", hitters: "sides and levels" },
    ).option("--hitter <name>", "this hitter alone"),
  )
    .option("--change <mph>", "the change of exit velocity that is to be seen (default: 2)")
    .option("--swings <count>", "swings of a session to plan with (default: as many as there were)")
    .addOption(unitsOption())
    .option("--json", "print every session and line as JSON")
    .action((files: string[], call: Call) => run(out, files, call));
}

/** What `--json` prints. */
export interface ProgressReport {
  readonly source: string;
  readonly scope: SwingScope;
  readonly refused: number;
  readonly hitters: readonly (HitterProgress & {
    readonly plans: readonly Needed[];
    /** What happens within a session. */
    readonly within: readonly WithinLine[];
  })[];
}

function aboveZero(text: string | undefined, name: string, whole: boolean): number | null {
  if (text === undefined) return null;
  const value = Number(text);
  if (!(value > 0) || !Number.isFinite(value) || (whole && (!Number.isInteger(value) || value < 2)))
    throw new Fault(
      `--${name} takes a ${whole ? "whole number from 2 on" : "number above 0"}, not "${text}".`,
      2,
    );
  return value;
}

async function run(out: Out, files: string[], call: Call): Promise<void> {
  const { scopeIn } = await filterMeant(call);
  const change = aboveZero(call.change, "change", false);
  const swings = aboveZero(call.swings, "swings", true);
  const source = await readSource(out, { ...call, files });
  const [{ enrich }, { progress }, { plansFor, seasons }, { withinSession }] = await Promise.all([
    import("../contact/enrich.ts"),
    import("../season/progress.ts"),
    import("../season/plan.ts"),
    import("../season/withinSession.ts"),
  ]);
  const names = [...new Set(source.swings.map((s) => s.hitter))].sort(byName);
  const alone = call.hitter === undefined ? null : nameMeant(call.hitter, names, "hitter");
  const scope = await scopeIn(source);
  const library = { ...source, swings: enrich(source) };
  // The others' spreads steady a plan.
  const all = seasons(library, scope);
  const chosen = alone === null ? all : [progress(library, alone, scope)];
  if (chosen.every(({ swings: n }) => n === 0))
    throw await noneLeft(alone === null ? `${source.name} has` : `${alone} has`, scope);
  const report: ProgressReport = {
    source: source.name,
    scope,
    refused: source.refused,
    hitters: chosen.map((one) => ({
      ...one,
      plans: plansFor(one, all, change, swings),
      within: withinSession(library, one.hitter, scope),
    })),
  };
  if (call.json === true) out.json(report);
  else out.print(await words(report, call.units));
}

/** The report for people. */
async function words({ hitters }: ProgressReport, system: UnitSystem): Promise<string> {
  const { fewestSessions, standingLines } = await import("../season/progress.ts");
  const said = await import("../views/sentences/progress.ts");
  const { chanceSentence } = await import("../views/sentences/changes.ts");
  const { changeWords, signedRange } = await import("../views/words.ts");
  const { fatigueCaution, withinSentence } = await import("../views/sentences/season.ts");
  const lines: string[] = [];
  for (const one of hitters) {
    const looked = one.lines.filter((l) => l.change.value !== null);
    const standing = standingLines(one.lines);
    const span = { weeks: one.weeks, fewest: fewestSessions };
    lines.push(said.progressAnswer(one.hitter, standing, looked.length, span, system).text);
    for (const line of standing) {
      lines.push(`  ${said.standingSentence(line, system)!}`);
      const second = said.secondOpinion(line.change, line.second, line.unit, system);
      if (second !== null) lines.push(`    ${second}`);
    }
    const rows = [...one.lines, ...(one.ceiling.sessions.length > 0 ? [one.ceiling] : [])];
    if (rows.length > 0)
      lines.push(
        tableText(
          rows.map((l) => [
            l.title,
            l.input ?? "all",
            `${l.sessions.length} sessions, n ${l.sessions.reduce((sum, s) => sum + s.n, 0)}`,
            l.change.value === null ? "" : signedRange(l.change, l.unit, system),
            l.change.value === null
              ? (l.reason ?? "")
              : changeWords({ ...l.change, reason: null }, l.unit, system),
          ]),
          { indent: 2 },
        ).trimEnd(),
      );
    for (const note of [
      chanceSentence(looked.length),
      said.seasonNote(looked.length, standing.length),
      said.outsideSentence(one.left_out, one.without_date),
    ])
      if (note !== null) lines.push(`  ${note}`);
    const within = one.within.flatMap((line) => withinSentence(one.hitter, line, system) ?? []);
    if (within.length > 0) for (const text of [...within, fatigueCaution]) lines.push(`  ${text}`);
    for (const plan of one.plans) lines.push(`  ${plan.title}: ${said.planSentence(plan, system)}`);
    lines.push("");
  }
  lines.push(
    "Changes are over the span of the sessions. Exit velocity is the hitter's own, the pitch's part taken out; carry is flown with it in standard air.",
  );
  return `${lines.join("\n")}\n`;
}
