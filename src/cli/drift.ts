/** `batted drift`: which sessions of tee and flip work look moved, and whether it was the tracker or a hitter. */
import type { Command } from "commander";
import type { Drift, SessionDrift } from "../setup/drift.ts";
import type { Estimate } from "../stats/estimate.ts";
import { swingFields, type Field } from "../swing/fields.ts";
import { signedNumber } from "../views/words.ts";
import { jsonText } from "./json.ts";
import { readSource } from "./source.ts";
import { append, largest } from "../swing/lists.ts";

interface Call {
  readonly library?: string;
  readonly sessions?: string;
  readonly hitters?: string;
  readonly thresholds?: string;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command): void {
  program
    .command("drift")
    .description("which sessions look moved: shifts that all hitters share, told from one hitter's change")
    .argument("[csv...]", "files of swings; without any, a library")
    .option("--library <dir>", "the library's folder (default: data/demo)")
    .option("--sessions <csv>", "with CSV files: the sessions' dates and the tracker's placement")
    .option("--hitters <csv>", "with CSV files: the hitters' sides")
    .option(
      "--thresholds <json>",
      "with CSV files: your own figures in place of some of data/thresholds.json",
    )
    .option("--json", "print every session's shifts as JSON")
    .addHelpText(
      "after",
      "\nExit status: 0 done; 1 a session should be held back, or rows were refused;\n2 the call is wrong.",
    )
    .action(run);
}

async function run(files: string[], call: Call): Promise<void> {
  const source = await readSource({ ...call, files });
  const { enrich } = await import("../contact/enrich.ts");
  const { withoutDoubtful } = await import("../contact/flags.ts");
  const { drift } = await import("../setup/drift.ts");
  // Sessions that are turned back are compared as they then read; readings in doubt are left out, and counted.
  const { kept, leftOut } = withoutDoubtful(enrich(source));
  const found = drift(kept, source.sessions);
  process.stdout.write(
    call.json === true ? `${jsonText({ ...found, left_out: leftOut })}\n` : text(found, leftOut),
  );
  if (found.sessions.some((s) => s.verdict === "hold back")) process.exitCode = 1;
}

const value = ({ value: v, low, high }: Estimate, digits: number): string => {
  if (v === null || low === null || high === null) return "–";
  return `${signedNumber(v, digits)} ±${((high - low) / 2).toFixed(digits)}`;
};

function text({ sessions, changes, limits }: Drift, leftOut: number): string {
  const lines: string[] = [];
  if (limits !== null) lines.push(limits, "");
  if (sessions.length > 0) append(lines, table(sessions));
  const told = sessions.filter((s) => s.reasons.length > 0 && (limits === null || s.verdict !== null));
  for (const { session, verdict, reasons } of told)
    append(lines, ["", `${session}: ${verdict ?? "not judged"}.`, ...reasons.map((reason) => `  ${reason}`)]);
  if (changes.length > 0)
    lines.push("", "One hitter's own changes, which no other hitter of the session shares:");
  for (const { session, hitter, measure, value: by, n } of changes) {
    const { title, unit } = (swingFields as readonly Field[]).find((f) => f.name === measure)!;
    lines.push(
      `  ${hitter}, ${session}: ${title.toLowerCase()} ${by < 0 ? "lower" : "higher"} by ${Math.abs(by).toFixed(1)} ${unit === "deg" ? "°" : (unit ?? "")} (n ${n}).`,
    );
  }
  if (sessions.length > 0)
    lines.push(
      "",
      `± is the 95 % interval. ${leftOut === 0 ? "No reading was" : leftOut === 1 ? "1 reading in doubt was" : `${leftOut} readings in doubt were`} left out. Limits: data/setup-tolerances.json (common practice, no source).`,
    );
  return `${lines.join("\n")}\n`;
}

function table(sessions: readonly SessionDrift[]): string[] {
  const head = ["session", "swings", "hitters", "turn °", "tilt °", "speed mph", "place in", "verdict"];
  const place = ({ shifts }: SessionDrift): string => {
    const [side, height] = [shifts.contact_side_ft.value, shifts.contact_height_ft.value];
    const inch = (v: number | null): string => (v === null ? "–" : signedNumber(v * 12, 0));
    return `${inch(side)}, ${inch(height)}`;
  };
  const rows = sessions.map((s) => [
    s.session,
    String(s.swings),
    String(s.hitters.length),
    value(s.yaw_deg, 1),
    value(s.tilt_deg, 1),
    value(s.shifts.exit_velocity_mph, 1),
    place(s),
    s.verdict ?? "not judged",
  ]);
  const widths = head.map((name, k) =>
    largest(
      rows.map((r) => r[k]!.length),
      name.length,
    ),
  );
  const write = (row: readonly string[]): string =>
    row
      .map((cell, k) => (k === 0 || k === 7 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!)))
      .join("  ")
      .trimEnd();
  return [write(head), ...rows.map(write)];
}
