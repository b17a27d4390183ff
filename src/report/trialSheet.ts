/** The order of a fair trial's rounds, to print and tick off. */
import type { TrialRound } from "../season/trial.ts";
import { roundName } from "../season/trial.ts";
import { cautions } from "../views/cautions.ts";
import { documentOf } from "./document.ts";
import { html } from "./html.ts";
import { baseStyle } from "./style.ts";

/** What a sheet is made from. */
export interface TrialSheet {
  readonly trial: string;
  readonly rounds: readonly TrialRound[];
  readonly swings: number;
  /** How many rounds it takes, as a sentence. */
  readonly needed: string;
}

const sheet = `@page { margin: 0.5in; }
main { max-width: 720px; margin: 0 auto; padding: 16px; }
h1 { font-size: 1.4rem; }
ol { columns: 2; column-gap: 32px; padding: 0; list-style: none; margin: 16px 0; }
li { break-inside: avoid; padding: 4px 0; border-bottom: 1px solid var(--hairline); overflow-wrap: anywhere; }
li::before { content: "\\2610  "; }
.last { border-bottom-width: 2px; border-color: var(--ink); margin-bottom: 6px; }
p { margin: 8px 0; }`;

/** A page that needs nothing else: the rounds in their order, each with the name that its swings are written down under. */
export function trialSheet({ trial, rounds, swings, needed }: TrialSheet): string {
  const of = rounds.length;
  const body = html`<main>
    <h1>Fair trial: <bdi>${trial}</bdi></h1>
    <p>
      ${of} rounds of ${swings} swings, in this order. A coin gave it: keep to it, whatever the day, and end a
      session after a whole block (thick line). Write each round's swings down under the drill as it stands
      here.
    </p>
    <ol>
      ${rounds.map(
        ({ round, arm }) =>
          html`<li class="${round % 2 === 0 ? "last" : ""}">
            <bdi>${roundName({ trial, arm, round, of })}</bdi>
          </li> `,
      )}
    </ol>
    <p>${needed}</p>
    <p>${cautions.join(" ")}</p>
  </main>`;
  return documentOf(`Fair trial: ${trial}`, `${baseStyle("")}${sheet}`, body);
}
