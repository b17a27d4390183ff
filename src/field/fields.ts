/**
 * The playing fields of data/playing-fields.json: base paths, pitching distance, the arc of the infield's
 * dirt, and a fence. The diamonds are the rule books'; the fences are invented.
 *
 * Bearings are seen from the rear point of home plate, in radians: 0 to center field, positive to the right.
 */
import table from "../../data/playing-fields.json" with { type: "json" };
import { fieldNames, nameIn, type OwnField } from "../swing/fields.ts";
import { ownFields } from "../swing/ownFields.ts";
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
 * A facility's own field: posts at the lines, halfway and in center field, one height all along.
 * @example fieldFrom({ field: "Park", base_path_ft: 90, pitching_ft: 60.5, dirt_radius_ft: 95, left_ft: 300, left_center_ft: 340, center_ft: 370, right_center_ft: 340, right_ft: 300, fence_ft: 8 }).fence.length // 5
 */
export function fieldFrom(row: OwnField): PlayingField {
  const posts = [row.left_ft, row.left_center_ft, row.center_ft, row.right_center_ft, row.right_ft];
  return {
    name: row.field,
    title: "the facility's own",
    basePath_ft: row.base_path_ft,
    pitching_ft: row.pitching_ft,
    dirtRadius_ft: row.dirt_radius_ft,
    fence: posts.map((distance_ft, i) => ({
      bearing_deg: -45 + 22.5 * i,
      distance_ft,
      height_ft: row.fence_ft,
    })),
    sources: { all: "fields.csv" },
  };
}

const made = new WeakMap<OwnField, PlayingField>();

function ownField(row: OwnField): PlayingField {
  const field = made.get(row) ?? fieldFrom(row);
  made.set(row, field);
  return field;
}

/** Every field that can be named: the table's, and those of the library that was opened last. */
export const knownFields = (): readonly PlayingField[] => [...playingFields, ...ownFields().map(ownField)];

/**
 * The field of that name, whatever its capitals, or null when neither the table nor the library has one.
 * @example findField("46/60").basePath_ft // 60
 */
export function findField(name: string): PlayingField | null {
  const known = nameIn(fieldNames, name);
  if (known === null) return null;
  const own = ownFields().find(({ field }) => field === known);
  return byName.get(known) ?? (own === undefined ? null : ownField(own));
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
 * No part of the fence is nearer than so far, m: from the nearest post, and the widest way to the next.
 * @example Math.round(fenceAtLeast(fieldFor("60/90")) / 0.3048) // 322
 */
export function fenceAtLeast({ fence }: PlayingField): number {
  let [near, apart] = [Infinity, 0];
  for (let i = 0; i < fence.length; i++) {
    near = Math.min(near, fence[i]!.distance_ft);
    if (i > 0) apart = Math.max(apart, fence[i]!.bearing_deg - fence[i - 1]!.bearing_deg);
  }
  return near * Math.cos((apart / 2) * deg) * ft;
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
