/** How many swings a measure needs until it tells hitters apart. */
import { mean, rollup } from "d3-array";
import { byStratum, oneWayIcc, spearmanBrown, splitHalf, valuesFor, type Icc } from "../stats/reliability.ts";
import type { Input } from "../swing/fields.ts";
import { gapMeasures, sampleOf, type MeasureName } from "./measures.ts";
import { sidesOf, type GapScope, type Ready } from "./rows.ts";
import {
  comparedSentence,
  fewestHitters,
  fewestSwings,
  fewHittersSentence,
  neverStabilizes,
  stabilizesSentence,
  untoldSentence,
  type Untold,
} from "../views/sentences/stabilizes.ts";

/** The reliability asked for: seven tenths of what is seen between hitters is theirs. Common practice, no source. */
export const stableAt = 0.7;

/** How one measure stabilizes in one kind of work. */
export interface Stabilizing {
  readonly measure: MeasureName;
  readonly title: string;
  readonly input: Input;
  /** What one swing's reading is. */
  readonly reading: string;
  readonly hitters: number;
  readonly swings: number;
  /** Reliability of one swing: of what hitters differ by within their level, where there are several. */
  readonly icc: Icc;
  /**
   * Swings until `stableAt`, rounded up, with the ends of the ICC's interval. Null: can't be told, for hitters don't
   * differ clearly: the interval reaches 0, or what they differ by is no more than what their days differ by.
   */
  readonly needed: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
  };
  /** The second opinion: the correlation of halves, and what it makes of the swings needed. */
  readonly halves: {
    readonly perHalf: number;
    readonly correlation: number | null;
    readonly needed: number | null;
  };
  /** Reliability after so many swings; empty where `needed` can't be told. */
  readonly curve: readonly {
    readonly swings: number;
    readonly reliability: number;
    readonly low: number;
    readonly high: number;
  }[];
  readonly words: string;
  /** Who is compared with whom, where it is not all with all; null where it is. */
  readonly caveat: string | null;
}

/** Swings at which the curve is given. */
const curveAt = [1, 2, 3, 5, 7, 10, 15, 20, 30, 40, 50, 75, 100, 150, 200, 300];
/**
 * Every measure that a single swing has a reading of, in one kind of work. A spread's reading is the swing's
 * distance from the hitter's mean; the top end has none. Hitters are compared with those of their level: a child and
 * a grown hitter are told apart by one swing, and that says nothing of two hitters of one team.
 * @param ready from `makeReady`
 * @example stabilizing({ swings: [], hitters: [], levels: new Map(), thresholds: {} }, "tee")[0].needed.value // null
 */
export function stabilizing(
  ready: Ready,
  input: Input,
  scope: Omit<GapScope, "from" | "to"> = {},
): Stabilizing[] {
  const rows = ready.hitters.map((h) => sidesOf(ready, h, { ...scope, from: input, to: input }).from);
  const levels = ready.hitters.map((h) => ready.levels.get(h) ?? null);
  return gapMeasures
    .filter(({ kind }) => !(typeof kind === "object" && kind.quantile !== 0.5))
    .map((measure) => {
      const days: (readonly (string | null)[])[] = [];
      const all = rows.map((list) => {
        const { values, sessions } = sampleOf(measure, list, ready.thresholds);
        days.push(sessions);
        if (values.length < fewestSwings) return [];
        return measure.kind === "spread" ? distances(values) : values;
      });
      const strata = byStratum(all, fewestSwings, levels);
      const members = strata.flat();
      const enough = all.filter((list) => list.length > 0).length;
      const { name, title } = measure;
      const reading =
        measure.kind === "spread"
          ? "distance from the hitter's mean"
          : measure.kind === "share"
            ? "yes or no"
            : "the value itself";
      // One hitter of each level only says where the level lies.
      const few = members.length - strata.length < fewestHitters - 1;
      const icc = oneWayIcc(few ? [] : all, levels);
      const halves = splitHalf(few ? [] : all, levels);
      const why = few ? "few" : whyUntold(icc, all, days, levels);
      const needed =
        why === null
          ? {
              value: swingsFor(icc.value),
              // The more reliable a swing, the fewer are needed.
              low: swingsFor(icc.high),
              high: swingsFor(icc.low),
            }
          : { value: null, low: null, high: null };
      const single =
        why !== null || halves.correlation === null || halves.correlation <= 0
          ? null
          : // Spearman and Brown from a half down to one swing.
            spearmanBrown(halves.correlation, 1 / halves.perHalf);
      return {
        measure: name,
        title,
        input,
        reading,
        hitters: few ? enough : members.length,
        swings: (few ? all : members).reduce((sum, list) => sum + list.length, 0),
        icc,
        needed,
        halves: { perHalf: halves.perHalf, correlation: halves.correlation, needed: swingsFor(single) },
        curve: why === null ? curveOf(icc) : [],
        words:
          why === "few"
            ? fewHittersSentence(nameOf(title), enough, ready.levels.size > 0)
            : why === null
              ? stabilizesSentence(nameOf(title), needed)
              : untoldSentence(nameOf(title), why),
        caveat: few
          ? null
          : comparedSentence(
              strata.length,
              enough - members.length,
              all.some((list, i) => list.length > 0 && levels[i] === null),
            ),
      };
    });
}

/** Distances from the mean, put up for the mean being the values' own. */
function distances(values: readonly number[]): number[] {
  const middle = mean(values)!;
  const by = Math.sqrt(values.length / (values.length - 1));
  return values.map((v) => by * Math.abs(v - middle));
}

/**
 * Null where hitters differ clearly: the ICC's interval leaves 0 out, of swings, and of the means of days where hitters
 * have several.
 */
function whyUntold(
  icc: Icc,
  values: readonly (readonly number[])[],
  sessions: readonly (readonly (string | null)[])[],
  levels: readonly (string | null)[],
): Untold | null {
  if (icc.value === null || icc.low === null) return "same";
  if (icc.low <= 0) return "alike";
  const days = values.map((list, h) => dayMeans(list, sessions[h]!));
  if (days.every((list) => list === null)) return null;
  const known = days.map((list) => list ?? []);
  if (known.every((list) => list.length < 2)) return "oneDay";
  return (oneWayIcc(known, levels).low ?? 0) > 0 ? null : "days";
}

/** The mean of each day; null where no session is named. */
function dayMeans(values: readonly number[], sessions: readonly (string | null)[]): number[] | null {
  if (sessions.every((name) => name === null)) return null;
  return [
    ...rollup(
      values.map((value, i) => ({ value, session: sessions[i] ?? null })),
      (list) => mean(list, (v) => v.value)!,
      (v) => v.session,
    ).values(),
  ];
}

function swingsFor(single: number | null): number | null {
  if (single === null) return null;
  const swings = Math.max(1, Math.ceil(valuesFor(stableAt, single) - 1e-9));
  return swings > neverStabilizes ? null : swings;
}

function curveOf({ value, low, high }: Icc): Stabilizing["curve"] {
  if (value === null || value <= 0) return [];
  const at = (single: number | null, swings: number): number =>
    spearmanBrown(Math.min(1, Math.max(0, single ?? 0)), swings);
  return curveAt.map((swings) => ({
    swings,
    reliability: at(value, swings),
    low: at(low, swings),
    high: at(high, swings),
  }));
}

const nameOf = (title: string): string => title.replace(/, (mean|median|share)$/, "");
