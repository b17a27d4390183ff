/**
 * The one look of pages, charts and reports: paper, ink, accent, letters, sizes, in light, in the dark and in print.
 *
 * The colours are ours. Buckets run from faint to strong (on light paper light to dark, on dark paper dark to light),
 * so that their order survives in grey; categories stand apart in lightness and along blue and yellow, which every
 * common colour blindness keeps. Each also has a shape. One accent marks the one thing to see, and what was aimed at.
 *
 * A chart writes its colours as CSS custom properties, the light value beside each: the same drawing serves light,
 * dark and print on a page that has `themeCss`, and stands alone, light, where there is none.
 */
import type { Bucket, Category } from "../swing/fields.ts";
import {
  circle,
  diamond,
  down,
  halfDisc,
  plus,
  square,
  star,
  times,
  upTriangle,
  type Shape,
} from "./shapes.ts";

/** Each colour by the name of its custom property: on light paper, and on dark. */
const table = {
  paper: ["#faf7ef", "#171512"],
  /** Under a card, a choice, a caution: paper laid on paper. */
  raised: ["#f3eee2", "#221f1a"],
  ink: ["#1f1b16", "#f2ecdf"],
  /** Second lines, axes' names, notes. */
  soft: ["#645c50", "#aaa192"],
  /** Rings, borders, the field's lines: seen, not read. */
  line: ["#b8ae9d", "#5c5547"],
  hairline: ["#ddd5c5", "#37322a"],
  /** Dirt, and anything else that is ground. */
  ground: ["#ece1cb", "#352b20"],
  /** Fair territory. */
  grass: ["#f2f1e3", "#1d1f19"],
  /** The one thing to see, and what was aimed at. */
  accent: ["#a8321c", "#f2876a"],
  /** Under figures: an interval shown as a band. */
  band: ["#dbe8ee", "#2c3c45"],

  "ground-ball": ["#6b4a1f", "#b5834f"],
  "line-drive": ["#0a7464", "#3fb9a6"],
  bloop: ["#ab800f", "#efcf6a"],
  "fly-ball": ["#24216f", "#8f8bf5"],
  "pop-up": ["#767cc9", "#c9c6f7"],

  mishit: ["#918b81", "#787268"],
  partial: ["#ab5a1c", "#dd8439"],
  clean: ["#7d2a62", "#efb0d4"],
  flush: ["#1f0d48", "#f7efd5"],

  sound: ["#0a6f60", "#4fc4b0"],
  "look-again": ["#8f6408", "#e0b64a"],
  "hold-back": ["#6b1020", "#ff9aa4"],

  "in-play": ["#3d6b7d", "#7fb4c8"],
  takes: ["#8a3b12", "#e69a6b"],

  /** Power kept, from the least shown to the most: tints that let ink be read on each. */
  "power-1": ["#f4ead8", "#26221b"],
  "power-2": ["#f2d3b0", "#43301f"],
  "power-3": ["#eabb93", "#5f4026"],
  "power-4": ["#d9a3a0", "#704a50"],
  "power-5": ["#c391b0", "#7d5a86"],
} as const satisfies Record<string, readonly [light: string, dark: string]>;

/** A colour of the theme, by the name of its custom property without the hyphens before it. */
export type ColourName = keyof typeof table;

/** A colour scheme of the theme. Print is light, on the sheet's own white. */
export type Scheme = "light" | "dark";

/** The colours' names. */
export const colourNames = Object.keys(table) as ColourName[];

/**
 * A colour's own value, where no custom property reaches: a canvas, a test.
 * @example colourValue("ink", "light") // "#1f1b16"
 */
export const colourValue = (name: ColourName, scheme: Scheme = "light"): string =>
  table[name][scheme === "light" ? 0 : 1];

/**
 * A colour as charts and style sheets write it: the page's own, else the light one.
 * @example colour("ink") // "var(--ink, #1f1b16)"
 */
export const colour = (name: ColourName): string => `var(--${name}, ${table[name][0]})`;

/**
 * A drawing with every colour and letter written out, for programs that know no custom properties.
 * @param text markup as a chart gives it
 * @example writtenOut(`<rect fill="${colour("paper")}"/>`, "dark") // '<rect fill="#171512"/>'
 */
export function writtenOut(text: string, scheme: Scheme = "light"): string {
  return text.replace(/var\(--([a-z0-9-]+), ([^()]*)\)/g, (_, name: string, fallback: string) =>
    Object.hasOwn(table, name) ? colourValue(name as ColourName, scheme) : fallback,
  );
}

export const paper = colour("paper");
export const ink = colour("ink");
export const faintInk = colour("soft");
export const line = colour("line");
export const hairline = colour("hairline");
export const ground = colour("ground");
export const grass = colour("grass");
export const accent = colour("accent");
export const band = colour("band");

/**
 * The letters, best first: a voice for answers, titles and large figures, and one for everything else, its figures as
 * wide as each other. Pages and reports carry the first of each; a chart that stands alone takes what the machine has.
 */
export const letters = {
  serif: "Newsreader, 'Iowan Old Style', Charter, Georgia, 'Times New Roman', serif",
  sans: "'Public Sans Variable', system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif",
} as const;
export const serifFamily = `var(--serif, ${letters.serif})`;
export const fontFamily = `var(--sans, ${letters.sans})`;
/** The one weight of the serif that is carried. */
export const serifWeight = 500;

/** Letter sizes of pages and reports, by what they are for: each grows with the reader's own setting. */
const typeScale = {
  answer: "clamp(1.75rem, 1.3rem + 1.55vw, 2.625rem)",
  figure: "2.125rem",
  heading: "1.375rem",
  title: "1.0625rem",
  body: "0.9375rem",
  small: "0.8125rem",
  fine: "0.75rem",
} as const;

/** Letter sizes in charts, px. None is smaller than 11 at any width: charts lay out by width, they don't scale. */
export const fontSize = { title: 17, label: 12, small: 11, figure: 16 } as const;

/** The grid of pages and reports: its widest, the gap between columns, the widest line of reading text. */
export const grid = { widest: "1440px", gap: "24px", measure: "68ch" } as const;

const properties = (values: Readonly<Record<string, string>>): string =>
  Object.entries(values)
    .map(([name, value]) => `--${name}: ${value};`)
    .join(" ");
const coloursOf = (scheme: Scheme): string =>
  properties(Object.fromEntries(colourNames.map((name) => [name, colourValue(name, scheme)])));

/**
 * The theme as custom properties of `:root`, for a page or a report to begin its style sheet with: colours as
 * `--ink`, sizes as `--size-answer`, letters as `--serif` and `--sans`. On a screen the dark ones where the reader's
 * machine asks for them or the page says `data-theme="dark"`; `data-theme="light"` holds light; print is always light.
 */
export const themeCss = (): string => `
:root { color-scheme: light; ${coloursOf("light")}
  --serif: ${letters.serif}; --sans: ${letters.sans}; --serif-weight: ${serifWeight};
  ${properties(Object.fromEntries(Object.entries(typeScale).map(([name, size]) => [`size-${name}`, size])))}
  ${properties({ widest: grid.widest, gap: grid.gap, measure: grid.measure })} }
@media screen and (prefers-color-scheme: dark) { :root:not([data-theme="light"]) { color-scheme: dark; ${coloursOf("dark")} } }
@media screen { :root[data-theme="dark"] { color-scheme: dark; ${coloursOf("dark")} } }
@media print { :root { --paper: #ffffff; --raised: #ffffff; -webkit-print-color-adjust: exact; print-color-adjust: exact; } }
`;

/** Width, px, when none is asked for, and the least there is room for. */
export const defaultWidth = 640;
export const leastWidth = 300;
/** Below this width, px, a chart lays out for a phone. */
export const phoneWidth = 480;

/** Radius of a swing's mark, px. */
export const markRadius = 4.25;
/** More swings than this in one cloud are gathered: one larger mark for swings that would lie on each other. */
export const mostMarks = 3000;

/** How a value is drawn: its colour, and its shape as the second code. */
export interface Code {
  readonly colour: string;
  readonly shape: Shape;
}
const code = (name: ColourName, shape: Shape): Code => ({ colour: colour(name), shape });

/** The kinds of batted ball: down for a ground ball, up for a fly ball. */
export const categoryCodes: Readonly<Record<Category, Code>> = {
  "ground ball": code("ground-ball", down),
  "line drive": code("line-drive", diamond),
  bloop: code("bloop", circle),
  "fly ball": code("fly-ball", upTriangle),
  "pop-up": code("pop-up", plus),
};

/** The contact buckets, poor to good: faint to strong, and on bars low to high. */
export const bucketCodes: Readonly<Record<Bucket, Code & { readonly height: number }>> = {
  mishit: { ...code("mishit", times), height: 0.25 },
  partial: { ...code("partial", halfDisc), height: 0.5 },
  clean: { ...code("clean", square), height: 0.75 },
  flush: { ...code("flush", star), height: 1 },
};

/** What the checks say of a session or a placement, from good to bad: shape first, then lightness. */
const [good, middling, bad] = [
  code("sound", circle),
  code("look-again", upTriangle),
  code("hold-back", times),
] as const;
export const verdictCodes = { sound: good, "look again": middling, "hold back": bad } as const;
export const toleranceCodes = { fine: good, "tighten it": middling, "redo it": bad } as const;

/** What can come of a pitch. Only a ball in play is solid: the rest are patterns of ink on paper. */
export const outcomeCodes = {
  take: { colour: paper, pattern: null },
  miss: { colour: faintInk, pattern: "hatch" },
  foul: { colour: faintInk, pattern: "dots" },
  in_play: { colour: colour("in-play"), pattern: null },
} as const;

/** A swing whose category or bucket is unknown. */
export const unknownCode: Code = { colour: faintInk, shape: circle };

/** What a chart states (a mean, a line, a range) in ink over the swings. */
export const statement = ink;
/** A figure that is stated: pooled, or where something is reached. */
export const statementCode: Code = { colour: statement, shape: diamond };
/** A drill's window. */
export const targetColour = accent;

/** Power kept, from the least shown to the most: in steps, so that the dark has steps of its own. */
export const powerTints = ([1, 2, 3, 4, 5] as const).map((step) => colour(`power-${step}`));
/** The span of power kept that the tints and the scale in each cell cover. */
export const powerSpan = [0.6, 1] as const;

/** What a part of a gap does to the figure: solid adds, hollow takes away. */
export const partCodes = {
  adds: { colour: colour("in-play"), fill: colour("in-play") },
  takes: { colour: colour("takes"), fill: paper },
} as const;
