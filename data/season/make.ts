/**
 * Writes the season beside this file: `npm run season`. Everything in it is invented, and every run writes the same bytes.
 */
import { filesOf, rowsOf, writeBeside } from "../demo/make.ts";
import { targets } from "../demo/scenario.ts";
import { batSpeedInWeek } from "../demo/swings.ts";
import { drills, hitters, sessionPlans, truth } from "./scenario.ts";

function truths() {
  const weeks = [...new Set(sessionPlans.map((plan) => plan.week))];
  return {
    about:
      "What the season's generator put in, for tests. All of it is invented. Written by data/season/make.ts.",
    ...truth,
    hitters: hitters.map((h) => ({
      hitter: h.hitter,
      bat_speed_mph_by_week: weeks.map((week) => Number(batSpeedInWeek(h, week).toFixed(1))),
    })),
  };
}

/** The season's files by name, as texts. */
export async function make(): Promise<Readonly<Record<string, string>>> {
  const swings = sessionPlans.flatMap((plan) => rowsOf(plan, { hitters, drills }));
  const used = new Set(swings.map((row) => row["drill"]));
  return filesOf({
    swings,
    sessions: sessionPlans.map((plan) => plan.log),
    hitters: hitters.map(({ hitter, bats, level, height_in }) => ({ hitter, bats, level, height_in })),
    targets: targets.filter((t) => used.has(t.drill ?? "")),
    truths: truths(),
  });
}

await writeBeside(import.meta.url, make);
