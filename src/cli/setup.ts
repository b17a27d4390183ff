/** `batted setup`: what a tracker's placement does to every number, what to move, and the checklist to print. */
import type { Command } from "commander";
import type { Placement } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import type { Measured, TapedStand } from "../setup/measured.ts";
import { sessionFields, type Field } from "../swing/fields.ts";
import { Fault } from "./errors.ts";
import type { UnitSystem } from "../units/system.ts";
import type { Out } from "./out.ts";
import { unitsOption } from "./units.ts";
import { tableText } from "./table.ts";
import { append } from "../swing/lists.ts";
import { capital } from "../swing/words.ts";
import { nameMeant } from "./names.ts";

interface Call {
  readonly library?: string;
  readonly session?: string;
  readonly distance?: number;
  readonly offset?: number;
  readonly yaw?: number;
  readonly tilt?: number;
  readonly roll?: number;
  readonly told?: number;
  readonly toldOffset?: number;
  readonly tapeFirst?: number;
  readonly tapeThird?: number;
  readonly marks?: number;
  readonly beyondMarks?: true;
  readonly tiltRise?: number;
  readonly rollRise?: number;
  readonly levelLength?: number;
  readonly farSight?: number;
  readonly rubber?: number;
  readonly direct?: true;
  readonly checklist?: true;
  readonly output?: string;
  readonly units: UnitSystem;
  readonly json?: true;
}

const fields: readonly Field[] = sessionFields;

/** Reads an option's number between two limits. */
function between(option: string, unit: string, low: number, high: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!Number.isFinite(value)) throw new Fault(`${option} needs a number, not "${text}"`, 2);
    if (value < low || value > high)
      throw new Fault(`${option} ${text} is outside ${low} to ${high} ${unit}`, 2);
    return value;
  };
}

/** Limits of a field of sessions.csv. */
function ofField(option: string, name: string): (text: string) => number {
  const { unit = "", min = -Infinity, max = Infinity } = fields.find((f) => f.name === name)!;
  return between(option, unit, min, max);
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  program
    .command("setup")
    .description("the error budget of a tracker's placement: what each number is off by, and what to move")
    .option(
      "--distance <ft>",
      "from the plate's rear point along the line to the rubber, + toward the pitcher, − behind",
      ofField("--distance", "tracker_distance_ft"),
    )
    .option(
      "--offset <in>",
      "off that line, + toward first base's side",
      ofField("--offset", "tracker_offset_in"),
    )
    .option(
      "--yaw <deg>",
      "turn about the vertical, + when readings go toward right field",
      ofField("--yaw", "tracker_yaw_deg"),
    )
    .option(
      "--tilt <deg>",
      "its end toward the pitcher down +, up −: + reads launch angles high",
      ofField("--tilt", "tracker_tilt_deg"),
    )
    .option("--roll <deg>", "lean, + toward first base's side", ofField("--roll", "tracker_roll_deg"))
    .option(
      "--told <ft>",
      "the distance that the tracker was told (default: the one it has)",
      ofField("--told", "tracker_distance_ft"),
    )
    .option(
      "--told-offset <in>",
      "the offset that it was told (default: 0, on the line)",
      ofField("--told-offset", "tracker_offset_in"),
    )
    .option("--library <dir>", "take the place from a session of this library's sessions.csv, as it was told")
    .option("--session <id>", "of this session (default: the latest whose tracker's distance is logged)")
    .option(
      "--tape-first <ft>",
      "in place of distance and offset: a tape to the mark on first base's line",
      between("--tape-first", "ft", 1, 300),
    )
    .option(
      "--tape-third <ft>",
      "and one to the mark on third base's line",
      between("--tape-third", "ft", 1, 300),
    )
    .option(
      "--marks <ft>",
      "how far out those marks are along the lines (default: 90, the bases)",
      between("--marks", "ft", 1, 300),
    )
    .option("--beyond-marks", "the tracker stands beyond the marks, seen from the plate")
    .option(
      "--tilt-rise <in>",
      "in place of tilt: how much higher a level's end away from the pitcher is",
      between("--tilt-rise", "in", -24, 24),
    )
    .option(
      "--roll-rise <in>",
      "in place of roll: how much higher its third base end is",
      between("--roll-rise", "in", -24, 24),
    )
    .option(
      "--level-length <in>",
      "the level's length (default: 12)",
      between("--level-length", "in", 1, 120),
    )
    .option(
      "--far-sight <in>",
      "in place of yaw: where a sight through it lands off the rubber's middle, + toward first base's side",
      between("--far-sight", "in", -240, 240),
    )
    .option(
      "--rubber <ft>",
      "from the plate's point to the rubber (default: 60.5)",
      between("--rubber", "ft", 20, 80),
    )
    .option("--direct", "the tracker measures speed itself, and takes no scale from the distance")
    .option("--checklist", "write the checklist, one printed page, to --output")
    .option("-o, --output <file>", "where the checklist goes")
    .addOption(unitsOption())
    .option("--json", "print the budget as JSON")
    .action((call: Call) => run(out, call));
}

async function run(out: Out, call: Call): Promise<void> {
  if (call.checklist !== true && call.output !== undefined)
    throw new Fault("--output goes with --checklist", 2);
  const logged = await loggedPlace(call);
  if (call.checklist === true) return writeChecklist(out, call, logged);
  const { errorBudget } = await import("../setup/budget.ts");
  const { placementFrom } = await import("../setup/measured.ts");
  const measured = measuredOf(call);
  if (logged === null && measured.tapes === undefined && measured.distance_ft === undefined)
    throw new Fault(
      "Where does the tracker stand? No distance is taken for granted: give --distance (ft from the plate's rear point along the line to the rubber, below 0 behind the plate), two tapes, or --library and its --session",
      2,
    );
  const place = logged === null || measured.tapes !== undefined ? {} : logged.placement;
  const { placement, taped } = placementFrom({ ...place, ...measured });
  const stated = {
    ...placement,
    ...(logged === null ? {} : turnOfLog(logged.placement, call)),
    ...(call.yaw === undefined ? {} : { yaw_deg: call.yaw }),
    ...(call.tilt === undefined ? {} : { tilt_deg: call.tilt }),
    ...(call.roll === undefined ? {} : { roll_deg: call.roll }),
  };
  const budget = errorBudget(stated, {
    believed: {
      distance_ft: call.told ?? logged?.placement.distance_ft ?? stated.distance_ft,
      offset_in: call.toldOffset ?? logged?.placement.offset_in ?? 0,
    },
    scaled: call.direct !== true,
    units: call.units,
  });
  const session = logged?.session ?? null;
  if (call.json === true) out.json({ ...budget, taped, session });
  else out.print(await sentences(budget, taped, session, call.units));
}

/** A session's placement, as its log has it. */
interface Logged {
  readonly session: string;
  readonly placement: Placement;
}

/** What the log says of the turn, where the call does not measure it. */
function turnOfLog({ yaw_deg, tilt_deg, roll_deg }: Placement, call: Call): Partial<Placement> {
  return {
    ...(call.farSight === undefined ? { yaw_deg } : {}),
    ...(call.tiltRise === undefined ? { tilt_deg } : {}),
    ...(call.rollRise === undefined ? { roll_deg } : {}),
  };
}

async function loggedPlace({ library, session }: Call): Promise<Logged | null> {
  if (library === undefined) {
    if (session !== undefined) throw new Fault("--session needs --library, whose sessions.csv names it", 2);
    return null;
  }
  const [{ join }, { readSessions }] = await Promise.all([
    import("node:path"),
    import("../library/files.ts"),
  ]);
  const { rows } = await readSessions(join(library, "sessions.csv"));
  const meant =
    session === undefined
      ? rows
          .filter((row) => row.tracker_distance_ft !== null)
          .toSorted((a, b) => (a.date ?? "").localeCompare(b.date ?? ""))
          .at(-1)?.session
      : nameMeant(
          session,
          rows.flatMap((row) => row.session ?? []),
          "session",
        );
  const found = rows.find((row) => row.session === meant);
  if (found === undefined || found.tracker_distance_ft === null) {
    const who = found === undefined ? `No session of ${library}` : `Session "${found.session}" of ${library}`;
    throw new Fault(
      `${who} has ${found === undefined ? "a" : "no"} tracker_distance_ft: write it into sessions.csv, or give --distance`,
      2,
    );
  }
  return {
    session: found.session!,
    placement: {
      distance_ft: found.tracker_distance_ft,
      offset_in: found.tracker_offset_in ?? 0,
      yaw_deg: found.tracker_yaw_deg ?? 0,
      tilt_deg: found.tracker_tilt_deg ?? 0,
      roll_deg: found.tracker_roll_deg ?? 0,
    },
  };
}

function measuredOf(call: Call): Measured {
  const twice = (a: unknown, b: unknown, words: string): void => {
    if (a !== undefined && b !== undefined) throw new Fault(`${words}: give one of the two`, 2);
  };
  twice(call.tilt, call.tiltRise, "--tilt and --tilt-rise say the same");
  twice(call.roll, call.rollRise, "--roll and --roll-rise say the same");
  twice(call.yaw, call.farSight, "--yaw and --far-sight say the same");
  const tapes = call.tapeFirst !== undefined || call.tapeThird !== undefined;
  if (tapes && (call.tapeFirst === undefined || call.tapeThird === undefined))
    throw new Fault("--tape-first and --tape-third go together", 2);
  if (tapes && (call.distance !== undefined || call.offset !== undefined))
    throw new Fault("Two tapes give distance and offset: leave out --distance and --offset", 2);
  const over_in = call.levelLength ?? 12;
  return {
    ...(tapes
      ? {
          tapes: {
            toFirst_ft: call.tapeFirst!,
            toThird_ft: call.tapeThird!,
            mark_ft: call.marks ?? 90,
            beyond: call.beyondMarks === true,
          },
        }
      : {}),
    ...(call.distance === undefined ? {} : { distance_ft: call.distance }),
    ...(call.offset === undefined ? {} : { offset_in: call.offset }),
    ...(call.tiltRise === undefined ? {} : { tilt: { rise_in: call.tiltRise, over_in } }),
    ...(call.rollRise === undefined ? {} : { roll: { rise_in: call.rollRise, over_in } }),
    ...(call.farSight === undefined ? {} : { farSight_in: call.farSight }),
    ...(call.rubber === undefined ? {} : { rubber_ft: call.rubber }),
  };
}

async function sentences(
  budget: Budget,
  taped: TapedStand | null,
  session: string | null,
  units: UnitSystem,
): Promise<string> {
  const { biasWords, causeWords, measureWords, offWords, readsWords, verdictSentence } =
    await import("../setup/words.ts");
  const { lengthWords, placeWords } = await import("../setup/lengths.ts");
  const { signedNumber } = await import("../swing/words.ts");
  const { valueWords } = await import("../views/words.ts");
  const turn = (angle: number): string => `${signedNumber(angle, 1)}°`;
  const { placement: p, believed } = budget;
  const lines = [
    `Placement: ${placeWords(p, units)}; yaw ${turn(p.yaw_deg)}, tilt ${turn(p.tilt_deg)}, roll ${turn(p.roll_deg)}.`,
    ...(session === null ? [] : [`The place is what sessions.csv says of "${session}".`]),
    `Told: ${placeWords(believed, units)}.`,
  ];
  if (taped !== null)
    lines.push(
      `By the tapes, read to half an inch: ± ${lengthWords(taped.distanceDoubt_ft * 12, units)} in distance, ± ${lengthWords(taped.offsetDoubt_in, units)} in offset.`,
    );
  append(lines, [...budget.doubts, ""]);
  const measures = budget.measures.map(({ measure, value, verdict, ball }) => [
    measureWords[measure].name,
    biasWords(measure, value, units),
    verdict,
    ball,
  ]);
  lines.push(tableText(measures, { head: ["measure", "reads", "verdict", "most on"], right: [1] }));
  for (const { ball, carry_ft, biases } of budget.balls)
    lines.push(
      `${capital(ball.name)} (${valueWords(ball.exitVelocity_mph, "mph", units)}, ${ball.launchAngle_deg}°, ${valueWords(carry_ft, "ft", units)}): carry ${readsWords("carry_ft", biases.carry_ft, units)}.`,
    );
  const off = budget.causes.filter((c) => c.advice !== null);
  if (off.length > 0) lines.push("");
  for (const { cause, off: by, verdict, advice } of off)
    lines.push(`${causeWords[cause]} ${offWords(cause, by, units)}, ${verdict}: ${advice}`);
  lines.push("", verdictSentence(budget));
  lines.push(
    budget.scaled
      ? "Taken: a tracker whose scale comes from the distance it was told; --direct is for one that measures speed itself."
      : "Taken: a tracker that measures speed itself; a wrong distance moves the contact point alone.",
    "What is tolerable is common practice, without a source: data/setup-tolerances.json.",
    "Bats down and nobody between bat and net while anyone measures or moves it; the facility's rules come first.",
  );
  return `${lines.join("\n")}\n`;
}

async function writeChecklist(out: Out, call: Call, logged: Logged | null): Promise<void> {
  if (call.output === undefined) throw new Fault("--checklist needs --output, the HTML file to write", 2);
  const { checklistPage } = await import("../report/checklist.ts");
  const { writeWhole } = await import("../library/write.ts");
  const stand =
    call.distance === undefined
      ? (logged?.placement ?? null)
      : { distance_ft: call.distance, offset_in: call.offset ?? 0 };
  await writeWhole(call.output, [checklistPage(stand)]);
  if (call.json === true) out.json({ file: call.output });
  else out.print(call.output);
}
