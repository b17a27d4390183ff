/** Elements that hold what a page shows. */

export type Shown = Node | string;

const drawers = new WeakMap<Node, () => void>();

// What was never in sight is printed too.
if (typeof window !== "undefined")
  window.addEventListener("beforeprint", () => {
    // What is not laid out has no width to be drawn to: see page.css.
    document.documentElement.classList.remove("chosen");
    for (const element of document.querySelectorAll("figure.chart")) drawers.get(element)?.();
  });

/**
 * A chart in its place: drawn to the width it has, and again when that changes. One whose place is not laid out yet,
 * because it is far out of sight, is drawn when it comes near.
 * @param draw gives the chart for a width in pixels.
 */
export function figure(draw: (width: number) => SVGElement, caption?: string): HTMLElement {
  const element = document.createElement("figure");
  element.className = "chart";
  const place = element.appendChild(document.createElement("div"));
  if (caption !== undefined) {
    element.appendChild(document.createElement("figcaption")).textContent = caption;
  }
  let drawn = 0;
  const drawTo = (width: number): void => {
    if (width === 0 || width === drawn) return;
    drawn = width;
    place.replaceChildren(draw(width));
    // Whoever marks a ball in it marks it again.
    element.dispatchEvent(new Event("batted:drawn", { bubbles: true }));
  };
  element.append(savers(place));
  drawers.set(element, () => drawTo(Math.floor(element.clientWidth)));
  new ResizeObserver(([entry]) => drawTo(Math.floor(entry?.contentRect.width ?? 0))).observe(element);
  return element;
}

/** The ways to save the chart in a place. */
function savers(place: HTMLElement): HTMLElement {
  const group = document.createElement("div");
  group.className = "savers";
  group.setAttribute("role", "group");
  group.setAttribute("aria-label", "Save this chart");
  for (const as of ["svg", "png"] as const) {
    const button = group.appendChild(document.createElement("button"));
    button.type = "button";
    button.textContent = as.toUpperCase();
    button.title = `Save this chart as ${as.toUpperCase()}`;
    button.addEventListener("click", () => {
      const svg = place.querySelector("svg");
      if (svg !== null) void import("./saveChart.ts").then(({ saveChart }) => saveChart(svg, as));
    });
  }
  return group;
}

/**
 * What is shown for a thing, made once: a cell that runs again over the same thing shows the same element, and nothing
 * is drawn again.
 * @param make called for a thing the first time alone
 */
export function shownOnce<Thing extends object>(
  make: (thing: Thing) => HTMLElement,
): (thing: Thing) => HTMLElement {
  const shown = new WeakMap<Thing, HTMLElement>();
  return (thing) => {
    const known = shown.get(thing) ?? make(thing);
    shown.set(thing, known);
    return known;
  };
}

/** Panels side by side where there is room, else one below the other; two and more take the page's whole width. */
export const panels = (...items: readonly Node[]): HTMLElement =>
  box(items.length > 1 ? "panels wide" : "panels", ...items);

/** A chart of the reader's own, told as one picture to who can't see it: give it an `ariaLabel`. */
export function picture<Chart extends Element>(chart: Chart): Chart {
  chart.setAttribute("role", "img");
  // Plot names each mark's group; inside a picture a group can't have a name.
  for (const group of chart.querySelectorAll("g[aria-label]")) group.removeAttribute("aria-label");
  return chart;
}

/** A list that scrolls, reached by the keyboard as well. */
export function scrolled<List extends HTMLElement>(list: List, label: string): List {
  list.tabIndex = 0;
  list.setAttribute("aria-label", label);
  return list;
}

/** What takes the page's whole width. */
export const wide = (...items: readonly Node[]): HTMLElement => box("wide", ...items);

/** A box of a class with what is in it. */
export function box(className: string, ...items: readonly Shown[]): HTMLElement {
  const element = document.createElement("div");
  element.className = className;
  element.append(...items);
  return element;
}

/** A text whose dates can't be broken over two lines. */
export function unbroken(text: string): Shown[] {
  return text.split(/(\d{4}-\d\d-\d\d)/).flatMap((part, i): Shown[] => {
    if (part === "") return [];
    if (i % 2 === 0) return [part];
    const date = document.createElement("span");
    [date.className, date.textContent] = ["unbroken", part];
    return [date];
  });
}

/** One plain sentence where there is nothing to draw. */
export function nothing(sentence: string): HTMLElement {
  const element = document.createElement("p");
  element.className = "nothing";
  element.textContent = sentence;
  return element;
}

/** A figure with its name, its value and its doubt. */
export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly doubt: string;
}

/** Figures in a list, each with its count and its doubt. */
export function facts(items: readonly Fact[]): HTMLElement {
  const list = document.createElement("dl");
  list.className = "facts";
  for (const { name, value, doubt } of items) {
    const item = list.appendChild(document.createElement("div"));
    item.appendChild(document.createElement("dt")).textContent = name;
    const shown = item.appendChild(document.createElement("dd"));
    shown.appendChild(document.createElement("b")).textContent = value;
    const small = shown.appendChild(document.createElement("div"));
    small.className = "doubt";
    small.textContent = doubt;
  }
  return list;
}

/** A table of words and numbers. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): HTMLElement {
  const element = document.createElement("table");
  const top = element.createTHead().insertRow();
  for (const name of head) {
    const cell = top.appendChild(document.createElement("th"));
    cell.scope = "col";
    cell.textContent = name;
  }
  const body = element.createTBody();
  for (const row of rows) {
    const line = body.insertRow();
    for (const text of row) line.insertCell().append(...unbroken(text));
  }
  const frame = box("scroll", element);
  // A frame that may scroll must be reachable from the keyboard.
  frame.tabIndex = 0;
  frame.setAttribute("role", "group");
  frame.setAttribute("aria-label", head.join(", "));
  return frame;
}

/** What belongs together under one heading. */
export function section(title: string, ...items: readonly Node[]): HTMLElement {
  const element = document.createElement("section");
  element.appendChild(document.createElement("h3")).textContent = title;
  element.append(...items);
  return element;
}
