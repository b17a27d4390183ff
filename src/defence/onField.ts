/** Swings of any kind on a chosen field, in chosen air, against a defence: each ball's chances, and their totals. */
import { airFor, type SessionAir } from "../flight/air.ts";
import { ballFor } from "../flight/ball.ts";
import { launchOf } from "../flight/launch.ts";
import { flyWithRange } from "../flight/range.ts";
import { fieldFor, type PlayingField } from "../field/fields.ts";
import { meanEstimate, type Estimate } from "../stats/estimate.ts";
import { z95 } from "../stats/normal.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { allSteps } from "../swing/lists.ts";
import { deg, ft } from "../units/index.ts";
import { chancesOf, type Chances } from "./chances.ts";
import { defenceOn, type Defence } from "./fielders.ts";

/** Where and in what. */
export interface Ground {
  /** A name of the field table; the full field when left out. */
  readonly field?: string | null;
  /** What is known of the air; what isn't is the default's. */
  readonly air?: SessionAir | null;
}

/** One ball, and the swing that it was hit with. */
export interface FieldBall extends Chances, Pick<EnrichedSwing, "swing_id" | "session" | "time"> {
  readonly carry_ft: number;
  readonly bearing_deg: number;
  readonly hang_s: number;
}

/** A number of balls as a sum of chances, and how far chance alone would move it, 95 %. */
export interface FieldCount {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What came of a list of balls. */
export interface FieldSums {
  readonly n: number;
  readonly over: FieldCount;
  readonly caught: FieldCount;
  readonly fielded: FieldCount;
  readonly down: FieldCount;
  /** Balls that would have been over the fence or down. */
  readonly safe: FieldCount;
}

/** What came of all balls. */
export interface FieldTotal extends FieldSums {
  readonly sessions: number;
  /** Balls over the fence or down as a share of the balls, on any day: its interval counts sessions. */
  readonly share: Estimate;
}

/** Balls on a field. */
export interface OnField {
  readonly field: PlayingField;
  readonly defence: Defence;
  readonly balls: readonly FieldBall[];
  /** Balls that come down in foul ground there. */
  readonly foul: number;
  /** Swings without exit velocity, launch angle or direction. */
  readonly left_out: number;
  readonly total: FieldTotal;
  /** Session by session, in the order met; balls without one together, under null. */
  readonly bySession: readonly (FieldSums & { readonly session: string | null })[];
}

/**
 * What swings would have been on a field. Never more than an estimate: nobody's defence is known, and the launch stays as
 * it was, though a hitter swings otherwise at another ball.
 * @param swings balls in play, of any kind of work
 * @example onField([], {}).total.n // 0
 */
export function onField(swings: readonly EnrichedSwing[], ground: Ground = {}): OnField {
  return allSteps(onFieldSteps(swings, ground));
}

/** So many balls are one step of a page's work. */
const ballsAStep = 10;

/**
 * The same, a few balls a step: for a page that has to answer a key meanwhile.
 * @returns what `onField` gives
 */
export function* onFieldSteps(
  swings: readonly EnrichedSwing[],
  ground: Ground = {},
): Generator<void, OnField> {
  const field = fieldFor(ground.field ?? null);
  const defence = defenceOn(field);
  const air = airFor(ground.air ?? null);
  const ball = ballFor(null);
  const balls: FieldBall[] = [];
  let [foul, leftOut] = [0, 0];
  for (const [i, swing] of swings.entries()) {
    if (i % ballsAStep === ballsAStep - 1) yield;
    const found = swing.spray_angle_deg === null ? null : launchOf(swing);
    if (found === null) {
      leftOut++;
      continue;
    }
    const { launch, spinSource } = found;
    const flown = flyWithRange(launch, air, ball, spinSource);
    const chances = chancesOf(launch, air, ball, spinSource, field, defence, flown);
    if (chances === null) {
      foul++;
      continue;
    }
    const { carry, bearing, hang } = flown.flight;
    const { swing_id, session, time } = swing;
    const flight = { carry_ft: carry / ft, bearing_deg: bearing / deg, hang_s: hang };
    balls.push({ swing_id, session, time, ...chances, ...flight });
  }
  const sessions = [...new Set(balls.map(({ session }) => session))];
  return {
    field,
    defence,
    balls,
    foul,
    left_out: leftOut,
    total: totalOf(balls),
    bySession: sessions.map((session) => ({
      session,
      ...sumsOf(balls.filter((ball) => ball.session === session)),
    })),
  };
}

const safe = ({ over, down }: FieldBall): number => over + down;

function totalOf(balls: readonly FieldBall[]): FieldTotal {
  const sessions = balls.map(({ session }) => session);
  return {
    ...sumsOf(balls),
    sessions: new Set(sessions).size,
    share: within(meanEstimate(balls.map(safe), sessions)),
  };
}

function sumsOf(balls: readonly FieldBall[]): FieldSums {
  // Each ball falls one way or the other by its own chance, apart from the others.
  const count = (of: (ball: FieldBall) => number): FieldCount => {
    const value = balls.reduce((all, ball) => all + of(ball), 0);
    const half = z95 * Math.sqrt(balls.reduce((all, ball) => all + of(ball) * (1 - of(ball)), 0));
    return { value, low: Math.max(0, value - half), high: Math.min(balls.length, value + half) };
  };
  return {
    n: balls.length,
    over: count(({ over }) => over),
    caught: count(({ caught }) => caught),
    fielded: count(({ fielded }) => fielded),
    down: count(({ down }) => down),
    safe: count(safe),
  };
}

/** A share stays between none and all. */
function within<E extends Estimate>(estimate: E): E {
  const { low, high } = estimate;
  return low === null || high === null
    ? estimate
    : { ...estimate, low: Math.max(0, low), high: Math.min(1, high) };
}
