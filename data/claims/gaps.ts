/** What is said of one hitter's gap, tee to live. */
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { answered } from "../../notebooks/components/gapSay.ts";
import { gap } from "../../src/gap/gap.ts";
import { noClearChange } from "../../src/stats/difference.ts";
import { allSettings, type Line, type Tally } from "./line.ts";
import { readyOf, sentencesOf, type Library } from "./product.ts";
import { sessionsTable, squadOf, workOf, type Days, type Made, type Squad } from "./squad.ts";

const { collision_q: q } = defaultThresholds;

/** Tee and live work of a squad, sessions of unequal size. */
export function teeAndLive(squad: Squad, swings: number, sessions: number, days: Days): Library {
  return {
    swings: squad.traits.flatMap((trait) =>
      (["tee", "live"] as const).flatMap((input) =>
        workOf(squad, trait, input, squad.luck.uneven(swings, sessions), days),
      ),
    ),
    sessions: sessionsTable(sessions),
    hitters: squad.hitters,
  };
}

/** Measures that are the same off a tee and live where the swings are, the pitch's part taken out. */
export const alike = [
  "power_kept",
  "share_mishit",
  "share_partial",
  "share_clean",
  "share_flush",
  "launch_angle",
  "launch_spread",
  "spray_pull",
  "spray_spread",
  "line_drive_window",
] as const;

const ceilinged = new Set<string>(alike.slice(0, 5));

/** The same swings: what is clear is wrong. */
function sameSwings(made: Made) {
  return (setting: Line["settings"][number], seed: number, tally: Tally): void => {
    const squad = squadOf(seed, made);
    const ready = readyOf(teeAndLive(squad, setting.swings, setting.sessions, setting.days));
    const found = gap(ready, "Hitter 1", { measures: [...alike, "exit_velocity"] });
    let contact: boolean | null = null;
    for (const one of found.measures) {
      const none = one.low === null || one.high === null;
      const clear = none ? null : !noClearChange(one);
      if (one.measure === "exit_velocity") continue;
      tally.count(`${one.measure} clear`, clear, { most: 0.06 });
      tally.count(`${one.measure}: no interval given`, none, { told: true });
      if (ceilinged.has(one.measure) && clear !== null) contact = contact === true || clear;
    }
    tally.count("any of power kept and the buckets clear", contact, { told: true });
    // Pitches were 74 mph on the mean of many days.
    const speed = found.measures.find((m) => m.measure === "exit_velocity")!;
    tally.holds("exit velocity gap holds", speed, q * 74);
    tally.holds("gap beyond the pitch holds", found.exitVelocity.beyondPitch, 0);
    const scope = { from: "tee", to: "live", drill: "" } as const;
    const said = sentencesOf(() => answered(found, speed, scope));
    tally.count(
      "page says that live is off the pitch's work",
      said.some((s) => /beyond the pitches' speed, mean exit velocity is (higher|lower)/.test(s)),
      { most: 0.05 },
    );
    tally.count("page says no clear difference over a clear one", atOdds(said), { most: 0 });
    tally.count(
      "page names what most is lost or gained by",
      said.some((s) => /Most is (lost|gained) by/.test(s)),
      { most: 0.05 },
    );
  };
}

/** Whether the first sentence sees no difference and another, of the same exit velocities, sees one. */
const atOdds = (said: readonly string[]): boolean =>
  /no clear difference/.test(said[0] ?? "") && said.slice(1).some((s) => /(higher|lower) by/.test(s));

/** Shares of balls above the ceiling, by ten degrees of launch angle, of eight hitters with many balls each. */
function aboveCeiling(
  { swings, sessions, days }: Line["settings"][number],
  seed: number,
  tally: Tally,
): void {
  const squad = squadOf(seed, { hitters: 8 });
  for (const row of readyOf(teeAndLive(squad, swings, sessions, days)).swings) {
    if (row.power_kept === null || row.launch_angle_deg === null) continue;
    const from = 10 * Math.floor(row.launch_angle_deg / 10);
    if (from < -20 || from >= 40) continue;
    tally.count(`above the ceiling, ${from} to ${from + 10}°`, row.power_kept > 1, { low: 0.03, high: 0.07 });
  }
}

/** Two live sessions, one five times the other, and as many as the setting says of the tee. */
function lopsided(setting: Line["settings"][number], seed: number, tally: Tally): void {
  const squad = squadOf(seed);
  const { swings, sessions, days } = setting;
  const small = Math.max(1, Math.round(swings / 6));
  const library = {
    swings: [
      ...workOf(squad, squad.traits[0]!, "tee", squad.luck.uneven(swings, sessions), days),
      ...workOf(squad, squad.traits[0]!, "live", [swings - small, small], days),
    ],
    sessions: sessionsTable(sessions),
    hitters: squad.hitters,
  };
  const found = gap(readyOf(library), "Hitter 1", { measures: ["exit_velocity"] });
  tally.holds("exit velocity gap holds", found.measures[0]!, q * 74);
  tally.holds("gap beyond the pitch holds", found.exitVelocity.beyondPitch, 0);
}

/** As much is lost by the bat as by contact. */
function equalParts(setting: Line["settings"][number], seed: number, tally: Tally): void {
  const squad = squadOf(seed, { bats: true, liveCost: { bat: 4, contact: 4, between: 0 } });
  const found = gap(readyOf(teeAndLive(squad, setting.swings, setting.sessions, setting.days)), "Hitter 1", {
    measures: ["exit_velocity"],
  });
  const scope = { from: "tee", to: "live", drill: "" } as const;
  const said = sentencesOf(() => answered(found, found.measures[0]!, scope));
  const named = (s: string): number =>
    /Most is (lost|gained) by/.test(s) ? [/bat speed/, /contact/].filter((part) => part.test(s)).length : 0;
  tally.count("page says no clear difference over a clear one", atOdds(said), { most: 0 });
  tally.count(
    "one of two equal parts named alone",
    said.some((s) => named(s) === 1),
    { most: 0.05 },
  );
  tally.count(
    "both named",
    said.some((s) => named(s) === 2),
    { told: true },
  );
  for (const part of found.exitVelocity.parts) {
    const truth = { "pitch speed": q * 74, place: 0, "bat speed": -4, contact: -4, rest: null }[part.part];
    if (truth !== null) tally.holds(`${part.part} part holds`, part, truth);
  }
}

export const gapLines: readonly Line[] = [
  {
    name: "same-swings",
    about:
      "One hitter, live the same swings with the pitch's part on top: gaps called clear, intervals, the page's sentences.",
    runs: 400,
    settings: allSettings,
    run: sameSwings({}),
  },
  {
    name: "same-swings-no-level",
    about: "The same, with no level known.",
    runs: 200,
    settings: allSettings.filter((s) => s.swings !== 45),
    run: sameSwings({ levels: "none" }),
  },
  {
    name: "same-swings-level-off",
    about: "The same, with a level 10 mph off the hitter.",
    runs: 200,
    settings: allSettings.filter((s) => s.swings !== 45),
    run: sameSwings({ levels: "off" }),
  },
  {
    name: "two-uneven-sessions",
    about: "Two live sessions, one five times the other; the setting's number is that of the tee's.",
    runs: 400,
    settings: allSettings,
    run: lopsided,
  },
  {
    name: "above-ceiling",
    about:
      "Eight hitters with 200 balls a side: balls above the ceiling in each ten degrees of launch angle; 5 in 100 are meant to be.",
    runs: 20,
    settings: (["none", "some", "much"] as const).map((days) => ({ swings: 200, sessions: 8, days })),
    run: aboveCeiling,
  },
  {
    name: "equal-parts",
    about: "Bat and contact cost 4 mph each: what the page says that most is lost by.",
    runs: 200,
    settings: allSettings,
    run: equalParts,
  },
];
