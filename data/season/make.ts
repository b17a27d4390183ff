/**
 * Writes the season beside this file: `npm run season`. Everything in it is invented, and every run writes the same bytes.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { format } from "prettier";
import config from "../../package.json" with { type: "json" };
import { writeTogether } from "../../src/library/write.ts";
import {
  hitterFields,
  sessionFields,
  swingFields,
  targetFields,
  type Hitter,
} from "../../src/swing/fields.ts";
import { csv, print, rowsOf, written } from "../demo/make.ts";
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
  const listed = hitters.map(({ hitter, bats, level, height_in }): Hitter => ({
    hitter,
    bats,
    level,
    height_in,
  }));
  const used = new Set(swings.map((row) => row["drill"]));
  return {
    "swings.csv": csv(swingFields, swings),
    "sessions.csv": csv(
      sessionFields,
      sessionPlans.map((plan) => print(sessionFields, plan.log, written)),
    ),
    "hitters.csv": csv(
      hitterFields,
      listed.map((row) => print(hitterFields, row, written)),
    ),
    "targets.csv": csv(
      targetFields,
      targets.filter((t) => used.has(t.drill ?? "")).map((row) => print(targetFields, row, written)),
    ),
    "truths.json": await format(JSON.stringify(truths()), {
      parser: "json",
      printWidth: config.prettier.printWidth,
    }),
  };
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const files = Object.entries(await make());
  await writeTogether(async (put) => {
    for (const [name, text] of files) await put(fileURLToPath(new URL(name, import.meta.url)), [text]);
  });
}
