/**
 * What a gap is made of. Exit velocity: pitch speed, place, bat speed, contact; launch angle: place and the
 * rest. Parts add up to the gap exactly.
 */
import { fewestForInterval, group, spread, type Grouped } from "../stats/bootstrap.ts";
import { t95 } from "../stats/beta.ts";
import type { Places } from "../stats/draws.ts";
import { mixDoubt, mixOf, onGrid } from "../stats/split.ts";
import {
  intervalsOf,
  resampledOf,
  type Uncertainty,
  type Figures,
  type PickedFigures,
  type Resampled,
} from "../stats/twoStage.ts";
import { inPlay } from "../views/swings.ts";
import { fewestInCell, mergeThin } from "./cells.ts";
import type { Ready, ReadySwing, Sides } from "./rows.ts";
import { counted } from "../swing/words.ts";

/** A figure with its 95 % interval, or the reason it has none. */
export interface Figure {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly se: number | null;
  /** Degrees of freedom behind the interval; null where there is none. */
  readonly freedom: number | null;
  /** Why there is no value, or no interval. */
  readonly reason: string | null;
}

/** The parts there are, in the order they are shown and add up. */
const partNames = ["pitch speed", "place", "bat speed", "contact", "rest"] as const;
export type PartName = (typeof partNames)[number];

/** One part. Without a value it is in the last part, with what else is left. */
export interface GapPart extends Figure {
  readonly part: PartName;
}

/** How far two parts lie apart, on the same resamples: the first less the second. */
export interface PartContrast extends Figure {
  readonly parts: readonly [PartName, PartName];
}

/** One group of cells on both sides. */
export interface CellSplit {
  readonly cells: readonly number[];
  readonly name: string;
  readonly from: { readonly n: number; readonly share: number; readonly mean: number | null };
  readonly to: { readonly n: number; readonly share: number; readonly mean: number | null };
  /** What the change of its share does to the mean, against the average of both sides; they add up to place. */
  readonly place: number;
}

/** A gap and its parts. */
export interface SplitGap {
  readonly measure: "exit_velocity" | "launch_angle";
  readonly from: { readonly n: number; readonly sessions: number; readonly mean: number | null };
  readonly to: { readonly n: number; readonly sessions: number; readonly mean: number | null };
  /** to − from. */
  readonly gap: Figure;
  /** Exit velocity: pitch speed, place, bat speed, contact. Launch angle: place, rest. */
  readonly parts: readonly GapPart[];
  /** Every pair of the parts beyond the pitch's that can be told. */
  readonly contrasts: readonly PartContrast[];
  /** The groups of cells behind the place part. */
  readonly cells: readonly CellSplit[];
  readonly resampled: Resampled | null;
  /** What the reader must know: merged cells, missing speeds. One sentence each. */
  readonly notes: readonly string[];
}

/** The exit-velocity gap. */
export interface ExitVelocitySplit extends SplitGap {
  readonly measure: "exit_velocity";
  /** Mean exit velocity of the first side, and what physics makes of the same swings against the second's pitches. */
  readonly predicted: Figure;
  /** The second side's mean less the predicted: the hitter's own part, the pitcher's work taken off. */
  readonly beyondPitch: Figure;
  /** Mean pitch speed at the plate, mph, and how many balls have one. */
  readonly pitch: { readonly from: number | null; readonly to: number | null; readonly n: number };
  /** Change of mean bat speed, mph, over all places; the part counts that at like places. */
  readonly batSpeed: { readonly value: number | null; readonly from: number; readonly to: number };
}

/** One side in columns: a value, group of cells, pitch and bat speed a ball; NaN for none. */
interface Columns {
  readonly n: number;
  readonly value: Float64Array;
  readonly group: Int8Array;
  readonly pitch: Float64Array;
  readonly bat: Float64Array;
}

/** A side's counts and sums, overall and by group of cells. */
interface Sums {
  /** Balls, the sum of their values, balls with a pitch speed, the sum of those. */
  readonly all: Float64Array;
  readonly cellN: Float64Array;
  readonly cellSum: Float64Array;
  readonly batN: Float64Array;
  readonly batSum: Float64Array;
}

const emptySums = (): Sums => ({
  all: new Float64Array(4),
  cellN: new Float64Array(9),
  cellSum: new Float64Array(9),
  batN: new Float64Array(9),
  batSum: new Float64Array(9),
});

/**
 * A side's balls laid out group after group, those of unknown place last, with how often each was drawn: sums then run
 * through a group without leaving it.
 */
interface Laid {
  /** Where the ball at a place stands. */
  readonly at: Int32Array;
  /** Where each group ends. */
  readonly ends: Int32Array;
  readonly value: Float64Array;
  readonly pitch: Float64Array;
  readonly bat: Float64Array;
  readonly times: Int32Array;
}

/** @param rows the balls in the order of the places that will be drawn */
function layOut({ value, group, pitch, bat }: Columns, rows: ArrayLike<number>): Laid {
  const last = emptySums().cellN.length;
  const groupAt = (place: number): number => (group[rows[place]!]! < 0 ? last : group[rows[place]!]!);
  const order = Int32Array.from(rows, (_, place) => place).sort((a, b) => groupAt(a) - groupAt(b));
  const at = new Int32Array(order.length);
  const ends = new Int32Array(last);
  order.forEach((place, i) => {
    at[place] = i;
    if (groupAt(place) < last) ends[groupAt(place)] = i + 1;
  });
  for (let g = 1; g < last; g++) ends[g] = Math.max(ends[g]!, ends[g - 1]!);
  const laid = (column: Float64Array): Float64Array =>
    Float64Array.from(order, (place) => column[rows[place]!]!);
  return {
    at,
    ends,
    value: laid(value),
    pitch: laid(pitch),
    bat: laid(bat),
    times: new Int32Array(order.length),
  };
}

/** Adds up the balls at places[start] to places[end], and of their speeds what the plan asks for. */
function addUp(plan: Plan, side: Laid, places: Places, start: number, end: number, into: Sums): void {
  const { times, value, ends } = side;
  const { all, cellN, cellSum } = into;
  count(side, places, start, end);
  let total = 0;
  let i = 0;
  for (let g = 0; g < ends.length; g++) {
    const stop = ends[g]!;
    let n = 0;
    let sum = 0;
    for (; i < stop; i++) {
      n += times[i]!;
      sum += times[i]! * value[i]!;
    }
    cellN[g] = n;
    cellSum[g] = sum;
    total += sum;
  }
  for (; i < times.length; i++) total += times[i]! * value[i]!;
  all[0] = end - start;
  all[1] = total;
  if (plan.pitch) addPitches(side, into);
  if (plan.bat) addBats(side, into);
}

function count({ at, times }: Laid, places: Places, start: number, end: number): void {
  times.fill(0);
  for (let i = start; i < end; i++) times[at[places[i]!]!]!++;
}

function addPitches({ times, pitch }: Laid, { all }: Sums): void {
  let pitched = 0;
  let sum = 0;
  for (let i = 0; i < times.length; i++) {
    const p = pitch[i]!;
    if (p !== p) continue;
    pitched += times[i]!;
    sum += times[i]! * p;
  }
  all[2] = pitched;
  all[3] = sum;
}

function addBats({ times, bat, ends }: Laid, { batN, batSum }: Sums): void {
  let i = 0;
  for (let g = 0; g < ends.length; g++) {
    const stop = ends[g]!;
    let n = 0;
    let sum = 0;
    for (; i < stop; i++) {
      const b = bat[i]!;
      if (b !== b) continue;
      n += times[i]!;
      sum += times[i]! * b;
    }
    batN[g] = n;
    batSum[g] = sum;
  }
}

/** Which parts can be told, and what they are worth. */
interface Plan {
  readonly q: number;
  /** Every part, or the pitch's alone: an order of hitters asks for no other. */
  readonly asked: keyof typeof outputs;
  readonly pitch: boolean;
  readonly place: boolean;
  readonly bat: boolean;
}

const [GAP, PITCH, BEYOND, PLACE, BAT, LEFT, PREDICTED, FROM_PLACE_BAT, FROM_PLACE_LEFT, FROM_BAT_LEFT] = [
  0, 1, 2, 3, 4, 5, 6, 7, 8, 9,
];
/** How many there are: all of them, or those that know of nothing but the pitch. */
const outputs = { all: 10, pitch: 3 } as const;

/** The figures from both sides' sums. A part that can't be told is 0 and stays in what is left. */
function splitSums(plan: Plan, from: Sums, to: Sums, out: Float64Array): void {
  const before = from.all[1]! / from.all[0]!;
  const gap = to.all[1]! / to.all[0]! - before;
  const pitched = plan.pitch && from.all[2]! > 0 && to.all[2]! > 0;
  const pitch = pitched ? plan.q * (to.all[3]! / to.all[2]! - from.all[3]! / from.all[2]!) : 0;
  out[GAP] = gap;
  out[PITCH] = pitch;
  out[BEYOND] = gap - pitch;
  if (plan.asked === "pitch") return;
  const place = plan.place ? mixOf(from.cellN, from.cellSum, to.cellN, to.cellSum) : 0;
  const bat = plan.bat ? (1 + plan.q) * batAtLikePlaces(from, to) : 0;
  out[PLACE] = place;
  out[BAT] = bat;
  out[LEFT] = gap - pitch - place - bat;
  out[PREDICTED] = before + pitch;
  out[FROM_PLACE_BAT] = place - bat;
  out[FROM_PLACE_LEFT] = place - out[LEFT]!;
  out[FROM_BAT_LEFT] = bat - out[LEFT]!;
}

/**
 * The change of bat speed between balls met in the same cells. What a place costs in bat speed is in the place
 * part already; the change over all places would count it twice.
 */
function batAtLikePlaces(from: Sums, to: Sums): number {
  let n = 0;
  let m = 0;
  for (let g = 0; g < 9; g++) {
    n += from.cellN[g]!;
    m += to.cellN[g]!;
  }
  let change = 0;
  let weight = 0;
  for (let g = 0; g < 9; g++) {
    const a = from.batN[g]!;
    const b = to.batN[g]!;
    if (a === 0 || b === 0) continue;
    const w = from.cellN[g]! / n + to.cellN[g]! / m;
    change += w * (to.batSum[g]! / b - from.batSum[g]! / a);
    weight += w;
  }
  return weight > 0 ? change / weight : 0;
}

const meanOf = (values: readonly number[]): number | null =>
  values.length === 0 ? null : values.reduce((a, b) => a + b, 0) / values.length;

const known = (rows: readonly ReadySwing[], pick: (r: ReadySwing) => number | null): number[] =>
  rows.map(pick).filter((v): v is number => v !== null);

const none = (reason: string): Figure => ({
  value: null,
  low: null,
  high: null,
  se: null,
  freedom: null,
  reason,
});

/** The balls a split is made of, both sides, and what is known of them. */
interface Ground {
  readonly angle: boolean;
  readonly valueOf: (r: ReadySwing) => number | null;
  readonly chosen: readonly [ReadySwing[], ReadySwing[]];
  /** Cells of the zone that both sides have enough balls in, thin ones merged with a neighbor. */
  readonly groups: ReturnType<typeof mergeThin>;
  /** Balls with a contact point. */
  readonly placed: readonly [number, number];
  readonly speeds: readonly [number[], number[]];
  readonly bats: readonly [number[], number[]];
}

const bothOf = <A, B>([a, b]: readonly [A, A], of: (side: A) => B): [B, B] => [of(a), of(b)];

function groundOf(measure: SplitGap["measure"], sides: Sides): Ground {
  const angle = measure === "launch_angle";
  const valueOf = (r: ReadySwing): number | null => (angle ? r.launch_angle_deg : r.exit_velocity_mph);
  const chosen = bothOf([sides.from, sides.to], (rows) => inPlay(rows).filter((r) => valueOf(r) !== null));
  const counts = bothOf(chosen, cellCounts);
  return {
    angle,
    valueOf,
    chosen,
    groups: mergeThin(counts[0], counts[1]),
    placed: bothOf(counts, (list) => list.reduce((a, b) => a + b, 0)),
    speeds: bothOf(chosen, (rows) => known(rows, (r) => r.plate_speed_mph)),
    bats: bothOf(chosen, (rows) => known(rows, (r) => (r.cell === null ? null : r.bat_speed_mph))),
  };
}

/** Which parts can be told, and of the others why not. */
function planOf(
  { angle, chosen, groups, placed, speeds, bats }: Ground,
  q: number,
  asked: Plan["asked"],
): { told: Plan; why: Readonly<Record<string, string>> } {
  const batIn = ({ cells }: { cells: readonly number[] }, rows: readonly ReadySwing[]): boolean =>
    rows.some((r) => r.bat_speed_mph !== null && cells.includes(r.cell!));
  const told: Plan = {
    q,
    asked,
    pitch: !angle && speeds.every((s) => s.length >= fewestForInterval),
    place: asked === "all" && groups.length > 1,
    bat:
      asked === "all" &&
      !angle &&
      groups.some((g) => chosen.every((rows) => batIn(g, rows))) &&
      bats.every((b) => b.length >= fewestForInterval),
  };
  const noPlace =
    Math.min(...placed) === 0
      ? `no contact point on ${placed[0] === 0 && placed[1] === 0 ? "either side" : "one side"}`
      : `too few balls in like places to compare: no two parts of the zone have ${fewestInCell} on both sides`;
  const why = {
    ...(told.pitch ? {} : { "pitch speed": tooFewOf("pitch speed", speeds, chosen) }),
    ...(told.place ? {} : { place: noPlace }),
    ...(told.bat ? {} : { "bat speed": tooFewOf("bat speed", bats, chosen) }),
  };
  return { told, why };
}

/** What to know of the balls before any figure. */
function notesOn({ chosen, groups, placed, speeds, bats }: Ground, told: Plan): string[] {
  const merged = told.place ? groups.filter((g) => g.cells.length > 1).map((g) => g.name) : [];
  const ofCells =
    merged.length === 0
      ? []
      : [
          `Cells with fewer than ${fewestInCell} balls on a side are merged with a neighbor: ${merged.join("; ")}.`,
        ];
  const ofSides = chosen.flatMap((rows, s) => {
    const all = counted(rows.length, `${rows[0]?.input ?? ""} ball`);
    const unplaced = rows.length - placed[s]!;
    return [
      ...(told.place && unplaced > 0.1 * rows.length
        ? [`${unplaced} of ${all} have no contact point; the place part is that of the others.`]
        : []),
      ...(told.pitch && speeds[s]!.length < rows.length
        ? [`Pitch speed is known for ${speeds[s]!.length} of ${all}; their mean stands for all.`]
        : []),
      ...(told.bat && bats[s]!.length < rows.length
        ? [`Bat speed is known for ${bats[s]!.length} of ${all}; they stand for all.`]
        : []),
    ];
  });
  return [...ofCells, ...ofSides];
}

/** Both sides as columns, a ball's cell as the number of its group. */
function columnsOf({ chosen, groups, valueOf }: Ground): [Columns, Columns] {
  const groupOf = new Int8Array(9).fill(-1);
  groups.forEach((g, k) => g.cells.forEach((c) => (groupOf[c] = k)));
  return bothOf(chosen, (rows) => ({
    n: rows.length,
    value: Float64Array.from(rows, (r) => valueOf(r)!),
    group: Int8Array.from(rows, (r) => (r.cell === null ? -1 : groupOf[r.cell]!)),
    pitch: Float64Array.from(rows, (r) => r.plate_speed_mph ?? NaN),
    bat: Float64Array.from(rows, (r) => r.bat_speed_mph ?? NaN),
  }));
}

/** The numbers of a side's rows. */
const rowNumbers = ({ n }: Columns): number[] => Array.from({ length: n }, (_, i) => i);

/** Every part at once, of the rows given or of a resample of them. */
function figuresOf(told: Plan, columns: readonly [Columns, Columns]): Figures {
  const [sumFrom, sumTo] = [emptySums(), emptySums()];
  const pick =
    (a: Laid, b: Laid): PickedFigures =>
    (places, bounds, out) => {
      addUp(told, a, places, bounds[0]!, bounds[1]!, sumFrom);
      addUp(told, b, places, bounds[1]!, bounds[2]!, sumTo);
      splitSums(told, sumFrom, sumTo, out);
    };
  const ofRows = pick(...bothOf(columns, (side) => layOut(side, rowNumbers(side))));
  return Object.assign(
    ([a, b]: readonly Float64Array[], [n, m]: readonly number[], out: Float64Array): void => {
      const rows = new Int32Array(n! + m!);
      rows.set(a!.subarray(0, n));
      rows.set(b!.subarray(0, m), n);
      ofRows(rows, Int32Array.of(0, n!, n! + m!), out);
    },
    {
      of: ([a, b]: readonly Float64Array[]): PickedFigures =>
        pick(layOut(columns[0], a!), layOut(columns[1], b!)),
    },
  );
}

/** Every part of the rows as they are, on a grid on which parts add up to the last digit. */
function observedOf(figures: Figures, columns: readonly [Columns, Columns], asked: Plan["asked"]): number[] {
  const observed = new Float64Array(outputs[asked]);
  figures(
    columns.map((side) => Float64Array.from(rowNumbers(side))),
    columns.map(({ n }) => n),
    observed,
  );
  const exact = [...observed].map(onGrid);
  exact[BEYOND] = exact[GAP]! - exact[PITCH]!;
  if (asked === "all") exact[LEFT] = exact[BEYOND] - exact[PLACE]! - exact[BAT]!;
  return exact;
}

/** Every part with its interval. */
function withIntervals(
  exact: readonly number[],
  figures: Figures,
  columns: readonly [Columns, Columns],
  bySession: readonly Grouped[],
  groups: number | null,
): Figure[] {
  const found = intervalsOf(bySession, figures, exact, (k) =>
    columns.map(({ value, pitch, bat }) => ownVariance(k === PITCH ? pitch : k === BAT ? bat : value)),
  );
  if (groups !== null) found[PLACE] = placeUncertainty(groups, columns, bySession, exact[PLACE]!);
  return exact.map((value, k): Figure => ({
    value,
    low: found[k]?.low ?? value,
    high: found[k]?.high ?? value,
    se: found[k]?.se ?? 0,
    freedom: found[k]?.freedom ?? null,
    reason: null,
  }));
}

/** Everything both splits have in common. */
function split(
  measure: SplitGap["measure"],
  sides: Sides,
  q: number,
  asked: Plan["asked"] = "all",
): {
  split: Omit<SplitGap, "parts" | "contrasts">;
  figures: readonly Figure[];
  told: Plan;
  why: Readonly<Record<string, string>>;
} {
  const ground = groundOf(measure, sides);
  const { chosen, groups, placed, valueOf } = ground;
  const [from, to] = chosen;
  const { told, why } = planOf(ground, q, asked);
  const notes = notesOn(ground, told);
  const columns = columnsOf(ground);
  const bySession = chosen.map((rows, s) =>
    group(
      rowNumbers(columns[s]!),
      rows.map((r) => r.session),
    ),
  );
  const side = (s: 0 | 1) => ({
    n: chosen[s].length,
    sessions: bySession[s]!.groups,
    mean: meanOf([...columns[s].value]),
  });
  const base = { measure, from: side(0), to: side(1), notes };
  const cells = asked === "all" ? groups.map((g) => cellSplit(g, from, to, valueOf, placed)) : [];
  const ended = (figures: readonly Figure[], resampled: SplitGap["resampled"] = null) => ({
    split: { ...base, gap: figures[GAP]!, cells, resampled },
    figures,
    told,
    why,
  });
  const balls = `${from.length} and ${to.length} balls in play`;
  if (from.length === 0 || to.length === 0)
    return ended(Array.from({ length: outputs[asked] }, () => none(`too few to compare: ${balls}`)));
  const figures = figuresOf(told, columns);
  const exact = observedOf(figures, columns, asked);
  if (Math.min(from.length, to.length) < fewestForInterval)
    return ended(exact.map((value) => ({ ...none(`too few for an interval: ${balls}`), value })));
  const all = withIntervals(exact, figures, columns, bySession, told.place ? groups.length : null);
  if (all[GAP]!.se === 0)
    notes.push("Every ball of a side has the same value: nothing tells how much it would move.");
  return ended(all, resampledOf(bySession));
}

/** The variance of a column's mean, were its swings independent; unknown ones left out. */
function ownVariance(column: Float64Array): number {
  const values = column.filter((v) => v === v);
  return values.length < 2 ? 0 : spread(values, values.length) ** 2 / values.length;
}

/** Place is a product of two uncertain things, and has a standard error of its own. */
function placeUncertainty(
  groups: number,
  columns: readonly [Columns, Columns],
  bySession: readonly Grouped[],
  value: number,
): Uncertainty | null {
  const sides = columns.map(({ value, group, n }, s) => {
    const session = new Int32Array(n);
    const { values: rows, starts, groups: sessions } = bySession[s]!;
    for (let k = 0; k < sessions; k++)
      for (let i = starts[k]!; i < starts[k + 1]!; i++) session[rows[i]!] = k;
    return { value, group, session };
  });
  const doubt = mixDoubt(groups, sides[0]!, sides[1]!);
  if (doubt === null) return null;
  const half = t95(doubt.freedom) * doubt.se;
  return { low: value - half, high: value + half, ...doubt };
}

function cellCounts(rows: readonly ReadySwing[]): number[] {
  const counts = Array<number>(9).fill(0);
  for (const { cell } of rows) if (cell !== null) counts[cell]!++;
  return counts;
}

function tooFewOf(
  what: string,
  values: readonly (readonly number[])[],
  rows: readonly (readonly ReadySwing[])[],
): string {
  const [a, b] = values.map((v, s) => `${v.length} of ${rows[s]!.length}`);
  return values.every((v) => v.length === 0)
    ? `no ${what} was measured`
    : `too few balls with a ${what}: ${a} and ${b}`;
}

function cellSplit(
  { cells, name }: { cells: readonly number[]; name: string },
  from: readonly ReadySwing[],
  to: readonly ReadySwing[],
  valueOf: (r: ReadySwing) => number | null,
  placed: readonly [number, number],
): CellSplit {
  const [a, b] = [from, to].map((rows) =>
    rows.filter((r) => r.cell !== null && cells.includes(r.cell)).map((r) => valueOf(r)!),
  ) as [number[], number[]];
  const middle = (rows: readonly ReadySwing[]) =>
    meanOf(rows.filter((r) => r.cell !== null).map((r) => valueOf(r)!));
  const [ma, mb] = [meanOf(a), meanOf(b)];
  const [sa, sb] = [a.length / (placed[0] || 1), b.length / (placed[1] || 1)];
  // The shares' changes add up to nothing, so the reference changes no sum, only what each cell is held against.
  const [ra, rb] = [middle(from), middle(to)];
  const reference = ra === null || rb === null ? 0 : (ra + rb) / 2;
  const here = ((ma ?? mb ?? 0) + (mb ?? ma ?? 0)) / 2;
  return {
    cells,
    name,
    from: { n: a.length, share: sa, mean: ma },
    to: { n: b.length, share: sb, mean: mb },
    place: (sb - sa) * (here - reference),
  };
}

/**
 * The exit-velocity gap in parts: pitch speed, q·(change of mean pitch speed); place, Kitagawa's split over the
 * cells; bat speed, (1 + q)·(change of bat speed at like places); contact, what is left. A part that can't be
 * told says why, and is left in contact.
 * @param sides one hitter's swings, both kinds of work
 * @example splitExitVelocity({ from: [], to: [] }, { thresholds: { collision_q: 0.2 } }).gap.value // null
 */
export function splitExitVelocity(
  sides: Sides,
  { thresholds }: Pick<Ready, "thresholds">,
): ExitVelocitySplit {
  const { split: base, figures, told, why } = split("exit_velocity", sides, thresholds.collision_q);
  const [from, to] = [sides.from, sides.to].map((rows) => inPlay(rows)) as [ReadySwing[], ReadySwing[]];
  const pitches = [from, to].map((rows) => known(rows, (r) => r.plate_speed_mph)) as [number[], number[]];
  const bats = [from, to].map((rows) => known(rows, (r) => r.bat_speed_mph)) as [number[], number[]];
  const [batFrom, batTo] = bats.map(meanOf);
  const withoutPitch = why["pitch speed"];
  return {
    ...base,
    measure: "exit_velocity",
    parts: [
      partOf("pitch speed", told.pitch, figures[PITCH]!, why),
      partOf("place", told.place, figures[PLACE]!, why),
      partOf("bat speed", told.bat, figures[BAT]!, why),
      { part: "contact", ...figures[LEFT]! },
    ],
    contrasts: [
      ...(told.place && told.bat ? [contrastOf("place", "bat speed", figures[FROM_PLACE_BAT]!)] : []),
      ...(told.place ? [contrastOf("place", "contact", figures[FROM_PLACE_LEFT]!)] : []),
      ...(told.bat ? [contrastOf("bat speed", "contact", figures[FROM_BAT_LEFT]!)] : []),
    ],
    predicted: told.pitch ? figures[PREDICTED]! : none(withoutPitch ?? "no pitch speed"),
    beyondPitch: beyondOf(told, figures, why),
    pitch: { from: meanOf(pitches[0]), to: meanOf(pitches[1]), n: pitches[1].length },
    batSpeed: {
      value: batFrom == null || batTo == null ? null : batTo - batFrom,
      from: bats[0].length,
      to: bats[1].length,
    },
  };
}

/**
 * The part of the exit-velocity gap that is the hitter's own, as `splitExitVelocity` has it, without the parts that it is
 * made of.
 * @param sides one hitter's swings, both kinds of work
 * @example beyondPitchOf({ from: [], to: [] }, { thresholds: { collision_q: 0.2 } }).beyondPitch.value // null
 */
export function beyondPitchOf(
  sides: Sides,
  { thresholds }: Pick<Ready, "thresholds">,
): Pick<ExitVelocitySplit, "from" | "to" | "beyondPitch"> {
  const { split: base, figures, told, why } = split("exit_velocity", sides, thresholds.collision_q, "pitch");
  return { from: base.from, to: base.to, beyondPitch: beyondOf(told, figures, why) };
}

const beyondOf = (told: Plan, figures: readonly Figure[], why: Readonly<Record<string, string>>): Figure =>
  told.pitch ? figures[BEYOND]! : none(why["pitch speed"] ?? "no pitch speed");

/**
 * The launch-angle gap in parts: place, Kitagawa's split over the cells, and the rest.
 * @example splitLaunchAngle({ from: [], to: [] }).parts.length // 2
 */
export function splitLaunchAngle(sides: Sides): SplitGap {
  const { split: base, figures, told, why } = split("launch_angle", sides, 0);
  return {
    ...base,
    parts: [partOf("place", told.place, figures[PLACE]!, why), { part: "rest", ...figures[LEFT]! }],
    contrasts: told.place ? [contrastOf("place", "rest", figures[FROM_PLACE_LEFT]!)] : [],
  };
}

const contrastOf = (a: PartName, b: PartName, figure: Figure): PartContrast => ({ parts: [a, b], ...figure });

function partOf(
  part: PartName,
  told: boolean,
  figure: Figure,
  why: Readonly<Record<string, string>>,
): GapPart {
  return figure.value === null || told ? { part, ...figure } : { part, ...none(why[part]!) };
}
