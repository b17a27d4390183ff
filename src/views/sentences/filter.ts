/** What is said of a filter: what is shown, that nothing is left and what to widen, that a value isn't there. */
import { nearestFirst } from "../../swing/names.ts";
import { counted, listed } from "../../swing/words.ts";
import type { UnitSystem } from "../../units/system.ts";
import { noFilter, type FilterField, type SpeedBand, type SwingFilter, type Widening } from "../filter.ts";
import { namedSpans, spanNamed, type SpanName } from "../spans.ts";
import { rangeWords, shortName } from "../words.ts";
import { spanWords } from "./needs.ts";

const isNamed = (dates: string): dates is SpanName => Object.hasOwn(namedSpans, dates);

/** The named spans, as a sentence goes on with them. */
export const spanTitles: Readonly<Record<SpanName, string>> = {
  week: "this week",
  "four-weeks": "the last four weeks",
};

/**
 * The days that are chosen.
 * @example datesWords("four-weeks") // "the last four weeks"
 * @example datesWords("2025-03-01/..") // "since 2025-03-01"
 */
export function datesWords(dates: string): string {
  return isNamed(dates) ? spanTitles[dates] : spanWords(spanNamed(dates, null));
}

/**
 * A band of pitch speeds.
 * @example bandWords({ low: 70, high: 80 }, "us") // "70 to 80 mph"
 * @example bandWords({ low: 70, high: 80 }, "metric") // "113 to 129 km/h"
 */
export const bandWords = ({ low, high }: SpeedBand, system: UnitSystem): string =>
  rangeWords(low, high, "mph", system);

/** A word that takes an s: small letters alone, as the trade's own names of pitches are. */
const takesS = /^[a-z][a-z -]*[a-rt-wy]$/;

/**
 * The pitches that are chosen, as one phrase; null where all are.
 * @example pitchWords({ pitch_type: "fastball", pitch_speed_mph: { low: 70, high: 80 } }, "us") // "fastballs of 70 to 80 mph"
 * @example pitchWords({ pitch_type: "Pitch 7", pitch_speed_mph: null }, "us") // "pitches “Pitch 7”"
 * @example pitchWords({ pitch_type: null, pitch_speed_mph: { low: 70, high: 80 } }, "us") // "pitches of 70 to 80 mph"
 */
export function pitchWords(
  { pitch_type: type, pitch_speed_mph: band }: Pick<SwingFilter, "pitch_type" | "pitch_speed_mph">,
  system: UnitSystem,
): string | null {
  if (type === null && band === null) return null;
  const what = type === null ? "pitches" : takesS.test(type) ? `${type}s` : `pitches “${shortName(type)}”`;
  return band === null ? what : `${what} of ${bandWords(band, system)}`;
}

const inputWords = { tee: "off a tee", flip: "flips", live: "live" } as const;

/**
 * What is chosen beyond the hitter, in words that a sentence or a button takes.
 * @example filterWords({ dates: "four-weeks", pitch_type: "fastball", pitch_speed_mph: { low: 70, high: 80 } }, "us") // "the last four weeks, fastballs of 70 to 80 mph"
 * @example filterWords({ input: "live", pitcher: "Coach Pell", without_flagged: true }, "us") // "live, thrown by Coach Pell, without flagged swings"
 * @example filterWords({}, "us") // ""
 */
export function filterWords(filter: Partial<SwingFilter>, system: UnitSystem): string {
  return wordsOf({ ...noFilter, ...filter }, system).join(", ");
}

function wordsOf(filter: SwingFilter, system: UnitSystem): string[] {
  const { session, input, drill, dates, pitcher, without_flagged } = filter;
  const pitches = pitchWords(filter, system);
  return [
    ...(dates === "" ? [] : [datesWords(dates)]),
    ...(session === null ? [] : [`session ${shortName(session)}`]),
    ...(input === null ? [] : [inputWords[input]]),
    ...(drill === null ? [] : [`drill “${shortName(drill)}”`]),
    ...(pitches === null ? [] : [pitches]),
    ...(pitcher === null ? [] : [`thrown by ${shortName(pitcher)}`]),
    ...(without_flagged ? ["without flagged swings"] : []),
  ];
}

/** Under any figure that a filter touches. */
export const ceilingOverAll = "A hitter’s ceiling is still told from all of the hitter’s swings.";

/**
 * What is shown where something is chosen that isn't in sight by itself: days, pitches, pitchers. A named span says from which
 * day it is counted. Null where nothing is.
 * @param latest the library's last day, from `latestDay`
 * @example filterSentence({ dates: "week" }, "2025-04-12", "us") // "Only this week: from 2025-04-07 to 2025-04-13, counted from the last day here, 2025-04-12."
 * @example filterSentence({ pitch_type: "slider", drill: "At-bats" }, "2025-04-12", "us") // "Only sliders."
 * @example filterSentence({ hitter: "Ada K." }, null, "us") // null
 */
export function filterSentence(
  filter: SwingFilter,
  latest: string | null,
  system: UnitSystem,
): string | null {
  const { dates, pitch_type, pitch_speed_mph, pitcher } = { ...noFilter, ...filter };
  const pitches = filterWords({ pitch_type, pitch_speed_mph, pitcher }, system);
  const days =
    dates === ""
      ? ""
      : isNamed(dates) && latest !== null
        ? `${datesWords(dates)}: ${spanWords(spanNamed(dates, latest))}, counted from the last day here, ${latest}`
        : datesWords(dates);
  const said = [pitches, days].filter((words) => words !== "");
  return said.length === 0 ? null : `Only ${said.join("; ")}${said.at(-1)!.endsWith(".") ? "" : "."}`;
}

const fieldNames: Readonly<Record<FilterField, string>> = {
  hitter: "hitter",
  session: "session",
  input: "kind of work",
  drill: "drill",
  dates: "dates",
  pitch_type: "pitch type",
  pitch_speed_mph: "pitch speed",
  pitcher: "pitcher",
  without_flagged: "flagged swings’ leaving out",
};

/**
 * That a filter leaves no swing, and what to widen.
 * @param wider from `widenings`
 * @example emptyFilter({ hitter: "Cal R.", dates: "week", pitch_type: "slider" }, [{ field: "dates", n: 12 }, { field: "pitch_type", n: 1 }], "us") // "No swing of Cal R. is left: this week, sliders. Without the dates there are 12 swings, without the pitch type 1 swing."
 * @example emptyFilter({ dates: "week" }, [], "us") // "No swing is left: this week. No single choice opens it: clear them all."
 */
export function emptyFilter(
  filter: Partial<SwingFilter>,
  wider: readonly Widening[],
  system: UnitSystem,
): string {
  const whose =
    filter.hitter == null ? "No swing is left" : `No swing of ${shortName(filter.hitter)} is left`;
  const words = filterWords(filter, system);
  const ways = wider.map(
    ({ field, n }, i) =>
      `${i === 0 ? "Without" : "without"} the ${fieldNames[field]}${i === 0 ? (n === 1 ? " there is" : " there are") : ""} ${counted(n, "swing")}`,
  );
  const open = ways.length === 0 ? "No single choice opens it: clear them all." : `${ways.join(", ")}.`;
  return words === "" ? `${whose}.` : `${whose}: ${words}. ${open}`;
}

/** Values that a sentence names at most. */
const namedAtMost = 5;

/**
 * That no swing has a value, and which there are, the nearest first.
 * @param asked as it was written
 * @example notThere("pitch_type", "fastbal", ["changeup", "fastball"]) // "No swing has the pitch type “fastbal”; there are fastball and changeup."
 * @example notThere("pitch_speed_mph", "40-50", ["70-80", "50-60"], "mph") // "No swing has the pitch speed 40-50 mph; there are 50-60 and 70-80 mph."
 * @example notThere("pitcher", "Jory", []) // "No swing has the pitcher “Jory”; none has any."
 */
export function notThere(
  field: FilterField,
  asked: string,
  there: readonly string[],
  unit: string | null = null,
): string {
  const told = unit === null ? `“${shortName(asked)}”` : `${asked} ${unit}`;
  const near = unit === null ? nearestFirst(asked, there) : byDistance(asked, there);
  const more = near.length > namedAtMost ? [`${near.length - namedAtMost} more`] : [];
  const names = listed([...near.slice(0, namedAtMost).map(shortName), ...more]);
  const rest =
    near.length === 0
      ? "none has any"
      : `there ${near.length === 1 ? "is" : "are"} ${names}${unit === null ? "" : ` ${unit}`}`;
  return `No swing has the ${fieldNames[field]} ${told}; ${rest}.`;
}

/** Bands in the order of how near their lower ends are. */
function byDistance(asked: string, there: readonly string[]): string[] {
  const at = Number.parseFloat(asked);
  return there.toSorted((a, b) => Math.abs(Number.parseFloat(a) - at) - Math.abs(Number.parseFloat(b) - at));
}
