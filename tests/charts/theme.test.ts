/** The colours hold for every kind of sight, and on paper. */
import { lab, rgb } from "d3";
import { describe, expect, it } from "vitest";
import {
  bucketCodes,
  categoryCodes,
  faintInk,
  fontSize,
  ink,
  outcomeCodes,
  paper,
  powerTints,
  targetColour,
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

const bucketColours = buckets.map((name) => bucketCodes[name].colour);
const categoryColours = categories.map((name) => categoryCodes[name].colour);

describe.each(Object.entries(sights))("colours, with %s", (_sight, matrix) => {
  it.each([
    ["buckets", bucketColours],
    ["categories", categoryColours],
  ])("%s stand apart, each pair", (_name, colours) => {
    const looks = colours.map((c) => seen(c, matrix));
    const pairs = looks.flatMap((a, i) => looks.slice(i + 1).map((b) => difference(a, b)));
    expect(pairs.length).toBeGreaterThan(5);
    expect(Math.min(...pairs)).toBeGreaterThan(20);
  });

  it("buckets keep their order from light to dark", () => {
    const lightness = bucketColours.map((c) => seen(c, matrix).l);
    for (let i = 1; i < lightness.length; i++) expect(lightness[i - 1]! - lightness[i]!).toBeGreaterThan(6);
  });

  it("tints of power kept grow darker and let ink be read", () => {
    const lightness = powerTints.map((c) => seen(c, matrix).l);
    for (let i = 1; i < lightness.length; i++) expect(lightness[i - 1]! - lightness[i]!).toBeGreaterThan(6);
  });
});

describe("colours on paper", () => {
  it("marks have 3 : 1, as WCAG 2.2 (1.4.11) asks of graphics", () => {
    for (const colour of [...bucketColours, ...categoryColours, outcomeCodes.in_play.colour])
      expect(contrast(colour, paper), colour).toBeGreaterThan(3);
  });

  it("words have 4.5 : 1, as WCAG 2.2 (1.4.3) asks of text", () => {
    for (const [words, under] of [
      [ink, paper],
      [faintInk, paper],
      [targetColour, paper],
      ...powerTints.map((tint) => [ink, tint] as const),
      ...bucketColours.slice(1).map((colour) => [paper, colour] as const),
      [paper, outcomeCodes.in_play.colour],
    ] as const)
      expect(contrast(words, under), `${words} on ${under}`).toBeGreaterThanOrEqual(4.49);
  });

  it("buckets in grey differ enough to be told without colour", () => {
    const grey = bucketColours.map((c) => lab(c).l);
    for (let i = 1; i < grey.length; i++) expect(grey[i - 1]! - grey[i]!).toBeGreaterThan(9);
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
