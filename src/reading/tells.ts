/**
 * What a column's values tell of themselves: the unit they are in, and the way their signs count. Each answer says how
 * sure it is; where two readings are as good, it is not sure. The limits are common practice, no source, but for
 * what is computed.
 */
import { convert, type UnitName } from "../units/index.ts";
import { oddities, overLevel } from "./check.ts";

/** An answer, how sure it is, and why. */
export interface Told<T> {
  readonly is: T;
  readonly certainty: number;
  readonly reason: string;
}

export const quantile = (values: readonly number[], q: number): number =>
  [...values].sort((a, b) => a - b)[Math.floor((values.length - 1) * q)]!;

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** What is known of the sheet beside the column. */
export interface Surroundings {
  /** Whether its words or its other units are those of metric or of imperial measures; null where nothing says so. */
  readonly system: "metric" | "imperial" | null;
  readonly fastest_mph: number | null;
}

/** From so many values on a range tells a unit. */
const least = 5;

const speeds: readonly UnitName[] = ["mph", "km/h", "m/s", "ft/s"];

/** Where the ninth decile of a ball's speed off a bat lies, mph: young hitters to grown ones. */
const offBat = { low: 38, sure: 50, high: oddities.speeds.exit_velocity_mph.kmh } as const;

/** The unit of speeds off the bat. */
export function exitVelocityUnit(values: readonly number[], around: Surroundings): Told<UnitName> | null {
  if (values.length < least) return null;
  const tenth = quantile(values.map(Math.abs), 0.9);
  const high =
    around.fastest_mph === null ? offBat.high : Math.min(offBat.high, around.fastest_mph * overLevel);
  const as = (unit: UnitName): number => convert(tenth, unit, "mph");
  const round = Math.round(tenth);
  const fit = (is: UnitName, certainty: number): Told<UnitName> => ({
    is,
    certainty,
    reason: is === "mph" ? "the values fit mph" : `the values fit ${is}, not mph: a tenth are over ${round}`,
  });
  if (tenth > high) {
    if (as("km/h") <= high) return fit("km/h", 0.9);
    return as("ft/s") <= high ? fit("ft/s", 0.6) : null;
  }
  if (tenth <= oddities.speeds.exit_velocity_mph.ms && as("m/s") <= high) {
    // As mph it would be a slow ball of a small child.
    return fit("m/s", tenth >= 17 ? 0.85 : 0.5);
  }
  if (tenth < offBat.sure && as("m/s") <= high && around.system !== "imperial")
    return fit(around.system === "metric" ? "m/s" : "mph", 0.6);
  if (around.system === "metric") return fit(tenth >= 80 ? "km/h" : "mph", 0.6);
  return fit("mph", around.system === "imperial" || around.fastest_mph !== null ? 0.95 : 0.88);
}

/** The unit of other speeds: that of the ball off the bat, where it fits. */
export function speedUnit(
  values: readonly number[],
  limits: { readonly low: number; readonly high: number },
  ball: UnitName | null,
): Told<UnitName> | null {
  if (values.length < least)
    return ball === null ? null : { is: ball, certainty: 0.82, reason: "as the ball's speed" };
  const tenth = quantile(values.map(Math.abs), 0.9);
  const fits = speeds.filter((unit) => {
    const value = convert(tenth, unit, "mph");
    return value >= limits.low && value <= limits.high;
  });
  if (ball !== null && fits.includes(ball))
    return { is: ball, certainty: 0.88, reason: "as the ball's speed" };
  const [first] = fits;
  if (first === undefined) return null;
  return { is: first, certainty: fits.length === 1 ? 0.85 : 0.6, reason: `the values fit ${first}` };
}

/** The unit of angles: nobody hits every ball within two degrees. */
export function angleUnit(values: readonly number[]): Told<UnitName> | null {
  if (values.length < least) return null;
  const tenth = quantile(values.map(Math.abs), 0.9);
  const most = quantile(values.map(Math.abs), 1);
  if (most <= Math.PI && tenth <= 1.6 && tenth > 0)
    return { is: "rad", certainty: 0.92, reason: "the values fit radians, not degrees" };
  return tenth > 3 ? { is: "deg", certainty: 0.95, reason: "the values fit degrees" } : null;
}

/** The unit of a spin. */
export function spinUnit(values: readonly number[]): Told<UnitName> | null {
  if (values.length < least) return null;
  const tenth = quantile(values.map(Math.abs), 0.9);
  if (tenth >= 800 && tenth <= 8000) return { is: "rpm", certainty: 0.95, reason: "the values fit rpm" };
  return tenth >= 80 && tenth < 800 ? { is: "rad/s", certainty: 0.6, reason: "the values fit rad/s" } : null;
}

/** Where half of the balls are met, by the unit: above the ground, between a child's knee and a grown hitter's chest. */
const heights: readonly (readonly [UnitName, number, number])[] = [
  ["m", 0.4, 1.2],
  ["ft", oddities.contactHeight_ft, 4.2],
  ["in", 16, 46],
  ["cm", 50, 125],
];

/** The unit of contact heights. */
export function heightUnit(values: readonly number[]): Told<UnitName> | null {
  if (values.length < least) return null;
  const middle = quantile(values, 0.5);
  const found = heights.find(([, low, high]) => middle >= low && middle <= high);
  return found === undefined
    ? null
    : {
        is: found[0],
        certainty: 0.9,
        reason: `the values fit ${found[0]}: half are under ${Number(middle.toPrecision(3))}`,
      };
}

/** A ball's launch, and what stands in a column beside it. */
export interface Launched {
  readonly speed_mph: number;
  readonly launch_deg: number;
  readonly value: number;
}

/**
 * The unit of carries, held against a flight without air, of which a hit ball keeps about three quarters.
 * @returns null when the values are no carries in any unit
 */
export function carryUnit(balls: readonly Launched[]): Told<UnitName> | null {
  const vacuum = ({ speed_mph, launch_deg }: Launched): number =>
    (convert(speed_mph, "mph", "ft/s") ** 2 * Math.sin((launch_deg * Math.PI) / 90)) / 32.174;
  const flown = balls.filter(
    ({ launch_deg, speed_mph }) => launch_deg > 12 && launch_deg < 45 && speed_mph > 40,
  );
  if (flown.length < least) return null;
  const ratio = quantile(
    flown.map((ball) => ball.value / vacuum(ball)),
    0.5,
  );
  // A ball that rolls on goes far where it never flew.
  const rolled = balls.filter(({ launch_deg }) => launch_deg < -5);
  if (
    rolled.length >= least &&
    quantile(
      rolled.map(({ value }) => value),
      0.5,
    ) >
      0.25 *
        quantile(
          flown.map(({ value }) => value),
          0.5,
        )
  )
    return null;
  if (ratio > 0.55 && ratio < 1.05)
    return { is: "ft", certainty: 0.9, reason: "the values are about what these launches carry in feet" };
  if (ratio > 0.55 * 0.3048 && ratio < 1.05 * 0.3048)
    return { is: "m", certainty: 0.85, reason: "the values are about what these launches carry in metres" };
  return null;
}

/** A batted ball's direction as it stands, and whose it is. */
export interface Sprayed {
  readonly bats: "L" | "R" | null;
  /** Null where the sheet doesn't tell. */
  readonly launch_deg: number | null;
  readonly value_deg: number;
}

/** Which way directions count: from center to the right or left, or from the left line. */
export type SprayCount = "right" | "left" | "line";

/** Standard errors from which on a difference between the hands tells the sign; of one hand alone more. */
const clear = { both: 3, one: 4, least: 10, difference_deg: 5, mean_deg: 6 } as const;

/**
 * Which way directions count, by what is pulled: right-handed hitters pull to the left side, left-handed ones to the
 * right. Both hands together tell it whatever the tracker's own turn; one hand alone has to be plainer.
 */
export function sprayCount(balls: readonly Sprayed[]): Told<SprayCount> | null {
  const values = balls.map(({ value_deg }) => value_deg);
  if (values.length < clear.least) return null;
  const middle = quantile(values, 0.5);
  const fromLine = middle > 28 && quantile(values, 0.02) > -25 && quantile(values, 0.98) < 115;
  if (!fromLine && Math.abs(middle) > 25) return null;
  const ground = balls.filter(
    ({ launch_deg }) => launch_deg !== null && launch_deg < oddities.mirrored.under_deg,
  );
  for (const some of [ground, balls]) {
    const of = (hand: "L" | "R"): number[] =>
      some.flatMap(({ bats, value_deg }) => (bats === hand ? [value_deg] : []));
    const [left, right] = [of("L"), of("R")];
    const squared = (list: readonly number[]): number => {
      const m = mean(list);
      return list.reduce((sum, v) => sum + (v - m) ** 2, 0) / Math.max(1, list.length - 1) / list.length;
    };
    const what = some === ground ? "ground balls" : "balls";
    if (left.length >= clear.least && right.length >= clear.least) {
      const difference = mean(left) - mean(right);
      const errors = Math.sqrt(squared(left) + squared(right));
      if (Math.abs(difference) >= Math.max(clear.difference_deg, clear.both * errors)) {
        const is: SprayCount = difference > 0 ? (fromLine ? "line" : "right") : "left";
        // Counted from the other line, no map turns it.
        if (fromLine && difference < 0) return null;
        const [whose, others] = is === "left" ? ["right", "left"] : ["left", "right"];
        return {
          is,
          certainty: Math.abs(difference) > 4 * errors ? 0.94 : 0.88,
          reason:
            `positive goes toward ${is === "left" ? "left" : "right"} field: ${what} of ${whose}-handed hitters go ` +
            `${Math.round(Math.abs(difference))}° further that way than those of ${others}-handed ones`,
        };
      }
    } else if (!fromLine) {
      for (const [list, hand] of [
        [left, "left"],
        [right, "right"],
      ] as const) {
        if (list.length < 2 * clear.least) continue;
        const m = mean(list);
        if (Math.abs(m) < Math.max(clear.mean_deg, clear.one * Math.sqrt(squared(list)))) continue;
        const is: SprayCount = m > 0 === (hand === "left") ? "right" : "left";
        return {
          is,
          certainty: 0.82,
          reason: `positive goes toward ${is} field: ${what} of ${hand}-handed hitters are pulled`,
        };
      }
    }
  }
  return null;
}

/** How two columns go together, -1 to 1; 0 where either never changes. */
export function correlation(pairs: readonly (readonly [number, number])[]): number {
  if (pairs.length < 3) return 0;
  const [a, b] = [mean(pairs.map(([x]) => x)), mean(pairs.map(([, y]) => y))];
  let [xy, xx, yy] = [0, 0, 0];
  for (const [x, y] of pairs) {
    xy += (x - a) * (y - b);
    xx += (x - a) ** 2;
    yy += (y - b) ** 2;
  }
  return xx === 0 || yy === 0 ? 0 : xy / Math.sqrt(xx * yy);
}

/** Whether spins count as ours, by what they go along with; null where it isn't plain. */
export function spinSign(pairs: readonly (readonly [number, number])[], along: string): Told<1 | -1> | null {
  if (pairs.length < clear.least) return null;
  const r = correlation(pairs);
  // Fisher: the standard error of a correlation's inverse hyperbolic tangent.
  if (
    Math.abs(Math.atanh(Math.min(0.999, Math.abs(r)))) * Math.sqrt(pairs.length - 3) < clear.both ||
    Math.abs(r) < 0.3
  )
    return null;
  return { is: r > 0 ? 1 : -1, certainty: 0.88, reason: `it ${r > 0 ? "rises" : "falls"} with ${along}` };
}
