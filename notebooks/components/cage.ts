/** In the cage: the last ball in words that are read from five metres, its flight, and the round's tally. */
import { lastFlight } from "../../src/charts/lastFlight.ts";
import { isDoubtful } from "../../src/contact/flags.ts";
import { oneBall } from "../../src/contact/oneBall.ts";
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { hitAfterSetBack, lastRound, type Mark, type Round } from "../../src/views/round.ts";
import { ballLines, roundSentence, spokenBall } from "../../src/views/sentences/round.ts";
import { roundOf as trialRound } from "../../src/season/trial.ts";
import { chips, choose, held, tick, type ChoiceElement } from "./choice.ts";
import { fieldUnder } from "./ground.ts";
import type { PageLibrary } from "./library.ts";
import { every, pick } from "./pick.ts";
import { box, figure, nothing } from "./show.ts";

/** What has come while the page is open. */
const arrived = {
  seen: null as ReadonlySet<string> | null,
  last: null as EnrichedSwing | null,
  after: new Set<string>(),
};

/** Rows are taken as they come where their tracker's clock was set back. */
function arrive(swings: readonly EnrichedSwing[], rest_min: number): void {
  const { seen, last, after } = arrived;
  if (seen !== null && last !== null) {
    const fresh = swings.filter(({ swing_id }) => swing_id !== null && !seen.has(swing_id));
    for (const id of hitAfterSetBack(last, fresh, rest_min)) after.add(id);
  }
  arrived.seen = new Set(swings.flatMap(({ swing_id }) => swing_id ?? []));
}

/**
 * The round that goes on: the hitter's, or whoever hit last where none is chosen.
 * @param drill the drill that was chosen: rows that name none are taken as its own, but for a round of a fair trial
 */
export function roundOf(
  library: PageLibrary,
  { hitter, drill }: { readonly hitter: string; readonly drill: string },
): Round | null {
  const { sessions, targets, swings } = library;
  const rest_min = thresholdsFrom(library.thresholds).round_rest_min;
  arrive(swings, rest_min);
  // A trial's round is only what was written down under its name: that is all that its result will count.
  const takesUnnamed = trialRound(drill) === null;
  const rows = pick(library, { hitter }).flatMap((row) =>
    drill === every || row.drill === drill
      ? [row]
      : row.drill === null && takesUnnamed
        ? [{ ...row, drill }]
        : [],
  );
  const round = lastRound(rows, { sessions, targets, rest_min, after: arrived.after });
  // What comes after a set-back clock is held against the last ball before it, as the first one was.
  if (!arrived.after.has(round?.last.swing_id ?? "")) arrived.last = round?.last ?? null;
  return round;
}

/** Whoever hits, or one hitter: those who hit last stand first. */
export const chooseCageHitter = (library: PageLibrary): ChoiceElement =>
  oneTap("hitter", "Hitter", "Whoever hits", latest(library.swings, "hitter"));

/** As the file says, or one drill: those of the rows, the last one first, and all that have a target. */
export function chooseCageDrill(library: PageLibrary, hitter: string): ChoiceElement {
  // A trial has dozens of rounds, and one at a time: the one that its order leads to.
  const used = latest(pick(library, { hitter }), "drill").filter((name) => trialRound(name) === null);
  const asked = held().get("drill");
  const round = trialRound(asked) === null ? [] : [asked!];
  const names = [...new Set([...round, ...used, ...library.targets.map(({ drill }) => drill)])];
  return oneTap("drill", "Drill", "As the file says", names);
}

/** So many are all in reach; more are a list. */
const inReach = 24;

function oneTap(key: string, label: string, any: string, names: readonly string[]): ChoiceElement {
  const options = [{ value: every, text: any }, ...names];
  return names.length > inReach ? choose({ key, label, options }) : chips({ key, label, options });
}

/** The values of a field, the one of the last row first. */
function latest(rows: readonly EnrichedSwing[], field: "hitter" | "drill"): string[] {
  const times = new Map<string, string>();
  for (const row of rows) {
    const value = row[field];
    const time = row.time ?? "";
    if (value !== null && !(times.get(value)! > time)) times.set(value, time);
  }
  return [...times].sort(([, a], [, b]) => (a < b ? 1 : a > b ? -1 : 0)).map(([value]) => value);
}

/** Marks shown, the last one at the right. */
const marksShown = 10;

/** A swing's mark: full where it was met, a ring where not, a dash where it can't be judged. */
function markOf(mark: Mark, last: boolean): HTMLElement {
  const element = document.createElement("li");
  element.className = `${mark === null ? "unjudged" : mark ? "met" : "not"}${last ? " last" : ""}`;
  const said = element.appendChild(document.createElement("span"));
  said.className = "unseen";
  said.textContent = mark === null ? "not judged" : mark ? "met" : "not met";
  return element;
}

function line(className: string, ...items: readonly (Node | string)[]): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.append(...items);
  return element;
}

function set(tag: "b" | "small", text: string): HTMLElement {
  const element = document.createElement(tag);
  element.textContent = text;
  return element;
}

/** The last ball's flight over its field; the field alone for a swing without one. */
function flightFigure(library: PageLibrary, row: EnrichedSwing, units: UnitSystem): HTMLElement {
  const session = library.sessions.find((one) => one.session === row.session) ?? null;
  const flown =
    row.outcome === "miss" || row.spray_angle_deg === null || row.carry_ft === null
      ? null
      : oneBall({ ...session, ...row }, 0).ball;
  const field = fieldUnder(library, [row]);
  const flight =
    flown === null ? null : { path: flown.path, ellipse: flown.ellipse, carry_ft: row.carry_ft! };
  return figure((width) =>
    lastFlight(flight, { field, units, width, tallest: Math.max(240, Math.round(innerHeight * 0.66)) }),
  );
}

/**
 * What the screen shows.
 * @param below a line below the tally: of a fair trial's round
 */
export function cage(
  library: PageLibrary,
  round: Round | null,
  units: UnitSystem,
  below: HTMLElement | null = null,
): HTMLElement {
  if (round === null) {
    const none = nothing(
      "No swing yet. The first one that is written to the library's folder, or tapped in, stands here.",
    );
    return below === null ? none : box("cage", box("cage-words", none, below));
  }
  const { last, swings } = round;
  const lines = ballLines(last, units);
  const marks = document.createElement("ol");
  marks.className = "marks";
  marks.setAttribute("aria-label", "The last ten swings of the round");
  const shown = swings.slice(-marksShown);
  shown.forEach(({ mark }, i) => marks.append(markOf(mark, i === shown.length - 1)));
  const who = [round.hitter, round.drill, last.time?.slice(11, 16)].filter(
    (text) => text != null && text !== "",
  );
  const words = box(
    "cage-words",
    line("cage-who", who.join(" · ")),
    // A miss has no speed: its words take the figure's place.
    ...(lines.figure === null
      ? [line("cage-where alone", lines.where)]
      : [
          line("cage-figure", set("b", lines.figure.value), " ", set("small", lines.figure.unit)),
          line("cage-where", lines.where),
        ]),
    line("cage-how", lines.how),
    ...(last.note === null ? [] : [line("cage-note", `${last.note}.`)]),
    ...(last.swing_id !== null && arrived.after.has(last.swing_id)
      ? [line("cage-doubt", "The tracker’s clock went back: balls stand in the order they came.")]
      : []),
    ...(isDoubtful(last) ? [line("cage-doubt", "The tracker's reading of this ball is in doubt.")] : []),
    line("cage-tally", set("b", String(round.met)), " ", roundSentence(round)),
    marks,
    ...(below === null ? [] : [below]),
  );
  return box("cage", words, box("cage-picture", flightFigure(library, last, units)));
}

/** Letters for a screen farther away. */
export function chooseSize(): ChoiceElement {
  const element = tick({ key: "large", label: "Larger" });
  const show = (): void => {
    document.documentElement.classList.toggle("large", element.value === "yes");
  };
  element.addEventListener("input", show);
  show();
  return element;
}

/** Whether balls are tapped in on this page. */
export function chooseTapIn(): ChoiceElement {
  const element = tick({ key: "tap", label: "Tap in balls" });
  // The page's frame follows. Were it looked for by the style sheet, each new element would have all of a page styled anew.
  document.documentElement.classList.add("caged");
  const show = (): void => {
    document.documentElement.classList.toggle("tapping", element.value === "yes");
  };
  element.addEventListener("input", show);
  show();
  return element;
}

/** Whether the browser can speak. */
const canSpeak = (): boolean => "speechSynthesis" in globalThis && "SpeechSynthesisUtterance" in globalThis;

/** Whether each ball is read aloud. Off until it is wanted; where the browser has no voice, it says so. */
export function chooseVoice(): ChoiceElement {
  const element = tick({ key: "voice", label: canSpeak() ? "Read aloud" : "Read aloud (no voice here)" });
  const input = element.querySelector("input");
  if (input !== null && !canSpeak()) [input.checked, input.disabled] = [false, true];
  return element;
}

let spoken: string | null = null;

/**
 * Reads the last ball aloud, once, with the browser's own voice. The ball that stood there when the page was opened is
 * not read.
 */
export function speak(round: Round | null, wanted: string, units: UnitSystem): void {
  const id = round?.last.swing_id ?? "";
  const first = spoken === null;
  if (id === spoken) return;
  spoken = id;
  if (first || round === null || wanted !== "yes" || !canSpeak()) return;
  const words = new SpeechSynthesisUtterance(spokenBall(round.last, units));
  words.lang = "en";
  // A ball that comes while another is read is the one that is wanted.
  speechSynthesis.cancel();
  speechSynthesis.speak(words);
}
