/** A pitcher's sheet: what hitters did against this pitcher, by pitch, speed and place. Nothing of how the pitcher is. */
import { thresholdsFrom } from "../contact/thresholds.ts";
import {
  byPitchType,
  byPlace,
  bySpeedBand,
  pairsOf,
  resultOfRounds,
  type LivePitches,
  type RoundResult,
} from "../season/liveRounds.ts";
import type { Hitter } from "../swing/fields.ts";
import { counted } from "../swing/words.ts";
import type { UnitSystem } from "../units/system.ts";
import { cautions } from "../views/cautions.ts";
import { outsideRounds, pitcherCaution } from "../views/sentences/rounds.ts";
import { rangeWords } from "../views/words.ts";
import { cellName } from "../views/zone.ts";
import { documentOf } from "./document.ts";
import { estimateFigure, shareFigure } from "./figures.ts";
import { html, type Markup } from "./html.ts";
import { baseStyle } from "./style.ts";

/** What a sheet is made from. */
export interface PitcherSheet {
  readonly pitcher: string;
  /** Of all pitchers: a pair is held against the others. */
  readonly live: LivePitches;
  readonly hitters: readonly Hitter[];
  /** The library's own, as `thresholds.json` has them. */
  readonly thresholds: unknown;
  readonly facility: string | null;
  readonly system: UnitSystem;
}

interface Line {
  readonly name: string;
  readonly result: RoundResult;
  readonly more?: string;
}

const style = `@page { margin: 0.5in; }
main { max-width: 860px; margin: 0 auto; padding: 16px; }
h1 { font-size: 1.4rem; } h2 { font-size: 1rem; margin: 14px 0 2px; break-after: avoid; }
p { margin: 8px 0; max-width: 90ch; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 0.8125rem; line-height: 1.35; }
th, td { text-align: left; vertical-align: top; padding: 3px 10px 3px 0; border-top: 1px solid var(--hairline); overflow-wrap: anywhere; }
thead th { border-top: 0; color: var(--soft); font-size: 0.75rem; }
tr { break-inside: avoid; }
.doubt { color: var(--soft); font-size: 0.75rem; display: block; }
@media print { main { max-width: none; padding: 0; } body { font-size: 11px; } table { font-size: 9.5px; } .doubt { font-size: 8.5px; } }`;

/** A page that needs nothing else. */
export function pitcherSheet({
  pitcher,
  live,
  hitters,
  thresholds: own,
  facility,
  system,
}: PitcherSheet): string {
  const thresholds = thresholdsFrom(own);
  const fewest = thresholds.pair_swings;
  const pitches = live.pitches.filter((p) => p.pitcher === pitcher);
  const heights = new Map(hitters.map((h) => [h.hitter, h.height_in]));
  const pairs = pairsOf(live, thresholds).pairs.filter((p) => p.pitcher === pitcher);
  const table = (head: string, lines: readonly Line[]): Markup => tableOf(head, lines, fewest, system);
  const sessions = new Set(pitches.map((p) => p.session)).size;
  const all = resultOfRounds(pitches);
  const places = byPlace(pitches, (hitter) => heights.get(hitter) ?? null, thresholds).filter(
    (r) => r.pitches > 0,
  );
  const outside = outsideRounds(live.left_out, live.without_pitcher);
  const body = html`<main>
    ${facility !== null && html`<p><bdi>${facility}</bdi></p>`}
    <h1>Pitcher's sheet: <bdi>${pitcher}</bdi></h1>
    <p>
      What hitters did, live: ${counted(all.pitches, "pitch", "pitches")} in ${counted(sessions, "session")},
      ${counted(all.swings, "swing")}. ${outside}
    </p>
    ${table("Hitter", [
      ...pairs.map(({ hitter, figures }) => {
        const stands = figures.find((f) => f.stands !== null)?.stands ?? null;
        return {
          name: hitter,
          result: resultOfRounds(pitches.filter((p) => p.hitter === hitter)),
          ...(stands === null ? {} : { more: `clearly ${stands} for this hitter than for others` }),
        };
      }),
      { name: "All", result: all },
    ])}
    <h2>By pitch</h2>
    ${table(
      "Pitch",
      byPitchType(pitches).map((r) => ({ name: r.of ?? "not written down", result: r })),
    )}
    <h2>By speed at the plate</h2>
    ${table(
      "Speed",
      bySpeedBand(pitches).map((r) => ({
        name: r.of === null ? "not measured" : rangeWords(r.of, r.to!, "mph", system),
        result: r,
      })),
    )}
    ${
      places.length > 0 &&
      html`<h2>By place in the zone, of balls in play</h2>
        ${placeTable(
          places.map((r) => ({ name: cellName(r), result: r })),
          fewest,
          system,
        )}`
    }
    <p>
      Shares and means as they were, each with its 95% interval, days counted; under ${fewest} swings counts
      alone. Own exit velocity is the hitter's, a fifth of the pitch's speed taken out. A table of so many
      lines has some that stand out by chance: a hitter is marked only where that stands with every pair and
      measure looked at together.
    </p>
    <p>${pitcherCaution}</p>
    <p>${cautions.join(" ")}</p>
  </main>`;
  return documentOf(`Pitcher's sheet: ${pitcher}`, `${baseStyle("")}${style}`, body);
}

/** Balls met at a place: no miss is. */
function placeTable(lines: readonly Line[], fewest: number, system: UnitSystem): Markup {
  return html`<div class="scroll">
    <table>
      <thead>
        <tr>
          <th>Met where</th>
          <th>Balls in play</th>
          <th>Clean or flush, of these</th>
          <th>Own exit velocity</th>
          <th>Power kept</th>
        </tr>
      </thead>
      <tbody>
        ${lines.map(
          ({ name, result }) =>
            html`<tr>
              <th>${name}</th>
              <td>${result.in_play}</td>
              ${
                result.in_play < fewest
                  ? html`<td colspan="3">too few to say</td>`
                  : html`<td>${shareFigure(result.well_hit)}</td>
                      <td>${estimateFigure(result.own_speed, "mph", system, { digits: 1 })}</td>
                      <td>${estimateFigure(result.power_kept, "share", system)}</td>`
              }
            </tr> `,
        )}
      </tbody>
    </table>
  </div>`;
}

function tableOf(head: string, lines: readonly Line[], fewest: number, system: UnitSystem): Markup {
  return html`<div class="scroll">
    <table>
      <thead>
        <tr>
          <th>${head}</th>
          <th>Pitches, swings</th>
          <th>Clean or flush, of swings</th>
          <th>Misses, of swings</th>
          <th>Own exit velocity</th>
          <th>Power kept</th>
        </tr>
      </thead>
      <tbody>
        ${lines.map(
          ({ name, result, more }) =>
            html`<tr>
              <th><bdi>${name}</bdi>${more !== undefined && html`<span class="doubt">${more}</span>`}</th>
              <td>${result.pitches}, ${result.swings}</td>
              ${
                result.swings < fewest
                  ? html`<td colspan="4">too few to say</td>`
                  : html`<td>${shareFigure(result.well_hit)}</td>
                      <td>${shareFigure(result.misses)}</td>
                      <td>${estimateFigure(result.own_speed, "mph", system, { digits: 1 })}</td>
                      <td>${estimateFigure(result.power_kept, "share", system)}</td>`
              }
            </tr> `,
        )}
      </tbody>
    </table>
  </div>`;
}
