/**
 * Live rounds: hitters against pitchers. Each pair is held against what the hitter does against others and what others do
 * against the pitcher make one expect, and what is left is the pair's. Nothing is said of a pair but what stands after
 * Holm over every pair and measure that was looked at, sessions counted.
 */
import { group as listsBy } from "d3-array";
import { isWellHit } from "../contact/bucket.ts";
import { ownSpeed } from "../contact/ceiling.ts";
import { swingPitchSpeed } from "../contact/collision.ts";
import { withoutDoubtful } from "../contact/flags.ts";
import { thresholdsFrom, type Thresholds } from "../contact/thresholds.ts";
import { eachOutOfTable, pooledTable, type OutOfTable, type TableFigure } from "../stats/additive.ts";
import { t95 } from "../stats/beta.ts";
import { group } from "../stats/bootstrap.ts";
import { meanEstimate, type Estimate } from "../stats/estimate.ts";
import { fewestDays } from "../stats/dayChange.ts";
import { chanceAllowed } from "../stats/holm.ts";
import { z95 } from "../stats/normal.ts";
import { oddsOf, shareAt } from "../stats/pooledShares.ts";
import { known, shareOf, type Share } from "../stats/share.ts";
import { meansUncertainty } from "../stats/twoStage.ts";
import { byName } from "../swing/byName.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { allSteps, append } from "../swing/lists.ts";
import { enrichedWith } from "../swing/unknown.ts";
import type { UnitName } from "../units/index.ts";
import { bandOf, speedBand_mph } from "../views/live.ts";
import { rowsInSpan, type Span } from "../views/sessions.ts";
import { inPlay, ofInput, sessionsOf, swungAt } from "../views/swings.ts";
import { byCell, cells } from "../views/zone.ts";
import type { SeasonSource } from "./progress.ts";

/** A swing against a pitcher, with the exit velocity that is the hitter's own. */
export interface LiveSwing extends EnrichedSwing {
  /** Exit velocity with the pitch's part taken out, mph; null where either is unknown, or no ball was put in play. */
  readonly own_mph: number | null;
  /** The pitch's speed at the plate, mph; null: not measured. */
  readonly pitch_mph: number | null;
}

/** What is asked of a pair: plain values, as it goes with every figure wherever that goes. */
export interface PairMeasure {
  readonly name: "well_hit" | "misses" | "own_speed" | "power_kept";
  readonly title: string;
  readonly unit: UnitName;
  readonly better: "up" | "down";
  readonly kind: "share" | "mean";
  /** Whether it is the one that is first asked; there is one. */
  readonly first: boolean;
}

/** The measures of a pair, the first one first: whether a swing comes to a ball hit clean or flush is what a hitter is up there for. */
export const pairMeasures: readonly PairMeasure[] = [
  {
    name: "well_hit",
    title: "Clean or flush, of swings",
    unit: "share",
    better: "up",
    kind: "share",
    first: true,
  },
  {
    name: "misses",
    title: "Misses, of swings",
    unit: "share",
    better: "down",
    kind: "share",
    first: false,
  },
  {
    name: "own_speed",
    title: "Own exit velocity",
    unit: "mph",
    better: "up",
    kind: "mean",
    first: false,
  },
  {
    name: "power_kept",
    title: "Power kept",
    unit: "share",
    better: "up",
    kind: "mean",
    first: false,
  },
];

const oneIf = (hit: boolean | null): number | null => (hit === null ? null : Number(hit));

/** A swing's value by each measure; null where it has none. */
const valueBy: Readonly<Record<PairMeasure["name"], (swing: LiveSwing) => number | null>> = {
  well_hit: (swing) => oneIf(swing.outcome === "in_play" ? isWellHit(swing) : false),
  misses: (swing) => Number(swing.outcome === "miss"),
  own_speed: (swing) => swing.own_mph,
  power_kept: (swing) => (inPlay([swing]).length > 0 ? swing.power_kept : null),
};

/** Share of the chance allowed that is kept for the first measure, fixed beforehand; a judgement, as over a season. */
const shareOfFirst = 0.8;

/** One measure of a pair. */
export interface PairFigure {
  readonly measure: PairMeasure;
  readonly n: number;
  /** As it was, with its 95 % interval, sessions counted; null where there is none. */
  readonly own: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** What the hitter's others and the pitcher's others make one expect; null where there are none. */
  readonly expected: number | null;
  /** Pooled toward the sum of hitter and pitcher; null where too few pairs have enough swings. */
  readonly pooled: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** How far apart from what is expected, and its p-value by itself; of shares on log odds. */
  readonly apart: OutOfTable | null;
  /** Whether it stands with every pair and measure looked at together: then it may be said. */
  readonly stands: "harder" | "easier" | null;
}

/** A hitter against a pitcher. */
export interface Pair {
  readonly hitter: string;
  readonly pitcher: string;
  readonly pitches: number;
  readonly swings: number;
  readonly in_play: number;
  readonly fouls: number;
  readonly misses: number;
  readonly sessions: number;
  /** Whether it has the swings and sessions that the table of thresholds and the days' spread ask for. */
  readonly enough: boolean;
  /** In the order of `pairMeasures`. */
  readonly figures: readonly PairFigure[];
}

/** What live rounds come to. */
export interface LiveRounds {
  readonly hitters: readonly string[];
  readonly pitchers: readonly string[];
  /** Pairs that met, by hitter and pitcher. */
  readonly pairs: readonly Pair[];
  /** Lines that a sentence may be picked from: pairs with enough swings, by measure. */
  readonly looked: number;
  /** Readings in doubt that are in no figure, and live pitches whose pitcher nobody wrote down. */
  readonly left_out: number;
  readonly without_pitcher: number;
}

/** Pitches live whose pitcher is known, readings in doubt left out. */
export interface NamedPitches<R> {
  readonly pitches: readonly (R & { readonly pitcher: string })[];
  readonly left_out: number;
  readonly without_pitcher: number;
}

/** The same, with the exit velocities that are the hitters' own. */
export type LivePitches = NamedPitches<LiveSwing>;

/**
 * The live pitches among some swings that have a pitcher's name and no reading in doubt.
 * @example namedPitches([]) // { pitches: [], left_out: 0, without_pitcher: 0 }
 */
export function namedPitches<R extends EnrichedSwing>(rows: readonly R[]): NamedPitches<R> {
  const live = ofInput(rows, "live");
  const named = live.filter((row): row is R & { readonly pitcher: string } => row.pitcher !== null);
  const { kept, leftOut } = withoutDoubtful(named);
  return { pitches: kept, left_out: leftOut, without_pitcher: live.length - named.length };
}

/**
 * The pitches that live rounds are told from.
 * @param source the whole library, enriched
 * @example livePitches({ swings: [], sessions: [], hitters: [], thresholds: null }).pitches // []
 */
export function livePitches(source: Omit<SeasonSource, "hitters">, span: Span = {}): LivePitches {
  const thresholds = thresholdsFrom(source.thresholds);
  const named = namedPitches(rowsInSpan(source.swings, source.sessions, span));
  return { ...named, pitches: withOwnSpeed(named.pitches, source.sessions, thresholds) };
}

const withSpeeds = enrichedWith({ own_mph: null, pitch_mph: null });

function withOwnSpeed<R extends EnrichedSwing>(
  rows: readonly R[],
  sessions: readonly Session[],
  thresholds: Thresholds,
): (R & LiveSwing)[] {
  const bySession = new Map(sessions.map((s) => [s.session, s]));
  return rows.map((row) => {
    const pitch = swingPitchSpeed(row, bySession.get(row.session ?? "") ?? null, thresholds);
    const speed = row.outcome === "in_play" ? row.exit_velocity_mph : null;
    const own_mph = speed === null || pitch === null ? null : ownSpeed(speed, pitch, thresholds.collision_q);
    return Object.assign(withSpeeds(row), { own_mph, pitch_mph: pitch });
  });
}

/** A figure on the scale that it is added up on: of a share log odds, else its own. */
interface Scaled extends TableFigure {
  readonly pair: Counted;
  readonly n: number;
  readonly own: NonNullable<PairFigure["own"]>;
}

interface Counted extends Omit<Pair, "figures"> {
  readonly swung: readonly LiveSwing[];
}

/**
 * Every pair of hitter and pitcher.
 * @param source the whole library, enriched
 * @example liveRounds({ swings: [], sessions: [], hitters: [], thresholds: null }).pairs // []
 */
export function liveRounds(source: Omit<SeasonSource, "hitters">, span: Span = {}): LiveRounds {
  return pairsOf(livePitches(source, span), thresholdsFrom(source.thresholds));
}

/**
 * The same from pitches that were picked already.
 * @example pairsOf({ pitches: [], left_out: 0, without_pitcher: 0 }, { pair_swings: 20 }).looked // 0
 */
export function pairsOf(live: LivePitches, thresholds: Pick<Thresholds, "pair_swings">): LiveRounds {
  return allSteps(pairSteps(live, thresholds));
}

/**
 * The same step by step, for a page that stays alive meanwhile: many hitters against many pitchers take long.
 * @example pairSteps({ pitches: [], left_out: 0, without_pitcher: 0 }, { pair_swings: 20 }).next().done // false
 */
export function* pairSteps(
  { pitches, left_out, without_pitcher }: LivePitches,
  thresholds: Pick<Thresholds, "pair_swings">,
): Generator<void, LiveRounds> {
  const hitters = [...new Set(pitches.map((p) => p.hitter))].sort(byName);
  const pitchers = [...new Set(pitches.map((p) => p.pitcher))].sort(byName);
  const byHitter = listsBy(pitches, (p) => p.hitter);
  const counted = hitters.flatMap((hitter) => {
    const byPitcher = listsBy(byHitter.get(hitter)!, (p) => p.pitcher);
    return pitchers.flatMap((pitcher) => {
      const met = byPitcher.get(pitcher);
      return met === undefined ? [] : [countedOf(hitter, pitcher, met, thresholds.pair_swings)];
    });
  });
  const tables: Table[] = [];
  for (const measure of pairMeasures) {
    tables.push({ measure, figures: scaledOf(counted, measure) });
    yield;
  }
  const { standing, looked } = yield* standingPairs(tables);
  const found: ReadonlyMap<Counted, PairFigure>[] = [];
  for (const table of tables) {
    found.push(figuresOf(table, standing));
    yield;
  }
  return {
    hitters,
    pitchers,
    pairs: counted.map((pair) => {
      const { swung, ...counts } = pair;
      const figures = pairMeasures.map((measure, i) => found[i]!.get(pair) ?? bare(measure, swung));
      return { ...counts, figures };
    }),
    looked,
    left_out,
    without_pitcher,
  };
}

/** The figures of a measure, each with what is said of it. */
function figuresOf(
  { measure, figures }: Table,
  standing: ReadonlyMap<Scaled, Judged>,
): ReadonlyMap<Counted, PairFigure> {
  const pooled = pooledTable(figures.map((f) => ({ ...f, variance: asNormal(f) })));
  const told = (v: number): number => (measure.kind === "share" ? shareAt(v) : v);
  return new Map(
    figures.map((figure, i) => {
      const { apart, stands } = standing.get(figure)!;
      const member = pooled?.members[i];
      return [
        figure.pair,
        {
          measure,
          n: figure.n,
          own: figure.own,
          expected: apart === null ? null : told(apart.expected),
          pooled:
            member === undefined
              ? null
              : { value: told(member.value), low: told(member.low), high: told(member.high) },
          apart,
          stands,
        },
      ];
    }),
  );
}

function countedOf(hitter: string, pitcher: string, met: readonly LiveSwing[], fewest: number): Counted {
  const swung = swungAt(met);
  const of = (outcome: EnrichedSwing["outcome"]): number => swung.filter((s) => s.outcome === outcome).length;
  const sessions = new Set(swung.map((s) => s.session)).size;
  return {
    hitter,
    pitcher,
    pitches: met.length,
    swings: swung.length,
    in_play: of("in_play"),
    fouls: of("foul"),
    misses: of("miss"),
    sessions,
    enough: swung.length >= fewest && sessions >= fewestDays,
    swung,
  };
}

/** A figure of a pair that is too small to say anything: its count alone. */
const bare = (measure: PairMeasure, swung: readonly LiveSwing[]): PairFigure => ({
  measure,
  n: swung.filter((s) => valueBy[measure.name](s) !== null).length,
  own: null,
  expected: null,
  pooled: null,
  apart: null,
  stands: null,
});

/** The variance of the normal distribution with the same 95 % interval. */
const asNormal = ({ variance, freedom }: TableFigure): number =>
  freedom === null ? variance : variance * (t95(freedom) / z95) ** 2;

/** The figures of a measure, of the pairs with enough swings. */
function scaledOf(pairs: readonly Counted[], measure: PairMeasure): Scaled[] {
  return pairs.flatMap((pair): Scaled[] => {
    if (!pair.enough) return [];
    const taken = pair.swung.map(valueBy[measure.name]);
    const sessions = sessionsOf(pair.swung);
    const place = { pair, row: pair.hitter, column: pair.pitcher };
    if (measure.kind === "share") {
      const hits = taken.map((v) => (v === null ? null : v === 1));
      const { values, names } = known(hits, sessions);
      const own = shareOf(hits, sessions);
      const odds = oddsOf(own.count, own.n);
      if (odds === null || own.low === null || own.high === null) return [];
      const days = meansUncertainty([group(values, names)]);
      // On log odds a share's error is so many times as large.
      const p = own.share!;
      const byDays = days === null ? 0 : (days.se / (p * (1 - p))) ** 2;
      return [
        {
          ...place,
          n: own.n,
          value: odds.value,
          variance: Math.max(odds.variance, byDays),
          freedom: days?.freedom ?? null,
          own: { value: p, low: own.low, high: own.high },
        },
      ];
    }
    const some = taken.flatMap((v, i) => (v === null ? [] : [{ v, session: sessions[i]! }]));
    const found = meansUncertainty([
      group(
        some.map(({ v }) => v),
        some.map(({ session }) => session),
      ),
    ]);
    if (found === null || new Set(some.map(({ session }) => session)).size < fewestDays) return [];
    const value = some.reduce((sum, { v }) => sum + v, 0) / some.length;
    const half = t95(found.freedom) * found.se;
    return [
      {
        ...place,
        n: some.length,
        value,
        variance: found.se ** 2,
        freedom: found.freedom,
        own: { value, low: value - half, high: value + half },
      },
    ];
  });
}

interface Table {
  readonly measure: PairMeasure;
  readonly figures: readonly Scaled[];
}

interface Judged {
  readonly apart: OutOfTable | null;
  readonly stands: "harder" | "easier" | null;
}

/**
 * Which pairs stand apart, by Holm's steps over every line of every measure: the clearest first; and once one stands, it is
 * no longer what others are expected from, so that a hard pitcher of one hitter makes none of the hitter's others look easy.
 */
function* standingPairs(
  tables: readonly Table[],
): Generator<void, { standing: ReadonlyMap<Scaled, Judged>; looked: number }> {
  const out = new Map<Scaled, Judged>();
  const told = new Set<Scaled>();
  const named = new Set<Counted>();
  const judge = function* (figures: readonly Scaled[]): Generator<void, void> {
    const away = new Set(figures.filter(({ pair }) => named.has(pair)));
    const outOf = eachOutOfTable(figures, away);
    for (const [i, figure] of figures.entries()) {
      if (told.has(figure)) continue;
      out.set(figure, { apart: outOf(figure, i), stands: null });
      yield;
    }
  };
  for (const { figures } of tables) yield* judge(figures);
  const lines = tables.flatMap((table) =>
    table.figures.flatMap((figure) => (out.get(figure)!.apart === null ? [] : [{ figure, table }])),
  );
  const firsts = lines.filter(({ table }) => table.measure.first).length;
  const weightOf = ({ measure }: Table): number =>
    measure.first ? shareOfFirst / firsts : (1 - shareOfFirst) / (lines.length - firsts);
  for (;;) {
    const left = lines.flatMap(({ figure, table }) => {
      const apart = told.has(figure) ? null : out.get(figure)!.apart;
      return apart === null ? [] : [{ figure, table, apart }];
    });
    const weight = left.reduce((sum, { table }) => sum + weightOf(table), 0);
    const isHard = ({ table, apart }: (typeof left)[number]): boolean =>
      apart.apart > 0 === (table.measure.better === "down");
    const adjusted = (line: (typeof left)[number]): number => (line.apart.p * weight) / weightOf(line.table);
    // Where a hitter met two pitchers, hard by the one is easy by the other: the hard one is told.
    const [best] = left.sort(
      (a, b) => roughly(adjusted(a)) - roughly(adjusted(b)) || Number(isHard(b)) - Number(isHard(a)),
    );
    if (best === undefined || adjusted(best) >= chanceAllowed) return { standing: out, looked: lines.length };
    out.set(best.figure, { apart: best.apart, stands: isHard(best) ? "harder" : "easier" });
    told.add(best.figure);
    if (named.has(best.figure.pair)) continue;
    named.add(best.figure.pair);
    // A table without the pair is as it was.
    for (const { figures } of tables)
      if (figures.some(({ pair }) => pair === best.figure.pair)) yield* judge(figures);
  }
}

/** To nine digits, so that what rounding alone tells apart is the same. */
const roughly = (p: number): number => Number(p.toPrecision(9));

/** What came of some pitches, whoever threw and whoever swung. */
export interface RoundResult {
  readonly pitches: number;
  readonly swings: number;
  readonly in_play: number;
  readonly fouls: number;
  /** Clean or flush, and misses, each of the swings. */
  readonly well_hit: Share;
  readonly misses: Share;
  /** Means, of the balls in play. */
  readonly own_speed: Estimate;
  readonly power_kept: Estimate;
}

/**
 * What came of some pitches. Of fewer swings than the table of thresholds asks for, counts alone are to be shown.
 * @example resultOfRounds([]).misses.share // null
 */
export function resultOfRounds(pitches: readonly LiveSwing[]): RoundResult {
  const swung = swungAt(pitches);
  const sessions = sessionsOf(swung);
  const [well, missed, own, kept] = pairMeasures.map((m) => swung.map(valueBy[m.name])) as [
    Taken,
    Taken,
    Taken,
    Taken,
  ];
  const hits = (of: Taken) => of.map((v) => (v === null ? null : v === 1));
  return {
    pitches: pitches.length,
    swings: swung.length,
    in_play: swung.filter((s) => s.outcome === "in_play").length,
    fouls: swung.filter((s) => s.outcome === "foul").length,
    well_hit: shareOf(hits(well), sessions),
    misses: shareOf(hits(missed), sessions),
    own_speed: meanEstimate(own, sessions),
    power_kept: meanEstimate(kept, sessions),
  };
}

type Taken = (number | null)[];

/** Pitches of one type, one band of speeds or one place. */
export interface RoundGroup<Of> extends RoundResult {
  /** Null: not measured, or nobody wrote it down. */
  readonly of: Of | null;
}

function grouped<R extends LiveSwing, Of>(
  pitches: readonly R[],
  of: (pitch: R) => Of | null,
): RoundGroup<Of>[] {
  return [...listsBy(pitches, of)].map(([key, list]) => ({ of: key, ...resultOfRounds(list) }));
}

/**
 * By pitch type, the most thrown first and the unnamed last.
 * @example byPitchType([]) // []
 */
export const byPitchType = (pitches: readonly LiveSwing[]): RoundGroup<string>[] =>
  grouped(pitches, (p) => p.pitch_type).sort(
    (a, b) => Number(a.of === null) - Number(b.of === null) || b.pitches - a.pitches,
  );

/**
 * By the live view's bands of speed at the plate, the slowest first and the unmeasured last.
 * @example bySpeedBand([]) // []
 */
export const bySpeedBand = (
  pitches: readonly LiveSwing[],
): (RoundGroup<number> & { readonly to: number | null })[] =>
  grouped(pitches, (p) => (p.pitch_mph === null ? null : bandOf(p.pitch_mph)))
    .map((one) => ({ ...one, to: one.of === null ? null : one.of + speedBand_mph }))
    .sort((a, b) => (a.of ?? Infinity) - (b.of ?? Infinity));

/**
 * Balls in play by the nine cells of the zone that they were met in, each hitter's own; one without a place is in none. A
 * miss is met nowhere: most trackers place only what was hit.
 * @param heightOf each hitter's, in; null for the usual one
 * @example byPlace([], () => null, {}).length // 9
 */
export function byPlace(
  pitches: readonly LiveSwing[],
  heightOf: (hitter: string) => number | null,
  zone: Thresholds,
): (RoundResult & (typeof cells)[number])[] {
  const lists = cells.map((): LiveSwing[] => []);
  for (const hitter of new Set(pitches.map((p) => p.hitter))) {
    const own = inPlay(pitches.filter((p) => p.hitter === hitter));
    byCell(own, { height_in: heightOf(hitter), zone }).forEach((list, i) => append(lists[i]!, list));
  }
  return cells.map((cell, i) => ({ ...cell, ...resultOfRounds(lists[i]!) }));
}
