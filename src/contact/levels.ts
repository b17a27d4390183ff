/** The levels of play of data/levels.json, each with a top-end exit velocity. Common practice, no source. */
import table from "../../data/levels.json" with { type: "json" };
import { levelNames, nameIn, type Hitter } from "../swing/fields.ts";
import { largest } from "../swing/lists.ts";

/** A level of play. */
export interface Level {
  readonly name: string;
  readonly title: string;
  /** Exit velocity of a good hitter's hardest contact off a tee, mph. */
  readonly top_exit_velocity_mph: number;
}

/** Every level of the table. */
export const levels: readonly Level[] = table.levels;

const byName = new Map(levels.map((level) => [level.name, level]));

/** How much more the same hitter's hardest contact against pitching has. Common practice, no source. */
const morePitched = 8 / 7;

/**
 * Exit velocity of a good hitter's hardest contact against pitching, mph.
 * @example hardestPitched({ name: "a", title: "A", top_exit_velocity_mph: 84 }) // 96.0
 */
export function hardestPitched(level: Level): number {
  return level.top_exit_velocity_mph * morePitched;
}

/**
 * The level of that name, whatever its capitals; null when there is none, or no name.
 * @example findLevel("High school").name // "high school"
 * @example findLevel(null) // null
 */
export function findLevel(name: string | null): Level | null {
  return name === null ? null : (byName.get(nameIn(levelNames, name) ?? "") ?? null);
}

/**
 * The exit velocity that the fastest of these hitters reaches by their levels, mph; null where any is unknown, or
 * there are none.
 * @example fastestOf([{ hitter: "Ana", bats: "R", level: null, height_in: null }]) // null
 */
export function fastestOf(hitters: readonly Hitter[]): number | null {
  const tops = hitters.map(({ level }) => {
    const found = findLevel(level);
    return found === null ? null : hardestPitched(found);
  });
  return tops.length === 0 || tops.includes(null) ? null : largest(tops as number[]);
}

/**
 * What is usual about a level's figure, mph: common practice, no source.
 * @example levelBand({ name: "a", title: "A", top_exit_velocity_mph: 80 }) // { low: 76, high: 84 }
 */
export function levelBand(level: Level): { low: number; high: number } {
  const { top_exit_velocity_mph: top } = level;
  return { low: top * (1 - table.band_share), high: top * (1 + table.band_share) };
}
