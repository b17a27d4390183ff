/** One small badge for a session: a shape and a word for what the checks say, the reasons in its text alternative. */
import { symbol } from "d3";
import type { Trust } from "../setup/trust.ts";
import { textWidth } from "./text.ts";
import { fontFamily, fontSize, ink, paper, verdictCodes } from "./theme.ts";

/** What a badge shows. */
export type BadgeTrust = Pick<Trust, "session" | "verdict" | "compared" | "turnedBack" | "reasons">;

const svgNamespace = "http://www.w3.org/2000/svg";
const height = 22;

/**
 * The words on a badge.
 * @example badgeWords({ verdict: "sound", compared: false, turnedBack: true }) // "sound, not compared, corrected"
 */
export function badgeWords({
  verdict,
  compared,
  turnedBack,
}: Pick<Trust, "verdict" | "compared" | "turnedBack">): string {
  return [verdict, ...(compared ? [] : ["not compared"]), ...(turnedBack ? ["corrected"] : [])].join(", ");
}

/** Where the words begin, px, after the shape. */
const wordsFrom = 25;

/** Small bold words alone are wider than the same words in a chart's line, measured in the fonts at hand. */
const bolder = 1.04;

/**
 * A session's badge, as wide as its words.
 * @throws TypeError when there is no document to draw in
 */
export function trustBadge(trust: BadgeTrust, options: { readonly document?: Document } = {}): SVGSVGElement {
  const document = options.document ?? globalThis.document;
  if (!document) throw new TypeError("a chart needs a document: in Node, pass a jsdom window's");
  const make = (name: string, attributes: Record<string, string | number>, text?: string): SVGElement => {
    const element = document.createElementNS(svgNamespace, name) as SVGElement;
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  };
  const { colour, shape } = verdictCodes[trust.verdict];
  const words = badgeWords(trust);
  // Bold letters differ in width from font to font: the words are held to the room that the badge has for them.
  const length = Math.ceil(textWidth(words, fontSize.label, true) * bolder);
  const width = wordsFrom + length + 11;
  const svg = make("svg", {
    xmlns: svgNamespace,
    role: "img",
    width,
    height,
    viewBox: `0 0 ${width} ${height}`,
    style: `font-family:${fontFamily};vertical-align:middle`,
  }) as SVGSVGElement;
  const hidden = { "aria-hidden": "true" };
  svg.append(
    make("title", {}, `Trust in ${trust.session}: ${words}`),
    make("desc", {}, trust.reasons.join(" ") || "The checks found nothing against it."),
    make("rect", {
      ...hidden,
      x: 0.75,
      y: 0.75,
      width: width - 1.5,
      height: height - 1.5,
      rx: 10,
      fill: paper,
      stroke: colour,
      "stroke-width": 1.5,
    }),
    make("path", {
      ...hidden,
      d: (symbol(shape, 80)() ?? "").replace(/\d+\.\d{3,}/g, (n) => Number(n).toFixed(2)),
      fill: colour,
      transform: `translate(14,11)`,
    }),
    make(
      "text",
      {
        ...hidden,
        x: wordsFrom,
        y: 15.2,
        fill: ink,
        "font-size": fontSize.label,
        "font-weight": "bold",
        textLength: length,
        lengthAdjust: "spacingAndGlyphs",
      },
      words,
    ),
  );
  return svg;
}
