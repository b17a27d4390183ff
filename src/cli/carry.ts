/** `batted carry`: one ball, from how it left the bat to where it comes down. */
import type { Command } from "commander";
import type { FenceOdds } from "../contact/fence.ts";
import type { OneBall } from "../contact/oneBall.ts";
import type { Air } from "../flight/air.ts";
import type { CarryRange } from "../flight/range.ts";
import type { SpinSource } from "../flight/spin.ts";
import { sessionFields, swingFields, type Field } from "../swing/fields.ts";
import { outsideLimits } from "../swing/limits.ts";
import { fixedNumber } from "../swing/words.ts";
import { deg, ft, rpm, type UnitName } from "../units/index.ts";
import { phraseIn, shownNumber, signAfter, type UnitSystem } from "../units/system.ts";
import { Fault } from "./errors.ts";
import { fieldsOption, knowFieldsOf } from "./ownFields.ts";
import type { Out } from "./out.ts";
import { unitsOption, type UnitsCall } from "./units.ts";

/** What the command line gives: mph, °, rpm, °F, ft and per cent, as typed. */
interface Options extends UnitsCall {
  readonly exitVelocity: number;
  readonly launchAngle: number;
  readonly sprayAngle?: number;
  readonly bats?: "L" | "R";
  readonly backspin?: number;
  readonly sidespin?: number;
  readonly spin?: number;
  readonly spinAxis?: number;
  readonly temperature?: number;
  readonly pressure?: number;
  readonly altitude?: number;
  readonly humidity?: number;
  readonly wind?: number;
  readonly windToward?: number;
  readonly ball?: string;
  readonly field?: string;
  readonly fields?: string;
  readonly json?: true;
}

/** One ball's answer, as `--json` prints it. */
export interface CarryAnswer {
  readonly carry_ft: number;
  readonly carry_low_ft: number;
  readonly carry_high_ft: number;
  readonly carry_sd_ft: number;
  readonly range: { readonly level: 0.8; readonly method: CarryRange["method"] };
  readonly hang_s: number;
  readonly apex_ft: number;
  readonly bearing_deg: number | null;
  readonly backspin_rpm: number;
  readonly sidespin_rpm: number;
  readonly spin_source: SpinSource;
  /** How far the spin may be off, one standard deviation. */
  readonly spin_spread: string;
  readonly air_density_kg_m3: number;
  readonly air_source: Air["source"];
  readonly ball: string;
  readonly field: string;
  /** Null when no direction was given. */
  readonly fence: {
    readonly result: FenceOdds["result"];
    readonly distance_ft: number | null;
    readonly fence_height_ft: number | null;
    readonly ball_height_ft: number | null;
    readonly short_by_ft: number | null;
    readonly chance: number;
    readonly draws: number;
  } | null;
  readonly assumed: readonly string[];
}

const fields: readonly Field[] = [...swingFields, ...sessionFields];

/** Reads an option's number within the limits of the field it stands for. */
function numberOf(option: string, fieldName: string): (text: string) => number {
  const field = fields.find((f) => f.name === fieldName)!;
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!Number.isFinite(value)) throw new Fault(`${option} needs a number, not "${text}"`, 2);
    const reason = outsideLimits(field, value);
    if (reason !== null) throw new Fault(`${option} ${text} ${reason}`, 2);
    return value;
  };
}

function batsOf(text: string): "L" | "R" {
  const side = text.trim().toUpperCase();
  if (side !== "L" && side !== "R") throw new Fault(`--bats is L or R, not "${text}"`, 2);
  return side;
}

export function register(program: Command, out: Out): void {
  const number = (option: string, field: string): [string, (text: string) => number] => [
    fields.find((f) => f.name === field)!.description,
    numberOf(option.split(" ")[0]!, field),
  ];
  const optional = (command: Command, option: string, field: string): Command =>
    command.option(option, ...number(option, field));
  const command = program
    .command("carry")
    .description("fly one ball: its carry and 80 % range, hang time, apex and bearing")
    .requiredOption("--exit-velocity <mph>", ...number("--exit-velocity", "exit_velocity_mph"))
    .requiredOption("--launch-angle <deg>", ...number("--launch-angle", "launch_angle_deg"));
  optional(command, "--spray-angle <deg>", "spray_angle_deg");
  command.option("--bats <L or R>", "The batter's side, for a spin that has to be estimated.", batsOf);
  optional(command, "--backspin <rpm>", "backspin_rpm");
  optional(command, "--sidespin <rpm>", "sidespin_rpm");
  optional(command, "--spin <rpm>", "spin_rpm");
  optional(command, "--spin-axis <deg>", "spin_axis_deg");
  optional(command, "--temperature <F>", "temperature_f");
  optional(command, "--pressure <inHg>", "pressure_inhg");
  optional(command, "--altitude <ft>", "altitude_ft");
  optional(command, "--humidity <pct>", "humidity_pct");
  optional(command, "--wind <mph>", "wind_mph");
  optional(command, "--wind-toward <deg>", "wind_toward_deg");
  command
    .option("--ball <name>", "A ball of the ball table; the baseball when left out.")
    .option(
      "--field <name>",
      "A field of the field table or of --fields, for its fence; the full field when left out.",
    )
    .option(...fieldsOption);
  command.addOption(unitsOption());
  command.addHelpText(
    "after",
    "\nWhat is given stays in the units that the options name, and so do the\nnumbers of --json.",
  );
  command.option("--json", "Print the answer as JSON.").action(async (options: Options) => {
    const answer = await carryAnswer(out, options);
    if (options.json === true) out.json(answer);
    else out.print(sentences(options, answer));
  });
}

async function carryAnswer(out: Out, options: Options): Promise<CarryAnswer> {
  const { oneBall } = await import("../contact/oneBall.ts");
  if ((options.wind ?? 0) !== 0 && options.windToward === undefined) {
    throw new Fault(
      "--wind needs --wind-toward: 0 is out to center field, 90 toward the right-field side",
      2,
    );
  }
  if (options.windToward !== undefined && options.wind === undefined) {
    throw new Fault("--wind-toward needs --wind, the wind's speed in mph", 2);
  }
  if (options.spinAxis !== undefined && options.spin === undefined) {
    throw new Fault("--spin-axis needs --spin, the rate in rpm", 2);
  }
  const own = await knowFieldsOf(options.fields);
  if (own !== null) {
    const { problems } = own;
    const { problemSentence } = await import("../swing/problems.ts");
    for (const problem of problems) out.tell(problemSentence(problem));
    if (problems.some(({ kind }) => kind === "refused")) out.end(1);
  }
  const { ballNames, fieldNames, nameIn, nearestFirst } = await import("../swing/names.ts");
  for (const [option, table] of [
    ["ball", ballNames],
    ["field", fieldNames],
  ] as const) {
    const name = options[option];
    if (name !== undefined && nameIn(table, name) === null)
      throw new Fault(
        `--${option} is one of ${nearestFirst(name, table.names).join(", ")}, not "${name}"`,
        2,
      );
  }
  const { ball, amiss } = oneBall({
    bats: options.bats ?? null,
    exit_velocity_mph: options.exitVelocity,
    launch_angle_deg: options.launchAngle,
    spray_angle_deg: options.sprayAngle ?? null,
    backspin_rpm: options.backspin ?? null,
    sidespin_rpm: options.sidespin ?? null,
    spin_rpm: options.spin ?? null,
    spin_axis_deg: options.spinAxis ?? null,
    contact_side_ft: null,
    contact_depth_ft: null,
    contact_height_ft: null,
    temperature_f: options.temperature ?? null,
    pressure_inhg: options.pressure ?? null,
    altitude_ft: options.altitude ?? null,
    humidity_pct: options.humidity ?? null,
    wind_mph: options.wind ?? null,
    wind_toward_deg: options.windToward ?? null,
    ball: options.ball ?? null,
    field: options.field ?? null,
  });
  if (ball === null) throw new Fault(amiss.map(({ sentence }) => sentence).join(" "), 2);
  const { spinSpreads } = await import("../flight/spreads.ts");
  return answerOf(options, ball, spinSpreads[ball.spinSource].spread);
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
const roundedOr = (value: number | null, digits: number): number | null =>
  value === null ? null : rounded(value, digits);
const feet = (value: number | null): number | null => (value === null ? null : value / ft);

function answerOf(options: Options, one: OneBall, spread: string): CarryAnswer {
  const { launch, flight, range, air, fence } = one;
  return {
    carry_ft: rounded(flight.carry / ft, 2),
    carry_low_ft: rounded(range.low / ft, 1),
    carry_high_ft: rounded(range.high / ft, 1),
    carry_sd_ft: rounded(range.sd / ft, 1),
    range: { level: 0.8, method: range.method },
    hang_s: rounded(flight.hang, 3),
    apex_ft: rounded(flight.apex / ft, 2),
    bearing_deg: options.sprayAngle === undefined ? null : rounded(flight.bearing / deg, 2),
    backspin_rpm: rounded(launch.backspin / rpm, 0),
    sidespin_rpm: rounded(launch.sidespin / rpm, 0),
    spin_source: one.spinSource,
    spin_spread: spread,
    air_density_kg_m3: rounded(air.density, 4),
    air_source: air.source,
    ball: one.ball.name,
    field: one.field.name,
    fence:
      fence === null
        ? null
        : {
            result: fence.result,
            distance_ft: roundedOr(feet(fence.distance), 1),
            fence_height_ft: roundedOr(feet(fence.fence), 1),
            ball_height_ft: roundedOr(feet(fence.height), 1),
            short_by_ft: roundedOr(feet(fence.missing), 1),
            chance: rounded(fence.chance, 3),
            draws: fence.draws,
          },
    assumed: one.assumed.map((phrase) => phraseIn(phrase, options.units)),
  };
}

/** Where a bearing lies, in words. */
function toward(bearing_deg: number): string {
  const off = Math.abs(Math.round(bearing_deg));
  if (off === 0) return "to dead center";
  const side = bearing_deg < 0 ? "left" : "right";
  const place = `${off}° to the ${side}-field side of center`;
  return off > 45 ? `${place}, in foul ground` : place;
}

/** A value in the reader's unit. */
const shown = (value: number, unit: UnitName, units: UnitSystem, digits = 0): string =>
  fixedNumber(shownNumber(value, unit, units), digits) + signAfter(unit, units);

/** A height: a fence's or a ball's is told from another's by less than a metre. */
function height(value: number | null, units: UnitSystem): string {
  const metres = units === "metric" && (value ?? 0) * ft < 10;
  return shown(value ?? 0, "ft", units, metres ? 1 : 0);
}

function fenceSentence(fence: NonNullable<CarryAnswer["fence"]>, field: string, units: UnitSystem): string {
  const chance =
    fence.draws === 0
      ? "out of reach"
      : `${Math.round(100 * fence.chance)} of 100 such balls clear it (${fence.draws} seeded draws)`;
  const away = (value: number | null): string => shown(value ?? 0, "ft", units);
  const where = `Fence of ${field}, ${away(fence.distance_ft)} away and ${height(fence.fence_height_ft, units)} high there`;
  if (fence.result === "foul") return `Foul before any fence of ${field}; ${chance}.`;
  if (fence.result === "short") return `${where}: short of it by ${away(fence.short_by_ft)}; ${chance}.`;
  return `${where}: the ball is ${height(fence.ball_height_ft, units)} up, ${fence.result} it; ${chance}.`;
}

function sentences(options: Options, a: CarryAnswer): string {
  const { units } = options;
  const spun = (rate: number, plus: string, minus: string): string =>
    `${Math.abs(rate)} rpm of ${rate < 0 ? minus : plus}`;
  const source = {
    measured: "as given",
    rate_and_axis: "rate and axis as given",
    rate_only: "the rate as given",
    estimated: "estimated",
  }[a.spin_source];
  const lines = [
    `Carry ${shown(a.carry_ft, "ft", units)}; four in five such balls come down between ` +
      `${shownNumber(a.carry_low_ft, "ft", units).toFixed(0)} and ${shown(a.carry_high_ft, "ft", units)}` +
      `${a.range.method === "draws" ? " (range from seeded draws)" : ""}.`,
    `${a.hang_s.toFixed(1)} s in the air, ${height(a.apex_ft, units)} at the highest` +
      `${a.bearing_deg === null ? "" : `, ${toward(a.bearing_deg)}`}.`,
    `Spin, ${source}: ${spun(a.backspin_rpm, "backspin", "topspin")} and ` +
      `${spun(a.sidespin_rpm, "sidespin toward right field", "sidespin toward left field")} (${a.spin_spread}).`,
    `Air, ${a.air_source === "default" ? "the default" : "as given"}: ${a.air_density_kg_m3.toFixed(3)} kg/m³` +
      `${options.wind === undefined || options.wind === 0 ? "" : `, wind ${units === "us" ? `${options.wind} mph` : shown(options.wind, "mph", units)} toward ${options.windToward}°`}.`,
    ...(a.fence === null ? [] : [fenceSentence(a.fence, a.field, units)]),
    `Assumed: ${a.assumed.join("; ")}.`,
  ];
  return `${lines.join("\n")}\n`;
}
