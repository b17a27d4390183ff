/** The same swings in other air, on other fields, with another ball. */
import { median, quantile } from "d3-array";
import { fieldFor, knownFields, type PlayingField } from "../field/fields.ts";
import { airFor, type Air, type SessionAir } from "../flight/air.ts";
import { ballFor, type Ball } from "../flight/ball.ts";
import { launchOf, type LaunchFields } from "../flight/launch.ts";
import { flyWithRange } from "../flight/range.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { fenceOdds } from "./fence.ts";
import { spinBasis } from "./spinBasis.ts";

/** Other circumstances, by name. */
export interface Circumstances {
  readonly name: string;
  /** What is known of the air; what isn't is the default's, and named. */
  readonly air: SessionAir;
  /** A field and a ball of the tables; the full field and the baseball when left out. */
  readonly field?: string;
  readonly ball?: string;
}

/** What a swing is flown from, and what told its spin. */
export type WhatIfSwing = LaunchFields & Pick<EnrichedSwing, "swing_id" | "spin_source">;

/** One swing in one circumstance, ft. */
export interface WhatIfBall {
  readonly swing_id: string | null;
  readonly carry_ft: number;
  readonly carry_low_ft: number;
  readonly carry_high_ft: number;
  /** Against the first circumstances. */
  readonly change_ft: number;
  /** Of clearing the fence; null when the direction is unknown. */
  readonly chance: number | null;
}

/** All swings in one circumstance. */
export interface WhatIfCase {
  readonly name: string;
  readonly air: Air;
  readonly field: PlayingField;
  readonly ball: Ball;
  /** Swings flown, and those left out for want of exit velocity or launch angle. */
  readonly n: number;
  readonly left_out: number;
  /** Median of the carries, ft; null without swings. */
  readonly carry_ft: number | null;
  /** Median of the changes against the first circumstances, and the tenths between which eight of ten lie, ft. */
  readonly change_ft: number | null;
  readonly change_low_ft: number | null;
  readonly change_high_ft: number | null;
  /** Balls over the fence that the chances add up to, and the standard deviation of that number by chance alone. */
  readonly over: number;
  readonly over_sd: number;
  /** Swings without a direction, which no fence can be asked about. */
  readonly without_direction: number;
  /** One phrase for everything that was assumed. */
  readonly assumed: readonly string[];
  readonly balls: readonly WhatIfBall[];
}

/**
 * What a coach asks about, around an air and a field: colder, hotter, higher, the wind out, in and across, none, and
 * the other fields of the table. The first one is everything as it is.
 * @example usualCircumstances({ temperature_f: 70 })[0].name // "as it is"
 */
export function usualCircumstances(air: SessionAir, field?: string, ball?: string): Circumstances[] {
  const on = { ...(field === undefined ? {} : { field }), ...(ball === undefined ? {} : { ball }) };
  const outdoors = { ...air, indoor: null };
  const wind = (toward: number): SessionAir => ({ ...outdoors, wind_mph: 10, wind_toward_deg: toward });
  const here = fieldFor(field ?? null).name;
  const blows = airFor(air).wind.some((component) => component !== 0);
  return [
    { name: "as it is", air, ...on },
    { name: "a cold day, 45 °F", air: { ...air, temperature_f: 45 }, ...on },
    { name: "a hot day, 95 °F", air: { ...air, temperature_f: 95 }, ...on },
    // The altitude speaks for the pressure only where no pressure is given.
    { name: "a mile high, 5,280 ft", air: { ...air, altitude_ft: 5280, pressure_inhg: null }, ...on },
    { name: "wind out to center, 10 mph", air: wind(0), ...on },
    { name: "wind in from center, 10 mph", air: wind(180), ...on },
    { name: "wind across to right, 10 mph", air: wind(90), ...on },
    ...(blows ? [{ name: "no wind", air: { ...outdoors, wind_mph: 0, wind_toward_deg: null }, ...on }] : []),
    ...knownFields()
      .filter(({ name }) => name !== here)
      .map(({ name }) => ({ name: `on a ${name} field`, air, ...on, field: name })),
  ];
}

/** Draws behind each chance: of many balls fewer, as their sum is steadier than its parts. */
const drawsFor = (n: number): number => Math.max(60, Math.round(500 / Math.max(1, n)));

/**
 * The same swings in each of the circumstances; changes are against the first ones. Only the flight differs: the
 * launches are as they were, though a hitter swings otherwise in the cold and at another ball.
 * @example whatIf([], [{ name: "here", air: {} }])[0].n // 0
 */
export function whatIf(
  swings: readonly WhatIfSwing[],
  circumstances: readonly Circumstances[],
): WhatIfCase[] {
  const launched = swings.flatMap((swing) => {
    const found = launchOf(swing);
    return found === null ? [] : [{ swing, ...found }];
  });
  const spins = spinBasis(launched.map(({ swing }) => swing));
  let first: readonly number[] | null = null;
  return circumstances.map(({ name, air: given, field: fieldName, ball: ballName }) => {
    const air = airFor(given);
    const field = fieldFor(fieldName ?? null);
    const ball = ballFor(ballName ?? null);
    const flown = launched.map(({ launch, spinSource }) => flyWithRange(launch, air, ball, spinSource));
    const carries = flown.map(({ flight }) => flight.carry / ft);
    const base = (first ??= carries);
    const balls = launched.map(({ swing, launch, spinSource }, i): WhatIfBall => {
      const { range } = flown[i]!;
      return {
        swing_id: swing.swing_id,
        carry_ft: carries[i]!,
        carry_low_ft: range.low / ft,
        carry_high_ft: range.high / ft,
        change_ft: carries[i]! - base[i]!,
        chance:
          swing.spray_angle_deg === null
            ? null
            : fenceOdds(launch, air, ball, spinSource, field, {
                range,
                draws: drawsFor(launched.length),
                seed: (i + 1) / (launched.length + 2),
              }).chance,
      };
    });
    const chances = balls.map(({ chance }) => chance).filter((chance) => chance !== null);
    const changes = balls.map(({ change_ft }) => change_ft);
    return {
      name,
      air,
      field,
      ball,
      n: balls.length,
      left_out: swings.length - balls.length,
      carry_ft: median(carries) ?? null,
      change_ft: median(changes) ?? null,
      change_low_ft: quantile(changes, 0.1) ?? null,
      change_high_ft: quantile(changes, 0.9) ?? null,
      over: chances.reduce((sum, p) => sum + p, 0),
      over_sd: Math.sqrt(chances.reduce((sum, p) => sum + p * (1 - p), 0)),
      without_direction: balls.length - chances.length,
      assumed: [
        ...(spins === "" ? [] : [`spin: ${spins}`]),
        ...(ballName === undefined ? [ball.title] : []),
        ...ball.assumed,
        ...(fieldName === undefined ? [`the fence of the ${field.title.toLowerCase()}`] : []),
        ...air.assumed,
      ],
      balls,
    };
  });
}
