/** The look of a page to hand out: the theme's paper and ink, a grid of twelve columns, and two printed pages. */
import { fontFamily, serifFamily, themeCss } from "../charts/theme.ts";

/** Widths, px, that the charts are drawn for: half a desk, and a phone's column or a third of a desk. */
export const chartWidth = { wide: 560, map: 350 } as const;

/**
 * What every page to hand out begins with: the letters, the theme's colours and sizes.
 * @param letters the faces as a style sheet; the reader's own where there are none
 */
export const baseStyle = (letters: string): string => `${letters}
${themeCss()}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); font: var(--size-body)/1.5 ${fontFamily}; font-variant-numeric: tabular-nums; }
h1, h2, h3, p, ul, dl, table, figure { margin: 0; }
bdi { overflow-wrap: anywhere; }
a { color: var(--accent); }
`;

/** A hitter's name as the text of a style sheet: every letter that could end it is written by its number. */
export const cssText = (text: string): string =>
  `"${[...text.replace(/\p{Cc}|\p{Surrogate}/gu, "\ufffd")]
    .map((letter) =>
      /[\p{L}\p{N} .,-]/u.test(letter) ? letter : `\\${letter.codePointAt(0)!.toString(16)} `,
    )
    .join("")}"`;

/** What a style sheet is told. */
export interface Look {
  /** What stands at the head of every printed page: whose report it is. */
  readonly running: string;
  /** The faces as a style sheet. */
  readonly letters: string;
  /** The facility's, `#rrggbb`; null for none. */
  readonly color?: string | null;
}

/**
 * A colour as style sheets write it, or null when the text is none.
 * @example colorMeant("#A8321C") // "#a8321c"
 * @example colorMeant("red; } body { display: none") // null
 */
export const colorMeant = (text: string): string | null =>
  /^#[0-9a-f]{6}$/i.test(text) ? text.toLowerCase() : null;

/**
 * The sheets of several reports in one document, each with its hitter's name at the head of every printed page.
 * @param running what stands at the head of each report's pages
 */
export const sheetStyle = (running: readonly string[]): string =>
  running
    .map(
      (text, i) =>
        `@page sheet-${i + 1} { @top-left { content: ${cssText(text)}; } @top-right { content: ""; } }\n` +
        `.sheet:nth-of-type(${i + 1}) { page: sheet-${i + 1}; break-before: page; }`,
    )
    .join("\n");

/** The style sheet of a report. */
export const style = ({ running, letters, color = null }: Look): string => `${baseStyle(letters)}
@page { margin: 0.52in 0.45in 0.4in; @top-left { content: ${cssText(running)}; font: 8.5px ${fontFamily}; } @top-right { content: "page " counter(page) " of " counter(pages); font: 8.5px ${fontFamily}; } }
.house { flex: 1 0 100%; font: var(--serif-weight) var(--size-title)/1.3 ${serifFamily}; ${color === null ? "" : `border-top: 6px solid ${colorMeant(color) ?? "currentcolor"}; padding-top: 6px; `}}
header .house { color: var(--ink); font-size: var(--size-title); }
.month .say h2 { margin-top: 18px; } .month li { margin: 2px 0; }
.month > .row { display: block; } .month > .row p, .month > .row ul { max-width: 90ch; }
.sentence .say { grid-column: 1 / 13; } .sentence .pic { grid-column: 3 / 11; margin-top: 16px; }
.coach { margin-top: 20px; border-left: 3px solid var(--ink); padding: 1px 0 1px 16px; max-width: 600px; overflow-wrap: anywhere; white-space: pre-line; }
.coach b { display: block; font: var(--serif-weight) 1.25rem/1.3 ${serifFamily}; }
main { max-width: 1328px; margin: 0 auto; padding: 0 40px 32px; }
header { display: flex; flex-wrap: wrap; gap: 0 24px; align-items: baseline; border-bottom: 1px solid var(--hairline); padding: 12px 0 10px; }
h1 { font: var(--serif-weight) 1.125rem/1.35 ${serifFamily}; overflow-wrap: anywhere; }
header p { color: var(--soft); font-size: var(--size-small); overflow-wrap: anywhere; }
header p b { color: var(--ink); font-weight: 600; }
h2 { font: var(--serif-weight) var(--size-heading)/1.25 ${serifFamily}; margin-bottom: 8px; }
h3 { font: var(--serif-weight) var(--size-title)/1.3 ${serifFamily}; margin-bottom: 6px; }
.first, .row { display: grid; grid-template-columns: repeat(12, minmax(0, 1fr)); gap: 0 var(--gap); }
.first { padding: 24px 0 20px; align-items: start; }
.say { grid-column: 1 / 7; }
.pic { grid-column: 7 / 13; margin-top: -4px; }
.narrow { display: none; }
.answer { font: var(--serif-weight) var(--size-answer)/1.14 ${serifFamily}; letter-spacing: -0.012em; text-wrap: balance; overflow-wrap: anywhere; }
.answer em { font-style: normal; color: var(--accent); white-space: nowrap; }
.sub { color: var(--soft); margin-top: 10px; max-width: 60ch; overflow-wrap: anywhere; }
.tiles { display: grid; grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 12px 24px; margin-top: 24px; }
.tile { border-top: 2px solid var(--ink); padding-top: 8px; min-width: 0; }
.tile .n { font: var(--serif-weight) var(--size-figure)/1.1 ${serifFamily}; }
.tile .n small { font: 500 0.9375rem ${fontFamily}; }
.tile .l { color: var(--soft); font-size: var(--size-small); line-height: 1.35; margin-top: 3px; overflow-wrap: anywhere; }
.iv { display: block; width: 100%; height: 14px; margin-top: 4px; }
.iv path { fill: none; stroke: var(--ink); vector-effect: non-scaling-stroke; }
.iv .scale { stroke: var(--line); } .iv .range { stroke-width: 5; stroke-opacity: 0.32; } .iv .point { stroke-width: 3; }
.next { margin-top: 24px; border-left: 3px solid var(--accent); padding: 1px 0 1px 16px; max-width: 600px; overflow-wrap: anywhere; }
.next b { display: block; font: var(--serif-weight) 1.25rem/1.3 ${serifFamily}; }
.next span { color: var(--soft); }
.row { border-top: 1px solid var(--hairline); padding: 18px 0 20px; align-items: start; }
.row > * { grid-column: span 12; min-width: 0; }
.row > .third { grid-column: span 4; } .row > .wide { grid-column: span 8; } .row > .half { grid-column: span 6; }
.row > .alone { grid-column: span 12; }
.headline ul { padding-left: 1.1em; }
.headline li { margin: 3px 0; max-width: var(--measure); }
figure svg { display: block; width: 100%; height: auto; }
figure > svg, .chart svg { max-width: 460px; }
.pic > svg, .strip > svg { max-width: none; }
.strip { margin-top: 24px; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: var(--size-small); line-height: 1.4; }
th, td { text-align: left; vertical-align: top; padding: 5px 12px 5px 0; border-top: 1px solid var(--hairline); overflow-wrap: anywhere; }
thead th { border-top: 0; font-size: var(--size-fine); color: var(--soft); font-weight: 600; overflow-wrap: normal; }
tbody th { font-weight: 500; }
.clear { font-weight: 700; }
.doubt { color: var(--soft); font-size: var(--size-fine); white-space: nowrap; }
dl { display: grid; grid-template-columns: 1fr; font-size: var(--size-small); }
dl > div { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 12px; padding: 4px 0; border-top: 1px solid var(--hairline); }
dt { color: var(--soft); }
dd { margin: 0; text-align: right; }
.chart { margin-top: 12px; }
.chart svg { display: block; width: 100%; height: auto; }
.views td .doubt { display: block; white-space: normal; }
.views table { margin-bottom: 12px; }
.pairs { display: grid; grid-template-columns: repeat(auto-fit, minmax(340px, 1fr)); gap: 12px var(--gap); align-items: start; }
.badge svg { display: inline-block; vertical-align: middle; }
.unread { margin: 12px 0 0; padding: 8px 12px; border: 2px solid var(--ink); font-weight: 600; overflow-wrap: anywhere; }
.trusted ul { list-style: none; padding: 0; font-size: var(--size-small); columns: 2; column-gap: var(--gap); }
.trusted li { margin: 0 0 6px; overflow-wrap: anywhere; break-inside: avoid; }
.note { color: var(--soft); font-size: var(--size-small); margin-top: 6px; max-width: 90ch; }
.care p { max-width: 90ch; }
footer { border-top: 1px solid var(--hairline); color: var(--soft); font-size: var(--size-fine); line-height: 1.5; padding: 14px 0 0; overflow-wrap: anywhere; columns: 2; column-gap: var(--gap); }
footer p { margin-bottom: 6px; }
footer code { font-family: ui-monospace, "SFMono-Regular", Menlo, Consolas, monospace; font-size: 0.6875rem; }
@media screen and (max-width: 1080px) {
  main { padding: 0 24px 24px; }
  .row > .third { grid-column: span 6; margin-bottom: 12px; } .row > .wide { grid-column: span 12; }
  .tiles { gap: 12px 16px; }
}
@media screen and (max-width: 760px) {
  main { padding: 0 16px 20px; }
  .first, .row { display: block; }
  .first { padding: 14px 0 12px; }
  header { padding: 8px 0; }
  header .more { display: none; }
  .pic { margin: 14px 0 0; }
  .pic.wide, .strip.wide { display: none; } .narrow { display: block; }
  figure > svg, .chart svg, .pic > svg, .strip > svg { max-width: 480px; margin: 0 auto; }
  .tiles { margin-top: 12px; gap: 8px 12px; }
  .tile .n { font-size: 1.625rem; }
  .tile .l { font-size: var(--size-fine); }
  .next { margin-top: 12px; padding-left: 12px; }
  .next b { font-size: 1.0625rem; }
  .next span { font-size: var(--size-small); }
  .coach { margin-top: 12px; padding-left: 12px; } .coach b { font-size: 1.0625rem; }
  .row { padding: 14px 0; }
  .row > * + * { margin-top: 14px; }
  .pairs { display: block; }
  .pairs > * + * { margin-top: 12px; }
  .trusted ul, footer { columns: 1; }
}
@media screen and (max-width: 480px) {
  .roomy { display: none; }
  .stack thead { display: none; }
  .stack tr { display: block; padding: 6px 0; border-top: 1px solid var(--line); }
  .stack th, .stack td { display: block; border: 0; padding: 1px 0; }
  .stack td[data-name]::before { content: attr(data-name) ": "; color: var(--soft); }
}
@media screen and (min-width: 1200px) and (max-height: 840px) {
  /* A low desk: the answer, its figures, what is next and the last swings of each kind stand on one screen. */
  header { padding: 6px 0 4px; } .first { padding-top: 12px; } .sub { margin-top: 6px; }
  .tiles, .next, .coach { margin-top: 14px; } .tile { padding-top: 4px; } .strip { margin-top: 8px; }
  .answer { font-size: calc(0.92 * var(--size-answer)); } .strip > svg { max-width: 540px; }
}
@media print {
  body { font-size: 10.5px; line-height: 1.3; }
  main { max-width: none; padding: 0; }
  header { padding: 0 0 3px; }
  header p { font-size: 9px; } header { gap: 0 10px; }
  h1 { font-size: 13px; }
  header .house { font-size: 11.5px; padding-top: 3px; }
  h2 { font-size: 12.5px; margin-bottom: 2px; break-after: avoid; }
  h3 { font-size: 11.5px; margin-bottom: 1px; }
  .first, .row { gap: 0 14px; }
  .first { padding: 6px 0 4px; grid-template-columns: 1.32fr 1fr; display: grid; }
  .say { grid-column: 1; } .pic { grid-column: 2; margin: 0; }
  .pic.wide { display: none; } .pic.narrow { display: block; }
  .sentence .first { display: block; }
  .sentence .pic { margin-top: 8px; } .sentence .pic > svg { max-width: 360px; margin: 0 auto; }
  .month { font-size: 12px; line-height: 1.4; } .month .say h2 { margin-top: 10px; } .month .care p { font-size: 11px; }
  .month .pic .chart > svg { max-width: 300px; } .month li { margin: 3px 0; }
  .page .first { padding-bottom: 2px; } .page .pic > svg { max-width: 215px; } .page .row figure > svg { max-width: 200px; }
  .strip { margin-top: 8px; }
  .answer { font-size: 23px; }
  .sub { margin-top: 4px; font-size: 10px; }
  .tiles { margin-top: 8px; gap: 4px 12px; }
  .tile { border-top-width: 1.5px; padding-top: 3px; }
  .tile .n { font-size: 19px; } .tile .n small { font-size: 10px; } .tile .l { font-size: 8.8px; line-height: 1.25; }
  /* Inline: as a block, a picture of an older Chromium breaks the page where sheets have names. */
  .iv { display: inline-block; height: 9px; margin-top: 1px; vertical-align: top; }
  .next { margin-top: 8px; padding: 0 0 0 8px; border-left-width: 2px; }
  .coach { margin-top: 8px; padding: 0 0 0 8px; border-left-width: 2px; } .coach b { font-size: 12px; }
  .next b { font-size: 12px; } .next span { font-size: 9.6px; }
  section, .row, .first, figure, table { break-inside: avoid; }
  .row { padding: 4px 0 5px; }
  .headline ul { padding-left: 1em; } .headline li { margin: 0; font-size: 9.4px; }
  figure > svg { max-width: 250px; } .pic > svg { max-width: 285px; margin-left: auto; } .strip > svg { max-width: 350px; }
  header bdi, .trusted bdi { display: inline-block; max-width: 15em; overflow: hidden; text-overflow: ellipsis; white-space: nowrap; vertical-align: bottom; }
  h1 bdi { display: inline; white-space: normal; }
  .screen { display: none; }
  table { font-size: 9.2px; line-height: 1.22; }
  dl { font-size: 9px; line-height: 1.22; }
  thead th, .doubt, dl .doubt { font-size: 8.1px; }
  th, td { padding: 0.8px 6px 0.8px 0; }
  .views table { margin-bottom: 3px; }
  .views td .doubt { font-size: 8px; }
  h1, .stack th bdi, .views th bdi { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2; overflow: hidden; }
  .answer { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 4; overflow: hidden; }
  dl > div { padding: 0.5px 0; gap: 0 3px; }
  .pairs { display: block; }
  .note { font-size: 8.6px; margin-top: 2px; max-width: none; }
  .badge svg { height: 12px; width: auto; }
  .trusted { font-size: 8.4px; line-height: 1.2; }
  .trusted h2, .care h2 { font-size: 10.5px; }
  .trusted ul { columns: 2; column-gap: 18px; font-size: inherit; }
  .trusted li { margin: 0 0 1px; }
  .care p { max-width: none; font-size: 9.2px; }
  .care h2 { display: inline; }
  .care h2::after { content: ". "; }
  .care p { display: inline; }
  footer { font-size: 7.6px; line-height: 1.2; padding: 3px 0 0; columns: 1; }
  footer p { margin-bottom: 1px; }
  footer code { font-size: 7.3px; }
}
`;
