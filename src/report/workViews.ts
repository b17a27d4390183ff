/** Tee, flip and live side by side, each with what that work shows. */
import { buckets, type EnrichedSwing, type Input } from "../swing/fields.ts";
import { flipView } from "../views/flip.ts";
import { liveView, type LiveOptions, type LiveResult, type LiveView } from "../views/live.ts";
import { teeView, type TeeView } from "../views/tee.ts";
import type { UnitSystem } from "../units/system.ts";
import { rangeWords } from "../views/words.ts";
import { factsOf, type Views } from "./facts.ts";
import { estimateFigure, factList, shareFigure } from "./figures.ts";
import { html, type Markup } from "./html.ts";
import { turnedNote } from "./trust.ts";
import { ofInput } from "../views/swings.ts";

type Rows = readonly EnrichedSwing[];

/** Each view, for the inputs that the swings have. */
export type WorkViews = { readonly [K in Input]: Views[K] | null };

const titles = { tee: "Off the tee", flip: "Off flips", live: "Live" } as const;

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
    tee && viewSection("tee", tee, system, note("tee")),
    flip && viewSection("flip", flip, system, note("flip")),
    live && viewSection("live", live, system, note("live")),
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

/** A view's facts, and how many of its balls have no measured place. */
function viewSection<K extends Input>(
  kind: K,
  view: Views[K],
  system: UnitSystem,
  turned: Markup | null,
): Markup {
  const facts = factList(factsOf(kind, view, system));
  const note = "unplaced" in view ? html`${unplacedNote(view)} ${turned}` : turned;
  return html`<h3>${titles[kind]}</h3>
    ${facts} ${note}`;
}

function unplacedNote({ unplaced }: TeeView): Markup {
  return html`${unplaced > 0 && html`<p class="note">${unplaced} in play without a measured place.</p>`}`;
}

/** Rows of a small table, on paper and on screen: more are counted, not shown. */
const mostGroups = { paper: 3, screen: 8 } as const;

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
