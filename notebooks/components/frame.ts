/**
 * What stands around every page: the library's name, the line of choices, units and light at the right, the answer read
 * out when it changes, and the name that every printed sheet carries. The places are in page/template.html.
 */
import { choose, held, onHeld, type ChoiceElement } from "./choice.ts";

/** Choices from left to right; one that isn't named stands behind them. */
const order = [
  ...["tap", "hitter", "session", "input", "pair", "measure", "drill", "dates", "pitch-type", "pitch-speed"],
  ...["pitcher", "field", "air", "sort", "flagged", "more", "done"],
];

/** An element that a reader changes, as `choose`, `chips`, `tick` and the forms make it. */
export type Asked<T> = HTMLElement & { readonly value: T };

/** Where a choice belongs: a page's own in the line under the names, those of every page at the right of the names. */
function place<E extends HTMLElement>(element: E): E {
  const key = element.dataset["key"] ?? "";
  const at = document.getElementById(key === "units" || key === "light" ? "settings" : "choices");
  return at === null ? element : placeIn(at, element);
}

/** Puts a choice among others, in their order; the same one again leaves the one that is there. */
export function placeIn<E extends HTMLElement>(at: HTMLElement, element: E): E {
  const key = element.dataset["key"] ?? "";
  const rank = (one: Element): number => {
    const found = order.indexOf((one as HTMLElement).dataset["key"] ?? "");
    return found < 0 ? order.length : found;
  };
  const same = [...at.children].find((one) => (one as HTMLElement).dataset["key"] === key);
  // The same choice again, as each new row makes it: the one that is there may have the focus, or stand open.
  if (same?.isEqualNode(element)) {
    // Which of its options holds is no part of a node: another one may by now.
    const [old, now] = [same, element].map((one) => one.querySelector("select"));
    if (old != null && now != null && old.value !== now.value) old.value = now.value;
    return same as E;
  }
  if (same !== undefined) same.replaceWith(element);
  else at.insertBefore(element, [...at.children].find((one) => rank(one) > rank(element)) ?? null);
  return element;
}

async function* values<T>(made: Asked<T>): AsyncGenerator<T> {
  const element = place(made);
  for (;;) {
    // Listened for before the value is handed on: a change meanwhile is not missed.
    const changed = new Promise((done) => element.addEventListener("input", done, { once: true }));
    yield element.value;
    await changed;
  }
}

/**
 * Puts a choice into its place in the frame. To the runtime it is a generator of what the reader chooses, and cells that
 * use it run again; to them it is a value.
 */
export const choosing = values as unknown as <T>(element: Asked<T>) => T;

/** The page has its library: its name stands at the head, and nothing is told of the opening any more. */
export function libraryOpened(name: string): void {
  document.getElementById("opening")?.remove();
  const at = document.getElementById("place");
  if (at === null || name === "") return;
  at.textContent = name;
  printedName();
}

/** What a reader hears when an answer changes, without the figures and the picture around it. */
export function heard(sentence: string): void {
  const at = document.getElementById("heard");
  if (at !== null && at.textContent !== sentence) at.textContent = sentence;
}

/** A text as CSS writes one. */
const cssText = (text: string): string =>
  `"${text.replace(/[^\p{L}\p{N} .,·-]/gu, (c) => `\\${c.codePointAt(0)!.toString(16)} `)}"`;

/** The hitter's name, the page's and the library's at the head of every printed sheet. */
function printedName(): void {
  const page = document.querySelector("header [aria-current=page]")?.textContent ?? "";
  const library = document.getElementById("place")?.textContent ?? "";
  const named = [held().get("hitter") ?? "", page].filter((text) => text !== "").join(" · ");
  const style = document.getElementById("printed") ?? document.createElement("style");
  style.id = "printed";
  const text = `@page { @top-left { content: ${cssText(named)} } @top-right { content: ${cssText(library)} } }`;
  if (style.textContent !== text) style.textContent = text;
  if (!style.isConnected) document.head.append(style);
}

const lights = [
  { value: "", text: "Auto" },
  { value: "light", text: "Light" },
  { value: "dark", text: "Dark" },
];

/** Paper or night, as the address says; where it says nothing, as the device is set. */
function light(): ChoiceElement {
  const element = choose({ key: "light", label: "Light or dark", options: lights });
  const show = (): void => {
    if (element.value === "") delete document.documentElement.dataset["theme"];
    else document.documentElement.dataset["theme"] = element.value;
  };
  element.addEventListener("input", show);
  show();
  return element;
}

if (typeof document !== "undefined" && document.getElementById("settings") !== null) {
  place(light());
  printedName();
  onHeld(printedName);
  // A page whose name is beyond the edge of a phone brings it into sight.
  document
    .querySelector("header [aria-current=page]")
    ?.scrollIntoView({ block: "nearest", inline: "center" });
}
