/** Live work: what came of each kind of pitch, as shares of a bar. */
import * as Plot from "@observablehq/plot";
import { buckets, type Bucket } from "../swing/fields.ts";
import {
  compose,
  emptyFrame,
  maker,
  measuresOf,
  nameBelow,
  patternUrl,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  type Words,
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
  type Measure,
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
const margin = { left: 4, right: 4, bottom: 38 };

/**
 * A bar for each kind of pitch, as long for each, divided by what came of it; its count beside its name, and the
 * misses of its swings with their interval below.
 * @param groups in the order to be drawn
 */
export function pitchOutcomes(groups: readonly PitchGroup[], options: ChartOptions = {}): SVGSVGElement {
  const shown = groups.filter((g) => g.pitches > 0);
  const across = widthOf(options) - margin.left - margin.right;
  const laid = layRows(shown, measuresOf(options).speed);
  return compose(options, {
    kind: "pitch-outcomes",
    ...wordsOf(shown, laid),
    plot: (room) => ({
      ...laidOut(margin, laid.tall, room),
      x: { domain: [0, 1], range: [margin.left + 1, margin.left + across - 1], axis: null },
      y: { domain: [laid.tall, 0], axis: null },
      marks: [
        patterns(room.id),
        ...(laid.rows.length ? axisMarks() : []),
        ...partMarks(laid, across - 2, room.id),
        ...rowMarks(laid, across),
        ...(laid.rows.length ? [] : emptyFrame()),
      ],
    }),
  });
}

/** A group's name: its own, else its pitch type, else its speed. */
function nameOf({ label, pitch_type, low_mph = null, high_mph = null }: PitchGroup, speed: Measure): string {
  if (label !== undefined) return label;
  if (pitch_type !== undefined) return pitch_type ?? "type unknown";
  if (low_mph === null) return "speed unknown";
  if (high_mph === null) return `from ${speed.say(low_mph)}`;
  return `${number(speed.from(low_mph))}–${speed.say(high_mph)}`;
}

/** The misses of a group's swings in words; empty where none are known. */
const missWords = ({ misses }: PitchGroup): string =>
  misses && misses.share !== null
    ? `missed ${misses.count} of ${count(misses.n, "swing")}: ${percent(misses.share)} (${percentRange(misses)})`
    : "";

/** A row a group: its name, its bar, its misses, px. */
function layRows(groups: readonly PitchGroup[], speed: Measure) {
  let y = 0;
  const rows = groups.map((group) => {
    const known = group.outcomes.reduce((sum, o) => sum + o.count, 0);
    const unknown = group.pitches - known;
    const more = unknown > 0 ? `, ${unknown} of unknown outcome` : "";
    const row = {
      name: `${nameOf(group, speed)} · ${count(group.pitches, "pitch", "pitches")}${more}`,
      told: missWords(group),
      parts: partsOf(group, known),
      y: y + bar.name,
    };
    y += bar.name + bar.tall + (row.told ? bar.told : 0) + bar.gap;
    return row;
  });
  return { rows, tall: rows.length ? y : 90 };
}

type Laid = ReturnType<typeof layRows>;

/** The key: what is not in play as patterns; in play by bucket where bars are divided so. */
function keyOf(divided: boolean): KeyEntry[] {
  const solid = (label: string, colour: string): KeyEntry => ({
    label,
    swatch: { fill: colour, stroke: colour },
  });
  return [
    ...(["take", "miss", "foul"] as const).map((name): KeyEntry => {
      const { pattern, colour } = outcomeCodes[name];
      const look = pattern === null ? { fill: colour } : { pattern };
      return { label: outcomeWords[name], swatch: { ...look, stroke: faintInk } };
    }),
    ...(divided
      ? buckets.map((name) => solid(name, bucketCodes[name].colour))
      : [solid(outcomeWords.in_play, outcomeCodes.in_play.colour)]),
  ];
}

function wordsOf(shown: readonly PitchGroup[], { rows }: Laid): Words {
  const divided = shown.some((g) => g.buckets !== undefined);
  const pitches = count(
    shown.reduce((sum, g) => sum + g.pitches, 0),
    "pitch",
    "pitches",
  );
  return {
    title: "What came of each pitch",
    subtitle: [pitches],
    key: keyOf(divided),
    notes: [
      ...(divided ? ["In play: divided by contact bucket, mishit to flush."] : []),
      ...(rows.some((r) => r.told)
        ? ["Below each bar: misses as a share of swings, with the 95% interval."]
        : []),
    ],
    description: [
      rows.length ? `What came of ${pitches}.` : "What came of each pitch: no swings to draw.",
      ...rows.map(
        ({ name, parts, told }) => `${name}: ${parts.map((p) => p.words).join(", ")}${told && `; ${told}`}.`,
      ),
    ],
  };
}

function axisMarks(): Plot.Markish[] {
  const ticks = { start: [0], middle: [0.25, 0.5, 0.75], end: [1] };
  return [
    ...(["start", "middle", "end"] as const).map((textAnchor) =>
      Plot.text(ticks[textAnchor], {
        x: (v: number) => v,
        frameAnchor: "bottom",
        dy: 14,
        text: percent,
        textAnchor,
        fill: ink,
        ariaDescription: "ticks",
      }),
    ),
    nameBelow("share of pitches (%)", 33),
    Plot.ruleX([0, 0.25, 0.5, 0.75, 1], { stroke: hairline }),
  ];
}

/** The bars' parts, each with its share where there is room for it. */
function partMarks({ rows }: Laid, across: number, id: string): Plot.Markish[] {
  const parts = rows.flatMap((row) => row.parts.map((p) => ({ ...p, y1: row.y, y2: row.y + bar.tall })));
  const share = (p: Part): string => percent(p.to - p.from);
  const fits = (p: Part): boolean =>
    (p.to - p.from) * across >= textWidth(share(p), fontSize.small, true) + 6;
  return [
    Plot.rect(parts, {
      x1: "from",
      x2: "to",
      y1: "y1",
      y2: "y2",
      fill: (p: Part) => (p.pattern === null ? p.fill : patternUrl(id, p.pattern)),
      stroke: (p: Part) => p.stroke,
      strokeWidth: 1,
      title: "words",
      ariaDescription: "parts",
    }),
    Plot.text(parts.filter(fits), {
      x: (p: Part) => (p.from + p.to) / 2,
      y: (p: { y1: number }) => p.y1 + bar.tall / 2,
      text: share,
      fontSize: fontSize.small,
      fontWeight: "bold",
      fill: (p: Part) => p.letters,
      stroke: (p: Part) => (p.letters === ink ? paper : "none"),
      strokeWidth: 4,
      ariaDescription: "shares",
    }),
  ];
}

/** Each row's name above its bar, and its misses below. */
function rowMarks({ rows }: Laid, across: number): Plot.Markish[] {
  const look = { x: () => 0, textAnchor: "start", fill: ink, stroke: paper, strokeWidth: 4 } as const;
  return [
    Plot.text(rows, {
      ...look,
      y: (r: { y: number }) => r.y - 9,
      text: (r: { name: string }) => shorten(r.name, across, fontSize.label, true),
      fontWeight: "bold",
      ariaDescription: "pitches",
    }),
    Plot.text(rows, {
      ...look,
      y: (r: { y: number }) => r.y + bar.tall + 10,
      text: "told",
      fontSize: fontSize.small,
      ariaDescription: "misses",
    }),
  ];
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
      const letters = bucket === "mishit" ? ink : paper;
      add(bucket, part.count, { ...look, fill: bucketCodes[bucket].colour, letters }, part);
    }
    add("in play, no bucket", rest, look, share);
  }
  return parts;
}

/** Ink on paper, so that the parts that are not balls in play differ without any colour. */
function patterns(id: string): Plot.RenderFunction {
  return (_index, _scales, _values, _dimensions, context) => {
    const make = maker(context.ownerSVGElement.ownerDocument);
    const defs = make("defs", {});
    const pattern = (name: string, side: number, ...children: SVGElement[]): void => {
      const units = { width: side, height: side, patternUnits: "userSpaceOnUse" };
      const element = make("pattern", { id: `${id}-${name}`, ...units });
      element.append(make("rect", { width: side, height: side, fill: paper }), ...children);
      defs.append(element);
    };
    const hatch = "M-1,1l2,-2M0,6l6,-6M5,7l2,-2";
    pattern("hatch", 6, make("path", { d: hatch, stroke: faintInk, "stroke-width": 1.2 }));
    pattern("dots", 5, make("circle", { cx: 2.5, cy: 2.5, r: 1.1, fill: faintInk }));
    return defs;
  };
}
