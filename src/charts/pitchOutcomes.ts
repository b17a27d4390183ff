/** Live work: what came of each kind of pitch, as shares of a bar. */
import * as Plot from "@observablehq/plot";
import { buckets, type Bucket } from "../swing/fields.ts";
import {
  compose,
  emptyMark,
  measuresOf,
  patternUrl,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  laidOut,
} from "./frame.ts";
import { bucketCodes, faintInk, fontSize, hairline, ink, outcomeCodes, paper } from "./theme.ts";
import {
  count,
  number,
  percent,
  percentRange,
  sayShare,
  shorten,
  textWidth,
  type ShareInterval,
} from "./text.ts";

export type OutcomeName = keyof typeof outcomeCodes;

/** One kind of pitch, as `src/views/live.ts` gives it by type, by speed or by place. */
export interface PitchGroup {
  /** Its name; made from the type or the speed when absent. */
  readonly label?: string;
  readonly pitch_type?: string | null;
  readonly low_mph?: number | null;
  readonly high_mph?: number | null;
  readonly pitches: number;
  readonly outcomes: readonly ({ readonly outcome: OutcomeName } & ShareInterval)[];
  /** Misses of the swings. */
  readonly misses?: ShareInterval;
  /** The buckets of the balls in play: with them the bar's part in play is divided. */
  readonly buckets?: readonly ({ readonly bucket: Bucket } & ShareInterval)[];
}

interface Part {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly fill: string;
  readonly pattern: string | null;
  readonly stroke: string;
  readonly letters: string;
  readonly words: string;
}

const outcomeWords: Readonly<Record<OutcomeName, string>> = {
  take: "taken",
  miss: "missed",
  foul: "foul",
  in_play: "in play",
};
const order = ["take", "miss", "foul", "in_play"] as const;
const bar = { tall: 22, name: 19, told: 17, gap: 13 } as const;

/**
 * A bar for each kind of pitch, as long for each, divided by what came of it; its count beside its name, and the
 * misses of its swings with their interval below.
 * @param groups in the order to be drawn
 */
export function pitchOutcomes(groups: readonly PitchGroup[], options: ChartOptions = {}): SVGSVGElement {
  const { speed } = measuresOf(options);
  const width = widthOf(options);
  const margin = { left: 4, right: 4, bottom: 38 };
  const across = width - margin.left - margin.right;
  const nameOf = (g: PitchGroup): string => {
    if (g.label !== undefined) return g.label;
    if (g.pitch_type !== undefined) return g.pitch_type ?? "type unknown";
    if (g.low_mph === null || g.low_mph === undefined) return "speed unknown";
    return g.high_mph === null || g.high_mph === undefined
      ? `from ${speed.say(g.low_mph)}`
      : `${number(speed.from(g.low_mph))}–${speed.say(g.high_mph)}`;
  };
  const shown = groups.filter((g) => g.pitches > 0);
  const divided = shown.some((g) => g.buckets !== undefined);
  let y = 0;
  const rows = shown.map((group) => {
    const known = group.outcomes.reduce((sum, o) => sum + o.count, 0);
    const { misses } = group;
    const told =
      misses && misses.share !== null
        ? `missed ${misses.count} of ${count(misses.n, "swing")}: ${percent(misses.share)} (${percentRange(misses)})`
        : "";
    const unknown = group.pitches - known;
    const row = {
      name: `${nameOf(group)} · ${count(group.pitches, "pitch", "pitches")}${unknown > 0 ? `, ${unknown} of unknown outcome` : ""}`,
      told,
      parts: partsOf(group, known),
      group,
      y: y + bar.name,
    };
    y += bar.name + bar.tall + (told ? bar.told : 0) + bar.gap;
    return row;
  });
  const tall = rows.length ? y : 90;
  const parts = rows.flatMap((row) =>
    row.parts.map((part) => ({ ...part, y1: row.y, y2: row.y + bar.tall })),
  );
  const inner = across - 2;
  const total = shown.reduce((sum, g) => sum + g.pitches, 0);

  return compose(options, {
    kind: "pitch-outcomes",
    title: "What came of each pitch",
    subtitle: [count(total, "pitch", "pitches")],
    key: [
      ...(["take", "miss", "foul"] as const).map((name): KeyEntry => ({
        label: outcomeWords[name],
        swatch: {
          ...(outcomeCodes[name].pattern === null
            ? { fill: outcomeCodes[name].colour }
            : { pattern: outcomeCodes[name].pattern! }),
          stroke: faintInk,
        },
      })),
      ...(divided
        ? buckets.map((name): KeyEntry => ({
            label: name,
            swatch: { fill: bucketCodes[name].colour, stroke: bucketCodes[name].colour },
          }))
        : [
            {
              label: outcomeWords.in_play,
              swatch: { fill: outcomeCodes.in_play.colour, stroke: outcomeCodes.in_play.colour },
            },
          ]),
    ],
    notes: [
      ...(divided ? ["In play: divided by contact bucket, mishit to flush."] : []),
      ...(rows.some((r) => r.told)
        ? ["Below each bar: misses as a share of swings, with the 95% interval."]
        : []),
    ],
    description: [
      rows.length
        ? `What came of ${count(total, "pitch", "pitches")}.`
        : "What came of each pitch: no swings to draw.",
      ...rows.map(
        (row) =>
          `${row.name}: ${row.parts.map((p) => p.words).join(", ")}${row.told ? `; ${row.told}` : ""}.`,
      ),
    ],
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: [0, 1], range: [margin.left + 1, margin.left + 1 + inner], axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: [
        patterns(room.id),
        ...(rows.length
          ? [
              ...(
                [
                  ["start", [0]],
                  ["middle", [0.25, 0.5, 0.75]],
                  ["end", [1]],
                ] as const
              ).map(([textAnchor, at]) =>
                Plot.text(at, {
                  x: (v: number) => v,
                  frameAnchor: "bottom",
                  dy: 14,
                  text: (v: number) => percent(v),
                  textAnchor,
                  fill: ink,
                  ariaDescription: "ticks",
                }),
              ),
              Plot.text(["share of pitches (%)"], {
                frameAnchor: "bottom",
                dy: 33,
                fill: ink,
                ariaDescription: "x axis",
              }),
              Plot.ruleX([0, 0.25, 0.5, 0.75, 1], { stroke: hairline }),
            ]
          : []),
        Plot.rect(parts, {
          x1: "from",
          x2: "to",
          y1: "y1",
          y2: "y2",
          fill: (p: Part) => (p.pattern === null ? p.fill : patternUrl(room.id, p.pattern)),
          stroke: (p: Part) => p.stroke,
          strokeWidth: 1,
          title: "words",
          ariaDescription: "parts",
        }),
        Plot.text(
          parts.filter(
            (p) => (p.to - p.from) * inner >= textWidth(percent(p.to - p.from), fontSize.small, true) + 6,
          ),
          {
            x: (p: Part) => (p.from + p.to) / 2,
            y: (p: { y1: number }) => p.y1 + bar.tall / 2,
            text: (p: Part) => percent(p.to - p.from),
            fontSize: fontSize.small,
            fontWeight: "bold",
            fill: (p: Part) => p.letters,
            stroke: (p: Part) => (p.letters === ink ? paper : "none"),
            strokeWidth: 4,
            ariaDescription: "shares",
          },
        ),
        Plot.text(rows, {
          x: () => 0,
          y: (r: { y: number }) => r.y - 9,
          text: (r: { name: string }) => shorten(r.name, across, fontSize.label, true),
          textAnchor: "start",
          fontWeight: "bold",
          fill: ink,
          stroke: paper,
          strokeWidth: 4,
          ariaDescription: "pitches",
        }),
        Plot.text(rows, {
          x: () => 0,
          y: (r: { y: number }) => r.y + bar.tall + 10,
          text: "told",
          textAnchor: "start",
          fontSize: fontSize.small,
          fill: ink,
          stroke: paper,
          strokeWidth: 4,
          ariaDescription: "misses",
        }),
        ...(rows.length ? [] : [Plot.frame({ stroke: hairline }), emptyMark()]),
      ],
    }),
  });
}

/** The bar's parts from left to right, shares of the pitches whose outcome is known. */
function partsOf(group: PitchGroup, known: number): Part[] {
  const parts: Part[] = [];
  let at = 0;
  const add = (
    name: string,
    n: number,
    look: Pick<Part, "fill" | "pattern" | "stroke" | "letters">,
    share: ShareInterval,
  ): void => {
    if (n <= 0) return;
    parts.push({
      name,
      from: at / known,
      to: (at + n) / known,
      ...look,
      words: `${name} ${sayShare(share)}`,
    });
    at += n;
  };
  for (const outcome of order) {
    const share = group.outcomes.find((o) => o.outcome === outcome);
    if (!share) continue;
    const code = outcomeCodes[outcome];
    const solid = outcome === "in_play";
    const look = {
      fill: code.colour,
      pattern: code.pattern,
      stroke: solid ? paper : faintInk,
      letters: solid ? paper : ink,
    };
    if (!solid || !group.buckets) {
      add(outcomeWords[outcome], share.count, look, share);
      continue;
    }
    let rest = share.count;
    for (const bucket of buckets) {
      const part = group.buckets.find((b) => b.bucket === bucket);
      if (!part) continue;
      rest -= part.count;
      add(
        bucket,
        part.count,
        {
          fill: bucketCodes[bucket].colour,
          pattern: null,
          stroke: paper,
          letters: bucket === "mishit" ? ink : paper,
        },
        part,
      );
    }
    add("in play, no bucket", rest, look, share);
  }
  return parts;
}

/** Ink on paper, so that the parts that are not balls in play differ without any colour. */
function patterns(id: string): Plot.RenderFunction {
  return (_index, _scales, _values, _dimensions, context) => {
    const document = context.ownerSVGElement.ownerDocument;
    const make = (name: string, attributes: Record<string, string | number>): SVGElement => {
      const element = document.createElementNS("http://www.w3.org/2000/svg", name) as SVGElement;
      for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
      return element;
    };
    const defs = make("defs", {});
    const pattern = (name: string, side: number, ...children: SVGElement[]): void => {
      const element = make("pattern", {
        id: `${id}-${name}`,
        width: side,
        height: side,
        patternUnits: "userSpaceOnUse",
      });
      element.append(make("rect", { width: side, height: side, fill: paper }), ...children);
      defs.append(element);
    };
    pattern(
      "hatch",
      6,
      make("path", { d: "M-1,1l2,-2M0,6l6,-6M5,7l2,-2", stroke: faintInk, "stroke-width": 1.2 }),
    );
    pattern("dots", 5, make("circle", { cx: 2.5, cy: 2.5, r: 1.1, fill: faintInk }));
    return defs;
  };
}
