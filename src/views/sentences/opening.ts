/** What a page's first screen says in one sentence, with the words of it that are the one thing to see. Counts, no more. */
import type { Share } from "../../stats/share.ts";
import type { UnitSystem } from "../../units/system.ts";
import { counted } from "../../swing/words.ts";
import { shortName, valueWords } from "../words.ts";

/** A sentence and the part of it that is set apart. */
export interface Said {
  readonly text: string;
  readonly figure: string;
}

type Count = Pick<Share, "count" | "n">;
const of = ({ count, n }: Count): string => `${count} of ${n}`;

/**
 * How often a hitter met what was aimed at: the drill's target, or any drill's where there were several; without a target
 * how many balls were hit well; else how many there are.
 * @param targets those with a swing that can be judged, and all of them together
 * @param well balls hit clean or flush, of those with a bucket
 * @param all swings, and balls in play among them
 * @example reportAnswer("Ada K.", { drills: ["away"], count: 3, n: 12 }, { count: 9, n: 12 }, { swings: 12, balls: 12 }).text // "Ada K. met the target of “away” on 3 of 12 swings."
 * @example reportAnswer("Ada K.", { drills: ["a", "b"], count: 1, n: 1 }, { count: 0, n: 1 }, { swings: 1, balls: 1 }).text // "Ada K. met the target on 1 of 1 swing, over 2 drills."
 * @example reportAnswer("Ada K.", { drills: [], count: 0, n: 0 }, { count: 9, n: 12 }, { swings: 12, balls: 12 }).text // "Ada K. hit 9 of 12 balls clean or flush."
 * @example reportAnswer("Ada K.", { drills: [], count: 0, n: 0 }, { count: 0, n: 0 }, { swings: 8, balls: 1 }).text // "Ada K. put 1 ball in play in 8 swings."
 * @example reportAnswer("Ada K.", { drills: [], count: 0, n: 0 }, { count: 0, n: 0 }, { swings: 0, balls: 0 }).text // "Ada K. has no swing here yet."
 */
export function reportAnswer(
  hitter: string,
  targets: Count & { readonly drills: readonly string[] },
  well: Count,
  all: { readonly swings: number; readonly balls: number },
): Said {
  const who = shortName(hitter);
  const { drills } = targets;
  if (targets.n > 0) {
    const swings = targets.n === 1 ? "swing" : "swings";
    return drills.length === 1
      ? {
          text: `${who} met the target of “${shortName(drills[0]!)}” on ${of(targets)} ${swings}.`,
          figure: of(targets),
        }
      : {
          text: `${who} met the target on ${of(targets)} ${swings}, over ${drills.length} drills.`,
          figure: of(targets),
        };
  }
  if (well.n > 0) {
    const balls = well.n === 1 ? "ball" : "balls";
    return { text: `${who} hit ${of(well)} ${balls} clean or flush.`, figure: of(well) };
  }
  if (all.swings === 0)
    return { text: who === "" ? "There is no swing here yet." : `${who} has no swing here yet.`, figure: "" };
  const balls = all.balls === 0 ? "no ball" : counted(all.balls, "ball");
  return { text: `${who} put ${balls} in play in ${counted(all.swings, "swing")}.`, figure: balls };
}

/**
 * Where a hitter's balls went, and the farthest of them.
 * @param pulled of the fair balls whose side is known
 * @param farthest_ft the longest carry; null where none is known
 * @example sprayAnswer("Ada K.", { balls: 30, pulled: { count: 12, n: 28 }, farthest_ft: 311.4 }, "us").text // "Ada K. pulled 12 of 28 fair balls; the farthest ball carried 311 ft."
 * @example sprayAnswer("Ada K.", { balls: 1, pulled: { count: 0, n: 0 }, farthest_ft: null }, "us").text // "Ada K. put 1 ball in play."
 * @example sprayAnswer("Ada K.", { balls: 0, pulled: { count: 0, n: 0 }, farthest_ft: null }, "us").text // "Ada K. has no ball in play here yet."
 */
export function sprayAnswer(
  hitter: string,
  {
    balls,
    pulled,
    farthest_ft,
  }: { readonly balls: number; readonly pulled: Count; readonly farthest_ft: number | null },
  system: UnitSystem,
): Said {
  const who = shortName(hitter);
  if (balls === 0)
    return {
      text: who === "" ? "There is no ball in play here yet." : `${who} has no ball in play here yet.`,
      figure: "",
    };
  const far = farthest_ft === null ? "" : valueWords(farthest_ft, "ft", system);
  const farthest = far === "" ? "" : `; the farthest ball carried ${far}`;
  return pulled.n === 0
    ? { text: `${who} put ${counted(balls, "ball")} in play${farthest}.`, figure: far || String(balls) }
    : {
        text: `${who} pulled ${of(pulled)} fair ${pulled.n === 1 ? "ball" : "balls"}${farthest}.`,
        figure: far || of(pulled),
      };
}

/**
 * How many of a library's sessions the checks find nothing against.
 * @example trustAnswer(23, 25).text // "23 of 25 sessions are sound."
 * @example trustAnswer(1, 1).text // "The one session is sound."
 * @example trustAnswer(4, 4).text // "All 4 sessions are sound."
 * @example trustAnswer(0, 2).text // "None of 2 sessions is sound."
 * @example trustAnswer(0, 0).text // "No swing names a session, so nothing is known of how it was measured."
 */
export function trustAnswer(sound: number, sessions: number): Said {
  if (sessions === 0)
    return { text: "No swing names a session, so nothing is known of how it was measured.", figure: "" };
  if (sessions === 1)
    return sound === 1
      ? { text: "The one session is sound.", figure: "sound" }
      : { text: "The one session is not sound.", figure: "not sound" };
  if (sound === sessions) return { text: `All ${sessions} sessions are sound.`, figure: `All ${sessions}` };
  if (sound === 0) return { text: `None of ${sessions} sessions is sound.`, figure: "None" };
  const figure = of({ count: sound, n: sessions });
  return { text: `${figure} sessions ${sound === 1 ? "is" : "are"} sound.`, figure };
}

/**
 * Whether the last session's numbers can be believed, as far as the checks go.
 * @example lastAnswer({ verdict: "sound", compared: true }).text // "Nothing speaks against the last session's numbers."
 * @example lastAnswer({ verdict: "sound", compared: false }).text // "Nothing speaks against the last session's numbers, but nothing could be compared."
 * @example lastAnswer({ verdict: "look again", compared: true }).text // "The last session's numbers need another look."
 * @example lastAnswer({ verdict: "hold back", compared: true }).text // "Hold the last session's numbers back."
 * @example lastAnswer(null).text // "There is no session yet to hold against others."
 */
export function lastAnswer(
  last: { readonly verdict: "sound" | "look again" | "hold back"; readonly compared: boolean } | null,
): Said {
  if (last === null) return { text: "There is no session yet to hold against others.", figure: "" };
  switch (last.verdict) {
    case "sound":
      return {
        text: `Nothing speaks against the last session's numbers${last.compared ? "" : ", but nothing could be compared"}.`,
        figure: "Nothing speaks against",
      };
    case "look again":
      return { text: "The last session's numbers need another look.", figure: "need another look" };
    case "hold back":
      return { text: "Hold the last session's numbers back.", figure: "Hold" };
  }
}
