/** What a little more of each thing does to a ball, beside the rules of thumb in print. */
import { carrySensitivity, type CarrySensitivity } from "../flight/sensitivity.ts";
import type { OneBall } from "../contact/oneBall.ts";

/** A published rule of thumb, ft of carry. */
export interface RuleOfThumb {
  readonly low_ft: number;
  readonly high_ft: number;
  readonly source: string;
}

/** One thing that changes a carry. */
export interface CarryChange {
  readonly of: keyof CarrySensitivity;
  /** The step, as a reader says it. */
  readonly step: string;
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
    step: "1 mph more exit velocity",
    sign: 1,
    rule: { low_ft: 4, high_ft: 6, source: "common practice, no source" },
  },
  { of: "launchAngle_ftPerDeg", step: "1° more launch angle", sign: 1, rule: null },
  { of: "backspin_ftPer100Rpm", step: "100 rpm more backspin", sign: 1, rule: null },
  { of: "sidespin_ftPer100Rpm", step: "100 rpm more sidespin to right", sign: 1, rule: null },
  {
    of: "temperature_ftPer10F",
    step: "10 °F warmer",
    sign: 1,
    rule: { low_ft: 4, high_ft: 4, source: adair },
  },
  {
    of: "altitude_ftPer1000Ft",
    step: "1,000 ft higher",
    sign: 1,
    rule: { low_ft: 6, high_ft: 6, source: adair },
  },
  {
    of: "pressure_ftPerInHg",
    step: "1 inHg lower pressure",
    sign: -1,
    rule: { low_ft: 4, high_ft: 6, source: adair },
  },
  { of: "humidity_ftPer10Pct", step: "10 points more humidity", sign: 1, rule: null },
  {
    of: "tailWind_ftPer10Mph",
    step: "10 mph of tail wind",
    sign: 1,
    rule: { low_ft: 30, high_ft: 40, source: adair },
  },
  {
    of: "headWind_ftPer10Mph",
    step: "10 mph of head wind",
    sign: 1,
    rule: { low_ft: -40, high_ft: -30, source: adair },
  },
];

/** A step with what it does to one ball, ft. */
export interface CarryChangeHere extends CarryChange {
  readonly here_ft: number;
}

/** What each step does to a ball, the others held. */
export function carryChangesOf({
  launch,
  air,
  ball,
}: Pick<OneBall, "launch" | "air" | "ball">): CarryChangeHere[] {
  const by = carrySensitivity(launch, air, ball);
  return carryChanges.map((change) => ({ ...change, here_ft: change.sign * by[change.of] }));
}
