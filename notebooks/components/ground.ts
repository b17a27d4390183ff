/** The ground under a page's charts: the field, the air and the ball of the swings shown. */
import type { LandingRange } from "../../src/charts/sprayChart.ts";
import { swingLanding } from "../../src/contact/landing.ts";
import { contactSurface, type ContactSurface } from "../../src/contact/surface.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import { fieldFor, type PlayingField } from "../../src/field/fields.ts";
import { airFor } from "../../src/flight/air.ts";
import { ballFor, findBall } from "../../src/flight/ball.ts";
import type { EnrichedSwing, Session } from "../../src/swing/fields.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import type { ZoneOptions } from "../../src/views/zone.ts";
import type { PageLibrary } from "./library.ts";

type Rows = readonly EnrichedSwing[];

/** The session of the rows that took place last, as the sessions table describes it; null when it does not. */
function latestSession({ sessions }: Pick<PageLibrary, "sessions">, rows: Rows): Session | null {
  const latest = sessionLists(rows, sessions).at(-1)?.session;
  return sessions.find(({ session }) => session === latest) ?? null;
}

/** Said in the field's place where no ball's direction was measured. */
export const noDirection = (balls: number): string =>
  balls === 0
    ? "No ball in play here yet."
    : "No ball's direction was measured here, so there is no field to draw them on: how hard and how steep they were hit stands below.";

/** The field of the latest session among the rows; the full field when it names none. */
export function fieldUnder(library: Pick<PageLibrary, "sessions">, rows: Rows): PlayingField {
  return fieldFor(latestSession(library, rows)?.field ?? null);
}

/** Carry and category at every launch, over the field and through the air of the latest session among the rows. */
export function surfaceUnder(
  library: Pick<PageLibrary, "sessions" | "thresholds">,
  rows: Rows,
): ContactSurface {
  const session = latestSession(library, rows);
  const ball = session?.ball ?? null;
  return contactSurface({
    field: fieldFor(session?.field ?? null),
    air: airFor(session),
    ball: ballFor(ball !== null && findBall(ball) === null ? null : ball),
    bats: sideOf(rows),
    thresholds: thresholdsFrom(library.thresholds),
  });
}

/** Where balls like the farthest one come down, for the spray chart; null when none has a landing point. */
export function farthestRange(
  { sessions }: Pick<PageLibrary, "sessions">,
  farthest: EnrichedSwing | null,
): LandingRange | null {
  if (farthest === null) return null;
  const session = sessions.find(({ session }) => session === farthest.session) ?? null;
  const landing = swingLanding(farthest, session);
  return landing === null
    ? null
    : { ...landing, label: "where eight of ten balls like the farthest one come down" };
}

/** The side all of the rows were batted from; null when there are both, or it is unknown. */
export function sideOf(rows: Rows): "L" | "R" | null {
  const sides = new Set(rows.map((row) => row.bats));
  return sides.size === 1 ? [...sides][0]! : null;
}

/** What the nine cells are measured by: the hitter's height, if somebody wrote it down, and the library's zone. */
export function zoneFor(library: Pick<PageLibrary, "hitters" | "thresholds">, hitter: string): ZoneOptions {
  const height_in = library.hitters.find((row) => row.hitter === hitter)?.height_in ?? null;
  return { height_in, zone: thresholdsFrom(library.thresholds) };
}
