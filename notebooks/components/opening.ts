/** A page's first screen: the answer in a sentence, its figures, one picture beside them. */
import { heard } from "./frame.ts";
import { box, unbroken, type Fact, type Shown } from "./show.ts";

/** A sentence set large, and the words of it that are the one thing to see. */
export interface Answer {
  readonly text: string;
  /** A part of the text; none, or one that it doesn't hold, sets nothing apart. */
  readonly figure?: string | undefined;
}

/** A figure whose interval is drawn as well as written. */
export interface Figure extends Fact {
  /** In one unit for all figures of a page that are to be held against each other. */
  readonly span?: Span | undefined;
}

/** A value and its interval on a scale. */
export interface Span {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Shares run from none to all, differences about nought; any other measure over what the page's figures of it take up. */
  readonly scale: "share" | "difference" | "measure";
}

/** What a first screen is made of. */
export interface Opening {
  readonly answer: Answer;
  /** Sentences below the answer, quieter. */
  readonly told?: readonly Shown[];
  readonly figures?: readonly Figure[];
  /** What follows from the answer: its first sentence stands out. */
  readonly next?: string | null;
  /** What else belongs to the answer: a few facts, a short table. */
  readonly more?: Node | null;
  /** A line about what the figures rest on. */
  readonly rests?: Shown | null;
  readonly picture?: Node | undefined;
}

function paragraph(className: string, ...items: readonly Shown[]): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.append(...items.flatMap((item) => (typeof item === "string" ? unbroken(item) : [item])));
  return element;
}

/** Letters from which on an answer is set smaller, so that it keeps to four lines. */
const long = 62;

/** The answer as the page's largest words, read out when it changes. */
export function answer({ text, figure = "" }: Answer): HTMLElement {
  heard(text);
  const at = figure === "" ? -1 : text.indexOf(figure);
  const element = paragraph(text.length > long ? "answer headline long" : "answer headline");
  if (at < 0) element.textContent = text;
  else {
    const set = document.createElement("em");
    set.textContent = figure;
    // A count is read in one piece.
    if (figure.length <= 12) set.className = "whole";
    element.append(text.slice(0, at), set, text.slice(at + figure.length));
  }
  return element;
}

/** The ends of each figure's scale. */
function ends({ scale }: Span, all: readonly Span[]): readonly [number, number] {
  if (scale === "share") return [0, 1];
  const alike = all.filter((one) => one.scale === scale);
  const values = alike.flatMap(({ value, low, high }) => [value, low, high]);
  if (scale === "difference") {
    const reach = Math.max(1, ...values.map(Math.abs)) * 1.25;
    return [-reach, reach];
  }
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((most - least) * 0.6, Math.abs(most) * 0.04, 0.5);
  return [least - room, most + room];
}

/** The interval as a bar, the value as a stroke on it. What it says stands in words below it. */
function strip(span: Span, all: readonly Span[]): HTMLElement {
  const [from, to] = ends(span, all);
  const at = (value: number): string =>
    `${(100 * Math.min(1, Math.max(0, (value - from) / (to - from)))).toFixed(2)}%`;
  const element = box("strip");
  element.setAttribute("aria-hidden", "true");
  const put = (className: string, style: Readonly<Record<string, string>>): void => {
    const mark = element.appendChild(document.createElement("i"));
    mark.className = className;
    Object.assign(mark.style, style);
  };
  if (span.scale === "difference") put("nought", { left: at(0) });
  put("range", { left: at(span.low), right: `calc(100% - ${at(span.high)})` });
  put("value", { left: at(span.value) });
  return element;
}

/** A value's number, its unit set small behind it. */
function number(value: string): Shown[] {
  const [, figure = value, unit = ""] = /^([+−]?[\d.,]+(?: of [\d.,]+)?)(.*)$/.exec(value) ?? [];
  if (unit === "") return [figure];
  const small = document.createElement("small");
  small.textContent = unit;
  return [figure, small];
}

/** Two or three figures in a row, each with its interval drawn, its n and its interval in words. */
export function figures(items: readonly Figure[]): HTMLElement {
  const list = document.createElement("dl");
  list.className = "figures";
  const spans = items.flatMap(({ span }) => span ?? []);
  for (const { name, value, doubt, span } of items) {
    const item = list.appendChild(document.createElement("div"));
    item.appendChild(document.createElement("dt")).textContent = name;
    const shown = item.appendChild(document.createElement("dd"));
    const figure = shown.appendChild(document.createElement("b"));
    figure.append(...number(value));
    if (spans.length > 0) shown.append(span === undefined ? box("strip none") : strip(span, spans));
    shown.append(box("doubt", doubt));
  }
  return list;
}

/** What follows: its first sentence stands out, the rest goes on quietly. */
function nextSteps(text: string): HTMLElement {
  const [first = text, ...rest] = text.split(/(?<=[.:;]) (?=\p{L})/u);
  const said = box("next", paragraph("lead", first));
  if (rest.length > 0) said.append(paragraph("more", rest.join(" ")));
  return said;
}

/** The words of a first screen, and what follows from them. */
function partsOf(parts: Omit<Opening, "picture">): {
  readonly say: HTMLElement;
  readonly after: HTMLElement[];
} {
  const { told = [], figures: items = [], next = null, more = null, rests = null } = parts;
  const say = box("say", answer(parts.answer), ...told.map((text) => paragraph("told-more", text)));
  if (items.length > 0) say.append(figures(items));
  const after = box("after");
  if (next !== null) after.append(nextSteps(next));
  if (more !== null) after.append(more);
  if (rests !== null) after.append(paragraph("rests", rests));
  return { say, after: after.childElementCount > 0 ? [after] : [] };
}

/**
 * The first screen: words and figures on the left, the picture on the right, and what follows below the words; on a phone
 * one below the other, the picture before what follows.
 */
export function opening({ picture, ...parts }: Opening): HTMLElement {
  const { say, after } = partsOf(parts);
  return box("first", say, ...(picture === undefined ? [] : [box("picture", picture)]), ...after);
}

/** A first screen around a picture that stays. */
export interface OpeningAround {
  readonly element: HTMLElement;
  /** Puts the words, instead of those before. */
  readonly say: (parts: Omit<Opening, "picture">) => void;
}

/**
 * The same around a picture that stays where it is while other words are put beside it: a large one takes a tenth of a second to
 * be laid out anew.
 */
export function openingAround(picture: Node): OpeningAround {
  const around = box("picture", picture);
  const element = box("first", around);
  return {
    element,
    say(parts) {
      const { say, after } = partsOf(parts);
      for (const part of [...element.children]) if (part !== around) part.remove();
      around.before(say);
      around.after(...after);
    },
  };
}
