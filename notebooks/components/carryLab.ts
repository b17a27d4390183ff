/** What the carry lab shows of a ball: its words, what changes it, and the same swings in other air. */
import { oneBall, type BallAnswer, type BallGiven, type OneBall } from "../../src/contact/oneBall.ts";
import { usualCircumstances, whatIf, type WhatIfCase, type WhatIfSwing } from "../../src/contact/whatIf.ts";
import { spreads } from "../../src/flight/spreads.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { ft } from "../../src/units/index.ts";
import {
  phraseIn,
  shownNumber,
  shownStep,
  shownUnit,
  unitSign,
  type UnitSystem,
} from "../../src/units/system.ts";
import { ballWords, chanceWords } from "../../src/views/sentences/ball.ts";
import { rulesSentence } from "../../src/views/sentences/carry.ts";
import { carryChangesOf, ruleCarry_ft, type CarryChangeHere } from "../../src/views/rules.ts";
import { signedNumber } from "../../src/swing/words.ts";
import { rangeWords, valueWords } from "../../src/views/words.ts";
import { inPlay } from "../../src/views/swings.ts";
import { every, hitterOptions, pick } from "./pick.ts";
import type { Option } from "./choice.ts";
import type { PageLibrary } from "./library.ts";
import { opening } from "./opening.ts";
import { spanOf } from "./say.ts";
import { box, table } from "./show.ts";

function paragraph(text: string, className = ""): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/** A ball in plain words beside its picture, or what is wrong with what was typed. */
export function told(
  { ball, amiss }: BallAnswer,
  system: UnitSystem,
  picture: (ball: OneBall) => Node,
): HTMLElement {
  if (ball === null) {
    return box("trouble", ...amiss.map(({ sentence }) => paragraph(phraseIn(sentence, system))));
  }
  const { headline, sentences } = ballWords(ball, system);
  const [flight = "", ...rest] = sentences;
  // The fence is what a reader asks next; spin, air and what was assumed are what it rests on.
  const fence = rest.filter((text) => text.startsWith("Over the fence?"));
  const { carry, apex, hang } = ball.flight;
  const { low, high } = ball.range;
  const far = (metres: number): string => valueWords(metres / ft, "ft", system);
  const element = opening({
    answer: { text: headline, figure: far(carry) },
    told: [flight, ...fence],
    figures: [
      {
        name: "Carry",
        value: far(carry),
        doubt: `eight of ten: ${rangeWords(low / ft, high / ft, "ft", system)}`,
        ...spanOf(carry, low, high, "measure"),
      },
      { name: "Highest point", value: far(apex), doubt: "above the ground" },
      { name: "In the air", value: `${hang.toFixed(1)} s`, doubt: "until it lands" },
    ],
    rests: rest.filter((text) => !fence.includes(text)).join(" "),
    picture: picture(ball),
  });
  element.classList.add("told");
  return element;
}

function ruleWords({ rule, unit }: CarryChangeHere, digits: number): string {
  if (rule === null) return "none in print";
  const { low, high } = rule;
  const one = low === high;
  return `${one ? signedNumber(low, digits) : `${signedNumber(low, digits)} to ${signedNumber(high, digits)}`} ${unit}`;
}

/** What each thing changes, beside its rule of thumb and where that is from. */
export function changesTable(ball: OneBall, system: UnitSystem): HTMLElement {
  // The rules in print are whole feet; a metre is three of them.
  const digits = system === "us" ? 0 : 1;
  const rows = carryChangesOf(ball, system).map((change) => [
    change.step,
    `${signedNumber(change.here, 1)} ${change.unit}`,
    ruleWords(change, digits),
    change.rule?.source ?? "",
  ]);
  const about = rulesSentence(ball.flight.carry / ft, system);
  const rules = valueWords(ruleCarry_ft, "ft", system);
  const turned =
    system === "us"
      ? ""
      : " In print they are in feet, for steps of mph, °F, feet and inHg: turned into these.";
  return box(
    "carry-changes",
    table(["Change", "This ball", `Rule, ${rules} ball`, "Source"], rows),
    paragraph(`${about}${turned} Spin is held where the launch angle changes.`, "quiet"),
  );
}

/** The ball tried, or a hitter of the library. */
const theBall = "the ball above";

/** Whose swings the what-if table is about. */
export function whoOptions(library: PageLibrary): Option[] {
  return [
    { value: theBall, text: "The ball above" },
    ...hitterOptions(library).filter(({ value }) => value !== every),
  ];
}

/** At most so many of a hitter's last balls: a page should answer at once. */
const mostBalls = 100;

/** The swings asked about: the ball tried, or a hitter's last balls in play. */
export function swingsOf(library: PageLibrary, who: string, given: BallGiven): readonly WhatIfSwing[] {
  if (who !== theBall) return inPlay(pick(library, { hitter: who })).slice(-mostBalls);
  const { ball } = oneBall(given, 1);
  if (ball === null) return [];
  const spin_source = ball.spinSource === "rate_and_axis" ? "measured" : ball.spinSource;
  return [{ ...given, swing_id: null, spin_source }];
}

/** The swings in the usual circumstances around the air that was typed. */
export function whatIfTable(
  swings: readonly WhatIfSwing[],
  given: BallGiven,
  system: UnitSystem,
): HTMLElement {
  const cases = whatIf(swings, usualCircumstances(given, given.field ?? undefined, given.ball ?? undefined));
  const far = (value: number | null): string => valueWords(value, "ft", system);
  const more = (feet: number): string => signedNumber(shownNumber(feet, "ft", system), 0);
  const change = ({ change_ft, change_low_ft, change_high_ft, n }: WhatIfCase, i: number): string => {
    if (i === 0) return "";
    if (change_ft === null || change_low_ft === null || change_high_ft === null) return "unknown";
    const middle = `${more(change_ft)} ${unitSign(shownUnit("ft", system))}`;
    return n < 5 ? middle : `${middle} (${more(change_low_ft)} to ${more(change_high_ft)})`;
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
      cases.map((each, i) => [phraseIn(each.name, system), far(each.carry_ft), over(each), change(each, i)]),
    ),
    paragraph(
      `${first?.n ?? 0} ${one ? "ball" : "balls"}, the same launches each time` +
        `${first?.left_out ? `; ${first.left_out} left out without a launch` : ""}` +
        `${first?.without_direction && !one ? `; ${first.without_direction} without a direction and in no fence's count` : ""}. ` +
        `Assumed: ${phraseIn((first?.assumed ?? []).join("; "), system)}. Where a row names a temperature, an altitude or a wind, that takes the place of what was assumed. ` +
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
  contactPlace: "Contact point, assumed",
};

/** The table that every range is propagated from. */
export function spreadsTable(system: UnitSystem): HTMLElement {
  const rows = Object.entries(spreads).map(([name, { sd, unit, reason }]) => [
    spreadNames[name as keyof typeof spreads],
    unit === "Cd"
      ? `±${sd} of Cd`
      : `±${Number(shownStep(sd, unit, system).toPrecision(2))}${unitLabel(shownUnit(unit, system))}`,
    reason,
  ]);
  return box("spreads", table(["What may be off", "One standard deviation", "Why"], rows));
}
