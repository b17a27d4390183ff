/**
 * The one definition of the tables' fields. The types, the checks, the data package and the documentation
 * table are all made from what stands here.
 */
import type { UnitName } from "../units/index.ts";
import { ballNames, fieldNames, levelNames, type NameTable } from "./names.ts";

export type { OwnField } from "./ownFields.ts";
export { ballNames, fieldNames, levelNames, nameIn } from "./names.ts";

/** One column of a table: its name, what it may hold and what it means. */
export interface Field {
  readonly name: string;
  readonly type: "string" | "number" | "boolean" | "date" | "datetime";
  /** The words allowed, for a string field with a fixed vocabulary. */
  readonly words?: readonly string[];
  /** The table whose names it holds. */
  readonly names?: NameTable;
  /** `always`: a row without it is refused. `in_play`: needed when the ball was put in play. */
  readonly required?: "always" | "in_play";
  readonly unit?: UnitName;
  /** Limits, in the field's unit: a value outside is refused. */
  readonly min?: number;
  readonly max?: number;
  /** A short heading for people. */
  readonly title: string;
  readonly description: string;
}

type Value<F extends Field> = F["type"] extends "number"
  ? number
  : F["type"] extends "boolean"
    ? boolean
    : F extends { words: readonly (infer W)[] }
      ? W
      : string;

/** The row type a list of fields describes: unknown is null, and only what is always required can't be. */
export type RowOf<Fields extends readonly Field[]> = {
  -readonly [F in Fields[number] as F["name"]]: F extends { required: "always" } ? Value<F> : Value<F> | null;
};

/** How the ball came. */
export const inputs = ["tee", "flip", "live"] as const;
export type Input = (typeof inputs)[number];

export const swingFields = [
  {
    name: "swing_id",
    type: "string",
    title: "Swing",
    description: "Unique in the library; made from the row's content when absent.",
  },
  { name: "session", type: "string", title: "Session", description: "The sitting the swing belongs to." },
  { name: "time", type: "datetime", title: "Time", description: "When the ball was hit, ISO 8601." },
  { name: "hitter", type: "string", required: "always", title: "Hitter", description: "The hitter's name." },
  { name: "bats", type: "string", words: ["L", "R"], title: "Bats", description: "The side of this swing." },
  {
    name: "input",
    type: "string",
    words: inputs,
    required: "always",
    title: "Input",
    description: "How the ball came: off a tee, a flip, or a live pitch.",
  },
  { name: "drill", type: "string", title: "Drill", description: "The drill's name, as in targets.csv." },
  {
    name: "outcome",
    type: "string",
    words: ["in_play", "foul", "miss", "take"],
    title: "Outcome",
    description: "in_play when absent and there is an exit velocity.",
  },
  {
    name: "exit_velocity_mph",
    type: "number",
    required: "in_play",
    unit: "mph",
    min: 5,
    max: 130,
    title: "Exit velocity",
    description: "Speed of the ball off the bat.",
  },
  {
    name: "launch_angle_deg",
    type: "number",
    required: "in_play",
    unit: "deg",
    min: -90,
    max: 90,
    title: "Launch angle",
    description: "Angle above the horizontal, off the bat.",
  },
  {
    name: "spray_angle_deg",
    type: "number",
    unit: "deg",
    min: -180,
    max: 180,
    title: "Spray angle",
    description: "Direction off the bat: 0 to center field, negative to the left-field side.",
  },
  {
    name: "backspin_rpm",
    type: "number",
    unit: "rpm",
    min: -8000,
    max: 8000,
    title: "Backspin",
    description: "Positive lifts.",
  },
  {
    name: "sidespin_rpm",
    type: "number",
    unit: "rpm",
    min: -8000,
    max: 8000,
    title: "Sidespin",
    description: "Positive curves the ball toward right field.",
  },
  {
    name: "spin_rpm",
    type: "number",
    unit: "rpm",
    min: 0,
    max: 8000,
    title: "Spin rate",
    description: "Total spin, when backspin and sidespin are not given apart.",
  },
  {
    name: "spin_axis_deg",
    type: "number",
    unit: "deg",
    min: -360,
    max: 360,
    title: "Spin axis",
    description: "0 pure backspin, 90 curving to right field, 180 topspin.",
  },
  {
    name: "pitch_speed_mph",
    type: "number",
    unit: "mph",
    min: 5,
    max: 110,
    title: "Pitch speed",
    description: "Where the ball meets the bat, unless the session says release.",
  },
  { name: "pitch_type", type: "string", title: "Pitch type", description: "What was thrown." },
  { name: "pitcher", type: "string", title: "Pitcher", description: "Who threw it." },
  {
    name: "contact_side_ft",
    type: "number",
    unit: "ft",
    min: -5,
    max: 5,
    title: "Contact side",
    description: "Where the ball was met, toward first base's side of the plate's middle.",
  },
  {
    name: "contact_depth_ft",
    type: "number",
    unit: "ft",
    min: -5,
    max: 8,
    title: "Contact depth",
    description: "Where the ball was met, forward of the rear point of the plate.",
  },
  {
    name: "contact_height_ft",
    type: "number",
    unit: "ft",
    min: -1,
    max: 9,
    title: "Contact height",
    description: "Where the ball was met, above the ground.",
  },
  {
    name: "bat_speed_mph",
    type: "number",
    unit: "mph",
    min: 5,
    max: 110,
    title: "Bat speed",
    description: "Speed of the bat where it meets the ball.",
  },
  {
    name: "attack_angle_deg",
    type: "number",
    unit: "deg",
    min: -60,
    max: 60,
    title: "Attack angle",
    description: "Angle of the bat's path above the horizontal at contact.",
  },
  {
    name: "tracker_carry_ft",
    type: "number",
    unit: "ft",
    min: 0,
    max: 700,
    title: "Tracker's carry",
    description: "Carry as the tracker itself gives it: compared with ours, and in no figure.",
  },
  {
    name: "turned_back",
    type: "string",
    title: "Corrected",
    description:
      "What these readings are corrected by already, as enrich writes it; then they stay as they are.",
  },
  { name: "note", type: "string", title: "Note", description: "Anything worth keeping with the swing." },
] as const satisfies readonly Field[];

export const sessionFields = [
  {
    name: "session",
    type: "string",
    required: "always",
    title: "Session",
    description: "Its name in swings.csv.",
  },
  { name: "date", type: "date", title: "Date", description: "ISO 8601." },
  { name: "place", type: "string", title: "Place", description: "Where it was." },
  { name: "indoor", type: "boolean", title: "Indoor", description: "Under a roof: no wind." },
  {
    name: "temperature_f",
    type: "number",
    unit: "F",
    min: -20,
    max: 130,
    title: "Temperature",
    description: "Of the air.",
  },
  {
    name: "pressure_inhg",
    type: "number",
    unit: "inHg",
    min: 16,
    max: 32,
    title: "Pressure",
    description: "At the station, not reduced to sea level.",
  },
  {
    name: "altitude_ft",
    type: "number",
    unit: "ft",
    min: -1500,
    max: 15000,
    title: "Altitude",
    description: "Above sea level; gives the pressure when none is given.",
  },
  {
    name: "humidity_pct",
    type: "number",
    unit: "pct",
    min: 0,
    max: 100,
    title: "Humidity",
    description: "Relative humidity.",
  },
  {
    name: "wind_mph",
    type: "number",
    unit: "mph",
    min: 0,
    max: 80,
    title: "Wind",
    description: "Its speed.",
  },
  {
    name: "wind_toward_deg",
    type: "number",
    unit: "deg",
    min: -360,
    max: 360,
    title: "Wind toward",
    description: "Where it blows to: 0 out to center field, 90 toward the right-field side.",
  },
  {
    name: "field",
    type: "string",
    names: fieldNames,
    title: "Field",
    description: "A field of the field table.",
  },
  { name: "ball", type: "string", names: ballNames, title: "Ball", description: "A ball of the ball table." },
  {
    name: "tracker_distance_ft",
    type: "number",
    unit: "ft",
    min: -100,
    max: 100,
    title: "Tracker distance",
    description:
      "From the plate's rear point along the line to the rubber, positive toward the pitcher, negative behind.",
  },
  {
    name: "tracker_offset_in",
    type: "number",
    unit: "in",
    min: -1200,
    max: 1200,
    title: "Tracker offset",
    description: "Off that line, positive toward first base's side.",
  },
  {
    name: "tracker_yaw_deg",
    type: "number",
    unit: "deg",
    min: -45,
    max: 45,
    title: "Tracker yaw",
    description: "Turn about the vertical, positive when readings go toward right field.",
  },
  {
    name: "tracker_tilt_deg",
    type: "number",
    unit: "deg",
    min: -45,
    max: 45,
    title: "Tracker tilt",
    description: "Its end toward the pitcher down or up, positive when launch angles read high.",
  },
  {
    name: "tracker_roll_deg",
    type: "number",
    unit: "deg",
    min: -45,
    max: 45,
    title: "Tracker roll",
    description: "Lean to a side, positive toward first base's.",
  },
  {
    name: "calibrated_at",
    type: "datetime",
    title: "Calibrated",
    description: "When the tracker was calibrated.",
  },
  {
    name: "turned_back_yaw_deg",
    type: "number",
    unit: "deg",
    min: -20,
    max: 20,
    title: "Correction, yaw",
    description: "The yaw that the session's readings are corrected by; empty or 0 for none.",
  },
  {
    name: "turned_back_tilt_deg",
    type: "number",
    unit: "deg",
    min: -20,
    max: 20,
    title: "Correction, tilt",
    description: "The tilt that they are corrected by.",
  },
  {
    name: "turned_back_roll_deg",
    type: "number",
    unit: "deg",
    min: -20,
    max: 20,
    title: "Correction, roll",
    description: "The roll that they are corrected by.",
  },
  {
    name: "turned_back_why",
    type: "string",
    title: "Correction, why",
    description: "Who turned the readings back, when, and on what evidence.",
  },
  {
    name: "pitch_speed_at",
    type: "string",
    words: ["plate", "release"],
    title: "Pitch speed at",
    description: "Where pitch speeds were measured; plate when absent.",
  },
] as const satisfies readonly Field[];

export const hitterFields = [
  {
    name: "hitter",
    type: "string",
    required: "always",
    title: "Hitter",
    description: "The name in swings.csv.",
  },
  { name: "bats", type: "string", words: ["L", "R", "S"], title: "Bats", description: "S for both sides." },
  {
    name: "level",
    type: "string",
    names: levelNames,
    title: "Level",
    description: "A level of the level table.",
  },
  {
    name: "height_in",
    type: "number",
    unit: "in",
    min: 36,
    max: 90,
    title: "Height",
    description: "Sets the height of the nine cells of the zone.",
  },
] as const satisfies readonly Field[];

/** How a hitter's name is spelled somewhere, and whose name it is: the hitter's own, where two look alike and are two. */
export const nameFields = [
  {
    name: "spelled",
    type: "string",
    required: "always",
    title: "Spelled",
    description: "The name as a file writes it.",
  },
  {
    name: "hitter",
    type: "string",
    required: "always",
    title: "Hitter",
    description: "Whose it is; the same again where it is a hitter's own and only looks like another's.",
  },
] as const satisfies readonly Field[];

const feet = <const Name extends string>(
  name: Name,
  title: string,
  min: number,
  max: number,
  description: string,
) => ({ name, type: "number", required: "always", unit: "ft", min, max, title, description }) as const;

/** A facility's own playing field. */
export const ownFieldFields = [
  {
    name: "field",
    type: "string",
    required: "always",
    title: "Field",
    description: "Its name, as sessions.csv gives it; none of the field table's own.",
  },
  feet("base_path_ft", "Base path", 30, 120, "From base to base."),
  feet(
    "pitching_ft",
    "Pitching distance",
    20,
    80,
    "From the rear point of home plate to the pitcher's plate.",
  ),
  feet("dirt_radius_ft", "Dirt's radius", 20, 120, "Of the dirt's outer arc, about the pitcher's plate."),
  feet("left_ft", "Left line", 80, 600, "From home plate to the fence along the line."),
  feet("left_center_ft", "Left-center", 80, 600, "Halfway to center field."),
  feet("center_ft", "Center", 80, 600, "Straight out."),
  feet("right_center_ft", "Right-center", 80, 600, "Halfway to center field."),
  feet("right_ft", "Right line", 80, 600, "From home plate to the fence along the line."),
  feet("fence_ft", "Fence's height", 0, 60, "The same all along."),
] as const satisfies readonly Field[];

/** The swing fields a drill's target puts a window on. */
export const targetMeasures = [
  "exit_velocity_mph",
  "launch_angle_deg",
  "spray_angle_deg",
  "contact_side_ft",
  "contact_depth_ft",
  "contact_height_ft",
] as const;
export type TargetMeasure = (typeof targetMeasures)[number];

const swingField = (name: TargetMeasure): Field => swingFields.find((f) => f.name === name)!;

/** A target's fields: the drill, then a low and a high for each measure of its window. */
export const targetFields: readonly Field[] = [
  {
    name: "drill",
    type: "string",
    required: "always",
    title: "Drill",
    description: "The name in swings.csv.",
  },
  ...targetMeasures.flatMap((name) => {
    const { title, min, max, unit } = swingField(name);
    const end = (suffix: "low" | "high", word: string): Field => ({
      name: `${name}_${suffix}`,
      type: "number",
      title: `${title}, ${suffix}`,
      description: `${word} end of the window; empty for open.`,
      ...(unit === undefined ? {} : { unit }),
      ...(min === undefined ? {} : { min }),
      ...(max === undefined ? {} : { max }),
    });
    return [end("low", "Lower"), end("high", "Upper")];
  }),
];

export const categories = ["ground ball", "line drive", "bloop", "fly ball", "pop-up"] as const;
export type Category = (typeof categories)[number];

export const lanes = ["left line", "left-center", "center", "right-center", "right line", "foul"] as const;
export type Lane = (typeof lanes)[number];

export const sides = ["pull", "middle", "opposite"] as const;
export type Side = (typeof sides)[number];

export const buckets = ["mishit", "partial", "clean", "flush"] as const;
export type Bucket = (typeof buckets)[number];

/** The columns `enrich` adds. Null where there is nothing to compute from. */
export const computedFields = [
  {
    name: "carry_ft",
    type: "number",
    unit: "ft",
    title: "Carry",
    description: "Horizontal distance from the plate's rear point to the landing point.",
  },
  {
    name: "carry_low_ft",
    type: "number",
    unit: "ft",
    title: "Carry, low",
    description: "Lower end of the 80 % range.",
  },
  {
    name: "carry_high_ft",
    type: "number",
    unit: "ft",
    title: "Carry, high",
    description: "Upper end of the 80 % range.",
  },
  { name: "hang_s", type: "number", title: "Hang time", description: "Seconds from bat to landing." },
  {
    name: "apex_ft",
    type: "number",
    unit: "ft",
    title: "Apex",
    description: "Highest point above the ground.",
  },
  {
    name: "bearing_deg",
    type: "number",
    unit: "deg",
    title: "Bearing",
    description: "Direction of the landing point; signs as the spray angle. Null without a spray angle.",
  },
  {
    name: "category",
    type: "string",
    words: categories,
    title: "Category",
    description: "What kind of batted ball.",
  },
  {
    name: "lane",
    type: "string",
    words: lanes,
    title: "Lane",
    description: "Fifth of fair territory, or foul.",
  },
  {
    name: "side",
    type: "string",
    words: sides,
    title: "Side",
    description: "Third of fair territory, by the batter's side.",
  },
  {
    name: "power_kept",
    type: "number",
    title: "Power kept",
    description:
      "The swing's own exit velocity, the pitch's part taken out, ÷ the hitter's ceiling at that launch angle.",
  },
  {
    name: "bucket",
    type: "string",
    words: buckets,
    title: "Contact bucket",
    description: "Quality of the contact.",
  },
  {
    name: "spin_source",
    type: "string",
    words: ["measured", "rate_only", "estimated"],
    title: "Spin source",
    description: "Where the spin came from.",
  },
  {
    name: "air_source",
    type: "string",
    words: ["session", "default"],
    title: "Air source",
    description: "Where the air came from.",
  },
  {
    name: "flags",
    type: "string",
    title: "Flags",
    description: "What is odd about the row; words parted by semicolons.",
  },
] as const satisfies readonly Field[];

export type Swing = RowOf<typeof swingFields>;
export type Session = RowOf<typeof sessionFields>;
export type Hitter = RowOf<typeof hitterFields>;
export type NameRow = RowOf<typeof nameFields>;
export type Target = { drill: string } & {
  [K in `${TargetMeasure}_${"low" | "high"}`]: number | null;
};
/** A swing with the columns that `enrich` adds. */
export type EnrichedSwing = Swing & RowOf<typeof computedFields>;
