/** Tee, flip and live side by side, each with what that work shows. */
import type { Estimate } from "../stats/estimate.ts";
import { buckets, type EnrichedSwing, type Input } from "../swing/fields.ts";
import { flipView, type FlipView } from "../views/flip.ts";
import { liveView, type LiveOptions, type LiveResult, type LiveView } from "../views/live.ts";
import { teeView, type TeeView } from "../views/tee.ts";
import type { UnitSystem } from "../units/system.ts";
import { rangeWords } from "../views/words.ts";
import { estimateFigure, factList, shareFigure, type Fact } from "./figures.ts";
import { html, type Markup } from "./html.ts";
import { turnedNote } from "./trust.ts";
import { oneLength, perLength } from "../views/slopes.ts";
import { ofInput } from "../views/swings.ts";
import { counted } from "../swing/words.ts";

type Rows = readonly EnrichedSwing[];

/** Each view, for the inputs that the swings have. */
export interface WorkViews {
  readonly tee: TeeView | null;
  readonly flip: FlipView | null;
  readonly live: LiveView | null;
}

/** The views of the inputs that the swings have. */
export function viewsOf(rows: Rows, options: LiveOptions): WorkViews {
  const has = (input: Input): boolean => rows.some((r) => r.input === input);
  return {
    tee: has("tee") ? teeView(rows, options) : null,
    flip: has("flip") ? flipView(rows, options) : null,
    live: has("live") ? liveView(rows, options) : null,
  };
}

/** The views side by side, each with its chart where there is one. */
export function viewsSection(
  { tee, flip, live }: WorkViews,
  system: UnitSystem,
  charts: Partial<Record<Input, Markup>>,
  rows: Rows,
): Markup {
  const note = (input: Input): Markup | null => {
    const turned = turnedNote(ofInput(rows, input));
    return turned === null ? null : html`<p class="note">${turned}</p>`;
  };
  const sections = [
    tee && teeSection(tee, system, note("tee")),
    flip && flipSection(flip, system, note("flip")),
    live && liveSection(live, system, note("live")),
  ];
  const pictures = [tee && charts.tee, flip && charts.flip, live && charts.live];
  const shown = sections.flatMap((section, i) => (section ? [{ section, picture: pictures[i] }] : []));
  if (shown.length === 0) return html``;
  // Two or three kinds of work stand side by side, each over its picture; one alone has its picture beside it.
  const span = shown.length === 3 ? "third" : "half";
  return html`<div class="row views">
      ${shown.map(({ section, picture }) =>
        shown.length === 1
          ? html`<section class="${picture ? "half" : "alone"}">${section}</section>
              ${picture && html`<div class="half chart screen">${picture}</div>`}`
          : html`<section class="${span}">
              ${section} ${picture && html`<div class="chart screen">${picture}</div>`}
            </section>`,
      )}
    </div>
    ${live && liveTables(live, system)}`;
}

function placeFacts(view: TeeView, system: UnitSystem): Fact[] {
  // A slope in mph per foot becomes km/h per metre: the unit below the line is converted as well.
  const slope = (e: Estimate): Markup =>
    estimateFigure(perLength(e, system), "mph", system, { digits: 1, signed: true });
  const one = oneLength[system].figure;
  // A place that was not measured is told in the sentence below, not in a line for each direction.
  const slopes = (
    [
      ["farther outside", view.place.outward],
      ["higher", view.place.upward],
      ["farther out front", view.place.forward],
    ] as const
  )
    .filter(([, estimate]) => estimate.n > 0)
    .map(([way, estimate]): Fact => [`${one} ${way}`, slope(estimate)]);
  return [
    ["In play", `${view.in_play} of ${counted(view.swings, "swing")}`],
    ["Exit velocity, mean", estimateFigure(view.exit_velocity_mph, "mph", system)],
    ...slopes,
    ["Spread of launch angle", estimateFigure(view.repeatability.launch_angle_deg, "deg", system)],
    ["Spread of spray angle", estimateFigure(view.repeatability.spray_angle_deg, "deg", system)],
  ];
}

function teeSection(view: TeeView, system: UnitSystem, turned: Markup | null): Markup {
  return html`<h3>Off the tee</h3>
    ${factList(placeFacts(view, system))} ${unplacedNote(view)} ${turned}`;
}

function flipSection(view: FlipView, system: UnitSystem, turned: Markup | null): Markup {
  const { timing } = view;
  const pull = perLength(timing.pull_deg_per_ft, system);
  const depth: Fact[] = [
    ["Contact depth, mean", estimateFigure(timing.depth_ft, "ft", system, { digits: 1 })],
    ["Spread of contact depth", estimateFigure(timing.depth_spread_ft, "ft", system, { digits: 1 })],
    [
      `Pull, ${oneLength[system].figure} farther out front`,
      estimateFigure(pull, "deg", system, { signed: true }),
    ],
  ];
  const facts: Fact[] = [...placeFacts(view, system), ...(timing.depth_ft.n > 0 ? depth : [])];
  return html`<h3>Off flips</h3>
    ${factList(facts)} ${unplacedNote(view)} ${turned}`;
}

function unplacedNote({ unplaced }: TeeView): Markup {
  return html`${unplaced > 0 && html`<p class="note">${unplaced} in play without a measured place.</p>`}`;
}

/** Rows of a small table, on paper and on screen: more are counted, not shown. */
const mostGroups = { paper: 3, screen: 8 } as const;

function liveSection(view: LiveView, system: UnitSystem, turned: Markup | null): Markup {
  const facts: Fact[] = [
    ["Pitches", `${view.pitches}, swung at ${view.swings}`],
    ...view.outcomes
      .filter((o) => o.count > 0 && o.outcome !== "miss")
      .map((o): Fact => [outcomeWords[o.outcome], shareFigure(o), o.outcome === "in_play" ? "" : "screen"]),
    ["Misses, of swings", shareFigure(view.misses)],
    ...(view.zone_swings.n + view.chases.n > 0
      ? ([
          ["Swings in the zone", shareFigure(view.zone_swings)],
          ["Chases, outside it", shareFigure(view.chases)],
        ] as Fact[])
      : []),
    ["Exit velocity, mean", estimateFigure(view.exit_velocity_mph, "mph", system)],
    ["Power kept, median", estimateFigure(view.power_kept, "share", system)],
    ["Clean or flush, of balls in play", shareFigure(view.well_hit), "screen"],
  ];
  return html`<h3>Live</h3>
    ${factList(facts)} ${turned}`;
}

/** Live work by what was thrown: tables as wide as they need to be. */
function liveTables(view: LiveView, system: UnitSystem): Markup {
  const types = view.by_pitch_type.map((g) => [g.pitch_type ?? "type unknown", g] as const);
  const speeds = view.by_speed.map((g) => [speedWords(g.low_mph, g.high_mph, system), g] as const);
  return html`<div class="row views">
    <div class="pairs">
      <div>${groupTable("Pitch type", types, mostGroups.paper, system)}</div>
      <div class="screen">${bucketTable("Contact", types, mostGroups.screen)}</div>
      <div class="screen">${groupTable("Speed at the plate", speeds, mostGroups.screen, system)}</div>
    </div>
  </div>`;
}

const outcomeWords = { in_play: "In play", foul: "Foul", miss: "Miss", take: "Taken" } as const;

function speedWords(low: number | null, high: number | null, system: UnitSystem): string {
  return low === null || high === null ? "not measured" : rangeWords(low, high, "mph", system);
}

function groupTable(
  name: string,
  groups: readonly (readonly [string, LiveResult])[],
  most: number,
  system: UnitSystem,
): Markup | null {
  if (groups.length < 2) return null;
  const shown = groups.slice(0, most);
  const rest = groups.slice(most).reduce((sum, [, g]) => sum + g.pitches, 0);
  return html`<table>
      <thead>
        <tr>
          <th>${name}</th>
          <th>Misses</th>
          <th>Exit velocity</th>
          <th class="roomy">Clean or flush</th>
        </tr>
      </thead>
      <tbody>
        ${shown.map(
          ([label, g]) =>
            html`<tr>
              <th><bdi>${label}</bdi></th>
              <td>${shareFigure(g.misses)}</td>
              <td>${estimateFigure(g.exit_velocity_mph, "mph", system)}</td>
              <td class="roomy">${shareFigure(g.well_hit)}</td>
            </tr> `,
        )}
      </tbody>
    </table>
    ${rest > 0 && html`<p class="note">${rest} pitches of other kinds not shown.</p>`}`;
}

/** How well each group was hit: the four contact buckets, worst first. */
function bucketTable(
  name: string,
  groups: readonly (readonly [string, LiveResult])[],
  most: number,
): Markup | null {
  const hit = groups.filter(([, { well_hit }]) => well_hit.n > 0).slice(0, most);
  if (hit.length === 0) return null;
  return html`<table>
    <thead>
      <tr>
        <th>${name}</th>
        ${buckets.map((bucket) => html`<th>${bucket}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${hit.map(
        ([label, g]) =>
          html`<tr>
            <th><bdi>${label}</bdi></th>
            ${g.buckets.map((share) => html`<td>${shareFigure(share)}</td>`)}
          </tr> `,
      )}
    </tbody>
  </table>`;
}
