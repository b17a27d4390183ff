/** A gap across hitters: each one's own figure, and drawn toward the group by as much as it is doubtful. */
import { standing } from "../stats/holm.ts";
import { z95 } from "../stats/normal.ts";
import { derSimonianLaird, drawIn, type DrawnIn, type RandomEffects } from "../stats/randomEffects.ts";
import { t95, tTail } from "../stats/beta.ts";
import type { Input } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import { measureGap, type GapOptions, type MeasureGap } from "./gap.ts";
import { measureNamed, type MeasureName } from "./measures.ts";
import { splitExitVelocity, type ExitVelocitySplit } from "./parts.ts";
import { noGroupSentence, orderSentence, tooFewToRankSentence } from "../views/sentences/group.ts";
import { sidesOf, type Ready } from "./rows.ts";

/** The exit-velocity gap less the pitch's part: what is left to rank hitters by. */
export const beyondPitch = "exit_velocity_beyond_pitch";

/** With fewer swings than this on a side a hitter's place in an order says nothing. Common practice, no source. */
export const fewestToRank = 15;

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
  /** Drawn toward the group; null without an interval of one's own, or without a group. */
  readonly drawn: DrawnIn | null;
  /** Why this hitter's place in the order says nothing; null when it may say something. */
  readonly warning: string | null;
}

/** A gap across hitters. */
export interface Across {
  readonly measure: MeasureName;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down" | null;
  readonly from: Input;
  readonly to: Input;
  /** The largest drawn-in gap first, then those without one, by name. */
  readonly hitters: readonly HitterEffect[];
  /** The group; null with fewer than two hitters who have an interval. */
  readonly group: (RandomEffects & { readonly low: number; readonly high: number }) | null;
  /** Pairs of hitters whose gaps differ by more than chance, all pairs looked at together (Holm), and all pairs. */
  readonly pairs: { readonly clear: number; readonly all: number };
  readonly method: string;
  readonly notes: readonly string[];
}

/** Where a hitter's own comparison comes from: computed anew, or kept by a caller who shows it as well. */
export interface OwnGaps {
  readonly measure?: (hitter: string) => MeasureGap;
  readonly split?: (hitter: string) => ExitVelocitySplit;
}

const method =
  "Each hitter's gap is drawn toward the group's mean by empirical Bayes; the spread between hitters, τ², is DerSimonian and Laird's.";

/**
 * One measure's gap for every hitter with swings on either side, raw and drawn in.
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
      const split = own.split?.(hitter) ?? splitExitVelocity(sides, ready);
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
    return [{ hitter, value, variance: se ** 2, freedom }];
  });
  const values = usable.map((u) => u.value);
  const variances = usable.map((u) => u.variance);
  const group = derSimonianLaird(values, variances);
  const drawn =
    group === null
      ? []
      : drawIn(
          values,
          variances,
          group,
          usable.map((u) => u.freedom),
        );
  const drawnOf = new Map(usable.map(({ hitter }, i) => [hitter, drawn[i] ?? null]));
  const hitters = rows
    .map(({ hitter, n, raw: { value, low, high, reason } }): HitterEffect => {
      const drawnIn = drawnOf.get(hitter) ?? null;
      return { hitter, n, raw: { value, low, high, reason }, drawn: drawnIn, warning: warningOf(n, drawnIn) };
    })
    .sort(
      (a, b) =>
        Number(a.drawn === null) - Number(b.drawn === null) ||
        (b.drawn?.value ?? 0) - (a.drawn?.value ?? 0) ||
        (a.hitter < b.hitter ? -1 : 1),
    );
  const pairs = pairsOf(usable);
  const half = group === null ? 0 : t95(group.k - 1) * group.se;
  return {
    measure,
    title: beyond ? "Exit velocity beyond the pitch's part, mean" : described.title,
    unit: described.unit,
    better: described.better,
    from,
    to,
    hitters,
    group: group === null ? null : { ...group, low: group.mean - half, high: group.mean + half },
    pairs,
    method,
    notes: notesOf(hitters, group, pairs),
  };
}

function warningOf(n: HitterEffect["n"], drawn: DrawnIn | null): string | null {
  if (drawn === null) return "no interval, so no place in the order";
  if (Math.min(n.from, n.to) < fewestToRank)
    return `too few swings to rank: ${n.from} and ${n.to}, where ${fewestToRank} on each side are wanted`;
  if (drawn.own < 0.5) return "more the group's figure than the hitter's own";
  return null;
}

/** A hitter's own figure, with its variance and degrees of freedom. */
interface Own {
  readonly value: number;
  readonly variance: number;
  readonly freedom: number | null;
}

/**
 * Pairs of hitters whose own gaps differ by more than chance, all pairs looked at together: on the figures as they are,
 * for pooled ones hang together through the group. Degrees of freedom after Welch and Satterthwaite.
 */
function pairsOf(own: readonly Own[]): Across["pairs"] {
  const ps = own.flatMap((a, i) =>
    own.slice(i + 1).map((b) => {
      const variance = a.variance + b.variance;
      const lost = [a, b].reduce((sum, o) => sum + (o.freedom === null ? 0 : o.variance ** 2 / o.freedom), 0);
      return tTail((a.value - b.value) / Math.sqrt(variance), lost > 0 ? variance ** 2 / lost : null);
    }),
  );
  return { clear: standing(ps).filter(Boolean).length, all: ps.length };
}

function notesOf(
  hitters: readonly HitterEffect[],
  group: RandomEffects | null,
  pairs: Across["pairs"],
): string[] {
  const notes: string[] = [];
  if (group === null) {
    notes.push(noGroupSentence);
    return notes;
  }
  if (group.tau2 === 0)
    notes.push("The hitters differ no more than chance would have it: all are drawn in to the group's mean.");
  const order = orderSentence(pairs);
  if (order !== null) notes.push(order);
  const few = tooFewToRankSentence(
    hitters.filter((h) => h.warning?.startsWith("too few")).map((h) => h.hitter),
  );
  if (few !== null) notes.push(few);
  return notes;
}
