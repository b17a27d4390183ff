/** The look of a page to hand out: light paper, one accent, the reader's own letters; on screen and in print. */
import { faintInk, fontFamily, hairline, ink, line, paper, targetColour } from "../charts/theme.ts";

/** Widths, px, that the charts are drawn for: a phone's column, and half a printed page. */
export const chartWidth = { map: 350, small: 300 } as const;

export const style = `
@page { size: letter; margin: 0.36in 0.45in; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #f4f1ea; color: ${ink}; font: 15px/1.45 ${fontFamily}; }
main { max-width: 1160px; margin: 0 auto; padding: 20px; }
h1, h2, h3, p, ul, dl, table, figure { margin: 0; }
h1 { font-size: 27px; line-height: 1.15; margin-bottom: 5px; letter-spacing: -0.01em; overflow-wrap: anywhere; }
h2 { font-size: 17px; line-height: 1.25; margin-bottom: 8px; }
h3 { font-size: 15px; margin-bottom: 4px; }
a { color: ${targetColour}; }
bdi { overflow-wrap: anywhere; }
header { border-top: 6px solid ${targetColour}; padding: 14px 0 12px; }
header p { color: ${faintInk}; font-size: 13.5px; overflow-wrap: anywhere; }
header p b { color: ${ink}; font-weight: 600; }
section, .pair > figure, .views > section { background: ${paper}; border: 1px solid ${hairline}; border-radius: 8px; padding: 14px 16px; margin-bottom: 14px; }
.pair, .views { display: grid; grid-template-columns: 1fr; gap: 14px; margin-bottom: 14px; }
.pair > figure, .views > section { margin: 0; min-width: 0; padding: 8px; }
.views > section { padding: 12px 14px; }
.headline ul { padding-left: 1.1em; }
.headline li { margin: 2px 0; break-inside: avoid; }
.next { margin-top: 10px; padding: 8px 12px; border-left: 4px solid ${targetColour}; background: #eef4f6; font-weight: 600; overflow-wrap: anywhere; }
svg { display: block; width: 100%; height: auto; max-width: 520px; margin: 0 auto; }
.pair.small svg { max-width: 400px; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 13.5px; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; padding: 4px 10px 4px 0; border-top: 1px solid ${hairline}; overflow-wrap: anywhere; }
thead th { border-top: 0; font-size: 12px; color: ${faintInk}; font-weight: 600; }
tbody th { font-weight: 500; }
.clear { font-weight: 700; }
.doubt { color: ${faintInk}; font-size: 12px; white-space: nowrap; }
dl { display: grid; grid-template-columns: 1fr; font-size: 13.5px; font-variant-numeric: tabular-nums; }
dl > div { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 10px; padding: 3px 0; border-top: 1px solid ${hairline}; }
dt { color: ${faintInk}; }
dd { margin: 0; text-align: right; }
.views table, .views svg { margin-top: 8px; }
.views td .doubt { display: block; white-space: normal; }
.views th:first-child { min-width: 6.5em; }
thead th { overflow-wrap: normal; }
.badge svg { display: inline-block; width: auto; max-width: none; margin: 0; }
.unread { margin: 0 0 10px; padding: 8px 12px; border: 2px solid ${ink}; font-weight: 600; overflow-wrap: anywhere; }
.trusted { font-size: 13px; }
.trusted ul { list-style: none; padding: 0; }
.trusted li { margin: 5px 0; overflow-wrap: anywhere; }
.note { color: ${faintInk}; font-size: 12.5px; margin-top: 6px; }
.care { border-left: 4px solid ${ink}; font-size: 13px; }
footer { color: ${faintInk}; font-size: 11.5px; line-height: 1.45; padding: 4px 2px 20px; overflow-wrap: anywhere; }
footer p { margin-bottom: 5px; }
footer code { font-family: ui-monospace, "SFMono-Regular", Menlo, Consolas, monospace; font-size: 11px; }
@media (min-width: 800px) {
  .pair { grid-template-columns: 1fr 1fr; }
  .views { grid-template-columns: repeat(auto-fit, minmax(320px, 1fr)); align-items: start; }
  .headline ul { columns: 2; column-gap: 40px; }
}
@media screen and (min-width: 1100px) {
  /* The live card has the widest tables. */
  .views:has(> section:nth-child(3)) { grid-template-columns: 1fr 1fr 1.35fr; }
}
@media (max-width: 480px) {
  main { padding: 12px; }
  h1 { font-size: 23px; }
  section { padding: 12px; }
  .views > section { padding: 12px 7px; }
  .pair > figure { padding: 7px; }
  .roomy { display: none; }
  .stack thead { display: none; }
  .stack tr { display: block; padding: 6px 0; border-top: 1px solid ${line}; }
  .stack th, .stack td { display: block; border: 0; padding: 1px 0; }
  .stack td[data-name]::before { content: attr(data-name) ": "; color: ${faintInk}; }
}
@media print {
  body { background: ${paper}; font-size: 11px; line-height: 1.3; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  main { max-width: none; padding: 0; }
  header { padding: 5px 0; border-top-width: 4px; }
  header p { font-size: 10.5px; }
  h1 { font-size: 20px; margin-bottom: 2px; }
  h2 { font-size: 12.5px; margin-bottom: 2px; break-after: avoid; }
  h3 { font-size: 12px; margin-bottom: 1px; }
  section, .pair, .views, .pair > figure, .views > section { break-inside: avoid; }
  section, .pair > figure, .views > section { border-radius: 4px; padding: 4px 8px; margin-bottom: 5px; }
  .pair, .views { gap: 5px; margin-bottom: 5px; }
  .pair > figure, .views > section { margin: 0; }
  .pair > figure { padding: 2px; }
  .pair { grid-template-columns: 1fr 1fr; }
  .pair svg { max-width: 274px; }
  .pair.small svg { max-width: 190px; }
  .views { grid-template-columns: repeat(auto-fit, minmax(200px, 1fr)); align-items: start; }
  .screen { display: none; }
  .headline ul { columns: 2; column-gap: 24px; }
  .headline li { margin: 1px 0; break-inside: avoid; }
  .next { margin-top: 3px; padding: 3px 8px; }
  table { font-size: 10px; }
  dl { font-size: 9.2px; }
  thead th, .doubt { font-size: 8.8px; }
  dl .doubt { font-size: 8.1px; }
  th, td { padding: 0.8px 7px 0.8px 0; }
  .views th:first-child { min-width: 5em; }
  .views th, .views td { padding-right: 3px; }
  .views table { font-size: 9.2px; line-height: 1.2; }
  .views td .doubt { font-size: 8.1px; }
  h1, .stack th bdi, .views th bdi { display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2; overflow: hidden; }
  .views table { margin-top: 3px; }
  dl > div { padding: 0.5px 0; gap: 0 3px; }
  .note { font-size: 9px; margin-top: 2px; }
  .badge svg { height: 13px; }
  .trusted { font-size: 8.5px; line-height: 1.2; }
  .trusted h2 { font-size: 10.5px; }
  .trusted ul { columns: 2; column-gap: 18px; }
  .trusted li { margin: 0 0 1px; break-inside: avoid; }
  .care { font-size: 9.5px; }
  .care h2 { display: inline; font-size: inherit; }
  .care h2::after { content: ". "; }
  .care p { display: inline; }
  footer { font-size: 7.8px; line-height: 1.2; padding: 0; }
  footer p { margin-bottom: 1px; }
  footer code { font-size: 7.5px; }
}
`;
