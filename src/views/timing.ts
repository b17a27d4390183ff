/**
 * Timing: flips and live pitches met early or late, against the hitter's own tee pattern. On a tee nothing has to
 * be timed, so where the tee balls are met, farther forward inside than outside, is where this hitter meets a ball
 * on time.
 */
import { collisionBatSpeed, swingPitchSpeed, type PitchSpeedSource } from "../contact/collision.ts";
import { defaultThresholds, type Thresholds } from "../contact/thresholds.ts";
import type { Cell } from "../field/zone.ts";
import { mean, quantile, type Statistic } from "../stats/bootstrap.ts";
import { meanEstimate, quantileEstimate, spreadEstimate, type Estimate } from "../stats/estimate.ts";
import { lazily } from "../stats/lazily.ts";
import { shareOf, type Share } from "../stats/share.ts";
import { slopeEstimate, slopeOf } from "../stats/slope.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { ft, mph } from "../units/index.ts";
import { bandOf, speedBand_mph } from "./live.ts";
import {
  noBatSpeedSentence,
  noPatternSentence,
  unplacedSentence,
  untimedSentence,
} from "./sentences/timing.ts";
import { inPlay, ofInput, sessionsOf, towardOutside, towardPull } from "./swings.ts";
import { byCell, cells, type ZoneOptions } from "./zone.ts";

/** Where a hitter meets the ball on the tee. */
export interface TeePattern {
  /** Tee balls with a place. */
  readonly n: number;
  /** ft forward of the plate's rear point, for a ball over the plate's middle. */
  readonly depth_ft: number;
  /** ft for each foot farther outside; 0 when the tee stood at one distance only. */
  readonly per_outward_ft: number;
  /** Spread of the tee balls about that line, ft. */
  readonly spread_ft: number;
  /** Bat speed, mph, for swings without one: the mean measured one, or what the hardest tee balls need. */
  readonly bat_speed_mph: number | null;
  readonly bat_speed_source: "measured" | "from exit velocity" | "unknown";
}

/** Early: met farther forward than the tee pattern has it; late: deeper. */
const timingWords = ["early", "on time", "late"] as const;
export type TimingWord = (typeof timingWords)[number];

/** One ball against the pattern. */
export interface TimedBall {
  readonly swing: EnrichedSwing;
  /** Farther forward than the pattern, ft. */
  readonly forward_ft: number;
  /** How much too early, ms; negative late. Null without the pitch's or the bat's speed. */
  readonly early_ms: number | null;
  readonly pull_deg: number | null;
  /** Pitch speed at the plate, mph. */
  readonly plate_speed_mph: number | null;
  readonly timing: TimingWord;
}

/** The timing of a group of balls. */
export interface TimingResult {
  readonly n: number;
  readonly early: Share;
  readonly on_time: Share;
  readonly late: Share;
  /** Mean and spread of `early_ms`: how early as a rule, and how much it varies. */
  readonly early_ms: Estimate;
  readonly spread_ms: Estimate;
  readonly forward_ft: Estimate;
  /** Mean exit velocity of the balls met on time, and of the early and late ones, mph. */
  readonly exit_velocity_on_time: Estimate;
  readonly exit_velocity_off_time: Estimate;
  readonly power_kept: Estimate;
}

/** Timing in one kind of work. */
export interface TimingView extends TimingResult {
  readonly input: "flip" | "live";
  /** Null: too few tee balls with a contact point; the lists are then empty. */
  readonly pattern: TeePattern | null;
  readonly balls: readonly TimedBall[];
  /** ° of spray toward the pull side for each foot farther forward than the pattern. */
  readonly pull_deg_per_ft: Estimate;
  /** Slowest first, unmeasured last. */
  readonly by_speed: readonly (TimingResult & {
    readonly low_mph: number | null;
    readonly high_mph: number | null;
  })[];
  /** The nine cells of the zone. */
  readonly by_place: readonly (Cell & TimingResult)[];
  readonly notes: readonly string[];
}

/** What timing needs beside the swings. */
export type TimingOptions = ZoneOptions & PitchSpeedSource;

/** With fewer tee balls there is no pattern. */
const fewestOnTee = 10;
/** Within so many spreads of the tee pattern a ball is met on time: 19 of 20 tee balls are. */
const onTimeSpreads = 2;

/**
 * Timing of the flips or live balls in play, against the tee balls among the same rows.
 * @param rows one hitter's swings of every input
 * @example timingView([], "live").pattern // null
 */
export function timingView(
  rows: readonly EnrichedSwing[],
  input: "flip" | "live",
  options: TimingOptions = {},
): TimingView {
  const thresholds = options.thresholds ?? defaultThresholds;
  const pattern = teePattern(rows, thresholds);
  const met = inPlay(ofInput(rows, input));
  const sessions = new Map((options.sessions ?? []).map((s) => [s.session, s]));
  const balls =
    pattern === null
      ? []
      : met.flatMap((swing) => {
          const speed = swingPitchSpeed(swing, sessions.get(swing.session ?? "") ?? null, thresholds);
          return timed(swing, speed, pattern) ?? [];
        });
  const bands = new Map<number | null, TimedBall[]>();
  for (const ball of balls) {
    const band = ball.plate_speed_mph === null ? null : bandOf(ball.plate_speed_mph);
    bands.set(band, [...(bands.get(band) ?? []), ball]);
  }
  const ballOf = new Map(balls.map((ball) => [ball.swing, ball]));
  const placed = byCell(
    balls.map((ball) => ball.swing),
    options,
  );
  // What else there is to say is put into the figures: to copy them would be to compute them.
  const figures = lazily<TimingResult & Pick<TimingView, "pull_deg_per_ft">>({
    ...figuresOf(balls),
    pull_deg_per_ft: () =>
      slopeEstimate(
        balls.map((b) => b.forward_ft),
        balls.map((b) => b.pull_deg),
        sessionsOf(balls.map((b) => b.swing)),
      ),
  });
  return Object.assign(figures, {
    input,
    pattern,
    balls,
    by_speed: [...bands]
      .sort(([a], [b]) => (a ?? Infinity) - (b ?? Infinity))
      .map(([low, list]) =>
        Object.assign(lazily(figuresOf(list)), {
          low_mph: low,
          high_mph: low === null ? null : low + speedBand_mph,
        }),
      ),
    by_place: cells.map((cell, i) =>
      Object.assign(lazily(figuresOf(placed[i]!.map((s) => ballOf.get(s)!))), cell),
    ),
    notes: notesOf(input, pattern, met.length, balls),
  });
}

/**
 * The hitter's own tee pattern: a line of contact depth on the distance from the batter.
 * @param rows one hitter's swings; those not off a tee are left out, but for their bat speeds
 * @example teePattern([], { collision_q: 0.2 }) // null
 */
export function teePattern(
  rows: readonly EnrichedSwing[],
  thresholds: Thresholds = defaultThresholds,
): TeePattern | null {
  const tee = inPlay(ofInput(rows, "tee"));
  const met = tee.flatMap((swing) => {
    const outside = towardOutside(swing);
    return outside === null || swing.contact_depth_ft === null
      ? []
      : [{ outside, depth: swing.contact_depth_ft }];
  });
  const n = met.length;
  if (n < fewestOnTee) return null;
  const slope =
    slopeOf(
      met.map((m) => m.outside),
      met.map((m) => m.depth),
    ) ?? 0;
  const depth = met.reduce((sum, m) => sum + m.depth - slope * m.outside, 0) / n;
  const squares = met.reduce((sum, m) => sum + (m.depth - depth - slope * m.outside) ** 2, 0);
  const measured = figureOf(
    mean,
    rows.map((r) => r.bat_speed_mph),
  );
  const hard = figureOf(
    quantile(thresholds.ceiling_quantile),
    tee.map((r) => r.exit_velocity_mph),
  );
  return {
    n,
    depth_ft: depth,
    per_outward_ft: slope,
    spread_ft: Math.sqrt(squares / (n - 2)),
    bat_speed_mph: measured ?? (hard === null ? null : collisionBatSpeed(hard, 0, thresholds.collision_q)),
    bat_speed_source: measured !== null ? "measured" : hard === null ? "unknown" : "from exit velocity",
  };
}

/** A figure whose doubt is not asked for; null of no values. */
function figureOf(statistic: Statistic, values: readonly (number | null)[]): number | null {
  const known = Float64Array.from(values.filter((v) => v !== null));
  return known.length === 0 ? null : statistic(known, known.length);
}

/** Null without a contact point. */
function timed(swing: EnrichedSwing, speed: number | null, pattern: TeePattern): TimedBall | null {
  const outside = towardOutside(swing);
  if (outside === null || swing.contact_depth_ft === null) return null;
  const forward = swing.contact_depth_ft - pattern.depth_ft - pattern.per_outward_ft * outside;
  const bat = swing.bat_speed_mph ?? pattern.bat_speed_mph;
  const window = onTimeSpreads * pattern.spread_ft;
  return {
    swing,
    forward_ft: forward,
    early_ms: speed === null || bat === null ? null : earlyBy_ms(forward, speed, bat),
    pull_deg: towardPull(swing),
    plate_speed_mph: speed,
    timing: forward > window ? "early" : forward < -window ? "late" : "on time",
  };
}

/**
 * How much too early a swing is whose ball is met farther forward: the time the ball has not yet flown and the bat
 * has already moved, x/v_pitch + x/v_bat.
 * @param forward_ft ft
 * @param pitch_mph speed of the ball at the plate
 * @param bat_mph speed of the bat
 * @example earlyBy_ms(0.5, 80, 70) // 9.13
 */
export function earlyBy_ms(forward_ft: number, pitch_mph: number, bat_mph: number): number {
  return 1000 * forward_ft * ft * (1 / (pitch_mph * mph) + 1 / (bat_mph * mph));
}

/** How each figure of a group of balls is computed. */
function figuresOf(balls: readonly TimedBall[]): { [K in keyof TimingResult]: () => TimingResult[K] } {
  const n = balls.length;
  const sessions = sessionsOf(balls.map((b) => b.swing));
  const of = (word: TimingWord): Share =>
    shareOf(
      balls.map((b) => b.timing === word),
      sessions,
    );
  const speeds = (onTime: boolean): Estimate => {
    const met = balls.filter((b) => (b.timing === "on time") === onTime).map((b) => b.swing);
    return meanEstimate(
      met.map((r) => r.exit_velocity_mph),
      sessionsOf(met),
    );
  };
  const of_ms = balls.map((b) => b.early_ms);
  return {
    n: () => n,
    early: () => of("early"),
    on_time: () => of("on time"),
    late: () => of("late"),
    early_ms: () => meanEstimate(of_ms, sessions),
    spread_ms: () => spreadEstimate(of_ms, sessions),
    forward_ft: () =>
      meanEstimate(
        balls.map((b) => b.forward_ft),
        sessions,
      ),
    exit_velocity_on_time: () => speeds(true),
    exit_velocity_off_time: () => speeds(false),
    power_kept: () =>
      quantileEstimate(
        balls.map((b) => b.swing.power_kept),
        0.5,
        sessions,
      ),
  };
}

function notesOf(
  input: "flip" | "live",
  pattern: TeePattern | null,
  met: number,
  balls: readonly TimedBall[],
): string[] {
  if (pattern === null) return [noPatternSentence(fewestOnTee)];
  const untimed = balls.filter((b) => b.early_ms === null).length;
  return [
    unplacedSentence(met - balls.length, met, input),
    untimedSentence(untimed, balls.length),
    pattern.bat_speed_source === "from exit velocity" && balls.length > 0 ? noBatSpeedSentence : null,
  ].filter((text) => text !== null);
}
