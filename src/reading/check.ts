/**
 * Judging a table, row by row, in steady memory: what its columns hold, and what is possible but odd. A warning
 * never keeps a row out.
 */
import setup from "../../data/setup-tolerances.json" with { type: "json" };
import { convert, dimension, unitNames, type UnitName } from "../units/index.ts";
import { numberFrom } from "./cells.ts";
import type { NameRow } from "../swing/fields.ts";
import type { Field, Session, Swing, Target } from "../swing/fields.ts";
import { namesakeWarnings } from "./namesakes.ts";
import type { Problem, RefusedRow } from "../swing/problems.ts";
import { tableOf, type Table } from "../swing/tables.ts";
import { append } from "../swing/lists.ts";
import { counted } from "../swing/words.ts";

/** What one column holds. */
export interface ColumnSummary {
  readonly field: string;
  /** Rows, of those taken, in which it is known. */
  readonly filled: number;
  /** Of a number column; null for others and for an empty one. */
  readonly min: number | null;
  readonly median: number | null;
  readonly max: number | null;
  /** Of a day or time column. */
  readonly first: string | null;
  readonly last: string | null;
  /** How often each word of a fixed list stands; null for other columns. */
  readonly words: readonly { readonly word: string; readonly count: number }[] | null;
  /** How many different texts, up to `mostTexts`; null for columns of another kind. */
  readonly texts: number | null;
}

/** Different texts are counted up to here. */
export const mostTexts = 10_000;

/**
 * When something possible is called odd. Common practice, no source, but for the pressure: the standard atmosphere
 * of ISO 2533, and weather seldom adds more than an inch of mercury to it.
 */
export const oddities = {
  exitVelocity_mph: 125,
  /** Units are doubted from this many values on. */
  leastValues: 20,
  /** A column whose ninth decile is over this looks like km/h, under the other like m/s. */
  speeds: {
    exit_velocity_mph: { kmh: 112, ms: 42 },
    pitch_speed_mph: { kmh: 103, ms: 0 },
    bat_speed_mph: { kmh: 92, ms: 30 },
  },
  /** A contact height whose median is under this looks like metres. */
  contactHeight_ft: 1.3,
  fairSpray_deg: 45,
  /** A tee's launch angles whose median is over this look measured from the vertical, under the other upside down. */
  teeLaunch_deg: { high: 60, low: -12 },
  /** Medians that give away exit velocity and launch angle in each other's column. */
  swapped: { exitVelocity_mph: 40, launchAngle_deg: 42 },
  /**
   * Ground balls are pulled: when those of one side go the other way by more than `mean_deg`, and by so many standard
   * errors, directions look mirrored.
   */
  mirrored: { under_deg: 10, mean_deg: 4, standardErrors: 3 },
  temperature_f: { low: 5, high: 40 },
  trackerNear_ft: setup.odd_near_ft.value,
  pressureOverStandard_inHg: 1.2,
} as const;

/** Values of one number field in bins finer than a tracker's resolution, so that a million cost no more than ten. */
class Spread {
  private readonly counts: Float64Array;
  private readonly sums: Float64Array;
  private readonly low: number;
  private readonly width: number;
  n = 0;
  min = Infinity;
  max = -Infinity;

  constructor(low: number, high: number) {
    const bins = 1 << 15;
    this.counts = new Float64Array(bins);
    this.sums = new Float64Array(bins);
    this.low = low;
    this.width = (high - low) / bins;
  }

  add(value: number): void {
    const bin = Math.min(this.counts.length - 1, Math.max(0, Math.floor((value - this.low) / this.width)));
    this.counts[bin]!++;
    this.sums[bin]! += value;
    this.n++;
    if (value < this.min) this.min = value;
    if (value > this.max) this.max = value;
  }

  /** The value of a rank from 0 on, as the mean of its bin. */
  private ranked(rank: number): number {
    let before = 0;
    for (let i = 0; i < this.counts.length; i++) {
      before += this.counts[i]!;
      if (before > rank) return this.sums[i]! / this.counts[i]!;
    }
    return this.max;
  }

  quantile(q: number): number | null {
    if (this.n === 0) return null;
    const place = (this.n - 1) * q;
    const low = this.ranked(Math.floor(place));
    const high = this.ranked(Math.ceil(place));
    const value = low + (high - low) * (place - Math.floor(place));
    return Number(Math.min(this.max, Math.max(this.min, value)).toPrecision(12));
  }
}

/** What is gathered of one column. */
interface Gathered {
  readonly field: Field;
  filled: number;
  readonly spread: Spread | null;
  readonly words: Map<string, number> | null;
  readonly texts: Set<string> | null;
  first: string | null;
  last: string | null;
  /** Numbers outside the field's limits, as they stand in the file: the first of them. */
  readonly outside: number[];
  outsideCount: number;
}

function gather(field: Field, table: Table): Gathered {
  return {
    field,
    filled: 0,
    spread: field.type === "number" ? new Spread(field.min ?? 0, field.max ?? 1) : null,
    words: field.words === undefined && field.type !== "boolean" ? null : new Map(),
    // No two rows share a key: they need no counting.
    texts:
      field.type === "string" && field.words === undefined && field.name !== table.key ? new Set() : null,
    first: null,
    last: null,
    outside: [],
    outsideCount: 0,
  };
}

/** Directions of one side's ground balls, pulled counted as positive. */
interface Pulled {
  n: number;
  sum: number;
  squares: number;
}

interface Count {
  n: number;
  first: number;
}

/** Names that a library knows. */
export interface Known {
  readonly sessions?: ReadonlySet<string>;
  readonly hitters?: ReadonlySet<string>;
  /** The hitters whose names stand anywhere in it, in its list or not. */
  readonly spelled?: ReadonlySet<string>;
  /** What was asked about names before, and answered. */
  readonly answered?: readonly NameRow[];
}

/** Gathers a table's rows and judges them. */
export class Judge {
  private readonly file: string;
  private readonly table: Table;
  private readonly columns: readonly Gathered[];
  private readonly known: Known;
  /** Whether cells stand in the kit's own units, so that limits say something about them. */
  private readonly ownUnits: boolean;
  /** What the fastest of these hitters reaches, by their levels; null when that is unknown. */
  private readonly fastest: number | null;
  private readonly odd = new Map<string, Count>();
  private readonly unknown = { session: new Map<string, number>(), hitter: new Map<string, number>() };
  private readonly lastTime = new Map<string, number>();
  private readonly teeLaunch = new Spread(-90, 90);
  private readonly pulled: Readonly<Record<"L" | "R", Pulled>> = {
    L: { n: 0, sum: 0, squares: 0 },
    R: { n: 0, sum: 0, squares: 0 },
  };
  rows = 0;

  constructor(
    table: Table["name"],
    file: string,
    options: { known?: Known; mapped?: boolean; fastest_mph?: number | null } = {},
  ) {
    this.file = file;
    this.table = tableOf(table);
    this.columns = this.table.fields.map((field) => gather(field, this.table));
    this.known = options.known ?? {};
    this.ownUnits = options.mapped !== true;
    this.fastest = options.fastest_mph ?? null;
  }

  /** A row that was taken, and its number. */
  row(row: object, number: number): void {
    this.rows++;
    const values = row as Readonly<Record<string, string | number | boolean | null>>;
    for (const column of this.columns) {
      const value = values[column.field.name];
      if (value === null || value === undefined) continue;
      column.filled++;
      if (column.spread !== null) column.spread.add(value as number);
      else if (column.words !== null) {
        const word = String(value);
        column.words.set(word, (column.words.get(word) ?? 0) + 1);
      } else if (column.texts !== null) {
        if (column.texts.size < mostTexts) column.texts.add(value as string);
      } else if (column.field.type !== "string") {
        const time = value as string;
        if (column.first === null || time < column.first) column.first = time;
        if (column.last === null || time > column.last) column.last = time;
      }
    }
    if (this.table.name === "swings") this.swing(row as Swing, number);
    else if (this.table.name === "sessions") this.session(row as Session, number);
    else if (this.table.name === "targets") this.target(row as Target, number);
  }

  /** A row that was refused. */
  refused(row: RefusedRow): void {
    for (const { field, value } of row.problems) {
      const column = this.columns.find((c) => c.field.name === field);
      if (column?.spread == null || value === null) continue;
      const found = [numberFrom(value, "."), numberFrom(value, ",")].find((v) => typeof v === "number");
      if (typeof found !== "number") continue;
      column.outsideCount++;
      if (column.outside.length < 1000) column.outside.push(found);
    }
  }

  private note(what: string, number: number): void {
    const count = this.odd.get(what);
    if (count === undefined) this.odd.set(what, { n: 1, first: number });
    else count.n++;
  }

  private swing(swing: Swing, number: number): void {
    const speed = swing.exit_velocity_mph;
    if (speed !== null && speed > oddities.exitVelocity_mph) {
      this.note(`an exit velocity over ${oddities.exitVelocity_mph} mph, faster than players hit`, number);
    }
    if (swing.input === "tee" && swing.pitch_speed_mph !== null) {
      this.note("a pitch speed on a tee swing", number);
    }
    if (swing.spray_angle_deg !== null && swing.outcome === "in_play") {
      const off = Math.abs(swing.spray_angle_deg);
      if (off > oddities.fairSpray_deg)
        this.note("a spray angle outside fair territory, called in_play", number);
    }
    if ((swing.outcome === "miss" || swing.outcome === "take") && speed !== null) {
      this.note("a miss or a take with an exit velocity", number);
    }
    if (swing.outcome === null && speed === null)
      this.note("neither an outcome nor an exit velocity", number);
    if (swing.time !== null && swing.time.length > 10) {
      const time = Date.parse(swing.time);
      const session = swing.session ?? "";
      const last = this.lastTime.get(session);
      if (last !== undefined && time < last)
        this.note("a time before that of the session's swing before it", number);
      if (!Number.isNaN(time)) this.lastTime.set(session, time);
    }
    const angle = swing.launch_angle_deg;
    if (angle !== null && swing.input === "tee") this.teeLaunch.add(angle);
    if (angle !== null && angle < oddities.mirrored.under_deg && swing.bats !== null) {
      if (swing.spray_angle_deg !== null && swing.outcome === "in_play") {
        const pulled = swing.bats === "L" ? swing.spray_angle_deg : -swing.spray_angle_deg;
        const sums = this.pulled[swing.bats];
        sums.n++;
        sums.sum += pulled;
        sums.squares += pulled * pulled;
      }
    }
    this.strange("session", swing.session, this.known.sessions);
    this.strange("hitter", swing.hitter, this.known.hitters);
  }

  private strange(
    field: "session" | "hitter",
    name: string | null,
    names: ReadonlySet<string> | undefined,
  ): void {
    if (names === undefined || name === null || names.has(name)) return;
    const counts = this.unknown[field];
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }

  private session(session: Session, number: number): void {
    const { temperature_f: temperature, pressure_inhg: pressure, altitude_ft: altitude } = session;
    const { low, high } = oddities.temperature_f;
    if (temperature !== null && temperature >= low && temperature < high) {
      this.note(`temperature_f under ${high} °F: cold, or in °C`, number);
    }
    if (pressure !== null && altitude !== null) {
      // ISO 2533, in feet and inches of mercury.
      const standard = 29.92 * (1 - 6.8756e-6 * altitude) ** 5.2559;
      if (pressure > standard + oddities.pressureOverStandard_inHg) {
        this.note("a pressure too high for the altitude: it looks reduced to sea level", number);
      }
    }
    if (session.indoor === true && session.wind_mph !== null && session.wind_mph > 0) {
      this.note("wind indoors", number);
    }
    if (session.wind_mph !== null && session.wind_mph > 0 && session.wind_toward_deg === null) {
      this.note("a wind without its direction, which can't be used", number);
    }
    const distance = session.tracker_distance_ft;
    const aside = (session.tracker_offset_in ?? 0) / 12;
    if (distance !== null && Math.hypot(distance, aside) < oddities.trackerNear_ft) {
      this.note(`a tracker under ${oddities.trackerNear_ft} ft from the plate: close, or in metres`, number);
    }
  }

  private target(target: Target, number: number): void {
    const window: readonly unknown[] = Object.values(target);
    if (window.filter((value) => value !== null).length === 1)
      this.note("a target without a single limit", number);
  }

  /** What each column holds, in the fields' order. */
  summaries(): ColumnSummary[] {
    return this.columns.map(({ field, filled, spread, words, texts, first, last }) => ({
      field: field.name,
      filled,
      min: spread === null || spread.n === 0 ? null : spread.min,
      median: spread?.quantile(0.5) ?? null,
      max: spread === null || spread.n === 0 ? null : spread.max,
      first,
      last,
      words:
        words === null
          ? null
          : [...words].map(([word, count]) => ({ word, count })).sort((a, b) => b.count - a.count),
      texts: field.name === this.table.key ? filled : (texts?.size ?? null),
    }));
  }

  /** What is odd, a warning for each kind with how many rows have it. */
  warnings(): Problem[] {
    const found = [...this.odd].map(([what, { n, first }]) =>
      this.warning(
        n === 1 ? first : null,
        null,
        null,
        n === 1 ? `the row has ${what}` : `${n} rows have ${what} (first: row ${first})`,
      ),
    );
    append(found, this.doubts());
    append(found, this.namesakes());
    for (const field of ["session", "hitter"] as const) {
      for (const [name, n] of this.unknown[field]) {
        const reason = `is not in the library's ${field}s.csv (${counted(n, "row")})`;
        found.push(this.warning(null, field, name, reason));
      }
    }
    return found;
  }

  /** Those warnings that put a whole column in doubt: its unit, its sign, or whether it is the right one. */
  doubts(): Problem[] {
    const swapped = this.table.name === "swings" && this.swapped();
    if (swapped) {
      const reason = "and launch_angle_deg look swapped: each holds what the other should";
      return [this.warning(null, "exit_velocity_mph", null, reason)];
    }
    const found: Problem[] = [];
    for (const column of this.columns) {
      const reason = this.unitDoubt(column) ?? this.signDoubt(column.field.name);
      if (reason !== null) found.push(this.warning(null, column.field.name, null, reason));
    }
    return found;
  }

  /** Hitters under several spellings, those that the library knows included. */
  namesakes(): Problem[] {
    const own = this.columns.find((column) => column.field.name === "hitter")?.texts ?? new Set<string>();
    const known = this.known.spelled ?? this.known.hitters ?? [];
    return namesakeWarnings([...own, ...known], this.file, { own, answered: this.known.answered ?? [] });
  }

  /** Whether exit velocity and launch angle stand in each other's column, by their medians, refused cells included. */
  private swapped(): boolean {
    const median = (name: string): number | null => {
      const { spread, outside } = this.columns.find((c) => c.field.name === name)!;
      const n = spread!.n + outside.length;
      if (n < oddities.leastValues / 2) return null;
      // What is outside its limits lies below or above everything that is inside.
      const below = outside.filter((value) => value < spread!.min || spread!.n === 0).length;
      const rank = (n - 1) / 2 - below;
      if (rank < 0 || rank > spread!.n - 1)
        return [...outside].sort((a, b) => a - b)[Math.floor(outside.length / 2)]!;
      return spread!.quantile(spread!.n === 1 ? 0 : rank / (spread!.n - 1));
    };
    const speed = median("exit_velocity_mph");
    const angle = median("launch_angle_deg");
    const { exitVelocity_mph, launchAngle_deg } = oddities.swapped;
    return speed !== null && angle !== null && speed < exitVelocity_mph && angle > launchAngle_deg;
  }

  private signDoubt(name: string): string | null {
    if (this.table.name !== "swings") return null;
    if (name === "launch_angle_deg" && this.teeLaunch.n >= oddities.leastValues) {
      const median = this.teeLaunch.quantile(0.5)!;
      const { high, low } = oddities.teeLaunch_deg;
      const half = `half of the ${this.teeLaunch.n} off the tee are`;
      if (median > high) return `looks measured from the vertical: ${half} over ${round(median)}°`;
      if (median < low)
        return `looks turned upside down: ${half} under ${round(median)}°; a map's sign -1 turns it`;
    }
    if (name !== "spray_angle_deg") return null;
    const { mean_deg, standardErrors } = oddities.mirrored;
    const wrong = (["R", "L"] as const).filter((side) => {
      const { n, sum, squares } = this.pulled[side];
      if (n < oddities.leastValues) return false;
      const mean = sum / n;
      const error = Math.sqrt(Math.max(0, squares / n - mean * mean) / n);
      return mean < -mean_deg && mean < -standardErrors * error;
    });
    const right = (["R", "L"] as const).some(
      (side) => this.pulled[side].n >= oddities.leastValues && this.pulled[side].sum > 0,
    );
    if (wrong.length === 0 || right) return null;
    const sides = wrong.map((side) => {
      const { n, sum } = this.pulled[side];
      const [hand, toward] = side === "R" ? ["right", "right"] : ["left", "left"];
      return `${n} ground balls of ${hand}-handed batters go ${round(-sum / n)}° to the ${toward}-field side`;
    });
    return `looks mirrored: ${sides.join(", and ")}, where most are pulled the other way; a map's sign -1 turns it`;
  }

  private warning(row: number | null, field: string | null, value: string | null, reason: string): Problem {
    return { kind: "warning", file: this.file, row, field, value, reason };
  }

  private unitDoubt({ field, spread, outside, outsideCount }: Gathered): string | null {
    if (spread === null) return null;
    if (this.ownUnits && outsideCount >= 5 && outsideCount * 10 >= spread.n + outsideCount) {
      const unit = fittingUnit(field, outside);
      if (unit !== null) {
        const of = `${outsideCount} of ${spread.n + outsideCount} values`;
        return `has ${of} outside its limits, and looks like ${unit}: a column map can convert it`;
      }
    }
    if (spread.n < oddities.leastValues) return null;
    const tenth = spread.quantile(0.9)!;
    if (Object.hasOwn(oddities.speeds, field.name)) {
      const limits = oddities.speeds[field.name as keyof typeof oddities.speeds];
      const most =
        field.name === "exit_velocity_mph" && this.fastest !== null ? this.fastest * overLevel : Infinity;
      if (tenth > most && convert(tenth, "km/h", "mph") <= most) {
        return `looks like km/h: a tenth of the values are over ${round(tenth)}, and the library's hitters reach about ${this.fastest}`;
      }
      if (tenth > limits.kmh) return `looks like km/h: a tenth of the values are over ${round(tenth)}`;
      if (tenth < limits.ms) return `looks like m/s: nine tenths of the values are under ${round(tenth)}`;
    }
    const median = spread.quantile(0.5)!;
    if (field.name === "contact_height_ft" && median < oddities.contactHeight_ft) {
      return `looks like metres: half the values are under ${round(median)}`;
    }
    if (
      field.name === "launch_angle_deg" &&
      spread.max <= Math.PI / 2 &&
      spread.min >= -Math.PI / 2 &&
      spread.max > spread.min
    ) {
      return `looks like radians: all values are between ${round(spread.min)} and ${round(spread.max)}`;
    }
    return null;
  }
}

/** So far over their level's figure hitters may be. Common practice, no source. */
export const overLevel = 1.15;

const round = (value: number): string => String(Number(value.toPrecision(4)));

/** A unit in which nine tenths of the values would be within the field's limits. */
function fittingUnit(field: Field, values: readonly number[]): UnitName | null {
  const { unit: own, min = -Infinity, max = Infinity } = field;
  if (own === undefined) return null;
  const others = unitNames.filter((unit) => unit !== own && dimension(unit) === dimension(own));
  const fits = (unit: UnitName): boolean => {
    const inside = values.filter((value) => {
      const converted = convert(value, unit, own);
      return converted >= min && converted <= max;
    });
    return inside.length >= values.length * 0.9;
  };
  return others.find(fits) ?? null;
}
