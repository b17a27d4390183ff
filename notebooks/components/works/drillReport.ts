/** A drill report's long work. The computing is in src/views. */
import { thresholdsFrom } from "../../../src/contact/thresholds.ts";
import { filtered, type SwingFilter } from "../../../src/views/filter.ts";
import { liveView, type LiveView } from "../../../src/views/live.ts";
import { markedRows, type Marked } from "../../../src/views/marked.ts";
import type { Work } from "../apart.ts";
import { zoneFor } from "../ground.ts";
import { every } from "../pick.ts";

/** What came of a hitter's live pitches, of the chosen swings and the marked ones among them. */
export const livePitches: Work<[SwingFilter, Marked | null], LiveView> = {
  name: "live pitches",
  what: "what came of each kind of pitch",
  *steps(library, filter, marked) {
    // One step: a newer choice is heard before it.
    yield;
    return liveView(markedRows(filtered(library, filter), marked), {
      ...zoneFor(library, filter.hitter ?? every),
      sessions: library.sessions,
      thresholds: thresholdsFrom(library.thresholds),
    });
  },
};
