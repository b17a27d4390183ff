/** What the page of live rounds has worked out beside it. The computing is in src/season. */
import { thresholdsFrom } from "../../../src/contact/thresholds.ts";
import {
  byPitchType,
  byPlace,
  bySpeedBand,
  livePitches,
  pairSteps,
  type LivePitches,
  type LiveRounds,
} from "../../../src/season/liveRounds.ts";
import { rowsInScope, type SwingScope } from "../../../src/views/filter.ts";
import type { Work } from "../apart.ts";
import { ofLatestScope } from "../latestScope.ts";

/** The pitches of a library. */
const liveIn = ofLatestScope<LivePitches>((library, scope) =>
  livePitches({ ...library, swings: rowsInScope(library.swings, library, scope) }),
);

/** Every hitter against every pitcher. */
export const pairsMet: Work<[SwingScope], LiveRounds> = {
  name: "pairs",
  what: "every hitter against every pitcher",
  *steps(library, scope) {
    return yield* pairSteps(liveIn(library, scope), thresholdsFrom(library.thresholds));
  },
};

/** What came of some pitches, by type, by speed at the plate and by place. */
export interface RoundTables {
  readonly types: ReturnType<typeof byPitchType>;
  readonly speeds: ReturnType<typeof bySpeedBand>;
  /** Of all nine cells. */
  readonly places: ReturnType<typeof byPlace>;
}

const tablesOf = (side: "hitter" | "pitcher"): Work<[string, SwingScope], RoundTables> => ({
  name: `pitches of a ${side}`,
  what: "what came of the pitches by type, speed and place",
  *steps(library, name, scope) {
    const pitches = liveIn(library, scope).pitches.filter((pitch) => pitch[side] === name);
    const types = byPitchType(pitches);
    yield;
    const speeds = bySpeedBand(pitches);
    yield;
    const heights = new Map(library.hitters.map((h) => [h.hitter, h.height_in]));
    const zone = thresholdsFrom(library.thresholds);
    return { types, speeds, places: byPlace(pitches, (hitter) => heights.get(hitter) ?? null, zone) };
  },
});

/** Of the pitches that a hitter saw. */
export const hitterTables = tablesOf("hitter");
/** Of those that a pitcher threw. */
export const pitcherTables = tablesOf("pitcher");
