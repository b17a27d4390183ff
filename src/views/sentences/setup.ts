/** What is said of a tracker: whether sessions can be compared, which looks moved, and how far a session is trusted. */
import { counted, fixedNumber, signedNumber } from "../../swing/words.ts";

/** What a comparison of sessions can't tell, and why. */
export const limitSentences = {
  nothing: "There is no tee or flip work in a named session to compare.",
  oneSession:
    "There is one session with tee or flip work: without a second, nothing tells whether the tracker moved.",
  oneHitter:
    "One hitter alone took tee or flip swings: sessions can differ by the tracker or by the hitter, and nothing tells which.",
  noneShared:
    "No session shares two hitters with another: there is nothing to tell the tracker from the hitters by.",
} as const;

/** Said of a session that no other shares hitters with. */
export const noPartnerSentence =
  "No other session has the same hitters at the same work: nothing to compare with.";

/**
 * Said of a session whose hitters are too few to be compared.
 * @param shared hitters who have another session
 * @example tooFewSharedSentence(1, ["Ada"]) // "Only Ada hit here: a turned tracker and a changed swing look alike."
 * @example tooFewSharedSentence(1, ["Ada", "Ben"]) // "Only 1 of its 2 hitters has another session: a turned tracker and a changed swing look alike."
 * @example tooFewSharedSentence(0, ["Ada", "Ben"]) // "None of its 2 hitters has another session: a turned tracker and a changed swing look alike."
 */
export function tooFewSharedSentence(shared: number, hitters: readonly string[]): string {
  const alike = "a turned tracker and a changed swing look alike";
  if (hitters.length === 1) return `Only ${hitters[0]} hit here: ${alike}.`;
  if (shared === 0) return `None of its ${hitters.length} hitters has another session: ${alike}.`;
  return `Only ${shared} of its ${hitters.length} hitters ${shared === 1 ? "has" : "have"} another session: ${alike}.`;
}

/** Added where two sessions differ and there is no third. */
export const eitherOfTwoSentence =
  "Two sessions differ by twice that, and nothing tells which of them moved: a third one would.";

/**
 * A shift of place that no turn explains.
 * @param off ft
 * @example placeShiftSentence(-0.5, "higher", "lower") // "The contact point lies 6 in lower for all hitters together, and the ball's direction shows no turn: the tracker, the plate or the tee was put down elsewhere."
 */
export function placeShiftSentence(off: number, plus: string, minus: string): string {
  return `The contact point lies ${(Math.abs(off) * 12).toFixed(0)} in ${off < 0 ? minus : plus} for all hitters together, and the ball's direction shows no turn: the tracker, the plate or the tee was put down elsewhere.`;
}

/**
 * Exit velocities off the hitters' own trend.
 * @example speedShiftSentence(-4.12) // "Exit velocities lie 4.1 mph under the hitters' own trend, for all hitters together: the tracker, the balls or the hitters, and no comparison tells which."
 */
export function speedShiftSentence(off_mph: number): string {
  return `Exit velocities lie ${Math.abs(off_mph).toFixed(1)} mph ${off_mph < 0 ? "under" : "over"} the hitters' own trend, for all hitters together: the tracker, the balls or the hitters, and no comparison tells which.`;
}

/**
 * A turn of the ball's direction that the contact point doesn't share.
 * @example directionAloneSentence(2.04, "turned") // "Balls go +2.0° in spray for all hitters together, and the contact point shows no such turn."
 */
export function directionAloneSentence(off_deg: number, what: "turned" | "tilted"): string {
  return `Balls go ${signedNumber(off_deg, 1)}° ${what === "turned" ? "in spray" : "in launch"} for all hitters together, and the contact point shows no such turn.`;
}

/**
 * A tracker that looks turned or tilted.
 * @example turnedSentence({ value: -3, low: -3.5, high: -2.5 }, "turned", "to the left") // "The tracker looks turned 3.0° to the left (95%: −3.5 to −2.5°), for all hitters together."
 */
export function turnedSentence(
  { value, low, high }: { readonly value: number; readonly low: number; readonly high: number },
  what: "turned" | "tilted",
  way: string,
): string {
  return `The tracker looks ${what} ${Math.abs(value).toFixed(1)}° ${way} (95%: ${signedNumber(low, 1)} to ${signedNumber(high, 1)}°), for all hitters together.`;
}

/** What a session's log leaves out. */
export const logSentences = {
  notListed: "The session is not in sessions.csv: no placement and no calibration is logged.",
  noPlacement: "No tracker placement is logged.",
  noCalibration: "No calibration is logged.",
} as const;

/**
 * What of a placement the log leaves out.
 * @example leftOutSentence(["yaw", "tilt"]) // "The log leaves out the tracker's yaw, tilt."
 */
export function leftOutSentence(missing: readonly string[]): string {
  return `The log leaves out the tracker's ${missing.join(", ")}.`;
}

/**
 * A calibration older than the session.
 * @example calibratedBeforeSentence("2025-03-01") // "The tracker was calibrated on 2025-03-01, before the day."
 */
export function calibratedBeforeSentence(day: string): string {
  return `The tracker was calibrated on ${day}, before the day.`;
}

/**
 * A turn that the log itself gives, and what it makes of the session.
 * @example loggedTurnSentence("tilt", -1.2, "tighten it") // "The log gives the tracker's tilt as −1.2°: tighten it."
 */
export function loggedTurnSentence(name: string, turn_deg: number, verdict: string): string {
  return `The log gives the tracker's ${name} as ${fixedNumber(turn_deg, 1)}°: ${verdict}.`;
}

/**
 * Readings in doubt; null for none.
 * @param kinds "doubled 2, too fast 1"
 * @example inDoubtSentence(1, 40, "doubled 1") // "1 of 40 readings is in doubt (doubled 1)."
 * @example inDoubtSentence(0, 40, "") // null
 */
export function inDoubtSentence(doubtful: number, readings: number, kinds: string): string | null {
  if (doubtful === 0) return null;
  return `${doubtful} of ${counted(readings, "reading")} ${doubtful === 1 ? "is" : "are"} in doubt (${kinds}).`;
}

/** Said of a session that was not compared, where nothing else tells why. */
export const notComparedSentence =
  "Not compared with other sessions: that takes tee or flip work of two hitters.";

/**
 * What was done to a session's readings.
 * @param by each turn in °, those of 0 left out
 * @example turnedBackSentence({ yaw: -3, tilt: 0 }, "tape measure") // "Readings are corrected by yaw −3°, as sessions.csv says (tape measure)."
 */
export function turnedBackSentence(by: Readonly<Record<string, number>>, why: string | null): string {
  const told = Object.entries(by)
    .filter(([, v]) => v !== 0)
    .map(([name, v]) => `${name} ${String(v).replace("-", "−")}°`);
  return `Readings are corrected by ${told.join(", ")}, as sessions.csv says (${why ?? "no reason given"}).`;
}

const placementVerdicts = {
  fine: "Fine: no number is off by more than a tracker's own error.",
  "tighten it": "Tighten it: the numbers can be used, and a few minutes make them better.",
  "redo it": "Redo it: the numbers would be off by more than what you want to see in them.",
} as const;

/**
 * The verdict of a placement.
 * @example placementSentence("fine") // "Fine: no number is off by more than a tracker's own error."
 */
export function placementSentence(verdict: keyof typeof placementVerdicts): string {
  return placementVerdicts[verdict];
}

/**
 * A tracker nearer to the plate than one is put.
 * @param far how far it stands, in words
 * @param metres the number as metres, and how far that would be; null where it was given in metres
 * @example nearSentence("6 ft", null) // "The tracker stands 6 ft from the plate's point: near enough for a bat or a ball to strike it."
 */
export function nearSentence(far: string, metres: { number: string; far: string } | null): string {
  const stands = `The tracker stands ${far} from the plate's point: near enough for a bat or a ball to strike it.`;
  return metres === null
    ? stands
    : `${stands} Was it measured in metres? ${metres.number} m would be ${metres.far}; the figures below take it as feet.`;
}

/**
 * A tracker farther from the plate than one is put.
 * @example farSentence("200 ft") // "The tracker stands 200 ft from the plate's point, farther than the rubber and the usual backstop: check the unit of the number."
 */
export function farSentence(far: string): string {
  return `The tracker stands ${far} from the plate's point, farther than the rubber and the usual backstop: check the unit of the number.`;
}

/**
 * A turn that nobody leaves a tracker with.
 * @example oddTurnSentence("tilt", 40) // "A tilt of 40° is not how a tracker is left standing: check the number. The figures below are right for it all the same."
 */
export function oddTurnSentence(name: "turn" | "tilt" | "lean", by_deg: number): string {
  return `A ${name} of ${by_deg < 0 ? "−" : ""}${Math.abs(by_deg)}° is not how a tracker is left standing: check the number. The figures below are right for it all the same.`;
}

/**
 * What two tapes leave open.
 * @example tapesSentence("0.5 in", "1 in", "2 in") // "By the tapes, each read to 0.5 in: ± 1 in along the line, ± 2 in across it."
 */
export function tapesSentence(each: string, along: string, across: string): string {
  return `By the tapes, each read to ${each}: ± ${along} along the line, ± ${across} across it.`;
}

/** Said where sessions are told of and there is nothing to tell. */
export const nothingOdd = {
  noSession: "No swing of this library names a session.",
  noDoubt: "No session is in doubt.",
  noReason: "Nothing speaks against it.",
  noHitter: "No hitter's day stands out from what the others show.",
} as const;
