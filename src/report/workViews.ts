/** Tee, flip and live side by side, each with what that work shows. */
import type { EnrichedSwing } from "../swing/fields.ts";
import { flipView } from "../views/flip.ts";
import { liveView, type LiveResult, type LiveView } from "../views/live.ts";
import { teeView, type TeeView } from "../views/tee.ts";
import { ft } from "../units/index.ts";
import { rangeWords, type UnitSystem } from "../views/words.ts";
import type { ZoneOptions } from "../views/zone.ts";
import { estimateFigure, factList, shareFigure } from "./figures.ts";
import { html, type Markup } from "./html.ts";

type Rows = readonly EnrichedSwing[];
type Fact = readonly [string, Markup | string];

/** The pictures that go with each view; a missing one is left out. */
export interface ViewCharts {
  readonly tee?: Markup | undefined;
  readonly flip?: Markup | undefined;
  readonly live?: Markup | undefined;
}

/** The views of the inputs that the swings have; nothing for the others. */
export function workViews(
  rows: Rows,
  zone: ZoneOptions,
  system: UnitSystem,
  charts: ViewCharts = {},
): Markup {
  const has = (input: string): boolean => rows.some((r) => r.input === input);
  return html`<div class="views">
    ${has("tee") && teeSection(teeView(rows, zone), system, charts.tee)}
    ${has("flip") && flipSection(rows, zone, system, charts.flip)}
    ${has("live") && liveSection(liveView(rows, zone), system, charts.live)}
  </div>`;
}

function placeFacts(view: TeeView, system: UnitSystem): Fact[] {
  const per = { digits: 1, per: ` a ${system === "us" ? "foot" : "metre"}` };
  // A slope in mph per foot becomes km/h per metre: the unit below the line is converted as well.
  const slope = (e: TeeView["place"]["outward"]) => estimateFigure(perLength(e, system), "mph", system, per);
  return [
    ["In play", `${view.in_play} of ${view.swings} swings`],
    ["Exit velocity, mean", estimateFigure(view.exit_velocity_mph, "mph", system)],
    ["Spread of launch angle", estimateFigure(view.repeatability.launch_angle_deg, "deg", system)],
    ["Spread of spray angle", estimateFigure(view.repeatability.spray_angle_deg, "deg", system)],
    ["Exit velocity, farther outside", slope(view.place.outward)],
    ["Exit velocity, higher", slope(view.place.upward)],
    ["Exit velocity, farther out front", slope(view.place.forward)],
  ];
}

function perLength<E extends TeeView["place"]["outward"]>(e: E, system: UnitSystem): E {
  if (system === "us") return e;
  const feet = (v: number | null): number | null => (v === null ? null : v / ft);
  return { ...e, value: feet(e.value), low: feet(e.low), high: feet(e.high) };
}

function teeSection(view: TeeView, system: UnitSystem, chart: Markup | undefined): Markup {
  return html`<section>
    <h3>Off the tee</h3>
    ${factList(placeFacts(view, system))} ${unplacedNote(view)} ${chart}
  </section>`;
}

function flipSection(rows: Rows, zone: ZoneOptions, system: UnitSystem, chart: Markup | undefined): Markup {
  const view = flipView(rows, zone);
  const { timing } = view;
  const pull = perLength(timing.pull_deg_per_ft, system);
  const facts: Fact[] = [
    ...placeFacts(view, system),
    ["Met out front by, mean", estimateFigure(timing.depth_ft, "ft", system, { digits: 1 })],
    ["Spread of that", estimateFigure(timing.depth_spread_ft, "ft", system, { digits: 1 })],
    [
      "Pull, farther out front",
      estimateFigure(pull, "deg", system, { per: ` a ${system === "us" ? "foot" : "metre"}` }),
    ],
  ];
  return html`<section>
    <h3>Off flips</h3>
    ${factList(facts)} ${unplacedNote(view)} ${chart}
  </section>`;
}

function unplacedNote({ unplaced }: TeeView): Markup {
  return html`${unplaced > 0 && html`<p class="note">${unplaced} in play without a measured place.</p>`}`;
}

/** Rows of a small table: more than this are counted, not shown. */
const mostGroups = 4;

function liveSection(view: LiveView, system: UnitSystem, chart: Markup | undefined): Markup {
  const facts: Fact[] = [
    ["Pitches", `${view.pitches}, swung at ${view.swings}`],
    ...view.outcomes
      .filter((o) => o.count > 0 && o.outcome !== "miss")
      .map((o): Fact => [outcomeWords[o.outcome], shareFigure(o)]),
    ["Misses, of swings", shareFigure(view.misses)],
    ["Swings in the zone", shareFigure(view.zone_swings)],
    ["Chases, outside it", shareFigure(view.chases)],
    ["Exit velocity, mean", estimateFigure(view.exit_velocity_mph, "mph", system)],
    ["Power kept, mean", estimateFigure(view.power_kept, "share", system)],
  ];
  const types = view.by_pitch_type.map((g) => [g.pitch_type ?? "type unknown", g] as const);
  const speeds = view.by_speed.map((g) => [speedWords(g.low_mph, g.high_mph, system), g] as const);
  return html`<section>
    <h3>Live</h3>
    ${factList(facts)} ${groupTable("Pitch type", types, system)} ${groupTable("Pitch speed", speeds, system)}
    ${chart}
  </section>`;
}

const outcomeWords = { in_play: "In play", foul: "Foul", miss: "Miss", take: "Taken" } as const;

function speedWords(low: number | null, high: number | null, system: UnitSystem): string {
  return low === null || high === null ? "not measured" : rangeWords(low, high, "mph", system);
}

function groupTable(
  name: string,
  groups: readonly (readonly [string, LiveResult])[],
  system: UnitSystem,
): Markup | null {
  if (groups.length < 2) return null;
  const shown = groups.slice(0, mostGroups);
  const rest = groups.slice(mostGroups).reduce((sum, [, g]) => sum + g.pitches, 0);
  return html`<table>
      <thead>
        <tr>
          <th>${name}</th>
          <th>Misses of swings</th>
          <th>Exit velocity</th>
        </tr>
      </thead>
      <tbody>
        ${shown.map(
          ([label, g]) =>
            html`<tr>
              <th><bdi>${label}</bdi></th>
              <td>${shareFigure(g.misses)}</td>
              <td>${estimateFigure(g.exit_velocity_mph, "mph", system)}</td>
            </tr> `,
        )}
      </tbody>
    </table>
    ${rest > 0 && html`<p class="note">${rest} pitches of other kinds not shown.</p>`}`;
}
