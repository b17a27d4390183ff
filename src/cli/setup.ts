/** `batted setup`: what a tracker's placement does to every number, what to move, and the checklist to print. */
import type { Command } from "commander";
import type { Budget } from "../setup/budget.ts";
import type { Measured, TapedStand } from "../setup/measured.ts";
import { sessionFields, type Field } from "../swing/fields.ts";
import { Fault } from "./errors.ts";
import { jsonText } from "./json.ts";
import { append } from "../swing/lists.ts";

interface Call {
  readonly distance?: number;
  readonly offset?: number;
  readonly yaw?: number;
  readonly tilt?: number;
  readonly roll?: number;
  readonly told?: number;
  readonly tapeFirst?: number;
  readonly tapeThird?: number;
  readonly marks?: number;
  readonly tiltRise?: number;
  readonly rollRise?: number;
  readonly levelLength?: number;
  readonly farSight?: number;
  readonly rubber?: number;
  readonly direct?: true;
  readonly checklist?: true;
  readonly output?: string;
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
export function register(program: Command): void {
  program
    .command("setup")
    .description("the error budget of a tracker's placement: what each number is off by, and what to move")
    .option("--distance <ft>", "from the plate's front edge", ofField("--distance", "tracker_distance_ft"))
    .option(
      "--offset <in>",
      "off the line to the rubber's middle, + toward first base's side",
      ofField("--offset", "tracker_offset_in"),
    )
    .option(
      "--yaw <deg>",
      "turn about the vertical, + when readings go toward right field",
      ofField("--yaw", "tracker_yaw_deg"),
    )
    .option("--tilt <deg>", "nose up +, down −", ofField("--tilt", "tracker_tilt_deg"))
    .option("--roll <deg>", "lean, + toward first base's side", ofField("--roll", "tracker_roll_deg"))
    .option(
      "--told <ft>",
      "the distance that the tracker was told (default: 17)",
      ofField("--told", "tracker_distance_ft"),
    )
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
    .option(
      "--tilt-rise <in>",
      "in place of tilt: how much higher a level's end toward the plate is",
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
      "in place of yaw: where the far sight lands off the rubber's middle, + toward first base's side",
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
    .option("--json", "print the budget as JSON")
    .action(run);
}

async function run(call: Call): Promise<void> {
  if (call.checklist === true) return writeChecklist(call);
  if (call.output !== undefined) throw new Fault("--output goes with --checklist", 2);
  const { errorBudget } = await import("../setup/budget.ts");
  const { placementFrom } = await import("../setup/measured.ts");
  const { usualStand } = await import("../field/tracker.ts");
  const { placement, taped } = placementFrom(measuredOf(call));
  const stated = {
    ...placement,
    ...(call.yaw === undefined ? {} : { yaw_deg: call.yaw }),
    ...(call.tilt === undefined ? {} : { tilt_deg: call.tilt }),
    ...(call.roll === undefined ? {} : { roll_deg: call.roll }),
  };
  const budget = errorBudget(stated, {
    believed: { distance_ft: call.told ?? usualStand.distance_ft, offset_in: 0 },
    scaled: call.direct !== true,
  });
  process.stdout.write(
    call.json === true ? `${jsonText({ ...budget, taped })}\n` : await sentences(budget, taped),
  );
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
      ? { tapes: { toFirst_ft: call.tapeFirst!, toThird_ft: call.tapeThird!, mark_ft: call.marks ?? 90 } }
      : {}),
    ...(call.distance === undefined ? {} : { distance_ft: call.distance }),
    ...(call.offset === undefined ? {} : { offset_in: call.offset }),
    ...(call.tiltRise === undefined ? {} : { tilt: { rise_in: call.tiltRise, over_in } }),
    ...(call.rollRise === undefined ? {} : { roll: { rise_in: call.rollRise, over_in } }),
    ...(call.farSight === undefined ? {} : { farSight_in: call.farSight }),
    ...(call.rubber === undefined ? {} : { rubber_ft: call.rubber }),
  };
}

async function sentences(budget: Budget, taped: TapedStand | null): Promise<string> {
  const { biasWords, causeWords, measureWords, offWords, verdictSentence } =
    await import("../setup/words.ts");
  const { placement: p } = budget;
  const lines = [
    `Placement: ${p.distance_ft.toFixed(2)} ft from the plate's front edge, offset ${p.offset_in.toFixed(1)} in, ` +
      `yaw ${p.yaw_deg.toFixed(1)}°, tilt ${p.tilt_deg.toFixed(1)}°, roll ${p.roll_deg.toFixed(1)}°.`,
  ];
  if (taped !== null)
    lines.push(
      `By the tapes, read to half an inch: ± ${(taped.distanceDoubt_ft * 12).toFixed(1)} in in distance, ± ${taped.offsetDoubt_in.toFixed(1)} in in offset.`,
    );
  append(lines, [...budget.doubts, ""]);
  lines.push(`${"measure".padEnd(15)} ${"reads".padStart(9)}  ${"verdict".padEnd(10)}  most on`);
  for (const { measure, value, verdict, ball } of budget.measures)
    lines.push(
      `${measureWords[measure].name.padEnd(15)} ${biasWords(measure, value).padStart(9)}  ${verdict.padEnd(10)}  ${ball}`,
    );
  lines.push("");
  for (const { ball, carry_ft, biases } of budget.balls)
    lines.push(
      `${ball.name[0]!.toUpperCase()}${ball.name.slice(1)} (${ball.exitVelocity_mph} mph, ${ball.launchAngle_deg}°, ${Math.round(carry_ft)} ft): carry reads ${biasWords("carry_ft", biases.carry_ft)}.`,
    );
  const off = budget.causes.filter((c) => c.advice !== null);
  if (off.length > 0) lines.push("");
  for (const { cause, off: by, verdict, advice } of off)
    lines.push(`${causeWords[cause]} ${offWords(cause, by)}, ${verdict}: ${advice}`);
  lines.push("", verdictSentence(budget));
  lines.push(
    budget.scaled
      ? "Taken: a tracker whose scale comes from the distance it was told; --direct is for one that measures speed itself."
      : "Taken: a tracker that measures speed itself; a wrong distance moves the contact place alone.",
    "What is tolerable is common practice, without a source: data/setup-tolerances.json.",
    "Bats down and nobody between bat and net while anyone measures or moves it; the facility's rules come first.",
  );
  return `${lines.join("\n")}\n`;
}

async function writeChecklist(call: Call): Promise<void> {
  if (call.output === undefined) throw new Fault("--checklist needs --output, the HTML file to write", 2);
  const { checklistPage } = await import("../report/checklist.ts");
  const { writeWhole } = await import("../swing/write.ts");
  await writeWhole(call.output, [checklistPage()]);
  process.stdout.write(call.json === true ? `${jsonText({ file: call.output })}\n` : `${call.output}\n`);
}
