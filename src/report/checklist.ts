/** The checklist as one printed page. */
import { faintInk, fontFamily, hairline, ink, line, paper, targetColour, themeCss } from "../charts/theme.ts";
import type { Stand } from "../field/tracker.ts";
import {
  checklist,
  checklistTitle,
  limitsUnknown,
  logFields,
  logWords,
  setupCautions,
  trialBalls,
} from "../setup/checklist.ts";
import type { UnitSystem } from "../units/system.ts";
import { html, Markup } from "./html.ts";

const style = `
${themeCss()}
@page { size: letter; margin: 0.5in 0.55in; }
* { box-sizing: border-box; }
body { margin: 0; background: ${paper}; color: ${ink}; font: 15px/1.38 ${fontFamily}; }
main { max-width: 800px; margin: 0 auto; padding: 16px; }
h1 { font-size: 24px; margin: 0 0 2px; border-top: 6px solid ${targetColour}; padding-top: 10px; }
h2 { font-size: 16px; margin: 0 0 2px; }
p { margin: 0; color: ${faintInk}; font-size: 13px; }
ol { margin: 8px 0 0; padding: 0; list-style: none; counter-reset: step; }
li.step { counter-increment: step; border-top: 1px solid ${hairline}; padding: 7px 0 7px 34px; position: relative; break-inside: avoid; }
li.step::before { content: counter(step); position: absolute; left: 0; top: 7px; width: 23px; height: 23px; border-radius: 50%; background: ${ink}; color: ${paper}; text-align: center; font-weight: 700; line-height: 23px; }
section { border-top: 1px solid ${hairline}; padding: 7px 0; break-inside: avoid; }
ul { margin: 0; padding: 0; list-style: none; }
ul.ticks li { padding-left: 24px; position: relative; margin: 2px 0; }
ul.ticks li::before { content: ""; position: absolute; left: 0; top: 3px; width: 13px; height: 13px; border: 1.5px solid ${ink}; }
.log { display: grid; grid-template-columns: repeat(3, 1fr); gap: 6px 14px; margin: 6px 0 10px; }
.log div { border-bottom: 1.5px solid ${line}; height: 38px; font-size: 12px; color: ${faintInk}; }
.care { border: 2px solid ${ink}; padding: 8px 12px; font-size: 14px; break-inside: avoid; }
.care li { margin: 2px 0; }
.care li::before { content: "! "; font-weight: 700; }
@media (max-width: 480px) { .log { grid-template-columns: 1fr 1fr; } }
@media print {
  body { font-size: 12px; } main { padding: 0; max-width: none; } .care { font-size: 11.5px; padding: 5px 10px; } .log div { height: 30px; }
  h1 { font-size: 21px; padding-top: 6px; } h2 { font-size: 14px; } li.step, section { padding-top: 4px; padding-bottom: 4px; } li.step::before { top: 4px; }
}
`;

/**
 * The checklist, ready to print on one page.
 * @param stand where the tracker is to stand; null leaves the limits out, which depend on it
 * @returns a whole HTML document, without script and without anything to fetch
 */
export function checklistPage(stand: Stand | null, units: UnitSystem = "us"): string {
  const body = html`<main>
    <h1>${checklistTitle}</h1>
    <p>
      ${stand === null ? limitsUnknown : "Limits are common practice, without a source: data/setup-tolerances.json."}
    </p>
    <ol>
      ${checklist(stand, units).map(
        ({ title, items }) =>
          html`<li class="step">
            <h2>${title}</h2>
            <ul class="ticks">
              ${items.map((item) => html`<li>${item}</li> `)}
            </ul>
          </li> `,
      )}
    </ol>
    <section>
      <h2>Then five balls that don't count</h2>
      <ul class="ticks">
        ${trialBalls(units).map((item) => html`<li>${item}</li> `)}
      </ul>
    </section>
    <p>${logWords}</p>
    <div class="log">${logFields.map(([, name]) => html`<div>${name}</div> `)}</div>
    <div class="care">
      <ul>
        ${setupCautions.map((caution) => html`<li>${caution}</li> `)}
      </ul>
    </div>
  </main>`;
  const head = html`<meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Setup checklist</title>
    <style>
      ${new Markup(style)}
    </style>`;
  return `<!doctype html>\n<html lang="en">\n<head>${head.text}</head>\n<body>${body.text}</body>\n</html>\n`;
}
