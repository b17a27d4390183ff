/** What every chart shares: the words above and below, the text alternative, and an even finish. */
import * as Plot from "@observablehq/plot";
import { symbol } from "d3";
import {
  bucketCodes,
  categoryCodes,
  defaultWidth,
  faintInk,
  fontFamily,
  fontSize,
  hairline,
  ink,
  leastWidth,
  markRadius,
  paper,
  serifFamily,
  serifWeight,
  unknownCode,
  type Code,
} from "./theme.ts";
import { measures, textWidth, wrap, type UnitSystem } from "./text.ts";

/** What every chart can be told. */
export interface ChartOptions {
  /** Where the elements are made: the browser's own when absent; in Node, a jsdom window's. */
  readonly document?: Document | undefined;
  /** px; the chart lays itself out for it. */
  readonly width?: number | undefined;
  readonly units?: UnitSystem | undefined;
  /** Says what is seen; each chart has a plain one of its own. */
  readonly title?: string | undefined;
  /** A line under the title: whose swings, when. */
  readonly subtitle?: string | undefined;
  /** A line at the foot, for what the reader must know to trust the picture. */
  readonly note?: string | undefined;
  /** Whether the foot says what spin and air a carry rests on: so unless told that the page says it. */
  readonly basis?: boolean | undefined;
  /** Whether a swing shows its numbers when pointed at or touched. Only a live page can. */
  readonly tip?: boolean | undefined;
}

/** One entry of the key above a chart. */
export interface KeyEntry {
  readonly label: string;
  /** Drawn hollow. */
  readonly hollow?: boolean;
  readonly code?: Code;
  /** A swatch instead of a shape: a fill, or the name of one of the chart's patterns. */
  readonly swatch?: {
    readonly fill?: string;
    readonly pattern?: string;
    readonly stroke: string;
    readonly height?: number;
    /** A dashed ellipse instead of a square, as one stands in the picture. */
    readonly ellipse?: boolean;
  };
}

/** What a chart's maker hands to `compose`. */
export interface Composition {
  /** Names the chart in class names and ids: lower case and hyphens. */
  readonly kind: string;
  readonly title: string;
  readonly subtitle: readonly string[];
  readonly key: readonly KeyEntry[];
  readonly notes: readonly string[];
  /** The text alternative, made of the numbers. */
  readonly description: readonly string[];
  /** The swings of its marks described as "swings", in their order: what a page needs to tell which one was touched. */
  readonly balls?: readonly object[];
  /** The picture, drawn between the words: `top` and `bottom` are what the words need, px. */
  readonly plot: (room: Room) => Plot.PlotOptions;
}

export interface Room {
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  /** Names of this chart's clips and patterns begin with it. */
  readonly id: string;
}

const drawnBalls = new WeakMap<Element, readonly object[]>();

/** The swings of a chart's marks, in the marks' order; none where they share marks, or the chart has none. */
export const ballsOf = (chart: Element): readonly object[] => drawnBalls.get(chart) ?? [];

const svgNamespace = "http://www.w3.org/2000/svg";
const edge = 4;
const lineHeight = 1.3;

/** A pattern of one chart, as a fill. */
export const patternUrl = (id: string, name: string): string => `url(#${id}-${name})`;

/** The width a chart lays out for. */
export const widthOf = (options: ChartOptions): number =>
  Math.max(leastWidth, Math.round(options.width ?? defaultWidth));

/** The measures in the reader's units. */
export const measuresOf = (options: ChartOptions) => measures[options.units ?? "us"];

/** All that a chart says in words. */
export type Words = Pick<Composition, "title" | "subtitle" | "key" | "notes" | "description">;

/**
 * Puts a picture between its words and finishes it: title, key and notes in the SVG, a text alternative, names
 * that don't depend on what else was drawn, numbers to 0.01.
 * @throws TypeError when there is no document to draw in
 */
export function compose(options: ChartOptions, parts: Composition): SVGSVGElement {
  const document = options.document ?? globalThis.document;
  if (!document) throw new TypeError("a chart needs a document: in Node, pass a jsdom window's");
  const width = widthOf(options);
  const said = sayAll(options, parts);
  const head = layHead(said, parts.key, width);
  const foot = layFoot(said.notes, width);
  const className = `batted-${parts.kind}`;
  const id = `${className}-${hash([parts.kind, width, ...Object.values(said)].join("\n"))}`;
  const plot = parts.plot({ width, top: head.bottom, bottom: foot.tall, id });
  const svg = Plot.plot({
    ...plot,
    document,
    width,
    className,
  } as Plot.PlotOptions) as unknown as SVGSVGElement;

  const make = maker(document);
  const height = Number(svg.getAttribute("height"));
  svg.append(drawWords(make, [...head.lines, ...foot.linesIn(height)]));
  if (parts.key.length) svg.append(drawKey(make, head.key, id));
  // The page behind may be dark, and a printer drops backgrounds that are only styled: the paper is drawn.
  const sheet = make("rect", { width, height, fill: paper, "aria-hidden": "true" });
  svg.insertBefore(sheet, svg.querySelector("style")?.nextSibling ?? svg.firstChild);
  svg.insertBefore(make("desc", {}, said.description), svg.firstChild);
  svg.insertBefore(make("title", {}, said.title), svg.firstChild);
  finish(svg, id);
  if (parts.balls !== undefined) drawnBalls.set(svg, parts.balls);
  return svg;
}

/** A chart's own words and those it was told, as they are written. */
interface Said {
  readonly title: string;
  readonly subtitle: string;
  readonly description: string;
  readonly notes: readonly string[];
}

function sayAll(options: ChartOptions, words: Words): Said {
  return {
    title: options.title ?? words.title,
    subtitle: [...(options.subtitle ? [options.subtitle] : []), ...words.subtitle].join(" · "),
    description: words.description.filter(Boolean).join(" "),
    notes: [...words.notes, ...(options.note ? [options.note] : [])].filter(Boolean),
  };
}

interface Line {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly bold: boolean;
  readonly fill: string;
}

/** Title, line under it and key: where each stands, and where the picture begins, px. */
function layHead({ title, subtitle }: Said, key: readonly KeyEntry[], width: number) {
  const lines: Line[] = [];
  let y = 4;
  const put = (text: string, size: number, bold: boolean, fill: string): void => {
    for (const piece of wrap(text, width - 2 * edge, size, bold)) {
      y += size * lineHeight;
      lines.push({ text: piece, x: edge, y: y - size * 0.3, size, bold, fill });
    }
    y += 2;
  };
  put(title, fontSize.title, true, ink);
  if (subtitle) put(subtitle, fontSize.label, false, faintInk);
  const keyed = layKey(key, width, y + 4);
  return { lines, key: keyed.items, bottom: Math.ceil((key.length ? keyed.bottom : y) + 4) };
}

/** The notes: the room they take, and where they stand in a picture of a height, px. */
function layFoot(notes: readonly string[], width: number) {
  const size = fontSize.small;
  const texts = notes.flatMap((note) => wrap(note, width - 2 * edge, size));
  const tall = Math.ceil(texts.length ? texts.length * size * lineHeight + 8 : 4);
  const linesIn = (height: number): Line[] =>
    texts.map((text, i) => {
      const y = height - tall + 4 + (i + 1) * size * lineHeight;
      return { text, x: edge, y, size, bold: false, fill: faintInk };
    });
  return { tall, linesIn };
}

/** Makes an element of a drawing. */
type Make = (name: string, attributes: Record<string, string | number>, text?: string) => SVGElement;

/** What makes SVG elements in a document: name, attributes, text. */
export const maker =
  (document: Document): Make =>
  (name, attributes, text) => {
    const element = document.createElementNS(svgNamespace, name) as SVGElement;
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  };

function drawWords(make: Make, lines: readonly Line[]): SVGElement {
  const words = make("g", { "aria-label": "words", "text-anchor": "start" });
  for (const { text, x, y, size, bold, fill } of lines) {
    // The one line that speaks: the title.
    const voice: Record<string, string | number> = bold
      ? { "font-family": serifFamily, "font-weight": serifWeight }
      : {};
    words.append(make("text", { x, y, fill, "font-size": size, ...voice }, text));
  }
  return words;
}

function drawKey(make: Make, items: readonly KeyItem[], id: string): SVGElement {
  const key = make("g", { "aria-label": "key", "text-anchor": "start" });
  for (const { entry, x, y } of items) {
    const { code, swatch, hollow, label } = entry;
    const at = { transform: `translate(${x + 6},${y - 4})` };
    if (code) key.append(make("path", { ...markAttributes(code, hollow === true), ...at }));
    if (swatch) key.append(drawSwatch(make, swatch, [x, y], id));
    const drawn = code || swatch;
    const words = { x: drawn ? x + keyIndent : x, y, fill: drawn ? ink : faintInk };
    key.append(make("text", { ...words, "font-size": fontSize.label }, label));
  }
  return key;
}

function drawSwatch(
  make: Make,
  { ellipse, height = 1, pattern, fill = "none", stroke }: NonNullable<KeyEntry["swatch"]>,
  [x, y]: readonly [number, number],
  id: string,
): SVGElement {
  if (ellipse) {
    const round = { cx: x + 6, cy: y - 4, rx: 7, ry: 4.5 };
    return make("ellipse", { ...round, fill, stroke, "stroke-width": 1.6, "stroke-dasharray": "3.5 2" });
  }
  const square = { x, y: y + 1 - 12 * height, width: 12, height: 12 * height };
  return make("rect", { ...square, fill: pattern ? patternUrl(id, pattern) : fill, stroke });
}

/** What makes a drawing the same anywhere, and one image to whoever can't see it. */
function finish(svg: SVGSVGElement, id: string): void {
  // To a screen reader the chart is one image with a title and a description: its parts have nothing to say there.
  for (const part of svg.children)
    if (!/^(?:title|desc|style)$/.test(part.tagName)) part.setAttribute("aria-hidden", "true");
  svg.setAttribute("role", "img");
  // As text, and not by way of the style object: browsers write that back each in its own way.
  svg.setAttribute(
    "style",
    `font-family:${fontFamily};font-size:${fontSize.label}px;color:${ink};background:${paper}`,
  );
  svg.setAttributeNS("http://www.w3.org/2000/xmlns/", "xmlns", svgNamespace);
  nameClips(svg, id);
  dropHalfPixels(svg);
  round(svg);
}

const keyIndent = 17;

interface KeyItem {
  readonly entry: KeyEntry;
  readonly x: number;
  readonly y: number;
}

function layKey(entries: readonly KeyEntry[], width: number, from: number) {
  const items: KeyItem[] = [];
  const row = fontSize.label * 1.5;
  let [x, y] = [edge, from + fontSize.label];
  for (const entry of entries) {
    const wide = (entry.code || entry.swatch ? keyIndent : 0) + textWidth(entry.label);
    if (x > edge && x + wide > width - edge) [x, y] = [edge, y + row];
    items.push({ entry, x, y });
    x += wide + 12;
  }
  return { items, bottom: y + 4 };
}

function markAttributes({ colour, shape }: Code, hollow: boolean): Record<string, string | number> {
  return {
    d: symbol(shape, Math.PI * markRadius ** 2)() ?? "",
    fill: hollow ? paper : colour,
    stroke: colour,
    "stroke-width": hollow ? 1.6 : 0.8,
  };
}

/** Plot numbers its clips as it goes; two pages drawn in another order would differ. */
function nameClips(svg: SVGSVGElement, id: string): void {
  const names = new Map<string, string>();
  for (const clip of svg.querySelectorAll("clipPath")) {
    const name = `${id}-clip-${names.size + 1}`;
    names.set(clip.id, name);
    clip.id = name;
  }
  for (const element of svg.querySelectorAll("[clip-path]")) {
    const old = /^url\(#(.+)\)$/.exec(element.getAttribute("clip-path")!)?.[1];
    const name = old === undefined ? undefined : names.get(old);
    if (name !== undefined) element.setAttribute("clip-path", `url(#${name})`);
  }
}

/**
 * Plot moves its marks by half a pixel on screens of one pixel to the point, for sharper lines, and leaves them in
 * Node: the same chart would be two drawings. Our own offsets are whole, so a half is always that one.
 */
function dropHalfPixels(svg: SVGSVGElement): void {
  for (const group of svg.querySelectorAll("g[transform], :scope > rect[transform]")) {
    const moved = /^translate\((-?[\d.]+),(-?[\d.]+)\)$/.exec(group.getAttribute("transform")!);
    if (!moved) continue;
    const [x, y] = [Math.floor(Number(moved[1])), Math.floor(Number(moved[2]))];
    if (x === 0 && y === 0) group.removeAttribute("transform");
    else group.setAttribute("transform", `translate(${x},${y})`);
  }
}

const geometric =
  /^(d|x|y|x1|x2|y1|y2|cx|cy|r|rx|ry|dx|dy|width|height|points|transform|viewBox|stroke-width|font-size|opacity|.+-opacity|.+-dasharray)$/;

const shortened = (value: string): string =>
  value.replace(/-?\d*\.\d{3,}(?:e-?\d+)?|-?\d+e-\d+/g, (text) =>
    String(Math.round(Number(text) * 100) / 100 || 0),
  );

/** A hundredth of a pixel is finer than any screen, and the same on every machine. */
function round(svg: SVGSVGElement): void {
  // Marks by the thousand have the same few names and shapes: each is looked at once.
  const isGeometric = new Map<string, boolean>();
  const short = new Map<string, string>();
  for (const element of [svg, ...svg.querySelectorAll("*")])
    // By name, and only what changes: a document without a browser is slow to list and to set attributes.
    for (const name of element.getAttributeNames()) {
      let known = isGeometric.get(name);
      if (known === undefined) isGeometric.set(name, (known = geometric.test(name)));
      if (!known) continue;
      const value = element.getAttribute(name)!;
      let now = short.get(value);
      if (now === undefined) short.set(value, (now = shortened(value)));
      if (now !== value) element.setAttribute(name, now);
    }
}

/** FNV-1a, 32 bit: a short name for a text. */
function hash(text: string): string {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return (h >>> 0).toString(36);
}

/** Room about a chart's own picture, px. */
export interface Margin {
  readonly left: number;
  readonly right: number;
  readonly top?: number;
  readonly bottom?: number;
}

/**
 * A picture of a height between the words above and below: Plot's height and margins, px.
 * @example laidOut({ left: 4, right: 4, top: 2, bottom: 3 }, 100, { top: 50, bottom: 20 }).height // 175
 */
export function laidOut(margin: Margin, tall: number, room: Pick<Room, "top" | "bottom">) {
  const marginTop = room.top + (margin.top ?? 0);
  const marginBottom = room.bottom + (margin.bottom ?? 0);
  return {
    height: marginTop + tall + marginBottom,
    marginLeft: margin.left,
    marginRight: margin.right,
    marginTop,
    marginBottom,
  };
}

/** How a swing's category or bucket is drawn. */
export const codeOf = {
  category: (value: keyof typeof categoryCodes | null): Code =>
    value === null ? unknownCode : categoryCodes[value],
  bucket: (value: keyof typeof bucketCodes | null): Code =>
    value === null ? unknownCode : bucketCodes[value],
};

/** The words in the middle of an empty frame, or about a place. */
export function emptyMark(text = "no swings to draw", place?: readonly [number, number]): Plot.Markish {
  return Plot.text([text], {
    ...(place ? { x: () => place[0], y: () => place[1] } : { frameAnchor: "middle" }),
    fontSize: fontSize.figure,
    fill: faintInk,
    stroke: paper,
    strokeWidth: 5,
  });
}

/** The frame of a chart with nothing in it. */
export const emptyFrame = (text?: string): Plot.Markish[] => [
  Plot.frame({ stroke: hairline }),
  emptyMark(text),
];

const axisLook = { tickSize: 4, color: ink, fontSize: fontSize.label, label: null } as const;

/** The axis below a picture, named with its unit. */
export const axisBelow = (
  name: string,
  ticks: number,
  tickFormat?: (value: number) => string,
): [Plot.Markish, Plot.Markish] => [
  Plot.axisX({ ...axisLook, anchor: "bottom", ticks, ...(tickFormat ? { tickFormat } : {}) }),
  nameBelow(name),
];

/** An axis's name below its numbers. */
export const nameBelow = (name: string, dy = 34): Plot.Markish =>
  Plot.text([name], { frameAnchor: "bottom", dy, fill: ink, ariaDescription: "x axis" });

/**
 * The least step of 1, 2 or 5 tens, hundreds, tenths that is as large as wished.
 * @example roundStep(3) // 5
 * @example roundStep(0.2) // 0.2
 */
export function roundStep(wish: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(wish, 1e-9)));
  return [1, 2, 5, 10].map((m) => m * power).find((s) => s >= wish) ?? 10 * power;
}

/**
 * Both axes, named with their units: x below its middle, y above its upper end, where a phone has room.
 * @param ticks about how many; those of y can be given
 */
export function axes(
  names: { readonly x: string; readonly y: string },
  marginLeft: number,
  ticks: {
    readonly x?: number;
    readonly y?: number | readonly number[];
    readonly yFormat?: (value: number) => string;
  } = {},
): Plot.Markish[] {
  const [xAxis, xName] = axisBelow(names.x, ticks.x ?? 6);
  const { y = 7, yFormat } = ticks;
  const look = { ...axisLook, anchor: "left", ...(yFormat ? { tickFormat: yFormat } : {}) } as const;
  return [
    xAxis,
    typeof y === "number" ? Plot.axisY({ ...look, ticks: y }) : Plot.axisY([...y], look),
    xName,
    Plot.text([names.y], {
      frameAnchor: "top-left",
      dx: 4 - marginLeft,
      dy: -16,
      fill: ink,
      textAnchor: "start",
      ariaDescription: "y axis",
    }),
  ];
}
