/**
 * The playing fields of data/playing-fields.json: base paths, pitching distance, the arc of the infield's
 * dirt, and a fence. The diamonds are the rule books'; the fences are invented.
 *
 * Bearings are seen from the rear point of home plate, in radians: 0 to center field, positive to the right.
 */
import table from "../../data/playing-fields.json" with { type: "json" };
import { fieldNames, nameIn } from "../swing/fields.ts";
import { deg, ft } from "../units/index.ts";

/** A post of the fence: where it stands, seen from home plate, and how high the fence is there. */
export interface FencePost {
  readonly bearing_deg: number;
  readonly distance_ft: number;
  readonly height_ft: number;
}

/** A playing field. */
export interface PlayingField {
  readonly name: string;
  readonly title: string;
  /** From base to base. */
  readonly basePath_ft: number;
  /** From the rear point of home plate to the front of the pitcher's plate. */
  readonly pitching_ft: number;
  /** Radius of the dirt's outer arc about the middle of the pitcher's plate's front. */
  readonly dirtRadius_ft: number;
  /** From the left-field line to the right-field line; the fence runs straight from post to post. */
  readonly fence: readonly FencePost[];
  /** Where each figure is from. */
  readonly sources: Readonly<Record<string, string>>;
  /** There, and true, where no field was named, or none that the table holds: a chart of it says so. */
  readonly assumed?: true;
}

/** Every field of the table. */
export const playingFields: readonly PlayingField[] = table.fields;

const byName = new Map(playingFields.map((field) => [field.name, field]));

/** The field meant where none is named. */
export const defaultField: PlayingField = byName.get(table.default)!;

const assumedField: PlayingField = { ...defaultField, assumed: true };

/**
 * The field of that name, whatever its capitals, or null when the table has none.
 * @example findField("46/60").basePath_ft // 60
 */
export function findField(name: string): PlayingField | null {
  return byName.get(nameIn(fieldNames, name) ?? "") ?? null;
}

/**
 * The field of that name; the full field, marked as assumed, when none is named, or one that the table hasn't.
 * @example fieldFor(null).name // "60/90"
 * @example fieldFor(null).assumed // true
 */
export function fieldFor(name: string | null): PlayingField {
  return (name === null ? null : findField(name)) ?? assumedField;
}

/**
 * Distance from home plate's rear point to second base's middle, m: the diagonal of the square.
 * Source: Official Baseball Rules, rule 2.01: 127 ft 3⅜ in on a full field.
 * @example homeToSecond(fieldFor("60/90")) / 0.3048 // 127.28
 */
export function homeToSecond(field: PlayingField): number {
  return field.basePath_ft * ft * Math.SQRT2;
}

/**
 * Distance from home plate's rear point to the outer edge of the infield dirt, m: the arc of radius r about a
 * point d straight out, d·cos φ + √(r² − d² sin² φ).
 * @param bearing rad
 * @example dirtEdge(fieldFor("60/90"), 0) / 0.3048 // 155.5
 */
export function dirtEdge(field: PlayingField, bearing: number): number {
  const { pitching_ft: d, dirtRadius_ft: r } = field;
  const across = d * Math.sin(bearing);
  return (d * Math.cos(bearing) + Math.sqrt(r * r - across * across)) * ft;
}

/** A foul line's bearing in radians may come back to degrees a digit past the post. */
const rounding_deg = 1e-9;

/** The two posts a bearing passes between, and how far along from the first the line of sight crosses. */
function crossing(
  field: PlayingField,
  bearing: number,
): { a: FencePost; b: FencePost; along: number } | null {
  const angle = bearing / deg;
  const { fence } = field;
  for (let i = 1; i < fence.length; i++) {
    const a = fence[i - 1]!;
    const b = fence[i]!;
    if (angle < a.bearing_deg - rounding_deg || angle > b.bearing_deg + rounding_deg) continue;
    const toA = a.distance_ft * Math.sin(bearing - a.bearing_deg * deg);
    const toB = b.distance_ft * Math.sin(b.bearing_deg * deg - bearing);
    return { a, b, along: toA / (toA + toB) };
  }
  return null;
}

/**
 * Distance from home plate's rear point to the fence, m, or null outside the foul lines.
 * @param bearing rad
 * @example fenceDistance(fieldFor("60/90"), 0) / 0.3048 // 400
 * @example fenceDistance(fieldFor("60/90"), 1) // null
 */
export function fenceDistance(field: PlayingField, bearing: number): number | null {
  const found = crossing(field, bearing);
  if (found === null) return null;
  const { a, b, along } = found;
  const ahead = (post: FencePost): number => post.distance_ft * Math.cos(post.bearing_deg * deg - bearing);
  return (ahead(a) + along * (ahead(b) - ahead(a))) * ft;
}

/**
 * Height of the fence at a bearing, m, or null outside the foul lines.
 * @param bearing rad
 * @example fenceHeight(fieldFor("60/90"), 0) / 0.3048 // 8
 */
export function fenceHeight(field: PlayingField, bearing: number): number | null {
  const found = crossing(field, bearing);
  if (found === null) return null;
  const { a, b, along } = found;
  return (a.height_ft + along * (b.height_ft - a.height_ft)) * ft;
}

/**
 * Said under a chart of a field that nobody named; empty where somebody did.
 * @example assumedFieldWords(fieldFor(null)) // "No field is recorded for these swings: the full one, 60/90, is taken."
 * @example assumedFieldWords(fieldFor("46/60")) // ""
 */
export function assumedFieldWords(field: Pick<PlayingField, "name" | "assumed">): string {
  return field.assumed ? `No field is recorded for these swings: the full one, ${field.name}, is taken.` : "";
}
