/** A group of hitters over a span of days: who did what, and a few figures of each, pooled with the group. */
import { acrossHitters, beyondPitch, type OwnGaps } from "../gap/across.ts";
import { readyIn, type Ready, type ReadySwing } from "../gap/rows.ts";
import { clearPairs } from "../stats/pairs.ts";
import { logOdds, pooledShares } from "../stats/pooledShares.ts";
import type { Share } from "../stats/share.ts";
import { inputs, type Input, type Target } from "../swing/fields.ts";
import type { UnitName } from "../units/index.ts";
import type { SwingScope } from "../views/filter.ts";
import type { Span } from "../views/sessions.ts";
import { inPlay, ofInput, wellHitShare } from "../views/swings.ts";
import { metTogether, targetResult } from "../views/target.ts";

/** One hitter's figure in a column. */
export interface GroupCell {
  /** What it rests on, in words: "12 of 20", or both sides of a gap. */
  readonly count: string;
  /** The hitter's own; null where there is none. */
  readonly own: number | null;
  /** Pooled with the group; the hitter's own interval where there is no group. Null where there is no interval. */
  readonly shown: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** Hitters clearly below less hitters clearly above, all pairs looked at together; null without an interval. */
  readonly ahead: number | null;
}

/** A figure of every hitter, on one scale. */
export interface GroupColumn {
  readonly name: string;
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down";
  /** In the order of the hitters. */
  readonly cells: readonly GroupCell[];
  readonly mean: { readonly value: number; readonly low: number; readonly high: number } | null;
  readonly pairs: { readonly clear: number; readonly all: number };
}

/** What one hitter did. */
export interface GroupRow {
  readonly hitter: string;
  readonly level: string | null;
  readonly sessions: number;
  /** The last day with a swing in the span; null where no day is known, or no swing. */
  readonly last: string | null;
  readonly swings: Readonly<Record<Input, number>>;
}

/** A group over a span. */
export interface GroupSpan {
  /** Every hitter of the library, by name: who did nothing stands there too. */
  readonly rows: readonly GroupRow[];
  /** The last is the gap between tee and live, beyond the pitch's part. */
  readonly columns: readonly GroupColumn[];
  /** Swings, and hitters with one. */
  readonly swings: number;
  readonly active: number;
  readonly met: Share;
}

/** Which swings. */
export interface GroupOptions extends SwingScope {
  readonly targets?: readonly Target[];
  /** The days that gaps are told from, which want more than a week. */
  readonly gapSpan?: Span;
  /** Each hitter's gap over those days, kept by a caller who needs it as well; worked out when left out. */
  readonly split?: OwnGaps["split"];
}

/**
 * Who did what over a span, and how well, each figure pooled with the group's.
 * @param ready from `makeReady`
 * @example groupOver({ swings: [], hitters: [], thresholds: {} }).rows // []
 */
export function groupOver(ready: Ready, options: GroupOptions = {}): GroupSpan {
  const { targets = [], gapSpan = options, split } = options;
  const inside = readyIn(ready, options);
  const of = new Map<string, ReadySwing[]>(ready.hitters.map((hitter) => [hitter, []]));
  for (const swing of inside) of.get(swing.hitter)!.push(swing);
  const lists = [...of.values()];
  const met = lists.map((rows) => metTogether(targets.map((target) => targetResult(rows, target))));
  const well = (input: Input) => lists.map((rows) => wellHitShare(inPlay(ofInput(rows, input))));
  return {
    rows: [...of].map(([hitter, rows]) => rowOf(hitter, ready.levels.get(hitter) ?? null, rows)),
    columns: [
      shareColumn("met", "Target met", met),
      ...inputs.map((input) => shareColumn(`well_hit_${input}`, `Clean or flush, ${input}`, well(input))),
      gapColumn(ready, { ...options, ...gapSpan }, split === undefined ? {} : { split }),
    ].filter(({ cells }) => cells.some(({ own }) => own !== null)),
    swings: inside.length,
    active: lists.filter((rows) => rows.length > 0).length,
    met: metTogether(targets.map((target) => targetResult(inside, target))),
  };
}

function rowOf(hitter: string, level: string | null, rows: readonly ReadySwing[]): GroupRow {
  const days = rows.flatMap(({ date }) => date ?? []).sort();
  const count = (input: Input): number => rows.filter((row) => row.input === input).length;
  return {
    hitter,
    level,
    sessions: new Set(rows.flatMap(({ session }) => session ?? [])).size,
    last: days.at(-1) ?? null,
    swings: { tee: count("tee"), flip: count("flip"), live: count("live") },
  };
}

function shareColumn(name: string, title: string, shares: readonly Share[]): GroupColumn {
  const group = pooledShares(shares);
  const odds = shares.map(logOdds);
  const known = odds.flatMap((o, i) => (o === null ? [] : [{ ...o, freedom: null, i }]));
  const { clear, all, ahead } = clearPairs(known);
  return {
    name,
    title,
    unit: "share",
    better: "up",
    cells: shares.map(({ count, n, share, low, high }, i) => ({
      count: n === 0 ? "none" : `${count} of ${n}`,
      own: share,
      shown:
        group?.members[i] ??
        (share === null || low === null || high === null ? null : { value: share, low, high }),
      ahead: ahead[known.findIndex((one) => one.i === i)] ?? null,
    })),
    mean: group?.mean ?? null,
    pairs: { clear, all },
  };
}

function gapColumn(ready: Ready, scope: SwingScope, own: OwnGaps): GroupColumn {
  const across = acrossHitters(ready, beyondPitch, scope, own);
  const found = new Map(across.hitters.map((one) => [one.hitter, one]));
  const { group } = across;
  return {
    name: beyondPitch,
    title: "Live less tee",
    unit: "mph",
    better: "up",
    cells: ready.hitters.map((hitter): GroupCell => {
      const one = found.get(hitter);
      if (one === undefined) return { count: "none", own: null, shown: null, ahead: null };
      const { value, low, high } = one.raw;
      return {
        count: `${one.n.from} and ${one.n.to}`,
        own: value,
        shown: one.pooled ?? (value === null || low === null || high === null ? null : { value, low, high }),
        ahead: one.ahead,
      };
    }),
    mean: group === null ? null : { value: group.mean, low: group.low, high: group.high },
    pairs: across.pairs,
  };
}
