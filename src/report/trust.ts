/** What the checks say of the sessions behind a report: a line at its head, and each session's badge and reasons at its foot. */
import { trustBadge } from "../charts/trustBadge.ts";
import { flagsOf, isDoubtful } from "../contact/flags.ts";
import { trustOf, type Trust } from "../setup/trust.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { sessionsInOrder } from "../views/sessions.ts";
import { flaggedSentence, soundWords, turnedRowsSentence } from "../views/sentences/readings.ts";
import { counted } from "../swing/words.ts";
import { html, Markup, type Piece } from "./html.ts";

type Rows = readonly EnrichedSwing[];

/** Trust in each session of the rows, the earliest first; what was not compared rests on its log and rows alone. */
export function trustOfRows(
  rows: Rows,
  sessions: readonly Session[],
  known: ReadonlyMap<string, Trust>,
): Trust[] {
  return sessionsInOrder(rows, sessions).map(
    ({ session, rows: own }) =>
      known.get(session) ?? trustOf(session, sessions.find((s) => s.session === session) ?? null, own, null),
  );
}

/**
 * How many of the rows are corrected, in words; null for none.
 * @example turnedNote([{ flags: "turned_back" }, { flags: null }]) // "1 of 2 rows corrected, as sessions.csv says."
 * @example turnedNote([{ flags: null }]) // null
 */
export function turnedNote(rows: readonly Pick<EnrichedSwing, "flags">[]): string | null {
  const turned = rows.filter((row) => flagsOf(row).includes("turned_back")).length;
  return turnedRowsSentence(turned, rows.length);
}

/** A badge as markup, small enough to stand in a line. */
const badge = (trust: Trust, document: Document): Markup =>
  html`<span class="badge">${new Markup(trustBadge(trust, { document }).outerHTML)}</span>`;

/** Sessions named at the head, the latest: more are counted there, and told in the foot. */
const mostNamed = 4;

/** The line at the head: what is not sound with its badge, the rest counted; flagged and turned rows counted. */
export function trustLine(all: readonly Trust[], rows: Rows, leaveOut: boolean, document: Document): Markup {
  const odd = all.filter((t) => t.verdict !== "sound");
  const sound = all.filter((t) => t.verdict === "sound");
  const alone = sound.filter((t) => !t.compared).length;
  const named = odd.slice(-mostNamed);
  const parts: Piece[] = named.map((t) => html`${badge(t, document)} <bdi>${t.session}</bdi>; `);
  if (odd.length > named.length)
    parts.push(`${counted(odd.length - named.length, "earlier session")} not sound; `);
  const soundOnes = soundWords(sound.length, odd.length, alone);
  const flagged = flaggedSentence(rows.filter(isDoubtful).length, leaveOut);
  const turned = turnedNote(rows);
  return html`<p class="trust">
    ${all.length > 0 && html`Trust: ${parts}${soundOnes !== null && `${soundOnes}; `}reasons in the foot.`}${flagged !== null && ` ${flagged}`}
    ${turned !== null && html`<b>${turned}</b>`}
  </p>`;
}

/** Each session with its badge and the reasons behind it; sessions of which the same is said share a line. */
export function trustSection(all: readonly Trust[], rows: Rows, document: Document): Markup | null {
  // Why a session was not compared is its last reason, and the same for many: said once, below.
  const why = new Set(all.flatMap((t) => (t.compared ? [] : t.reasons.slice(-1))));
  const groups = new Map<string, { trust: Trust; names: string[] }>();
  for (const one of all) {
    const trust = one.compared ? one : { ...one, reasons: one.reasons.slice(0, -1) };
    const key = JSON.stringify([trust.verdict, trust.compared, trust.turnedBack, trust.reasons]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { trust, names: [one.session] });
    else group.names.push(one.session);
  }
  const nameless = rows.filter((r) => r.session === null).length;
  if (groups.size === 0 && nameless === 0) return null;
  return html`<section class="row trusted">
    <h2>Trust, session by session</h2>
    <ul>
      ${[...groups.values()].map(
        ({ trust, names }) =>
          html`<li>
            ${badge({ ...trust, session: names.join(", ") }, document)}
            ${names.map((name, i) => html`${i === 0 ? "" : ", "}<bdi>${name}</bdi>`)}${trust.reasons.length > 0 ? `: ${trust.reasons.join(" ")}` : "."}
          </li> `,
      )}
      ${[...why].map((reason) => html`<li>${reason}</li> `)}
      ${
        nameless > 0 &&
        html`<li>
          ${counted(nameless, "row")} without a session: no placement or calibration can be known.
        </li>`
      }
    </ul>
  </section>`;
}
