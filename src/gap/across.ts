/** A gap across hitters: each one's own figure, and pooled with the group by as much as it is uncertain. */
import { z95 } from "../stats/normal.ts";
import { clearPairs } from "../stats/pairs.ts";
import { derSimonianLaird, pooled, type Pooled } from "../stats/randomEffects.ts";
import { byName } from "../swing/byName.ts";
import type { Input } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { measureGap, type GapOptions, type MeasureGap } from "./gap.ts";
import { measureNamed, type MeasureName } from "./measures.ts";
import { beyondPitchOf, type ExitVelocitySplit } from "./parts.ts";
import {
  noDifferenceSentence,
  noGroupSentence,
  orderSentence,
  tooFewToRankSentence,
} from "../views/sentences/group.ts";
import { sidesOf, type Ready } from "./rows.ts";

/** The exit-velocity gap less the pitch's part: what is left to rank hitters by. */
export const beyondPitch = "exit_velocity_beyond_pitch";

/** With fewer swings than this on a side a hitter's place in an order says nothing. Common practice, no source. */
const fewestToRank = 15;

/** One hitter's gap. */
export interface HitterEffect {
  readonly hitter: string;
  readonly n: { readonly from: number; readonly to: number };
  /** The hitter's own figure. */
  readonly raw: {
    readonly value: number | null;
    readonly low: number | null;
    readonly high: number | null;
    readonly reason: string | null;
  };
  /** Pooled with the group; null without an interval of one's own, or without a group. */
  readonly pooled: Pooled | null;
  /** Hitters whose gap is clearly smaller, less those whose is clearly larger: all an order may go by. Null without an interval. */
  readonly ahead: number | null;
  /** Why this hitter's place in the order says nothing; null when it may say something. */
  readonly warning: string | null;
}

/** The hitters' group. */
export interface Group {
  /** How many hitters are in it. */
  readonly k: number;
  readonly mean: number;
  readonly se: number;
  readonly low: number;
  readonly high: number;
  /** How much hitters truly differ: standard deviation of their gaps, with its 95 % interval. */
  readonly tau: { readonly value: number; readonly low: number; readonly high: number };
  /** Whether the gaps differ by more than their uncertainty would make them differ. */
  readonly differ: boolean;
}

/** A gap across hitters. */
export interface Across {
  readonly measure: MeasureName;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  readonly from: Input;
  readonly to: Input;
  /** The largest pooled gap first, then those without one, by name. */
  readonly hitters: readonly HitterEffect[];
  /** The group; null with fewer than two hitters who have an interval. */
  readonly group: Group | null;
  /** Pairs of hitters whose gaps differ by more than chance, all pairs looked at together (Holm), and all pairs. */
  readonly pairs: { readonly clear: number; readonly all: number };
  readonly method: string;
  readonly notes: readonly string[];
}

/** Where a hitter's own comparison comes from: computed anew, or kept by a caller who shows it as well. */
export interface OwnGaps {
  readonly measure?: (hitter: string) => MeasureGap;
  readonly split?: (hitter: string) => Pick<ExitVelocitySplit, "from" | "to" | "beyondPitch">;
}

const method =
  "Each hitter's gap is pooled with the group's: averaged over how much hitters may truly differ (τ), each τ counted by how well it fits, none preferred (Gelman, 2006).";

/**
 * One measure's gap for every hitter with swings on either side, raw and pooled.
 * @param measure a measure's name, or `beyondPitch`
 * @param own what is kept of the same scope; none: everything is computed
 * @throws RangeError when there is no such measure
 * @example acrossHitters({ swings: [], hitters: [], thresholds: {} }, "carry").hitters // []
 */
export function acrossHitters(
  ready: Ready,
  measure: MeasureName,
  options: GapOptions = {},
  own: OwnGaps = {},
): Across {
  const { from = "tee", to = "live" } = options;
  const beyond = measure === beyondPitch;
  const described = measureNamed(beyond ? "exit_velocity" : measure);
  const rows = ready.hitters.flatMap((hitter) => {
    const sides = sidesOf(ready, hitter, { ...options, from, to });
    if (sides.from.length + sides.to.length === 0) return [];
    if (beyond) {
      const split = own.split?.(hitter) ?? beyondPitchOf(sides, ready);
      const raw = split.beyondPitch;
      return [{ hitter, n: { from: split.from.n, to: split.to.n }, raw }];
    }
    const gap = own.measure?.(hitter) ?? measureGap(described, sides, ready);
    const { from: a, to: b, value, low, high, se, freedom, reason } = gap;
    return [{ hitter, n: { from: a.n, to: b.n }, raw: { value, low, high, se, freedom, reason } }];
  });
  const usable = rows.flatMap(({ hitter, raw }) => {
    const { value, low, high, freedom } = raw;
    if (value === null || low === null || high === null || !(high > low)) return [];
    // An interval without a standard error of its own is a normal one's: a share that was the same on every
    // resample has an interval of its own kind, and 0 from the bootstrap.
    const se = raw.se !== null && raw.se > 0 ? raw.se : (high - low) / (2 * z95);
    // The normal distribution with the same interval, for pooling: few degrees of freedom are then in its width.
    return [{ hitter, value, variance: se ** 2, wide: (high - low) / (2 * z95), freedom }];
  });
  const values = usable.map((u) => u.value);
  const variances = usable.map((u) => u.wide ** 2);
  const found = pooled(values, variances);
  const pooledOf = new Map(usable.map(({ hitter }, i) => [hitter, found?.members[i] ?? null]));
  // On the figures as they are, for pooled ones hang together through the group.
  const { clear, all, ahead } = clearPairs(usable);
  const pairs = { clear, all };
  const aheadOf = new Map(usable.map(({ hitter }, i) => [hitter, ahead[i]!]));
  const hitters = rows
    .map(({ hitter, n, raw: { value, low, high, reason } }): HitterEffect => {
      const own = pooledOf.get(hitter) ?? null;
      const raw = { value, low, high, reason };
      return { hitter, n, raw, pooled: own, ahead: aheadOf.get(hitter) ?? null, warning: warningOf(n, own) };
    })
    .sort(
      (a, b) =>
        Number(a.pooled === null) - Number(b.pooled === null) ||
        (b.pooled?.value ?? 0) - (a.pooled?.value ?? 0) ||
        byName(a.hitter, b.hitter),
    );
  const group: Group | null =
    found === null
      ? null
      : {
          k: values.length,
          mean: found.mean.value,
          se: found.mean.se,
          low: found.mean.low,
          high: found.mean.high,
          tau: found.tau,
          differ: derSimonianLaird(values, variances)!.tau2 > 0,
        };
  return {
    measure,
    title: beyond ? "Exit velocity beyond the pitch's part, mean" : described.title,
    unit: described.unit,
    better: described.better,
    from,
    to,
    hitters,
    group,
    pairs,
    method,
    notes: notesOf(hitters, group, pairs),
  };
}

function warningOf(n: HitterEffect["n"], own: Pooled | null): string | null {
  if (own === null) return "no interval, so no place in the order";
  if (Math.min(n.from, n.to) < fewestToRank)
    return `too few swings to rank: ${n.from} and ${n.to}, where ${fewestToRank} on each side are wanted`;
  if (own.own < 0.5) return "more the group's figure than the hitter's own";
  return null;
}

function notesOf(hitters: readonly HitterEffect[], group: Group | null, pairs: Across["pairs"]): string[] {
  const notes: string[] = [];
  if (group === null) {
    notes.push(noGroupSentence);
    return notes;
  }
  if (!group.differ) notes.push(noDifferenceSentence);
  const order = orderSentence(pairs);
  if (order !== null) notes.push(order);
  const few = tooFewToRankSentence(
    hitters.filter((h) => h.warning?.startsWith("too few")).map((h) => h.hitter),
  );
  if (few !== null) notes.push(few);
  return notes;
}
