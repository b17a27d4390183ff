/** The look of a page to hand out: light paper, one accent, the reader's own letters; on screen and in print. */
import { faintInk, fontFamily, hairline, ink, line, paper, targetColour } from "../charts/theme.ts";

/** Width, px, that the charts are drawn for: a phone's column, and half a printed page. */
export const chartWidth = 350;

export const style = `
@page { size: letter; margin: 0.45in; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; background: #f4f1ea; color: ${ink}; font: 15px/1.45 ${fontFamily}; }
main { max-width: 1160px; margin: 0 auto; padding: 20px; }
h1, h2, h3, p, ul, dl, table, figure { margin: 0; }
h1 { font-size: 27px; line-height: 1.15; letter-spacing: -0.01em; overflow-wrap: anywhere; }
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
.headline li { margin: 2px 0; }
.next { margin-top: 10px; padding: 8px 12px; border-left: 4px solid ${targetColour}; background: #eef4f6; font-weight: 600; overflow-wrap: anywhere; }
svg { display: block; width: 100%; height: auto; max-width: 520px; margin: 0 auto; }
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
.views table .doubt { white-space: normal; }
.views th:first-child { min-width: 6.5em; }
thead th { overflow-wrap: normal; }
.note { color: ${faintInk}; font-size: 12.5px; margin-top: 6px; }
.care { border-left: 4px solid ${ink}; font-size: 13px; }
footer { color: ${faintInk}; font-size: 11.5px; line-height: 1.45; padding: 4px 2px 20px; overflow-wrap: anywhere; }
footer p { margin-bottom: 5px; }
footer code { font-family: ui-monospace, "SFMono-Regular", Menlo, Consolas, monospace; font-size: 11px; }
@media (min-width: 800px) {
  .pair { grid-template-columns: 1fr 1fr; }
  .views { grid-template-columns: repeat(auto-fit, minmax(320px, 1fr)); align-items: start; }
}
@media (max-width: 480px) {
  main { padding: 12px; }
  h1 { font-size: 23px; }
  section { padding: 12px; }
  .stack thead { display: none; }
  .stack tr { display: block; padding: 6px 0; border-top: 1px solid ${line}; }
  .stack th, .stack td { display: block; border: 0; padding: 1px 0; }
  .stack td[data-name]::before { content: attr(data-name) ": "; color: ${faintInk}; }
}
@media print {
  body { background: ${paper}; font-size: 11.5px; line-height: 1.35; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  main { max-width: none; padding: 0; }
  header { padding: 6px 0; border-top-width: 4px; }
  header p { font-size: 11px; }
  h1 { font-size: 20px; }
  h2 { font-size: 13px; margin-bottom: 3px; }
  h3 { font-size: 12px; margin-bottom: 2px; }
  section, .pair, .views, .pair > figure, .views > section { break-inside: avoid; }
  h2 { break-after: avoid; }
  section, .pair > figure, .views > section { border-radius: 4px; padding: 6px 9px; margin-bottom: 7px; }
  .pair, .views { gap: 7px; margin-bottom: 7px; }
  .pair { grid-template-columns: 1fr 1fr; }
  .views { grid-template-columns: repeat(auto-fit, minmax(200px, 1fr)); align-items: start; }
  .pair > figure, .views > section { margin: 0; }
  .pair > figure { padding: 3px; }
  .pair svg { max-width: 310px; }
  .pair.small svg { max-width: 285px; }
  .screen { display: none; }
  .next { margin-top: 4px; padding: 4px 8px; }
  table, dl { font-size: 10.5px; }
  thead th, .doubt { font-size: 9.5px; }
  th, td { padding: 2px 7px 2px 0; }
  dl > div { padding: 1px 0; }
  .note { font-size: 9.5px; margin-top: 3px; }
  .care { font-size: 10px; }
  footer { font-size: 8.5px; line-height: 1.3; padding: 0; }
  footer p { margin-bottom: 2px; }
  footer code { font-size: 8px; }
}
`;
