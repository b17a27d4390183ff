/** `batted drift`: which sessions of tee and flip work look moved, and whether it was the tracker or a hitter. */
import type { Command } from "commander";
import type { Drift, SessionDrift } from "../setup/drift.ts";
import type { Estimate } from "../stats/estimate.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import { signedNumber } from "../swing/words.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
import { filterMeant, noneLeft, withFilter, type FilterCall } from "./filtering.ts";
import { readSource, withSource, type SourceOptions } from "./source.ts";
import { append } from "../swing/lists.ts";
import { tableText } from "./table.ts";
import { unitsOption, type UnitsCall } from "./units.ts";
import type { UnitName } from "../units/index.ts";
import { phraseIn, shownNumber, shownUnit, type UnitSystem } from "../units/system.ts";
import { valueWords } from "../views/words.ts";

type Ranged = Pick<Estimate, "value" | "low" | "high">;

interface Call extends FilterCall, SourceOptions, UnitsCall {
  readonly hitter?: string;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  withFilter(
    withSource(
      program
        .command("drift")
        .description(
          "which sessions look moved: shifts that all hitters share, told from one hitter's change",
        ),
      { sessions: "dates and the tracker's placement", hitters: "sides" },
    ).option("--hitter <name>", "this hitter's sessions and own changes alone"),
  )
    .addOption(unitsOption())
    .option("--json", "print every session's shifts as JSON")
    .addHelpText(
      "after",
      "\nA session is compared with those of other days, of all hitters, whichever days\nor hitter are asked for.\nExit status: 0 done; 1 a session should be held back, or rows were refused;\n2 the call is wrong.",
    )
    .action((files: string[], call: Call) => run(out, files, call));
}

async function run(out: Out, files: string[], call: Call): Promise<void> {
  const { scopeIn } = await filterMeant(call);
  const source = await readSource(out, { ...call, files });
  const { since, until, ...conditions } = await scopeIn(source);
  const names = [...new Set(source.swings.map((s) => s.hitter))];
  const hitter = call.hitter === undefined ? null : nameMeant(call.hitter, names, "hitter");
  const own = (row: { readonly hitter: string }): boolean => hitter === null || row.hitter === hitter;
  const { enrich } = await import("../contact/enrich.ts");
  const { withoutDoubtful } = await import("../contact/flags.ts");
  const { drift } = await import("../setup/drift.ts");
  // Sessions that are corrected are compared as they then read; readings in doubt are left out, and counted.
  const { kept, leftOut } = withoutDoubtful(enrich(source));
  // A session is compared with those of other days, whichever days are asked for; and one hitter alone can't tell the
  // tracker's shift from a change of their own.
  const { rowsInScope } = await import("../views/filter.ts");
  const compared = rowsInScope(kept, source, conditions);
  const days = rowsInScope(compared, source, { since, until });
  const asked = new Set(days.filter(own).map((row) => row.session));
  if (kept.length > 0 && asked.size === 0)
    throw await noneLeft(`${hitter ?? source.name} has`, { since, until, ...conditions });
  const all = drift(compared, source.sessions);
  const found: Drift = {
    ...all,
    sessions: all.sessions
      .filter(({ session }) => asked.has(session))
      .map((one) => ({ ...one, reasons: one.reasons.map((reason) => phraseIn(reason, call.units)) })),
    changes: all.changes.filter((change) => asked.has(change.session) && own(change)),
    limits: all.limits === null ? null : phraseIn(all.limits, call.units),
  };
  if (call.json === true) out.json({ ...found, left_out: leftOut });
  else out.print(text(found, leftOut, call.units));
  if (found.sessions.some((s) => s.verdict === "hold back")) out.end(1);
}

/** A shift of speed in the reader's unit. */
function shownAs({ value: v, low, high }: Ranged, system: UnitSystem): Ranged {
  const shown = (x: number | null): number | null => (x === null ? null : shownNumber(x, "mph", system));
  return { value: shown(v), low: shown(low), high: shown(high) };
}

const value = ({ value: v, low, high }: Ranged, digits: number): string => {
  if (v === null || low === null || high === null) return "–";
  return `${signedNumber(v, digits)} ±${((high - low) / 2).toFixed(digits)}`;
};

function text({ sessions, changes, limits }: Drift, leftOut: number, system: UnitSystem): string {
  const lines: string[] = [];
  if (limits !== null) lines.push(limits, "");
  if (sessions.length > 0) lines.push(table(sessions, system));
  else if (limits === null)
    lines.push("No session of tee or flip work is among them: there is nothing to compare.");
  const told = sessions.filter((s) => s.reasons.length > 0 && (limits === null || s.verdict !== null));
  for (const { session, verdict, reasons } of told)
    append(lines, ["", `${session}: ${verdict ?? "not judged"}.`, ...reasons.map((reason) => `  ${reason}`)]);
  if (changes.length > 0)
    lines.push("", "One hitter's own changes, which no other hitter of the session shares:");
  for (const { session, hitter, measure, value: by, n } of changes) {
    const { title, unit } = (swingFields as readonly Field[]).find((f) => f.name === measure)!;
    lines.push(
      `  ${hitter}, ${session}: ${title.toLowerCase()} ${by < 0 ? "lower" : "higher"} by ${valueWords(Math.abs(by), unit as UnitName, system, 1)} (n ${n}).`,
    );
  }
  if (sessions.length > 0)
    lines.push(
      "",
      `± is the 95 % interval. ${leftOut === 0 ? "No reading was" : leftOut === 1 ? "1 reading in doubt was" : `${leftOut} readings in doubt were`} left out. Limits: data/setup-tolerances.json (common practice, no source).`,
    );
  return `${lines.join("\n")}\n`;
}

function table(sessions: readonly SessionDrift[], system: UnitSystem): string {
  const head = [
    "session",
    "swings",
    "hitters",
    "turn °",
    "tilt °",
    `speed ${shownUnit("mph", system)}`,
    `place ${shownUnit("in", system)}`,
    "verdict",
  ];
  const place = ({ shifts }: SessionDrift): string => {
    const [side, height] = [shifts.contact_side_ft.value, shifts.contact_height_ft.value];
    const inch = (v: number | null): string =>
      v === null ? "–" : signedNumber(shownNumber(v * 12, "in", system), 0);
    return `${inch(side)}, ${inch(height)}`;
  };
  const rows = sessions.map((s) => [
    s.session,
    String(s.swings),
    String(s.hitters.length),
    value(s.yaw_deg, 1),
    value(s.tilt_deg, 1),
    value(shownAs(s.shifts.exit_velocity_mph, system), 1),
    place(s),
    s.verdict ?? "not judged",
  ]);
  return tableText(rows, { head, right: [1, 2, 3, 4, 5, 6] }).trimEnd();
}
