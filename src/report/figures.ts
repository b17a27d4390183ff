/** A figure as a report shows it: never without its count, and with its interval where there is one. */
import type { Estimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import type { UnitName } from "../units/index.ts";
import { signedNumber } from "../swing/words.ts";
import { shownNumber, signAfter, type UnitSystem } from "../units/system.ts";
import { rangeNumbers, rangeWords, valueWords } from "../views/words.ts";
import { html, type Markup } from "./html.ts";

/** How an estimate is written. */
export interface FigureStyle {
  /** Behind the point. */
  readonly digits?: number;
  /** A plus before what is above zero, for a slope. */
  readonly signed?: boolean;
}

/** A value, then its interval and n in small print. */
export function estimateFigure(
  e: Estimate,
  unit: UnitName,
  system: UnitSystem,
  { digits = 0, signed = false }: FigureStyle = {},
): Markup {
  if (e.value === null)
    return html`<span class="doubt">${e.n === 0 ? "not measured" : e.reason} (n ${e.n})</span>`;
  const value = signed
    ? signedNumber(shownNumber(e.value, unit, system), digits) + signAfter(unit, system)
    : valueWords(e.value, unit, system, digits);
  if (e.low === null || e.high === null)
    return html`${value} <span class="doubt">no interval, n ${e.n}</span>`;
  const range = rangeNumbers(e.low, e.high, unit, system, digits);
  return html`${value} <span class="doubt">${range}, n ${e.n}</span>`;
}

/** "12 of 30", then the share and its interval in small print. */
export function shareFigure(s: Share): Markup {
  if (s.share === null || s.low === null || s.high === null)
    return html`<span class="doubt">none to count (n 0)</span>`;
  const range = rangeWords(s.low, s.high, "share", "us");
  return html`${s.count} of ${s.n} <span class="doubt">${range}</span>`;
}

/** A name, its figure, and the class of its line: "screen" keeps it off paper. */
export type Fact = readonly [name: string, figure: Markup | string, kept?: "" | "screen"];

/** A list of names with their figures. */
export function factList(facts: readonly Fact[]): Markup {
  return html`<dl>
    ${facts.map(
      ([name, figure, kept = ""]) =>
        html`<div class="${kept}">
          <dt>${name}</dt>
          <dd>${figure}</dd>
        </div> `,
    )}
  </dl>`;
}
