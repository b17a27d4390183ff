/** `batted carry`: one ball, from how it left the bat to where it comes down. */
import type { Command } from "commander";
import type { Air } from "../flight/air.ts";
import type { Flight } from "../flight/carry.ts";
import type { CarryRange } from "../flight/range.ts";
import type { Spin } from "../flight/spin.ts";
import { sessionFields, swingFields, type Field } from "../swing/fields.ts";
import { deg, ft, rpm } from "../units/index.ts";
import { Fault } from "./errors.ts";

/** What the command line gives: mph, °, rpm, °F, ft and per cent, as typed. */
interface Options {
  readonly exitVelocity: number;
  readonly launchAngle: number;
  readonly sprayAngle?: number;
  readonly bats?: "L" | "R";
  readonly backspin?: number;
  readonly sidespin?: number;
  readonly temperature?: number;
  readonly altitude?: number;
  readonly humidity?: number;
  readonly wind?: number;
  readonly windToward?: number;
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
  readonly spin_source: Spin["source"];
  readonly air_density_kg_m3: number;
  readonly air_source: Air["source"];
  readonly assumed: readonly string[];
}

const fields: readonly Field[] = [...swingFields, ...sessionFields];

/** Reads an option's number within the limits of the field it stands for. */
function numberOf(option: string, fieldName: string): (text: string) => number {
  const { unit, min = -Infinity, max = Infinity } = fields.find((f) => f.name === fieldName)!;
  return (text) => {
    const value = text.trim() === "" ? NaN : Number(text);
    if (!Number.isFinite(value)) throw new Fault(`${option} needs a number, not "${text}"`, 2);
    if (value < min || value > max) {
      throw new Fault(`${option} ${text} is outside ${min} to ${max} ${unit ?? ""}`, 2);
    }
    return value;
  };
}

function batsOf(text: string): "L" | "R" {
  const side = text.trim().toUpperCase();
  if (side !== "L" && side !== "R") throw new Fault(`--bats is L or R, not "${text}"`, 2);
  return side;
}

export function register(program: Command): void {
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
  optional(command, "--temperature <F>", "temperature_f");
  optional(command, "--altitude <ft>", "altitude_ft");
  optional(command, "--humidity <pct>", "humidity_pct");
  optional(command, "--wind <mph>", "wind_mph");
  optional(command, "--wind-toward <deg>", "wind_toward_deg");
  command.option("--json", "Print the answer as JSON.").action(async (options: Options) => {
    const answer = await carryAnswer(options);
    process.stdout.write(options.json ? `${JSON.stringify(answer, null, 2)}\n` : sentences(options, answer));
  });
}

async function carryAnswer(options: Options): Promise<CarryAnswer> {
  const [{ airFor }, { ballFor }, { fly }, { carryRange }, { launchOf }] = await Promise.all([
    import("../flight/air.ts"),
    import("../flight/ball.ts"),
    import("../flight/carry.ts"),
    import("../flight/range.ts"),
    import("../flight/launch.ts"),
  ]);
  if ((options.wind ?? 0) !== 0 && options.windToward === undefined) {
    throw new Fault(
      "--wind needs --wind-toward: 0 is out to center field, 90 toward the right-field side",
      2,
    );
  }
  if (options.windToward !== undefined && options.wind === undefined) {
    throw new Fault("--wind-toward needs --wind, the wind's speed in mph", 2);
  }
  const air = airFor({
    temperature_f: options.temperature ?? null,
    altitude_ft: options.altitude ?? null,
    humidity_pct: options.humidity ?? null,
    wind_mph: options.wind ?? null,
    wind_toward_deg: options.windToward ?? null,
  });
  const ball = ballFor(null);
  const launched = launchOf({
    bats: options.bats ?? null,
    exit_velocity_mph: options.exitVelocity,
    launch_angle_deg: options.launchAngle,
    spray_angle_deg: options.sprayAngle ?? null,
    backspin_rpm: options.backspin ?? null,
    sidespin_rpm: options.sidespin ?? null,
    spin_rpm: null,
    spin_axis_deg: null,
    contact_side_ft: null,
    contact_depth_ft: null,
    contact_height_ft: null,
  });
  if (launched === null) throw new Fault("--exit-velocity and --launch-angle are both needed", 2);
  const { launch, spinSource } = launched;
  const flight = fly(launch, air, ball);
  return answerOf(options, launch, flight, carryRange(launch, air, ball, spinSource), air, spinSource);
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

function answerOf(
  options: Options,
  spin: Pick<Spin, "backspin" | "sidespin">,
  flight: Flight,
  range: CarryRange,
  air: Air,
  spinSource: Spin["source"],
): CarryAnswer {
  return {
    carry_ft: rounded(flight.carry / ft, 2),
    carry_low_ft: rounded(range.low / ft, 1),
    carry_high_ft: rounded(range.high / ft, 1),
    carry_sd_ft: rounded(range.sd / ft, 1),
    range: { level: 0.8, method: range.method },
    hang_s: rounded(flight.hang, 3),
    apex_ft: rounded(flight.apex / ft, 2),
    bearing_deg: options.sprayAngle === undefined ? null : rounded(flight.bearing / deg, 2),
    backspin_rpm: rounded(spin.backspin / rpm, 0),
    sidespin_rpm: rounded(spin.sidespin / rpm, 0),
    spin_source: spinSource,
    air_density_kg_m3: rounded(air.density, 4),
    air_source: air.source,
    assumed: [
      ...assumedSpin(options),
      ...(options.sprayAngle === undefined ? ["hit straight away to center field"] : []),
      ...air.assumed,
      "a baseball",
      "met 3 ft above the plate",
    ],
  };
}

function assumedSpin({ backspin, sidespin, bats }: Options): string[] {
  if (backspin !== undefined && sidespin !== undefined) return [];
  const of = backspin !== undefined ? "sidespin" : sidespin !== undefined ? "backspin" : "spin";
  return [`${of} estimated from the launch${bats === undefined ? ", the batter's side unknown" : ""}`];
}

/** Where a bearing lies, in words. */
function toward(bearing_deg: number): string {
  const off = Math.abs(Math.round(bearing_deg));
  if (off === 0) return "to dead center";
  const side = bearing_deg < 0 ? "left" : "right";
  const place = `${off}° to the ${side}-field side of center`;
  return off > 45 ? `${place}, in foul ground` : place;
}

function sentences(options: Options, a: CarryAnswer): string {
  const spun = (rate: number, plus: string, minus: string): string =>
    `${Math.abs(rate)} rpm of ${rate < 0 ? minus : plus}`;
  const source = { measured: "as given", rate_only: "the rate as given", estimated: "estimated" }[
    a.spin_source
  ];
  const lines = [
    `Carry ${Math.round(a.carry_ft)} ft; four in five such balls come down between ` +
      `${Math.round(a.carry_low_ft)} and ${Math.round(a.carry_high_ft)} ft` +
      `${a.range.method === "draws" ? " (range from seeded draws)" : ""}.`,
    `${a.hang_s.toFixed(1)} s in the air, ${Math.round(a.apex_ft)} ft at the highest` +
      `${a.bearing_deg === null ? "" : `, ${toward(a.bearing_deg)}`}.`,
    `Spin, ${source}: ${spun(a.backspin_rpm, "backspin", "topspin")} and ` +
      `${spun(a.sidespin_rpm, "sidespin toward right field", "sidespin toward left field")}.`,
    `Air, ${a.air_source === "default" ? "the default" : "as given"}: ${a.air_density_kg_m3.toFixed(3)} kg/m³` +
      `${options.wind === undefined || options.wind === 0 ? "" : `, wind ${options.wind} mph toward ${options.windToward}°`}.`,
    `Assumed: ${a.assumed.join("; ")}.`,
  ];
  return `${lines.join("\n")}\n`;
}
