/** What the carry lab shows of a ball: its words, what changes it, and the same swings in other air. */
import { oneBall, type BallAnswer, type BallGiven, type OneBall } from "../../src/contact/oneBall.ts";
import { usualCircumstances, whatIf, type WhatIfCase, type WhatIfSwing } from "../../src/contact/whatIf.ts";
import { spreads } from "../../src/flight/spreads.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { ft } from "../../src/units/index.ts";
import { ballWords, chanceWords } from "../../src/views/ballWords.ts";
import { carryChangesOf, ruleCarry_ft, type RuleOfThumb } from "../../src/views/rules.ts";
import { inPlay } from "../../src/views/swings.ts";
import { every, hitterOptions, pick } from "./pick.ts";
import type { Option } from "./choice.ts";
import type { PageLibrary } from "./library.ts";
import { box, table } from "./show.ts";

function paragraph(text: string, className = ""): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/** A ball in plain words, or what is wrong with what was typed. */
export function told({ ball, amiss }: BallAnswer): HTMLElement {
  if (ball === null) {
    return box("trouble", ...amiss.map(({ sentence }) => paragraph(sentence)));
  }
  const { headline, sentences } = ballWords(ball);
  return box("told", paragraph(headline, "headline"), ...sentences.map((text) => paragraph(text)));
}

const signed = (value: number, digits: number): string => {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "−" : "+"}${text}`;
};

function ruleWords(rule: RuleOfThumb | null): string {
  if (rule === null) return "none in print";
  const { low_ft: low, high_ft: high } = rule;
  return `${low === high ? signed(low, 0) : `${signed(low, 0)} to ${signed(high, 0)}`} ft`;
}

/** What each thing changes, beside its rule of thumb and where that is from. */
export function changesTable(ball: OneBall): HTMLElement {
  const rows = carryChangesOf(ball).map(({ step, here_ft, rule }) => [
    step,
    `${signed(here_ft, 1)} ft`,
    ruleWords(rule),
    rule?.source ?? "",
  ]);
  const carry = Math.round(ball.flight.carry / ft);
  const about =
    Math.abs(carry - ruleCarry_ft) <= 40
      ? `The rules are about a ball of ${ruleCarry_ft} ft, and this one is near that.`
      : `The rules are about a ball of ${ruleCarry_ft} ft; this one carries ${carry} ft, so expect them to differ.`;
  return box(
    "carry-changes",
    table(["Change", "This ball", `Rule, ${ruleCarry_ft} ft ball`, "Source"], rows),
    paragraph(`${about} Spin is held where the launch angle changes.`, "quiet"),
  );
}

/** The ball tried, or a hitter of the library. */
export const theBall = "the ball above";

/** Whose swings the what-if table is about. */
export function whoOptions(library: PageLibrary): Option[] {
  return [
    { value: theBall, text: "The ball above" },
    ...hitterOptions(library).filter(({ value }) => value !== every),
  ];
}

/** At most so many of a hitter's last balls: a page should answer at once. */
export const mostBalls = 100;

/** The swings asked about: the ball tried, or a hitter's last balls in play. */
export function swingsOf(library: PageLibrary, who: string, given: BallGiven): readonly WhatIfSwing[] {
  if (who !== theBall) return inPlay(pick(library, { hitter: who })).slice(-mostBalls);
  const { ball } = oneBall(given, 1);
  if (ball === null) return [];
  const spin_source = ball.spinSource === "rate_and_axis" ? "measured" : ball.spinSource;
  return [{ ...given, swing_id: null, spin_source }];
}

/** The swings in the usual circumstances around the air that was typed. */
export function whatIfTable(swings: readonly WhatIfSwing[], given: BallGiven): HTMLElement {
  const cases = whatIf(swings, usualCircumstances(given, given.field ?? undefined, given.ball ?? undefined));
  const feet = (value: number | null): string => (value === null ? "unknown" : `${Math.round(value)} ft`);
  const change = ({ change_ft, change_low_ft, change_high_ft, n }: WhatIfCase, i: number): string => {
    if (i === 0) return "";
    if (change_ft === null || change_low_ft === null || change_high_ft === null) return "unknown";
    const middle = `${signed(change_ft, 0)} ft`;
    return n < 5 ? middle : `${middle} (${signed(change_low_ft, 0)} to ${signed(change_high_ft, 0)})`;
  };
  const [first] = cases;
  const one = first?.n === 1;
  const over = ({ over, over_sd, n, without_direction }: WhatIfCase): string => {
    if (n === without_direction) return "unknown";
    return one ? chanceWords(over) : `${over.toFixed(1)} ± ${over_sd.toFixed(1)}`;
  };
  const head = one
    ? ["Circumstances", "Carry", "Clears the fence", "Change"]
    : ["Circumstances", "Median carry", "Over the fence", "Change (eight of ten swings)"];
  return box(
    "what-if",
    table(
      head,
      cases.map((each, i) => [each.name, feet(each.carry_ft), over(each), change(each, i)]),
    ),
    paragraph(
      `${first?.n ?? 0} ${one ? "ball" : "balls"}, the same launches each time` +
        `${first?.left_out ? `; ${first.left_out} left out without a launch` : ""}` +
        `${first?.without_direction && !one ? `; ${first.without_direction} without a direction and in no fence's count` : ""}. ` +
        `Assumed: ${(first?.assumed ?? []).join("; ")}. Where a row names a temperature, an altitude or a wind, that takes the place of what was assumed. ` +
        "Only the flight is computed anew: a bat and a hitter in the cold are not.",
      "quiet",
    ),
  );
}

/** Names of the spreads as a reader says them. */
const spreadNames: Readonly<Record<keyof typeof spreads, string>> = {
  exitVelocity: "Exit velocity",
  launchAngle: "Launch angle",
  sprayAngle: "Spray angle",
  spinMeasured: "Spin, backspin and sidespin measured",
  spinRate: "Spin rate measured",
  spinAxis: "Spin axis measured",
  spinEstimated: "Spin estimated",
  drag: "Drag of the ball",
  temperatureGiven: "Temperature, given",
  temperatureDefault: "Temperature, assumed",
  pressureGiven: "Pressure, given",
  pressureWeather: "Pressure, from the altitude",
  altitudeUnknown: "Altitude, assumed",
  humidityGiven: "Humidity, given",
  humidityDefault: "Humidity, assumed",
  windGiven: "Wind, given",
  windDefault: "Wind, none given",
  contactGiven: "Contact point, measured",
  contactHeight: "Contact height, assumed",
  contactPlace: "Contact place, assumed",
};

/** The table that every range is propagated from. */
export function spreadsTable(): HTMLElement {
  const rows = Object.entries(spreads).map(([name, { sd, unit, reason }]) => [
    spreadNames[name as keyof typeof spreads],
    `±${sd}${unit === "Cd" ? " of Cd" : unitLabel(unit)}`,
    reason,
  ]);
  return box("spreads", table(["What may be off", "One standard deviation", "Why"], rows));
}
