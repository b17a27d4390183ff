/** A page's sentences, as elements. */
import { spinSourceOf } from "../../src/flight/spin.ts";
import { spinSpreads } from "../../src/flight/spreads.ts";
import type { Estimate } from "../../src/stats/estimate.ts";
import type { Share } from "../../src/stats/share.ts";
import { buckets, swingFields, type EnrichedSwing, type Field, type Input } from "../../src/swing/fields.ts";
import type { UnitName } from "../../src/units/index.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { cautions } from "../../src/views/cautions.ts";
import type { SessionChange } from "../../src/views/change.ts";
import type { FlipView } from "../../src/views/flip.ts";
import type { Headline } from "../../src/views/headline.ts";
import type { LiveResult, LiveView } from "../../src/views/live.ts";
import type { SprayView } from "../../src/views/spray.ts";
import { oneLength, perLength } from "../../src/views/slopes.ts";
import type { TargetResult } from "../../src/views/target.ts";
import type { TeeView } from "../../src/views/tee.ts";
import { changeLine, changeNotes, nothingBefore } from "../../src/views/sentences/changes.ts";
import { rangeNumbers, rangeWords, valueWords } from "../../src/views/words.ts";
import { cellName } from "../../src/views/zone.ts";
import type { ReportOpening } from "../../src/views/opening.ts";
import { reportAnswer, sprayAnswer } from "../../src/views/sentences/opening.ts";
import type { Figure, Opening, Span } from "./opening.ts";
import { box, facts, nothing, table, type Fact } from "./show.ts";

/** A figure as a fact: its value, then its interval and its n. */
export function figured(
  name: string,
  estimate: Estimate,
  unit: UnitName,
  digits = 0,
  system: UnitSystem = "us",
): Figure {
  const { n, value, low, high, reason } = estimate;
  const range =
    low === null || high === null
      ? (reason ?? "no interval")
      : `95%: ${rangeWords(low, high, unit, system, digits)}`;
  const scale = unit === "share" ? "share" : "measure";
  return {
    name,
    value: valueWords(value, unit, system, digits),
    doubt: `${range}, n ${n}`,
    ...spanOf(value, low, high, scale),
  };
}

/** An interval to draw; none where there is none. */
export function spanOf(
  value: number | null,
  low: number | null,
  high: number | null,
  scale: Span["scale"],
): Pick<Figure, "span"> {
  return value === null || low === null || high === null ? {} : { span: { value, low, high, scale } };
}

/** A share as a fact: percent, then the count, n and the interval. */
export function shared(name: string, { count, n, share, low, high }: Share): Figure {
  const doubt =
    low === null || high === null
      ? "nothing to count"
      : `${count} of ${n}, 95%: ${rangeWords(low, high, "share", "us")}`;
  return { name, value: valueWords(share, "share", "us"), doubt, ...spanOf(share, low, high, "share") };
}

function paragraph(text: string, className = ""): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/** A report's first screen: the target or the contact, its figures, and what to work on next. */
export function reportSaid(
  hitter: string,
  { met, input, well, allWell, speed, all }: ReportOpening,
  next: string | null,
  system: UnitSystem = "us",
): Omit<Opening, "picture"> {
  const work = input === null ? "" : `, ${input}`;
  return {
    answer: reportAnswer(hitter, met, allWell, all),
    figures: [
      ...(met.n > 0 ? [shared("Target met", met)] : []),
      ...(well.n > 0 ? [shared(`Clean or flush${work}`, well)] : []),
      ...(speed.value === null ? [] : [figured(`Exit velocity${work}`, speed, "mph", 0, system)]),
    ],
    next,
  };
}

/** The headline's facts; null where there is none. */
export function factList({ facts: told }: Headline): HTMLElement | null {
  if (told.length === 0) return null;
  const list = document.createElement("ul");
  list.className = "said";
  for (const fact of told) list.appendChild(document.createElement("li")).textContent = fact;
  return list;
}

/** What goes with any advice to swing more. */
export function care(): HTMLElement {
  return paragraph(cautions.join(" "), "care");
}

/** How often a drill's target was met, its window, and to which side of it the balls in play fell. */
export function targeted(
  { drill, window, longest_run, unjudged, ...share }: TargetResult,
  system: UnitSystem = "us",
): HTMLElement {
  const heading = document.createElement("h3");
  heading.textContent = drill;
  const items: Fact[] = [
    shared("Target met", share),
    { name: "Longest run", value: String(longest_run), doubt: `in a row, within one session, n ${share.n}` },
  ];
  const missing = {
    name: "Not judged",
    value: String(unjudged),
    doubt: "swings that lack a measure of the window",
  };
  return box(
    "target",
    heading,
    facts(unjudged === 0 ? items : [...items, missing]),
    table(
      ["Window", "from", "to", "below", "within", "above"],
      window.map(({ measure, low, high, below, within, above }) => {
        const { title, unit = "share" } = (swingFields as readonly Field[]).find(
          ({ name }) => name === measure,
        )!;
        const ends = [low, high].map((end) =>
          end === null ? "open" : valueWords(end, unit, system, unit === "ft" ? 1 : 0),
        );
        return [title, ...ends, String(below), String(within), String(above)];
      }),
    ),
  );
}

const workWords: Record<Input, string> = { tee: "Tee work", flip: "Flip work", live: "Live work" };

/** What changed since the session before, input by input. */
export function changed(changes: readonly SessionChange[], system: UnitSystem = "us"): HTMLElement {
  if (changes.length === 0) return nothing(nothingBefore);
  return box(
    "changes",
    ...changes.map(({ input, from, to, changes: list }) =>
      box(
        "change",
        paragraph(`${workWords[input]}, from ${from.date ?? from.session} to ${to.date ?? to.session}`),
        table(
          ["Measure", "Before", "Now", "Change", "n"],
          list.map((change) => {
            const { title, unit, difference } = change;
            return [
              title,
              valueWords(difference.from.value, unit, system, 0),
              valueWords(difference.to.value, unit, system, 0),
              changeLine(change, system),
              `${difference.from.n}, ${difference.to.n}`,
            ];
          }),
        ),
      ),
    ),
    paragraph(changeNotes(changes).join(" "), "quiet"),
  );
}

/** A player's figures: which way the balls went. */
export function sideFacts({ sides }: SprayView): Fact[] {
  const names = { pull: "Pulled", middle: "Up the middle", opposite: "The other way" } as const;
  return sides.map(({ side, ...share }) => shared(names[side], share));
}

/** A player's first screen: where, how far, how well. */
export function spraySaid(
  hitter: string,
  { in_play, sides, well_hit, carry_ft, farthest }: SprayView,
  system: UnitSystem = "us",
): Omit<Opening, "picture"> {
  const pulled = sides.find(({ side }) => side === "pull") ?? { count: 0, n: 0 };
  const far = farthest === null ? null : farthestFact(farthest, system);
  return {
    answer: sprayAnswer(hitter, { balls: in_play, pulled, farthest_ft: farthest?.carry_ft ?? null }, system),
    figures: [
      ...(well_hit.n > 0 ? [shared("Clean or flush", well_hit)] : []),
      ...(carry_ft.value === null ? [] : [figured("Usual carry in the air", carry_ft, "ft", 0, system)]),
      ...(far === null ? [] : [far]),
    ],
  };
}

/** The farthest balls, one a row. */
export function bestBalls(balls: readonly EnrichedSwing[], system: UnitSystem = "us"): HTMLElement | null {
  if (balls.length === 0) return null;
  const shown = table(
    [`Farthest ${balls.length}`, "Eight of ten such balls", "Off the bat", "Angle", "What", "When"],
    balls.map((row) => [
      valueWords(row.carry_ft, "ft", system),
      row.carry_low_ft === null || row.carry_high_ft === null
        ? "unknown"
        : rangeWords(row.carry_low_ft, row.carry_high_ft, "ft", system),
      valueWords(row.exit_velocity_mph, "mph", system),
      valueWords(row.launch_angle_deg, "deg", system),
      row.category ?? "unknown",
      row.time?.slice(0, 10) ?? row.session ?? "",
    ]),
  );
  shown.classList.add("best");
  return shown;
}

function farthestFact(row: EnrichedSwing, system: UnitSystem): Figure {
  const { carry_ft, carry_low_ft, carry_high_ft } = row;
  const range =
    carry_low_ft === null || carry_high_ft === null
      ? "one ball"
      : `one ball; eight of ten such land at ${rangeWords(carry_low_ft, carry_high_ft, "ft", system)}`;
  return {
    name: "Farthest",
    value: valueWords(carry_ft, "ft", system),
    doubt: range,
    ...spanOf(carry_ft, carry_low_ft, carry_high_ft, "measure"),
  };
}

/** What the farthest ball's carry rests on: where its spin is from. Null where there is none. */
export function farthestSpin({ farthest }: Pick<SprayView, "farthest">): string | null {
  const source = farthest === null ? null : spinSourceOf(farthest);
  return source === null
    ? null
    : `The farthest ball's spin: ${spinSpreads[source].words}, ${spinSpreads[source].spread}.`;
}

/** How hard the ball is hit, and how alike: what tee and flip work have in common. */
function struckFacts({ exit_velocity_mph, repeatability }: TeeView, system: UnitSystem): Fact[] {
  return [
    figured("Exit velocity", exit_velocity_mph, "mph", 0, system),
    figured("Spread of launch angle", repeatability.launch_angle_deg, "deg", 1),
    figured("Spread of spray angle", repeatability.spray_angle_deg, "deg", 1),
  ];
}

/** What tee work shows, in figures. */
export function teeFacts(view: TeeView, system: UnitSystem = "us"): Fact[] {
  return [
    ...struckFacts(view, system),
    figured(
      `Exit velocity, for each ${oneLength[system].word} outward`,
      perLength(view.place.outward, system),
      "mph",
      1,
      system,
    ),
    figured(
      `Exit velocity, for each ${oneLength[system].word} higher`,
      perLength(view.place.upward, system),
      "mph",
      1,
      system,
    ),
  ];
}

/** What flip work shows beside: the timing. */
export function flipFacts(view: FlipView, system: UnitSystem = "us"): Fact[] {
  const { timing } = view;
  return [
    ...struckFacts(view, system),
    figured("Met so far out front", timing.depth_ft, "ft", system === "us" ? 1 : 2, system),
    figured("Spread of that depth", timing.depth_spread_ft, "ft", 2, system),
    figured(
      `Pulled, for each ${oneLength[system].word} farther out front`,
      perLength(timing.pull_deg_per_ft, system),
      "deg",
      1,
    ),
  ];
}

/** What live work shows: what came of the pitches. */
export function liveFacts(
  { exit_velocity_mph, misses, chases, zone_swings, power_kept }: LiveView,
  system: UnitSystem = "us",
): Fact[] {
  return [
    figured("Exit velocity", exit_velocity_mph, "mph", 0, system),
    figured("Power kept, median", power_kept, "share"),
    shared("Misses, of swings", misses),
    shared("Swings at pitches in the zone", zone_swings),
    shared("Swings at pitches outside it", chases),
  ];
}

/** A table names so many groups of live work at the most, and counts the rest. */
const mostGroups = 12;

/** An interval in brackets, which no line breaks within. */
const bracketed = (interval: string): string => ` (${interval.replaceAll(" ", "\u00a0")})`;

/** Count, n and interval, as short as a table's cell. */
function shortShare({ count, n, low, high }: Share): string {
  return low === null || high === null
    ? "none"
    : `${count} of ${n}${bracketed(rangeWords(low, high, "share", "us"))}`;
}

/** Value, interval and n, likewise. */
function shortEstimate({ n, value, low, high }: Estimate, unit: UnitName, system: UnitSystem): string {
  if (value === null) return "none";
  const range = low === null || high === null ? "" : bracketed(rangeNumbers(low, high, unit, system));
  return `${valueWords(value, unit, system)}${range}, n ${n}`;
}

/** Live work by what was thrown, how fast, where and by whom: misses, exit velocity, and how well it was hit. */
export function liveGroups(view: LiveView, system: UnitSystem = "us"): HTMLElement {
  const fast = (low: number | null, high: number | null): string =>
    low === null || high === null ? "not measured" : rangeWords(low, high, "mph", system);
  const rowOf = (name: string | null, result: LiveResult): string[] => [
    name ?? "not named",
    String(result.pitches),
    shortShare(result.misses),
    shortEstimate(result.exit_velocity_mph, "mph", system),
    ...result.buckets.map(shortShare),
  ];
  const tableOf = (by: string, rows: readonly string[][]): HTMLElement[] => [
    table([by, "Pitches", "Missed, of swings", "Exit velocity", ...buckets], rows.slice(0, mostGroups)),
    ...(rows.length > mostGroups ? [nothing(`${rows.length - mostGroups} more are not shown.`)] : []),
  ];
  const placed = view.by_place.filter(({ pitches }) => pitches > 0);
  const further = document.createElement("details");
  further.appendChild(document.createElement("summary")).textContent = "By place and by pitcher";
  further.append(
    ...tableOf(
      "Place",
      placed.map((each) => rowOf(cellName(each), each)),
    ),
    ...tableOf(
      "Pitcher",
      view.by_pitcher.map((each) => rowOf(each.pitcher, each)),
    ),
  );
  return box(
    "live-groups wide",
    ...tableOf(
      "Pitch type",
      view.by_pitch_type.map((each) => rowOf(each.pitch_type, each)),
    ),
    ...tableOf(
      "Speed at the plate",
      view.by_speed.map((each) => rowOf(fast(each.low_mph, each.high_mph), each)),
    ),
    further,
    paragraph(
      "In brackets the 95% intervals. Contact is counted over the balls in play that have a bucket.",
      "quiet",
    ),
  );
}
