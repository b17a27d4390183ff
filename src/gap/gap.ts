/** One hitter's gap between two kinds of work: every measure, and what exit velocity and launch angle owe to what. */
import { append } from "../swing/lists.ts";
import type { Difference } from "../stats/difference.ts";
import type { Estimate } from "../stats/estimate.ts";
import { inputs, type Input } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import type { UnitSystem } from "../units/system.ts";
import { gapWords, noSwingsSentence } from "../views/sentences/gap.ts";
import { provisos } from "../views/provisos.ts";
import { fewDaysSentence, oneSessionSentence } from "../views/sentences/days.ts";
import type { Measure } from "../views/measures.ts";
import {
  differenceOf,
  estimateOf,
  gapMeasures,
  measureNamed,
  sampleOf,
  type CeilingBasis,
  type MeasureName,
} from "./measures.ts";
import { splitExitVelocity, splitLaunchAngle, type ExitVelocitySplit, type SplitGap } from "./parts.ts";
import { sidesOf, type GapScope, type Ready, type Sides } from "./rows.ts";

/** One measure of one hitter in one kind of work. */
export interface MeasureRow extends Estimate {
  readonly hitter: string;
  readonly input: Input;
  readonly measure: MeasureName;
  readonly title: string;
  readonly unit: UnitName;
  readonly sessions: number;
}

/** One measure's gap. */
export interface MeasureGap extends Difference {
  readonly measure: MeasureName;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  /** Sessions on each side. */
  readonly sessions: { readonly from: number; readonly to: number };
  /** In plain words: by how much, or that it could be chance. */
  readonly words: string;
}

/** A hitter's gap. */
export interface HitterGap {
  readonly hitter: string;
  readonly from: Input;
  readonly to: Input;
  /** Rows in scope: every swing, pitch and miss. */
  readonly swings: { readonly from: number; readonly to: number };
  readonly measures: readonly MeasureGap[];
  readonly exitVelocity: ExitVelocitySplit;
  readonly launchAngle: SplitGap;
  /** What the reader must know before any figure. One sentence each. */
  readonly notes: readonly string[];
}

/** How to compare. */
export interface GapOptions extends GapScope {
  /** The measures wanted; all when not given. */
  readonly measures?: readonly MeasureName[];
  readonly system?: UnitSystem;
}

const sessionsIn = (sessions: readonly (string | null)[]): number => new Set(sessions).size;

const wanted = (names: readonly MeasureName[] | undefined): readonly Measure[] =>
  names === undefined ? gapMeasures : names.map(measureNamed);

/**
 * Every measure of one hitter in each kind of work, with n and interval.
 * @param ready from `makeReady`
 * @throws RangeError when a measure has no such name
 * @example measureTable({ swings: [], hitters: [], thresholds: {} }, "A").length // 0
 */
export function measureTable(ready: Ready, hitter: string, options: GapOptions = {}): MeasureRow[] {
  return inputs.flatMap((input) => {
    const sides = sidesOf(ready, hitter, { ...options, from: input, to: input });
    const rows = sides.from;
    if (rows.length === 0) return [];
    return wanted(options.measures).map((measure) => {
      const sample = sampleOf(measure, rows, ready.thresholds);
      const { name, title, unit } = measure;
      const sessions = sessionsIn(sample.sessions);
      return {
        hitter,
        input,
        measure: name,
        title,
        unit,
        sessions,
        ...estimateOf(measure, sample, basisOf(sides, ready)),
      };
    });
  });
}

const basisOf = ({ ceilings }: Sides, { thresholds }: Pick<Ready, "thresholds">): CeilingBasis | undefined =>
  ceilings === undefined ? undefined : { swings: ceilings, thresholds };

/**
 * One measure's gap, to − from, of two sides.
 * @example gap({ swings: [], hitters: [], thresholds: { collision_q: 0.2 } }, "A", { measures: ["carry"] }).measures[0].value // null
 */
export function measureGap(
  measure: Measure,
  sides: Sides,
  { thresholds }: Pick<Ready, "thresholds">,
  system: UnitSystem = "us",
): MeasureGap {
  const [from, to] = [sides.from, sides.to].map((rows) => sampleOf(measure, rows, thresholds));
  const difference = differenceOf(measure, from!, to!, basisOf(sides, { thresholds }));
  const { name, title, unit, better } = measure;
  return {
    measure: name,
    title,
    unit,
    better,
    ...difference,
    sessions: { from: sessionsIn(from!.sessions), to: sessionsIn(to!.sessions) },
    words: gapWords(difference, unit, system),
  };
}

/**
 * One hitter's gap between two kinds of work, tee to live unless told otherwise.
 * @param ready from `makeReady`
 * @returns nulls with their reason where there is too little; never NaN
 * @throws RangeError when a measure has no such name, or both kinds of work are the same
 * @example gap({ swings: [], hitters: [], thresholds: { collision_q: 0.2 } }, "A").exitVelocity.gap.value // null
 */
export function gap(ready: Ready, hitter: string, options: GapOptions = {}): HitterGap {
  const { from = "tee", to = "live", system = "us" } = options;
  if (from === to)
    throw new RangeError(`a gap lies between two kinds of work, not between ${from} and ${to}`);
  const sides = sidesOf(ready, hitter, { ...options, from, to });
  const notes: string[] = [];
  for (const [input, rows] of [
    [from, sides.from],
    [to, sides.to],
  ] as const) {
    if (rows.length === 0) notes.push(noSwingsSentence(hitter, input));
  }
  append(notes, provisos([...sides.from, ...sides.to], [from, to]));
  const exitVelocity = splitExitVelocity(sides, ready);
  if (exitVelocity.resampled === "swings") notes.push(oneSessionSentence);
  else if (exitVelocity.resampled === "sessions") {
    const works = [
      { input: from, sessions: exitVelocity.from.sessions },
      { input: to, sessions: exitVelocity.to.sessions },
    ];
    const few = fewDaysSentence(works);
    if (few !== null) notes.push(few);
  }
  return {
    hitter,
    from,
    to,
    swings: { from: sides.from.length, to: sides.to.length },
    measures: wanted(options.measures).map((measure) => measureGap(measure, sides, ready, system)),
    exitVelocity,
    launchAngle: splitLaunchAngle(sides),
    notes,
  };
}
