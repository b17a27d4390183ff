/** What is said of a list of hitters. */
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { groupAnswered } from "../../notebooks/components/gapSay.ts";
import { acrossHitters, beyondPitch } from "../../src/gap/across.ts";
import { stabilizing } from "../../src/gap/stabilizing.ts";
import { alike, teeAndLive } from "./gaps.ts";
import { allSettings, type Line, type Setting, type Tally } from "./line.ts";
import { readyOf, sentencesOf } from "./product.ts";
import { squadOf } from "./squad.ts";

const { collision_q: q } = defaultThresholds;

/** Eight hitters, none of whom differs in the gap. */
function sameList(setting: Setting, seed: number, tally: Tally): void {
  const squad = squadOf(seed, { hitters: 8 });
  const ready = readyOf(teeAndLive(squad, setting.swings, setting.sessions, setting.days));
  let any = false;
  for (const measure of ["exit_velocity", beyondPitch, ...alike]) {
    const across = acrossHitters(ready, measure);
    const clear = across.pairs.clear > 0;
    any ||= clear;
    tally.count(`${measure}: a clear pair`, across.group === null ? null : clear, { most: 0.1 });
    if (measure === "exit_velocity") continue;
    const said = sentencesOf(() => groupAnswered(across));
    tally.count(
      `${measure}: group said to be higher or lower`,
      across.group === null ? null : said.some((s) => /(higher|lower) by/.test(s)),
      { most: 0.05 },
    );
  }
  tally.count("any of the twelve lists with a clear pair", any, { told: true });
}

/** Eight hitters whose live costs differ by so much (τ), mph. */
const pooledGaps =
  (between: number) =>
  (setting: Setting, seed: number, tally: Tally): void => {
    const squad = squadOf(seed, { hitters: 8, liveCost: { bat: 0, contact: 3, between } });
    const ready = readyOf(teeAndLive(squad, setting.swings, setting.sessions, setting.days));
    for (const measure of ["exit_velocity", beyondPitch]) {
      const across = acrossHitters(ready, measure);
      for (const { hitter, pooled } of across.hitters) {
        if (pooled === null) continue;
        const trait = squad.traits.find((t) => t.name === hitter)!;
        const truth = -trait.live.contact_mph + (measure === beyondPitch ? 0 : q * 74);
        tally.holds(`${measure}, τ ${between} mph: pooled gap holds`, pooled, truth);
        if (across.group?.differ === false)
          tally.holds(
            `${measure}, τ ${between} mph, hitters as alike as chance has them: pooled gap holds`,
            pooled,
            truth,
          );
      }
      if (across.group !== null)
        tally.holds(
          `${measure}, τ ${between} mph: group's mean holds`,
          across.group,
          -3 + (measure === beyondPitch ? 0 : q * 74),
        );
    }
  };

/** Hitters who are one and the same. */
function nobodyDiffers(setting: Setting, seed: number, tally: Tally): void {
  const squad = squadOf(seed, { hitters: 8, alike: true });
  const ready = readyOf(teeAndLive(squad, setting.swings, setting.sessions, setting.days));
  for (const input of ["tee", "live"] as const)
    for (const { words } of stabilizing(ready, input))
      tally.count("a line that says after how many swings", /after about/.test(words), { most: 0.05 });
}

export const groupLines: readonly Line[] = [
  {
    name: "list",
    about:
      "Eight hitters, live the same swings with the pitch's part on top: lists in which a pair is called clear.",
    runs: 100,
    settings: allSettings,
    run: sameList,
  },
  ...[0, 1, 3].map((between) => ({
    name: `pooled-${between}`,
    about: `Eight hitters whose live costs differ with a standard deviation of ${between} mph: intervals of the gaps pooled with the group.`,
    runs: 150,
    settings: allSettings.filter((s) => s.swings !== 60),
    run: pooledGaps(between),
  })),
  {
    name: "stabilizes",
    about: "Eight hitters who are one and the same: lines that name a number of swings.",
    runs: 100,
    settings: allSettings,
    run: nobodyDiffers,
  },
];
