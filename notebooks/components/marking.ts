/**
 * Marking a part of a chart: a drag over the finished drawing, or the ends filled in beside it, and the page shows the swings
 * in it alone. What is marked is kept in the address like the other choices. Everything that is marked is of
 * src/views/marked.ts; the chart itself knows nothing of it.
 */
import { brush, select, type D3BrushEvent } from "d3";
import { ballsOf } from "../../src/charts/frame.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { shownNumber, type UnitSystem } from "../../src/units/system.ts";
import {
  BadMark,
  inMarked,
  isTurned,
  markedCharts,
  markedNamed,
  markedText,
  type Ends,
  type Marked,
  type MarkedChart,
} from "../../src/views/marked.ts";
import { markedSentence, measureName, ofMarked } from "../../src/views/sentences/marked.ts";
import { marksOf } from "./ballCard.ts";
import { endsBetween, pixelsOf, tableValue, type ChartScale } from "./brushed.ts";
import { held, hold } from "./choice.ts";
import { tellAsked } from "./filter.ts";
import { every } from "./pick.ts";
import type { Shown } from "./show.ts";

/** The mark's name in the address. */
const key = "marked";
/** A drag shorter than this is a click that slipped, px. */
const leastDrag = 6;

/** What stands beside a chart while a part of it can be marked. */
export interface Marking {
  readonly chart: MarkedChart;
  /** Of this chart or another one of the page; null for none. */
  readonly marked: Marked | null;
  /** Swings in the marked part, and those that it was marked among. */
  readonly n: number;
  readonly of: number;
  readonly units: UnitSystem;
}

let told: (() => void) | null = null;

function put(marked: Marked | null): void {
  const text = marked === null ? every : markedText(marked);
  if (text === (held().get(key) ?? every)) return;
  // From here on the page lays out what is in sight first: see page.css.
  document.documentElement.classList.add("chosen");
  hold(key, text);
  told?.();
}

function read(charts: readonly MarkedChart[]): Marked | null {
  const text = held().get(key) ?? every;
  if (text === every) return null;
  try {
    const marked = markedNamed(text);
    return charts.includes(marked.chart) ? marked : null;
  } catch (error) {
    if (!(error instanceof BadMark)) throw error;
    tellAsked([`The address asks for marked=${text}, but ${error.message}; all are shown.`]);
    return null;
  }
}

async function* values(charts: readonly MarkedChart[]): AsyncGenerator<Marked | null> {
  for (;;) {
    // Listened for before the value is handed on: a change meanwhile is not missed.
    const changed = new Promise<void>((done) => (told = done));
    yield read(charts);
    await changed;
  }
}

/**
 * What is marked on the charts that a page has. To the runtime it is a generator, and cells that use it run again; to them it
 * is a value.
 */
export const marking = values as unknown as (charts: readonly MarkedChart[]) => Marked | null;

if (typeof document !== "undefined")
  document.addEventListener(
    "keydown",
    (event) => {
      // What lies open over the page closes first.
      const isTaken = document.querySelector(".ball-card, #more-choices:not([hidden])") !== null;
      if (event.key === "Escape" && !isTaken && (held().get(key) ?? every) !== every) put(null);
    },
    // A card that closes on this key is gone by the time the page hears it.
    { capture: true },
  );

function makeButton(className: string, text: string, work: () => void): HTMLButtonElement {
  const button = document.createElement("button");
  [button.type, button.className, button.textContent] = ["button", className, text];
  button.addEventListener("click", work);
  return button;
}

const ways = ["x", "y"] as const;
const sides = ["low", "high"] as const;

/** The words and entries over a chart: kept while the chart is drawn anew, for somebody may be writing in them. */
interface Bar {
  readonly element: HTMLElement;
  readonly said: HTMLElement;
  readonly clear: HTMLButtonElement;
  readonly panel: HTMLElement;
  readonly trouble: HTMLElement;
  readonly legends: Readonly<Record<(typeof ways)[number], HTMLElement>>;
  readonly entries: Readonly<
    Record<(typeof ways)[number], Readonly<Record<"low" | "high", HTMLInputElement>>>
  >;
  /** The units that the entries are written in. */
  units: UnitSystem;
  isMarked: boolean;
}

const bars = new Map<MarkedChart, Bar>();

function barOf(chart: MarkedChart): Bar {
  const known = bars.get(chart);
  if (known !== undefined) return known;
  const element = document.createElement("div");
  element.className = "marking";
  const line = element.appendChild(document.createElement("p"));
  const said = line.appendChild(document.createElement("span"));
  const clear = makeButton("clear", "Clear the mark", () => put(null));
  line.append(" ", clear);
  const panel = element.appendChild(document.createElement("div"));
  [panel.className, panel.id, panel.hidden] = ["ends", `marking-${chart}`, true];
  const hint = panel.appendChild(document.createElement("p"));
  hint.textContent = "Drag over the chart, or write the ends; an empty one is open.";
  const [x, y] = ways.map(() => {
    const group = panel.appendChild(document.createElement("fieldset"));
    const legend = group.appendChild(document.createElement("legend"));
    const [low, high] = sides.map((side) => {
      const label = group.appendChild(document.createElement("label"));
      label.textContent = side === "low" ? "from " : "to ";
      const input = label.appendChild(document.createElement("input"));
      [input.type, input.step, input.inputMode] = ["number", "any", "numeric"];
      input.addEventListener("change", () => write(chart));
      return input;
    });
    return { legend, low: low!, high: high! };
  });
  const trouble = panel.appendChild(document.createElement("p"));
  trouble.setAttribute("role", "alert");
  const bar: Bar = {
    ...{ element, said, clear, panel, trouble, units: "us", isMarked: false },
    legends: { x: x!.legend, y: y!.legend },
    entries: { x: x!, y: y! },
  };
  bars.set(chart, bar);
  return bar;
}

/** Marks what the entries say. */
function write(chart: MarkedChart): void {
  const { entries, trouble, units } = barOf(chart);
  const ends = (way: "x" | "y"): Ends => {
    const end = ({ value }: HTMLInputElement): number | null =>
      value === "" ? null : tableValue(Number(value), markedCharts[chart][way].unit, units);
    return { low: end(entries[way].low), high: end(entries[way].high) };
  };
  const marked: Marked = { chart, x: ends("x"), y: ends("y") };
  const isWrong = isTurned(marked.x) || isTurned(marked.y);
  trouble.textContent = isWrong ? "Of two ends the lower comes first." : "";
  if (isWrong) return;
  const isOpen = [marked.x, marked.y].every(({ low, high }) => low === null && high === null);
  put(isOpen ? null : marked);
}

/** Says what is marked, and fills in its ends, but for one that is being written. */
function showIn(bar: Bar, { chart, marked, n, of, units }: Marking, written: Element | null): void {
  const own = marked?.chart === chart ? marked : null;
  const isCleared = own === null && bar.isMarked;
  [bar.units, bar.isMarked] = [units, own !== null];
  bar.said.textContent = own === null ? "" : markedSentence(own, n, of, units);
  bar.said.parentElement!.hidden = own === null;
  bar.element.hidden = own === null && bar.panel.hidden;
  bar.trouble.textContent = "";
  for (const way of ways) {
    const name = measureName(chart, way, units);
    bar.legends[way].textContent = name;
    for (const side of sides) {
      const entry = bar.entries[way][side];
      entry.setAttribute("aria-label", `${name}, ${side === "low" ? "from" : "to"}`);
      const end = own?.[way][side] ?? null;
      const text =
        end === null ? "" : String(Math.round(shownNumber(end, markedCharts[chart][way].unit, units)));
      if (entry !== written || isCleared) entry.value = text;
    }
  }
}

/** A drawing of Plot, which hands out its scales. */
type Plotted = SVGSVGElement & { readonly scale: (name: "x" | "y") => ChartScale };

/** Lays the brush over a drawing. */
function brushOver(svg: Plotted, { chart, marked, units }: Marking, isOn: () => boolean): () => void {
  const [x, y] = [svg.scale("x"), svg.scale("y")];
  const measures = markedCharts[chart];
  const edges = ({ range }: ChartScale): [number, number] => [Math.min(...range), Math.max(...range)];
  const [[left, right], [top, bottom]] = [edges(x), edges(y)];
  const own = marked?.chart === chart ? marked : null;
  const isCoarse = matchMedia("(pointer: coarse)").matches;
  const made = brush<unknown>()
    .extent([
      [left, top],
      [right, bottom],
    ])
    .handleSize(isCoarse ? 28 : 8)
    // A finger scrolls the page until the reader has said that it marks.
    .filter((event: Event & { ctrlKey?: boolean; button?: number }) =>
      event.type.startsWith("touch") ? isOn() : event.ctrlKey !== true && (event.button ?? 0) === 0,
    );
  const layer = select(svg).append<SVGGElement>("g").attr("class", "brush-layer").attr("aria-hidden", "true");
  layer.call(made);
  const show = (): void => {
    if (own === null) made.clear(layer);
    else {
      const [x1, x2] = pixelsOf(own.x, x, measures.x.unit, units);
      const [y1, y2] = pixelsOf(own.y, y, measures.y.unit, units);
      made.move(layer, [
        [x1, y1],
        [x2, y2],
      ]);
    }
  };
  show();
  made.on("end", ({ selection, sourceEvent }: D3BrushEvent<unknown>) => {
    // Set from here, not by the reader.
    if (sourceEvent === undefined || sourceEvent === null) return;
    const [[x1, y1], [x2, y2]] = (selection ?? [
      [0, 0],
      [0, 0],
    ]) as [[number, number], [number, number]];
    // A click is for the ball under it: what is marked stays.
    if (x2 - x1 < leastDrag || y2 - y1 < leastDrag) return show();
    put({
      chart,
      x: endsBetween(x1, x2, x, measures.x.unit, units),
      y: endsBetween(y1, y2, y, measures.y.unit, units),
    });
  });
  if (own !== null) {
    const isIn = inMarked(own);
    const balls = ballsOf(svg) as readonly EnrichedSwing[];
    marksOf(svg).forEach((mark, i) => mark.classList.toggle("unmarked", !isIn(balls[i]!)));
  }
  const touch = (): void => {
    layer.style("touch-action", isOn() ? "none" : "auto");
  };
  touch();
  return touch;
}

/** Gives the focus once an element stands in the page. */
function focusOnce(element: HTMLElement, tries = 60): void {
  if (element.isConnected) element.focus({ preventScroll: true });
  else if (tries > 0) requestAnimationFrame(() => focusOnce(element, tries - 1));
}

/**
 * Lets a part of a chart be marked: by a drag with a mouse, by a finger once "Mark a part" is pressed, by the keyboard in
 * the entries that it opens.
 * @param figure from `figure`
 */
export function markable(figure: HTMLElement, about: Marking): HTMLElement {
  const { chart, marked } = about;
  const bar = barOf(chart);
  const focused = bar.element.contains(document.activeElement)
    ? (document.activeElement as HTMLElement)
    : null;
  const isOn = (): boolean => !bar.panel.hidden;
  let settle = (): void => undefined;
  const toggle = makeButton("mark-part", "Mark a part", () => {
    bar.panel.hidden = !bar.panel.hidden;
    toggle.setAttribute("aria-expanded", String(isOn()));
    bar.element.hidden = marked?.chart !== chart && !isOn();
    settle();
  });
  toggle.setAttribute("aria-expanded", String(isOn()));
  toggle.setAttribute("aria-controls", bar.panel.id);
  figure.querySelector(".savers")?.prepend(toggle);
  figure.prepend(bar.element);
  showIn(bar, about, focused);
  if (focused !== null) focusOnce(focused.closest("[hidden]") === null ? focused : toggle);
  const lay = (): void => {
    const svg = figure.querySelector<Plotted>("svg");
    // Told twice of one drawing, as when the page's cards are set up, the second brush is the one.
    svg?.querySelector(".brush-layer")?.remove();
    if (svg?.scale !== undefined && ballsOf(svg).length > 0) settle = brushOver(svg, about, isOn);
  };
  figure.addEventListener("batted:drawn", lay);
  lay();
  return figure;
}

/**
 * Under a page's answer, that it is of a marked part alone; where the chart that is marked doesn't stand here, which part, and
 * the button that clears it.
 * @param here the chart beside these words, if there is one
 */
export function markedTold(
  { marked, n, of, units }: Omit<Marking, "chart">,
  here: MarkedChart | null,
): Shown[] {
  if (marked === null) return [];
  if (marked.chart === here) return [ofMarked];
  const element = document.createElement("span");
  element.className = "marking-told";
  element.append(
    markedSentence(marked, n, of, units),
    " ",
    makeButton("clear", "Clear the mark", () => put(null)),
  );
  return [element];
}
