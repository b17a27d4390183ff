/** What is said of work within a session, and of whether a drill's work shows live. */
import type { Input } from "../../swing/fields.ts";
import { capital, counted } from "../../swing/words.ts";
import type { UnitName } from "../../units/index.ts";
import type { UnitSystem } from "../../units/system.ts";
import { shortName, signedRange } from "../words.ts";
import { workWords } from "./progress.ts";

interface Ranged {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** A line within sessions. */
export interface ToldWithin extends Ranged {
  readonly input: Input;
  readonly measure: "exit_velocity" | "power_kept";
  readonly unit: UnitName;
  readonly by: "swings" | "rest";
  readonly sessions: number;
  readonly n: number;
  readonly most: number;
  readonly stands: boolean;
  readonly reason: string | null;
}

const measured = { exit_velocity: "exit velocity", power_kept: "power kept" } as const;

/**
 * What a line within sessions comes to, where it stands; null where it doesn't.
 * @example withinSentence("Max W.", { input: "tee", measure: "exit_velocity", unit: "mph", by: "swings", sessions: 12, n: 600, most: 54, value: -1.2, low: -1.6, high: -0.8, stands: true, reason: null }, "us") // "Max W., off the tee: exit velocity falls within a session, −1.2 mph (−1.6 to −0.8) for each ten swings more; 12 sessions of up to 55 swings, n 600."
 */
export function withinSentence(hitter: string, line: ToldWithin, system: UnitSystem): string | null {
  if (!line.stands || line.value === null) return null;
  const way = line.value < 0 ? "falls" : "rises";
  const along =
    line.by === "swings" ? "for each ten swings more" : "for each doubling of the rest before a swing";
  return `${shortName(hitter)}, ${workWords(line.input)}: ${measured[line.measure]} ${way} within a session, ${signedRange(line, line.unit, system)} ${along}; ${counted(line.sessions, "session")} of up to ${counted(line.most + 1, "swing")}, n ${line.n}.`;
}

/**
 * The one thing to see in the picture of a session.
 * @param lines all that were looked at
 * @example withinTitle([]) // "Nothing stands out from swing to swing"
 */
export function withinTitle(
  lines: readonly Pick<ToldWithin, "measure" | "by" | "value" | "stands">[],
): string {
  const line = lines.find((l) => l.by === "swings" && l.stands && l.value !== null);
  if (line === undefined) return "Nothing stands out from swing to swing";
  const name = measured[line.measure];
  return `${capital(name)} ${line.value! < 0 ? "falls" : "rises"} within a session`;
}

/**
 * What a measure of all sessions comes to for each ten swings more, above its picture.
 * @example alongSaid({ value: -1.2, low: -1.6, high: -0.8, unit: "mph", stands: true, reason: null, sessions: 12 }, "us") // "−1.2 mph (−1.6 to −0.8), 12 sessions"
 * @example alongSaid({ value: 0.1, low: -0.3, high: 0.5, unit: "mph", stands: false, reason: null, sessions: 12 }, "us") // "+0.1 mph (−0.3 to 0.5), not clear"
 */
export function alongSaid(
  line: Pick<ToldWithin, "value" | "low" | "high" | "unit" | "stands" | "reason" | "sessions">,
  system: UnitSystem,
): string {
  if (line.value === null) return line.reason ?? "no slope";
  const range = signedRange(line, line.unit, system);
  return line.stands ? `${range}, ${counted(line.sessions, "session")}` : `${range}, not clear`;
}

/** Said beside anything about work within a session. */
export const fatigueCaution =
  "A drop has many causes, and none is in these numbers: a harder drill, a bat, boredom, heat, being tired. Count swings, young hitters' most of all, and end a round at pain or when the swing falls apart: that is for the coach and, with pain, a licensed practitioner to judge. Nothing here is a diagnosis.";

/** Said where no line within sessions stands. */
export const steadySentence = (hitter: string): string =>
  `${shortName(hitter)}: nothing within a session stands out from swing to swing, with all lines looked at together.`;

/** What live balls say of a drill's work. */
export interface ToldContrast extends Ranged {
  readonly before: { readonly sessions: number; readonly n: number };
  readonly after: { readonly sessions: number; readonly n: number };
  readonly shows: boolean;
}

/**
 * That a drill's work shows live, where it clearly does; null otherwise.
 * @example showsSentence("Low tee", { value: 3.1, low: 1.2, high: 5, before: { sessions: 6, n: 180 }, after: { sessions: 5, n: 150 }, shows: true }, "us") // "Low tee shows live: as its work was done, balls in its cells of the zone gained +3.1 mph (1.2 to 5.0) on those elsewhere; 6 live sessions before half of it and 5 after, n 180 and 150."
 */
export function showsSentence(drill: string, told: ToldContrast, system: UnitSystem): string | null {
  const { before, after, shows, value } = told;
  if (!shows || value === null) return null;
  return `${shortName(drill)} shows live: as its work was done, balls in its cells of the zone gained ${signedRange(told, "mph", system)} on those elsewhere; ${counted(before.sessions, "live session")} before half of it and ${after.sessions} after, n ${before.n} and ${after.n}.`;
}

/** Said where no drill's line stands. */
export const noWorkShows =
  "No drill’s work shows beyond what days differ by, with all of these lines looked at together.";

/** Said below the table of drills: what its live lines are. */
export const liveContrastNote =
  "Live: exit velocity of the better half in the drill’s cells of the zone, less that in the other cells, from the live session with the least of the drill’s work done before it to the one with the most. Sessions and n are those before half of its work, and after.";
