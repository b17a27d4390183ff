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

/**
 * Puts a picture between its words and finishes it: title, key and notes in the SVG, a text alternative, names
 * that don't depend on what else was drawn, numbers to 0.01.
 * @throws TypeError when there is no document to draw in
 */
export function compose(options: ChartOptions, parts: Composition): SVGSVGElement {
  const document = options.document ?? globalThis.document;
  if (!document) throw new TypeError("a chart needs a document: in Node, pass a jsdom window's");
  const width = widthOf(options);
  const description = parts.description.filter(Boolean).join(" ");
  const subtitle = [...(options.subtitle ? [options.subtitle] : []), ...parts.subtitle].join(" · ");
  const notes = [...parts.notes, ...(options.note ? [options.note] : [])].filter(Boolean);
  const title = options.title ?? parts.title;

  const lines: Line[] = [];
  let y = 4;
  const put = (text: string, size: number, bold: boolean, fill: string, gap: number): void => {
    for (const piece of wrap(text, width - 2 * edge, size, bold)) {
      y += size * lineHeight;
      lines.push({ text: piece, x: edge, y: y - size * 0.3, size, bold, fill });
    }
    y += gap;
  };
  put(title, fontSize.title, true, ink, 2);
  if (subtitle) put(subtitle, fontSize.label, false, faintInk, 2);
  const keyed = layKey(parts.key, width, y + 4);
  if (parts.key.length) y = keyed.bottom;
  const top = Math.ceil(y + 4);

  const footLines = notes.flatMap((note) => wrap(note, width - 2 * edge, fontSize.small));
  const footHeight = footLines.length * fontSize.small * lineHeight;
  const bottom = Math.ceil(footLines.length ? footHeight + 8 : 4);

  const id = `batted-${parts.kind}-${hash([parts.kind, width, title, subtitle, description, notes].join("\n"))}`;
  const plot = parts.plot({ width, top, bottom, id });
  const svg = Plot.plot({
    ...plot,
    document,
    width,
    className: `batted-${parts.kind}`,
  } as Plot.PlotOptions) as unknown as SVGSVGElement;

  const height = Number(svg.getAttribute("height"));
  footLines.forEach((text, i) =>
    lines.push({
      text,
      x: edge,
      y: height - bottom + 4 + (i + 1) * fontSize.small * lineHeight,
      size: fontSize.small,
      bold: false,
      fill: faintInk,
    }),
  );

  const make = (name: string, attributes: Record<string, string | number>, text?: string): SVGElement => {
    const element = document.createElementNS(svgNamespace, name) as SVGElement;
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  };
  const words = make("g", { "aria-label": "words", "text-anchor": "start" });
  for (const { text, x, y, size, bold, fill } of lines)
    words.append(
      make(
        "text",
        {
          x,
          y,
          fill,
          "font-size": size,
          // The one line that speaks: the title.
          ...(bold ? { "font-family": serifFamily, "font-weight": serifWeight } : {}),
        },
        text,
      ),
    );
  const key = make("g", { "aria-label": "key", "text-anchor": "start" });
  for (const { entry, x, y } of keyed.items) {
    const { code, swatch, hollow, label } = entry;
    if (code)
      key.append(
        make("path", { ...markAttributes(code, hollow === true), transform: `translate(${x + 6},${y - 4})` }),
      );
    if (swatch?.ellipse)
      key.append(
        make("ellipse", {
          cx: x + 6,
          cy: y - 4,
          rx: 7,
          ry: 4.5,
          fill: swatch.fill ?? "none",
          stroke: swatch.stroke,
          "stroke-width": 1.6,
          "stroke-dasharray": "3.5 2",
        }),
      );
    else if (swatch) {
      const tall = 12 * (swatch.height ?? 1);
      key.append(
        make("rect", {
          x,
          y: y + 1 - tall,
          width: 12,
          height: tall,
          fill: swatch.pattern ? patternUrl(id, swatch.pattern) : (swatch.fill ?? "none"),
          stroke: swatch.stroke,
        }),
      );
    }
    const at = code || swatch ? x + keyIndent : x;
    const fill = code || swatch ? ink : faintInk;
    key.append(make("text", { x: at, y, fill, "font-size": fontSize.label }, label));
  }
  svg.append(words);
  if (parts.key.length) svg.append(key);

  // The page behind may be dark, and a printer drops backgrounds that are only styled: the paper is drawn.
  const sheet = make("rect", { width, height, fill: paper, "aria-hidden": "true" });
  svg.insertBefore(sheet, svg.querySelector("style")?.nextSibling ?? svg.firstChild);
  svg.insertBefore(make("desc", {}, description), svg.firstChild);
  svg.insertBefore(make("title", {}, title), svg.firstChild);
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
  if (parts.balls !== undefined) drawnBalls.set(svg, parts.balls);
  return svg;
}

interface Line {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly bold: boolean;
  readonly fill: string;
}

const keyIndent = 17;

function layKey(entries: readonly KeyEntry[], width: number, from: number) {
  const items: { entry: KeyEntry; x: number; y: number }[] = [];
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

/** A hundredth of a pixel is finer than any screen, and the same on every machine. */
function round(svg: SVGSVGElement): void {
  for (const element of [svg, ...svg.querySelectorAll("*")])
    // By name, and only what changes: a document without a browser is slow to list and to set attributes.
    for (const name of element.getAttributeNames()) {
      if (!geometric.test(name)) continue;
      const value = element.getAttribute(name)!;
      const short = value.replace(/-?\d*\.\d{3,}(?:e-?\d+)?|-?\d+e-\d+/g, (text) =>
        String(Math.round(Number(text) * 100) / 100 || 0),
      );
      if (short !== value) element.setAttribute(name, short);
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

/** The words in the middle of an empty frame. */
export function emptyMark(text = "no swings to draw"): Plot.Markish {
  return Plot.text([text], {
    frameAnchor: "middle",
    fontSize: fontSize.figure,
    fill: faintInk,
    stroke: paper,
    strokeWidth: 5,
  });
}

/** Both axes, named with their units: x below its middle, y above its upper end, where a phone has room. */
export function axes(
  names: { readonly x: string; readonly y: string },
  marginLeft: number,
  ticks: { readonly x?: number; readonly y?: number; readonly yFormat?: (value: number) => string } = {},
): Plot.Markish[] {
  const common = { tickSize: 4, color: ink, fontSize: fontSize.label, label: null } as const;
  return [
    Plot.axisX({ ...common, anchor: "bottom", ticks: ticks.x ?? 6 }),
    Plot.axisY({
      ...common,
      anchor: "left",
      ticks: ticks.y ?? 7,
      ...(ticks.yFormat ? { tickFormat: ticks.yFormat } : {}),
    }),
    Plot.text([names.x], { frameAnchor: "bottom", dy: 34, fill: ink, ariaDescription: "x axis" }),
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
