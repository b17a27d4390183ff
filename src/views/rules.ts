/** What a little more of each thing does to a ball, beside the rules of thumb in print. */
import { carrySensitivity, type CarrySensitivity } from "../flight/sensitivity.ts";
import { convert, type UnitName } from "../units/index.ts";
import { shownNumber, unitSign, type UnitSystem } from "../units/system.ts";
import type { OneBall } from "../contact/oneBall.ts";

/** A published rule of thumb, ft of carry. */
export interface RuleOfThumb {
  readonly low_ft: number;
  readonly high_ft: number;
  readonly source: string;
}

/** So much of one unit, before its words: "10 mph of tail wind". */
interface Step {
  readonly amount: number;
  readonly unit: UnitName;
}

/** One thing that changes a carry. */
export interface CarryChange {
  readonly of: keyof CarrySensitivity;
  /** The step that the slope is for, and what it is of. */
  readonly step: Step;
  readonly words: string;
  /** A round step for whoever reads metric units; the same step when left out. */
  readonly metric?: Step;
  /** −1 where the step said is the other way round than the slope's. */
  readonly sign: 1 | -1;
  readonly rule: RuleOfThumb | null;
}

const adair = "R. K. Adair, The Physics of Baseball";

/** The carry that the rules in print are about, ft. */
export const ruleCarry_ft = 400;

/** Every step with its rule; null where nobody has printed one. */
export const carryChanges: readonly CarryChange[] = [
  {
    of: "exitVelocity_ftPerMph",
    step: { amount: 1, unit: "mph" },
    words: "more exit velocity",
    metric: { amount: 1, unit: "km/h" },
    sign: 1,
    rule: { low_ft: 4, high_ft: 6, source: "common practice, no source" },
  },
  {
    of: "launchAngle_ftPerDeg",
    step: { amount: 1, unit: "deg" },
    words: "more launch angle",
    sign: 1,
    rule: null,
  },
  {
    of: "backspin_ftPer100Rpm",
    step: { amount: 100, unit: "rpm" },
    words: "more backspin",
    sign: 1,
    rule: null,
  },
  {
    of: "sidespin_ftPer100Rpm",
    step: { amount: 100, unit: "rpm" },
    words: "more sidespin to right",
    sign: 1,
    rule: null,
  },
  {
    of: "temperature_ftPer10F",
    step: { amount: 10, unit: "F" },
    words: "warmer",
    metric: { amount: 5, unit: "C" },
    sign: 1,
    rule: { low_ft: 4, high_ft: 4, source: adair },
  },
  {
    of: "altitude_ftPer1000Ft",
    step: { amount: 1000, unit: "ft" },
    words: "higher",
    metric: { amount: 300, unit: "m" },
    sign: 1,
    rule: { low_ft: 6, high_ft: 6, source: adair },
  },
  {
    of: "pressure_ftPerInHg",
    step: { amount: 1, unit: "inHg" },
    words: "lower pressure",
    metric: { amount: 30, unit: "hPa" },
    sign: -1,
    rule: { low_ft: 4, high_ft: 6, source: adair },
  },
  {
    of: "humidity_ftPer10Pct",
    step: { amount: 10, unit: "pct" },
    words: "more humidity",
    sign: 1,
    rule: null,
  },
  {
    of: "tailWind_ftPer10Mph",
    step: { amount: 10, unit: "mph" },
    words: "of tail wind",
    metric: { amount: 15, unit: "km/h" },
    sign: 1,
    rule: { low_ft: 30, high_ft: 40, source: adair },
  },
  {
    of: "headWind_ftPer10Mph",
    step: { amount: 10, unit: "mph" },
    words: "of head wind",
    metric: { amount: 15, unit: "km/h" },
    sign: 1,
    rule: { low_ft: -40, high_ft: -30, source: adair },
  },
];

/** A step with what it does to one ball, in a reader's units. */
export interface CarryChangeHere {
  readonly of: CarryChange["of"];
  /** The step, as the reader says it. */
  readonly step: string;
  /** Of carry, and the ends of the printed rule for the same step; both in `unit`. */
  readonly here: number;
  readonly rule: { readonly low: number; readonly high: number; readonly source: string } | null;
  readonly unit: "ft" | "m";
}

const stepWords = ({ amount, unit }: Step, words: string): string => {
  const sign = unit === "pct" ? "points" : unitSign(unit);
  return `${amount.toLocaleString("en")}${sign === "°" ? "" : " "}${sign} ${words}`;
};

/**
 * What each step does to a ball, the others held. A metric step's effect, and its rule, are the slope's over that
 * step: nobody printed them so.
 */
export function carryChangesOf(
  { launch, air, ball }: Pick<OneBall, "launch" | "air" | "ball">,
  system: UnitSystem = "us",
): CarryChangeHere[] {
  const by = carrySensitivity(launch, air, ball);
  return carryChanges.map(({ of, step, words, metric = step, sign, rule }) => {
    const shown = system === "us" ? step : metric;
    const part =
      (convert(shown.amount, shown.unit, step.unit) - convert(0, shown.unit, step.unit)) / step.amount;
    const carry = (feet: number): number => shownNumber(feet * part, "ft", system);
    return {
      of,
      step: stepWords(shown, words),
      here: carry(sign * by[of]),
      rule: rule && { low: carry(rule.low_ft), high: carry(rule.high_ft), source: rule.source },
      unit: system === "us" ? "ft" : "m",
    };
  });
}
