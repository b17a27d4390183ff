/** The charts of a report, as markup. */
import { bucketStrip, type StripFigure } from "../charts/bucketStrip.ts";
import { contactMap, type ContactMapOptions } from "../charts/contactMap.ts";
import { contactPlace } from "../charts/contactPlace.ts";
import { pitchOutcomes } from "../charts/pitchOutcomes.ts";
import { sprayChart } from "../charts/sprayChart.ts";
import { shorten } from "../charts/text.ts";
import { fontSize } from "../charts/theme.ts";
import { timing } from "../charts/timing.ts";
import { zoneMap } from "../charts/zoneMap.ts";
import { contactSurface, type ContactSurface } from "../contact/surface.ts";
import type { Thresholds } from "../contact/thresholds.ts";
import { fieldFor } from "../field/fields.ts";
import { airFor } from "../flight/air.ts";
import { ballFor, findBall } from "../flight/ball.ts";
import { inputs, type EnrichedSwing, type Input, type Session, type Target } from "../swing/fields.ts";
import { laneShares } from "../views/lanes.ts";
import { sessionLists, sessionsInOrder } from "../views/sessions.ts";
import { inPlay, ofInput, swungAt, wellHitShare } from "../views/swings.ts";
import type { UnitSystem } from "../units/system.ts";
import type { ZoneCell } from "../views/zone.ts";
import {
  contactTitle,
  sprayTitle,
  stripTitle,
  targetTitle,
  unratedReason,
} from "../views/sentences/titles.ts";
import type { TargetResult } from "../views/target.ts";
import { Markup } from "./html.ts";
import { chartWidth } from "./style.ts";
import type { WorkViews } from "./workViews.ts";

type Rows = readonly EnrichedSwing[];

/** What the charts are drawn from. */
export interface PictureParts {
  readonly rows: Rows;
  readonly sessions: readonly Session[];
  readonly thresholds: Thresholds;
  readonly views: WorkViews;
  readonly cells: readonly ZoneCell[];
  /** The drill with a target that the report is about, and what came of it. */
  readonly target: { readonly met: TargetResult; readonly window: Target } | null;
  readonly system: UnitSystem;
  readonly document: Document;
}

/**
 * Each chart of a report; the views' own only for the inputs there are. One that would hold nothing, as no contact point
 * was measured, isn't drawn.
 */
export interface Pictures {
  /** The spray chart, for a desk and for a phone or paper. */
  readonly first: { readonly wide: Markup; readonly narrow: Markup };
  readonly contact: Markup;
  /** For a desk, and for a phone or paper. */
  readonly strip: { readonly wide: Markup; readonly narrow: Markup };
  readonly zone: Markup | null;
  readonly views: Partial<Record<Input, Markup>>;
}

/** Draws every chart of a report. */
export function picturesOf(parts: PictureParts): Pictures {
  const { rows, sessions, thresholds, views: work, cells, target, system, document } = parts;
  const balls = inPlay(rows);
  // Regions, carry lines and fence are those of the latest session.
  const latest = sessionLists(rows, sessions).at(-1)?.session ?? null;
  const session = sessions.find((s) => s.session === latest) ?? null;
  const field = fieldFor(session?.field ?? null);
  const sides = new Set(balls.map((r) => r.bats));
  const bats = sides.size === 1 ? [...sides][0]! : null;
  const chart = { document, width: chartWidth.map, units: system, basis: false };
  const surface = surfaceFor(session, bats, thresholds);
  const placed = balls.filter((r) => r.contact_side_ft !== null && r.contact_height_ft !== null);
  const views: Partial<Record<Input, Markup>> = {};
  const met = (input: Input, by: (row: EnrichedSwing) => number | null): boolean =>
    ofInput(balls, input).some((row) => row.contact_depth_ft !== null && by(row) !== null);
  if (work.tee && met("tee", (row) => row.contact_side_ft))
    views.tee = drawn(
      contactPlace(ofInput(balls, "tee"), { ...chart, title: "Where the ball was met, tee", bats }),
    );
  if (work.flip && met("flip", (row) => (row.bats === null ? null : row.spray_angle_deg))) {
    const { pull_deg_per_ft: slope, through } = work.flip.timing;
    const line = through === null || slope.value === null ? null : { slope, through };
    views.flip = drawn(timing(ofInput(balls, "flip"), { ...chart, line }));
  }
  if (work.live) views.live = drawn(pitchOutcomes(work.live.by_pitch_type, chart));
  const lanes = laneShares(balls);
  const spray = (width: number): Markup =>
    drawn(
      sprayChart(balls, {
        ...chart,
        width,
        field,
        lanes,
        title: sprayTitle(lanes),
        // A window is about one drill's balls: over all of them it would judge the others.
        target: target !== null && balls.every((r) => r.drill === target.met.drill) ? target.window : null,
      }),
    );
  return {
    first: { wide: spray(chartWidth.wide), narrow: spray(chartWidth.map) },
    contact: drawn(contactOf(balls, { ...chart, surface }, target)),
    strip: {
      wide: strip(rows, sessions, { ...chart, width: chartWidth.wide }),
      narrow: strip(rows, sessions, chart),
    },
    zone: placed.length === 0 ? null : drawn(zoneMap(cells, { ...chart, bats, swings: placed })),
    views,
  };
}

/** As much of a drill's name as leaves its title on two lines of a phone, px. */
const drillRoom = 260;

/** The contact map: of the drill with a target its balls alone, over its window; else of all. */
function contactOf(balls: Rows, options: ContactMapOptions, target: PictureParts["target"]): SVGSVGElement {
  const own = target === null ? [] : balls.filter((r) => r.drill === target.met.drill);
  if (target === null || own.length === 0)
    return contactMap(balls, { ...options, title: contactTitle(balls) });
  const others = balls.length - own.length;
  return contactMap(own, {
    ...options,
    title: targetTitle({ ...target.met, drill: shorten(target.met.drill, drillRoom, fontSize.title, true) }),
    target: target.window,
    note: others > 0 ? `Balls in play of this drill alone: ${others} of other work are not here.` : undefined,
  });
}

/**
 * A chart's element as markup: the serializer escapes the text it holds. The report's own style sheet has every colour:
 * the light one need not stand beside each.
 */
const drawn = (svg: SVGSVGElement): Markup =>
  new Markup(svg.outerHTML.replace(/="var\(--([a-z0-9-]+), [^()"]*\)"/g, '="var(--$1)"'));

/** A surface is some thousands of flights, and hitters of one day share it. */
const surfaces = new WeakMap<object, Map<string, ContactSurface>>();

function surfaceFor(session: Session | null, bats: "L" | "R" | null, thresholds: Thresholds): ContactSurface {
  let known = surfaces.get(thresholds);
  if (known === undefined) surfaces.set(thresholds, (known = new Map()));
  const air = airFor(session);
  const ball = (session?.ball == null ? null : findBall(session.ball)) ?? ballFor(null);
  const field = fieldFor(session?.field ?? null);
  const key = JSON.stringify([air.density, air.wind, ball.name, field.name, bats]);
  let surface = known.get(key);
  if (surface === undefined)
    known.set(key, (surface = contactSurface({ field, air, ball, bats, thresholds })));
  return surface;
}

/** Swings of one input on the strip: its latest session's last ones, two lines of them. */
const mostOnStrip = 60;

/** The latest session of each input, swing by swing. */
function strip(
  rows: Rows,
  sessions: readonly Session[],
  chart: { document: Document; width: number; units: UnitSystem },
): Markup {
  const names = new Map<object, string>();
  const figures: StripFigure[] = [];
  const shown = inputs.flatMap((input) => {
    const own = swungAt(ofInput(rows, input));
    const latest = sessionsInOrder(own, sessions).at(-1);
    const swings = (latest?.rows ?? own).slice(-mostOnStrip);
    if (swings.length === 0) return [];
    const group = latest?.date ? `${input}, ${latest.date}` : input;
    for (const row of swings) names.set(row, group);
    const share = wellHitShare(swings);
    const reason = share.n === 0 ? unratedReason(inPlay(swings)) : undefined;
    figures.push({ group, label: "clean or flush", share, reason });
    return swings;
  });
  return drawn(
    bucketStrip(shown, {
      ...chart,
      title: stripTitle(wellHitShare(shown)),
      subtitle: "the latest session of each kind",
      groupName: (row) => names.get(row) ?? "",
      figures,
    }),
  );
}
