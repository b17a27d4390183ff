/** The colours hold for every kind of sight, and on paper. */
import { readdirSync, readFileSync } from "node:fs";
import { lab, rgb } from "d3";
import { describe, expect, it } from "vitest";
import {
  bucketCodes,
  categoryCodes,
  colour,
  colourNames,
  colourValue,
  fontSize,
  outcomeCodes,
  powerTints,
  targetColour,
  themeCss,
  verdictCodes,
  writtenOut,
  type Scheme,
} from "../../src/charts/theme.ts";
import { buckets, categories } from "../../src/swing/fields.ts";

type Matrix = readonly (readonly [number, number, number])[];

/**
 * Sight without one kind of cone, on linear RGB: Machado, Oliveira & Fernandes, IEEE Trans. Vis. Comput. Graph. 15,
 * 2009, 1291, the matrices for severity 1.0.
 */
const sights: Readonly<Record<string, Matrix>> = {
  "all cones": [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** IEC 61966-2-1, the sRGB curve and its inverse. */
const toLinear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const fromLinear = (c: number): number => (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055);

const linear = (colour: string): [number, number, number] => {
  const { r, g, b } = rgb(colour);
  return [toLinear(r / 255), toLinear(g / 255), toLinear(b / 255)];
};

function seen(colour: string, matrix: Matrix) {
  const from = linear(colour);
  const [r, g, b] = matrix.map((row) => {
    const sum = row[0] * from[0] + row[1] * from[1] + row[2] * from[2];
    return 255 * fromLinear(Math.max(0, Math.min(1, sum)));
  });
  return lab(rgb(r!, g!, b!));
}

/** CIE 1976 colour difference: about 2 can just be told side by side; small marks need some ten times that. */
const difference = (a: ReturnType<typeof seen>, b: ReturnType<typeof seen>): number =>
  Math.hypot(a.l - b.l, a.a - b.a, a.b - b.b);

/** WCAG 2.2: relative luminance and contrast ratio. */
const luminance = (colour: string): number => {
  const [r, g, b] = linear(colour);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: string, b: string): number => {
  const [light, dark] = [luminance(a), luminance(b)].sort((p, q) => q - p) as [number, number];
  return (light + 0.05) / (dark + 0.05);
};

/** A scheme's own values of colours as charts write them. */
const valuesIn = (scheme: Scheme | "print") => {
  const value = (text: string): string => writtenOut(text, scheme === "dark" ? "dark" : "light");
  return {
    buckets: buckets.map((name) => value(bucketCodes[name].colour)),
    categories: categories.map((name) => value(categoryCodes[name].colour)),
    verdicts: Object.values(verdictCodes).map((code) => value(code.colour)),
    tints: powerTints.map(value),
    inPlay: value(outcomeCodes.in_play.colour),
    target: value(targetColour),
    ink: value(colour("ink")),
    soft: value(colour("soft")),
    paper: scheme === "print" ? "#ffffff" : value(colour("paper")),
    raised: scheme === "print" ? "#ffffff" : value(colour("raised")),
  };
};

describe.each(["light", "dark", "print"] as const)("in %s", (scheme) => {
  const values = valuesIn(scheme);
  /** Whether lightness runs away from the paper, each step by more than some amount. */
  const runsAway = (lightness: readonly number[], least: number): void => {
    for (let i = 1; i < lightness.length; i++) {
      const step = lightness[i]! - lightness[i - 1]!;
      expect(scheme === "dark" ? step : -step).toBeGreaterThan(least);
    }
  };

  describe.each(Object.entries(sights))("colours, with %s", (_sight, matrix) => {
    it.each(["buckets", "categories"] as const)("%s stand apart, each pair", (name) => {
      const looks = values[name].map((c) => seen(c, matrix));
      const pairs = looks.flatMap((a, i) => looks.slice(i + 1).map((b) => difference(a, b)));
      expect(pairs.length).toBeGreaterThan(5);
      expect(Math.min(...pairs)).toBeGreaterThan(20);
    });

    it("buckets keep their order, away from the paper", () => {
      runsAway(
        values.buckets.map((c) => seen(c, matrix).l),
        6,
      );
    });

    it("tints of power kept run away from the paper, and ink can be read on each", () => {
      runsAway(
        values.tints.map((c) => seen(c, matrix).l),
        4,
      );
    });
  });

  it("marks have 3 : 1, as WCAG 2.2 (1.4.11) asks of graphics", () => {
    for (const mark of [...values.buckets, ...values.categories, ...values.verdicts, values.inPlay])
      expect(contrast(mark, values.paper), mark).toBeGreaterThan(3);
  });

  it("words have 4.5 : 1, as WCAG 2.2 (1.4.3) asks of text", () => {
    for (const [words, under] of [
      ...[values.ink, values.soft, values.target].flatMap((w) => [
        [w, values.paper] as const,
        [w, values.raised] as const,
      ]),
      ...values.tints.map((tint) => [values.ink, tint] as const),
      ...values.buckets.slice(1).map((bucket) => [values.paper, bucket] as const),
      [values.paper, values.inPlay],
    ] as const)
      expect(contrast(words, under), `${words} on ${under}`).toBeGreaterThanOrEqual(4.5);
  });

  it("buckets in grey differ enough to be told without colour", () => {
    runsAway(
      values.buckets.map((c) => lab(c).l),
      9,
    );
  });
});

describe("the theme's style sheet", () => {
  it("gives every colour in light and in the dark, by the reader's machine and by the page's word", () => {
    const css = themeCss();
    for (const name of colourNames) {
      expect(css.split(`--${name}: ${colourValue(name, "light")};`), name).toHaveLength(2);
      expect(css.split(`--${name}: ${colourValue(name, "dark")};`), name).toHaveLength(3);
    }
    expect(css).toMatch(/@media print \{ :root \{ --paper: #ffffff;/);
    expect(css).not.toMatch(/url\(|@import/);
  });

  it("is where every other style sheet has its colours from", () => {
    const sheets = readdirSync("notebooks/page").filter((name) => name.endsWith(".css"));
    expect(sheets.length).toBeGreaterThan(2);
    for (const name of sheets)
      expect(
        readFileSync(`notebooks/page/${name}`, "utf8").match(/#[0-9a-f]{3,8}\b(?=[^{}]*;)/gi),
        name,
      ).toBeNull();
  });

  it("is not needed: a chart's colour carries the light value, and can be written out", () => {
    expect(colour("accent")).toBe(`var(--accent, ${colourValue("accent", "light")})`);
    expect(writtenOut(`fill="${colour("ink")}" style="font-family:var(--sans, A, 'B C')"`, "dark")).toBe(
      `fill="${colourValue("ink", "dark")}" style="font-family:A, 'B C'"`,
    );
  });
});

describe("second codes", () => {
  it("every category and every bucket has a shape of its own", () => {
    const shapes = [
      ...categories.map((c) => categoryCodes[c].shape.name),
      ...buckets.map((b) => bucketCodes[b].shape.name),
    ];
    expect(new Set(shapes).size).toBe(categories.length + buckets.length);
  });

  it("bars grow with the bucket", () => {
    const heights = buckets.map((b) => bucketCodes[b].height);
    expect(heights).toEqual([...heights].sort((a, b) => a - b));
    expect(new Set(heights).size).toBe(buckets.length);
  });

  it("no letter is smaller than 11 px", () => {
    expect(Math.min(...Object.values(fontSize))).toBeGreaterThanOrEqual(11);
  });
});
