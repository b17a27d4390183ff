/**
 * A fair trial on a page: the form that plans it, whose every word is kept in the address; its order in blocks, each round a
 * link into the cage; how far it is; and in the cage the round that goes on, with the way to the next one.
 */
import { roundOf, roundsNeeded, trialResult, type TrialResult } from "../../src/season/trial.ts";
import {
  hittersText,
  roundsEach,
  trialIn,
  trialKeys,
  trialTrouble,
  trialWays,
  usualTrial,
  type FairTrial,
  type RoundDone,
  type TrialWay,
} from "../../src/season/trialPlan.ts";
import { defaultSeed } from "../../src/stats/random.ts";
import { byName } from "../../src/swing/byName.ts";
import { counted } from "../../src/swing/words.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import {
  nextRoundWords,
  noBlockSentence,
  roundHere,
  roundsSentence,
  roundStateWords,
  sharedSentence,
  splitRoundsSentence,
  spreadUnknown,
  trialRules,
  trialTroubleSentence,
  wayWords,
} from "../../src/views/sentences/trial.ts";
import { valueWords } from "../../src/views/words.ts";
import { Amount } from "./amount.ts";
import { make } from "./bringSay.ts";
import { held, hold } from "./choice.ts";
import { noted } from "./gapSay.ts";
import type { PageLibrary } from "./library.ts";
import { every } from "./pick.ts";
import { ofSheet, onPaper, printAlone } from "./printAlone.ts";
import { care } from "./say.ts";
import { trialsSaid } from "./seasonSay.ts";
import { box, nothing } from "./show.ts";

/** So long nothing may change before the page follows, ms. */
const settle_ms = 120;

/** The form that plans a trial: its value is the plan that the address holds. */
export type TrialForm = HTMLElement & {
  readonly value: FairTrial;
  /** Offers the hitters there are; the one that the page is about is ticked while nobody was chosen. */
  offer(names: readonly string[], chosen: string): void;
  /** Fixes the rounds, by which the order is there. */
  draw(rounds: number): void;
  /** Another order, by other coins. */
  drawAnother(): void;
};

/** A text that a reader writes, kept in the address. */
function wording(parent: HTMLElement, key: string, label: string, example: string): HTMLInputElement {
  const input = make("input", { type: "text", placeholder: example, maxlength: 60, autocomplete: "off" });
  input.value = held().get(key) ?? "";
  input.addEventListener("input", () => hold(key, input.value));
  parent.append(make("label", { class: "amount" }, make("span", {}, label), input));
  return input;
}

/** Makes the form, the difference to be seen in a reader's units. */
export function trialForm(units: UnitSystem): TrialForm {
  const form = make("form", { class: "setup-form trial-form" });
  form.addEventListener("submit", (event) => event.preventDefault());
  const ways = form.appendChild(make("fieldset", {}, make("legend", {}, "What is compared")));
  wording(ways, trialKeys.trial, "The trial’s name", "Two bats");
  wording(ways, trialKeys.first, "One way", "wood");
  wording(ways, trialKeys.second, "The other way", "metal");
  const size = form.appendChild(make("fieldset", {}, make("legend", {}, "How much")));
  const amounts = [
    { key: trialKeys.swings, title: "Swings a round", first: String(usualTrial.swings) },
    {
      key: trialKeys.change_mph,
      title: "Difference to be seen",
      unit: "mph" as const,
      first: String(usualTrial.change_mph),
    },
    { key: trialKeys.rounds, title: "Rounds of each hitter", whenEmpty: "what it takes" },
  ].map((asked) => new Amount(size, asked, units));
  const who = form.appendChild(make("fieldset", { class: "who" }, make("legend", {}, "Who hits")));
  const names = who.appendChild(make("div", { class: "chips" }));
  // Once the order is drawn, it is what a coach comes back for.
  const fold = make("details", { class: "trial-plan" }, make("summary", {}, "The plan"), form);
  fold.open = trialIn(held()).rounds === null;
  const holder = make("div", { class: "wide" }, fold);
  let waiting = 0;
  const tell = (): void => void holder.dispatchEvent(new Event("input"));
  form.addEventListener("input", (event) => {
    event.stopPropagation();
    for (const amount of amounts) amount.keep();
    clearTimeout(waiting);
    waiting = window.setTimeout(tell, settle_ms);
  });
  let page = every;
  const offer = (all: readonly string[], chosen: string): void => {
    const { hitters } = trialIn(held());
    const isOther = page !== chosen && hitters.length === 0;
    page = chosen;
    const ticked = new Set(hitters.length > 0 ? hitters : chosen === every ? [] : [chosen]);
    names.replaceChildren(
      ...[...new Set([...all, ...ticked])].map((name) => {
        const input = make("input", { type: "checkbox", value: name });
        input.checked = ticked.has(name);
        input.addEventListener("input", () =>
          hold(
            trialKeys.hitters,
            hittersText([...names.querySelectorAll<HTMLInputElement>(":checked")].map(({ value }) => value)),
          ),
        );
        return make("label", {}, input, make("span", {}, name));
      }),
    );
    if (isOther) tell();
  };
  const draw = (rounds: number): void => {
    hold(trialKeys.hitters, hittersText(read().hitters));
    hold(trialKeys.rounds, String(rounds));
    amounts.find(({ asked }) => asked.key === trialKeys.rounds)!.put(String(rounds));
    for (const amount of amounts) amount.keep();
    hold(trialKeys.seed, held().get(trialKeys.seed) ?? String(defaultSeed));
    tell();
  };
  const drawAnother = (): void => {
    hold(trialKeys.seed, String(crypto.getRandomValues(new Uint32Array(1))[0]!));
    tell();
  };
  const read = (): FairTrial => {
    const plan = trialIn(held());
    return plan.hitters.length > 0 || page === every ? plan : { ...plan, hitters: [page] };
  };
  return Object.defineProperties(holder, {
    offer: { value: offer },
    draw: { value: draw },
    drawAnother: { value: drawAnother },
    value: { get: read },
  }) as unknown as TrialForm;
}

/** Everybody who can take part: who has swung, and who stands in the hitters' table. */
export const whoCanHit = ({ swings, hitters }: Pick<PageLibrary, "swings" | "hitters">): string[] =>
  [...new Set([...swings.map(({ hitter }) => hitter), ...hitters.map(({ hitter }) => hitter)])].sort(byName);

/** A link that keeps the plan, and asks for this of the page it leads to. */
function linkTo(page: string, asks: Readonly<Record<string, string>>, ...items: readonly (Node | string)[]) {
  const choices = held();
  for (const [key, value] of Object.entries(asks)) choices.set(key, value);
  return make("a", { href: `./${page}#${choices}` }, ...items);
}

const cageLink = (hitter: string, { drill }: { readonly drill: string }, ...items: (Node | string)[]) =>
  linkTo("in-the-cage.html", { hitter, drill }, ...items);

/** A hitter's rounds, block by block: the next one first, then all of them in their order. */
function wayShown({ hitter, rounds, done, next }: TrialWay, swings: number): HTMLElement {
  const blocks = new Map<number, RoundDone[]>();
  for (const round of rounds) blocks.set(round.block, [...(blocks.get(round.block) ?? []), round]);
  const line = (round: RoundDone): HTMLElement => {
    const state = roundStateWords(round, swings);
    return make(
      "li",
      { class: round === next ? `now ${round.state}` : round.state },
      cageLink(hitter, round, round.drill),
      state === "" ? null : make("span", { class: "state" }, state),
    );
  };
  return make(
    "section",
    { class: "trial-way" },
    make("h3", {}, hitter, " ", make("small", {}, wayWords({ done, of: rounds.length }))),
    next === null
      ? null
      : make("p", { class: "trial-next" }, cageLink(hitter, next, nextRoundWords(next, swings))),
    make(
      "ol",
      { class: "trial-blocks" },
      ...[...blocks].map(([block, list]) =>
        make("li", {}, make("b", {}, `Block ${block}`), make("ul", {}, ...list.map(line))),
      ),
    ),
  );
}

/** What a planned trial came to, the hitters counted who haven't begun. */
const resultOf = (library: PageLibrary, { trial, rounds, hitters }: FairTrial): TrialResult | null =>
  trialResult(library, trial, "better_half_speed", ((rounds ?? 0) / 2) * hitters.length);

/**
 * The plan as the form has it: how many rounds it takes, said beforehand; once they are fixed, the order, to tap through and to
 * print, and what it has come to.
 * @param spread how much one swing off the tee differs within a session, of the plan's hitters, mph; null when unknown
 */
export function trialPlanned(
  library: PageLibrary,
  spread: number | null,
  form: TrialForm,
  plan: FairTrial,
  units: UnitSystem,
): HTMLElement {
  const trouble = trialTrouble(plan);
  if (trouble !== null) return nothing(trialTroubleSentence(trouble));
  const { trial, rounds, swings, change_mph, hitters } = plan;
  const needed = spread === null ? null : roundsNeeded(change_mph, spread, swings);
  const each = needed === null ? null : roundsEach(needed, hitters.length);
  const change = valueWords(change_mph, "mph", units, 1);
  const beforehand = [
    spread === null ? spreadUnknown : roundsSentence(needed, swings, change),
    ...(needed === null || each === null ? [] : [sharedSentence(needed, each, hitters.length)]),
  ].filter((text) => text !== null);
  if (rounds === null) {
    if (each === null) return noted(beforehand);
    const draw = make("button", { type: "button", class: "plain" }, `Draw the order of ${each} rounds`);
    draw.addEventListener("click", () => form.draw(each));
    return box("trial", noted(beforehand), draw);
  }
  const ways = trialWays(library.swings, plan);
  const isBegun = ways.some((way) => way.rounds.some(({ n }) => n > 0));
  const result = isBegun ? resultOf(library, plan) : null;
  const split = splitRoundsSentence(
    ways.flatMap(({ hitter, rounds: own }) =>
      own.filter(({ sessions }) => sessions > 1).map(({ round }) => ({ hitter, round })),
    ),
  );
  const another = make("button", { type: "button", class: "plain" }, "Draw another order");
  another.addEventListener("click", () => form.drawAnother());
  return box(
    "trial",
    ...(result !== null ? [trialsSaid([result], units)] : isBegun ? [noted([noBlockSentence(trial)])] : []),
    ofSheet(
      "trial",
      box(
        "trial-sheet",
        make(
          "h3",
          { class: "trial-name" },
          `${trial}: ${counted(rounds, "round")} of ${counted(swings, "swing")}`,
        ),
        noted([...beforehand, ...(split === null ? [] : [split]), trialRules]),
        ...ways.map((way) => wayShown(way, swings)),
        onPaper(care()),
      ),
    ),
    box("trial-buttons", printAlone("Print the order", "trial"), ...(isBegun ? [] : [another])),
  );
}

/** The trials among a hitter's swings, the planned one apart, whose result stands with its order. */
export const otherTrials = (library: PageLibrary, names: readonly string[], plan: FairTrial): TrialResult[] =>
  names
    .filter((name) => name !== plan.trial || plan.rounds === null || trialTrouble(plan) !== null)
    .flatMap((name) => trialResult(library, name) ?? []);

/** A round's drill, which the cage was opened with, asks for nothing on the page that shows the trial. */
export function leaveRound(): void {
  const drill = held().get("drill");
  if (roundOf(drill)?.trial === trialIn(held()).trial) hold("drill", every);
}

/**
 * In the cage: which round of a trial the balls are of, how many it has, and the way to the next one and back to the order.
 * @returns null for any other drill
 */
export function trialRoundHere(
  library: PageLibrary,
  { hitter, drill }: { readonly hitter: string; readonly drill: string },
): HTMLElement | null {
  const named = roundOf(drill);
  if (named === null) return null;
  const plan = trialIn(held());
  const isPlanned = plan.rounds === named.of && trialTrouble(plan) === null && plan.hitters.includes(hitter);
  const way = isPlanned ? trialWays(library.swings, plan).find((one) => one.hitter === hitter)! : null;
  const at = way?.rounds.findIndex((round) => round.drill === drill) ?? -1;
  const here = way?.rounds[at] ?? null;
  const own = library.swings.filter(
    (row) => row.drill === drill && row.outcome !== "take" && (hitter === every || row.hitter === hitter),
  );
  const after = way?.rounds[at + 1];
  const links = [
    ...(here !== null && after !== undefined
      ? [cageLink(hitter, after, `Next: round ${after.round}, ${after.arm}`)]
      : []),
    linkTo("progress.html", { drill: every }, "The order"),
  ];
  return make(
    "p",
    { class: here?.state === "done" ? "cage-trial done" : "cage-trial" },
    roundHere(named, own.length, here === null ? null : plan.swings),
    ...links.flatMap((link) => [" ", link]),
  );
}
