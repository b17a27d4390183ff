/** Where the balls came down, seen from above: the playing field, the landing points, the share of each lane. */
import { largest } from "../swing/lists.ts";
import * as Plot from "@observablehq/plot";
import { max } from "d3";
import { assumedFieldWords, type PlayingField } from "../field/fields.ts";
import { laneEdges_deg } from "../field/lanes.ts";
import type { LandingEllipse } from "../flight/ellipse.ts";
import type { EnrichedSwing, Lane, Target } from "../swing/fields.ts";
import { ft } from "../units/index.ts";
import { accountOf } from "./account.ts";
import { compose, measuresOf, widthOf, type ChartOptions, type Words } from "./frame.ts";
import { firstFree, lineBoxes, markBox, middleOf, type Box } from "./labels.ts";
import { ellipseOutline, halfWithNumbers, layField, type LaidField } from "./playingField.ts";
import {
  assumptions,
  categoryCounts,
  categorySentence,
  cloud,
  fillKey,
  flaggedWords,
  spotOf,
  type CarryBasis,
  type Cloud,
  type Frame,
  type SpokenSwing,
} from "./swings.ts";
import {
  categoryCodes,
  faintInk,
  fontSize,
  ink,
  line,
  markRadius,
  paper,
  phoneWidth,
  statement,
  targetColour,
} from "./theme.ts";
import { count, number, sayShare, spanWords, textWidth, type ShareInterval } from "./text.ts";

export type SprayRow = SpokenSwing & CarryBasis & Pick<EnrichedSwing, "bearing_deg">;

/** A lane's share, as `src/views/lanes.ts` gives it. */
export type LaneShare = { readonly lane: Lane } & ShareInterval;

/** Where one ball may have come down: the range of its carry, and the ellipse of its landing point. */
export interface LandingRange {
  readonly carry_ft: number;
  readonly carry_low_ft: number;
  readonly carry_high_ft: number;
  readonly ellipse: LandingEllipse;
  /** What the ellipse is about: "where eight of ten balls like the longest come down". */
  readonly label: string;
}

export interface SprayChartOptions extends ChartOptions {
  readonly field: PlayingField;
  /** None: the lanes are drawn without shares. */
  readonly lanes?: readonly LaneShare[];
  readonly range?: LandingRange | null;
  /** The window of a drill. */
  readonly target?: SprayWindow | null;
}

/** A lane's words outside the fence: their middle, px from home plate, y upward, and their lines. */
interface LaneWords {
  readonly share: LaneShare;
  readonly x: number;
  readonly y: number;
  readonly lines: readonly string[];
}

/** A drill's window in the direction that the ball leaves the bat, °. Null ends are open. */
export type SprayWindow = Pick<Target, "spray_angle_deg_low" | "spray_angle_deg_high">;

const fairLanes = ["left line", "left-center", "center", "right-center", "right line"] as const;
/** The field's height at the most, px. */
const tallest = 580;

/** Balls so far past the fence, as a share of the field's size, are still drawn where they came down. */
const mostBeyond = 0.2;
/** Room around the outermost ball or fence, px; around the whole; and below home plate. */
const edgeRoom = 12;
const margin = 4;
const below = 26;
/** A lane's words: the share's line and each line below it, px. */
const laneLine = { share: 19, more: 13 } as const;

/** What both pictures of this chart are called, the one with a field and the one without. */
const named = { kind: "spray-chart", title: "Where the balls came down" } as const;

/**
 * The field from above, home plate below: foul lines, dirt, fence and rings of distance; each ball where it came
 * down, its category as colour and shape. Each lane's share, with its count and interval, stands outside the fence at
 * the lane's end, clear of every ball. Where no ball came down no field is drawn: a sentence says so.
 * @param rows swings; those without carry or bearing are left out and counted
 */
export function sprayChart(rows: readonly SprayRow[], options: SprayChartOptions): SVGSVGElement {
  const drawn = rows.filter((r) => r.carry_ft !== null && r.bearing_deg !== null);
  if (drawn.length === 0) return nowhere(options, rows.length, options.field);
  const view = lay(drawn, options);
  const { frame, overField } = view;
  return compose(options, {
    ...named,
    balls: drawn,
    ...wordsOf(drawn, rows.length, view, options),
    plot: ({ top, bottom }) => ({
      height: top + overField + frame.tall + bottom + 2 * margin,
      marginLeft: margin,
      marginRight: margin,
      marginTop: top + overField + margin,
      marginBottom: bottom + margin,
      x: { domain: [...frame.x], axis: null },
      y: { domain: [...frame.y], axis: null },
      marks: marksOf(view),
    }),
  });
}

/** All that stands in the picture, in the scales' units where nothing else is said. */
interface View {
  readonly laid: LaidField;
  readonly frame: Frame;
  /** px for a unit of the scales. */
  readonly perUnit: number;
  readonly swings: Cloud;
  readonly outline: readonly Place[];
  readonly window: SpokenWindow | null;
  /** The lanes that have a share, in their order; and foul ground's. */
  readonly shared: readonly LaneShare[];
  readonly foul: LaneShare | null;
  readonly laneWords: readonly LaneWords[];
  /** What the words need over the fence and over the outermost ball, px. */
  readonly overField: number;
}

type Place = [number, number];

/** Lays the picture out: the field to a scale at which the balls fit, and words where they hide nothing. */
function lay(drawn: readonly SprayRow[], options: SprayChartOptions): View {
  const { field, lanes = [], range = null, target = null, units } = options;
  const { distance } = measuresOf(options);
  const width = widthOf(options);
  const laid = layField(field, distance, units);
  const landed = drawn.map((row) => ({ row, at: laid.place(row.carry_ft!, row.bearing_deg!) }));
  const outline = range === null ? [] : ellipseOutline(range.ellipse, distance);
  const { frame, perUnit } = scaleOf(field, laid, [...landed.map(({ at }) => at), ...outline], width);

  const spots = landed.map(({ row, at }) => spotOf(row, hold(at, frame), units));
  const byLane = new Map(lanes.map((l) => [l.lane, l]));
  const shared = fairLanes.flatMap((lane) => {
    const share = byLane.get(lane);
    return share === undefined || share.share === null ? [] : [share];
  });
  const onPaper = ([x, y]: readonly [number, number]): Place => [x * perUnit, -y * perUnit];
  const words = layLaneWords(shared, {
    half: frame.across / 2,
    narrow: width < phoneWidth,
    taken: [
      ...lineBoxes(laid.fence.map(onPaper), 4),
      ...spots.map(({ x, y }) => markBox(onPaper([x, y]), markRadius + 2)),
      ...lineBoxes(outline.map(onPaper), 3),
    ],
    end: (bearing) => onPaper(laid.place(laid.fenceAt(bearing), bearing)),
  });
  const highest = max(words, ({ y, lines }) => -y + boxHeight(lines) / 2) ?? 0;
  return {
    laid,
    frame,
    perUnit,
    swings: cloud(spots, frame, options.tip),
    outline,
    window: windowOf(target),
    shared,
    foul: byLane.get("foul") ?? null,
    laneWords: words,
    overField: Math.max(0, Math.ceil(highest + below + 4 - frame.tall)),
  };
}

/** The scale at which the fence fits, and so does what came down not far past it. */
function scaleOf(
  field: PlayingField,
  { widest, deepest }: LaidField,
  places: readonly Place[],
  width: number,
): { frame: Frame; perUnit: number } {
  const reach = (size: number, of: (at: Place) => number): number =>
    Math.min(size * (1 + mostBeyond), Math.max(size, max(places, of) ?? 0));
  const sideward = reach(widest, ([x]) => Math.abs(x));
  const outward = reach(deepest, ([, y]) => y);
  const across = width - 2 * margin;
  const perUnit = Math.min(
    (across / 2 - edgeRoom) / sideward,
    tallest / outward,
    halfWithNumbers(field, across / 2) / widest,
  );
  const tall = Math.round(outward * perUnit + edgeRoom + below);
  const frame = {
    x: [-across / 2 / perUnit, across / 2 / perUnit],
    y: [-below / perUnit, tall / perUnit - below / perUnit],
    across,
    tall,
  } as const;
  return { frame, perUnit };
}

/** What the chart says: of the balls, of the lanes, of the window and of the outlined ball. */
function wordsOf(
  drawn: readonly SprayRow[],
  all: number,
  { swings, shared, foul, window }: View,
  options: SprayChartOptions,
): Omit<Words, "title"> {
  const { field, range = null } = options;
  const { distance } = measuresOf(options);
  const feet = (value: number): string => number(distance.from(value));
  const account = accountOf(drawn, all, "a landing point", swings);
  const carries = drawn.map((r) => r.carry_ft!);
  const points = count(drawn.length, "landing point");
  const fouls = foul === null ? "" : `Foul: ${sayShare(foul)}.`;
  return {
    subtitle: [points, ...flaggedWords(drawn)],
    key: [
      ...[...categoryCounts(drawn)]
        .filter(([, n]) => n > 0)
        .map(([name, n]) => ({ label: `${name} ${n}`, code: categoryCodes[name] })),
      ...fillKey(drawn),
    ],
    notes: [
      shared.length === 0
        ? ""
        : "At each lane's end: of 100 balls that came down, how many came there; the count; in brackets the 95% interval.",
      window === null ? "" : `Dashed: the target, ${window.words} off the bat.`,
      foul !== null && foul.n > 0 ? fouls : "",
      ...account.notes,
      range === null ? "" : `Outlined: ${range.label}.`,
      assumedFieldWords(field),
      options.basis === false ? "" : assumptions(drawn),
    ],
    description: [
      `${points} on the field ${field.name}, carry ${spanWords(carries, distance.say, feet)}.`,
      categorySentence(drawn),
      shared.length
        ? `By lane: ${shared.map((share) => `${share.lane} ${sayShare(share)}`).join("; ")}.`
        : "",
      fouls,
      ...account.sentences,
      window === null ? "" : `The target is ${window.words}.`,
      range
        ? `${range.label}: carry ${distance.say(range.carry_ft)} (${feet(range.carry_low_ft)} to ${feet(range.carry_high_ft)}); the ellipse is ${distance.say((2 * range.ellipse.long) / ft)} long and ${distance.say((2 * range.ellipse.short) / ft)} wide.`
        : "",
    ],
  };
}

/** The field, the balls on it, and what lies over both. */
function marksOf({ laid, swings, outline, window, laneWords, perUnit }: View): Plot.Markish[] {
  const { place, fenceAt } = laid;
  return [
    ...laid.under,
    laneEdges_deg.slice(1, -1).map((edge) =>
      Plot.link([edge], {
        x1: () => 0,
        y1: () => 0,
        x2: () => place(fenceAt(edge), edge)[0],
        y2: () => place(fenceAt(edge), edge)[1],
        stroke: line,
        strokeDasharray: "1 4",
        strokeLinecap: "round",
        ariaDescription: "edge of a lane",
      }),
    ),
    ...laid.over,
    ...swings.marks,
    ...(outline.length === 0
      ? []
      : [
          Plot.line(outline, {
            stroke: statement,
            strokeWidth: 1.8,
            strokeDasharray: "5 3",
            ariaDescription: "landing ellipse",
          }),
        ]),
    ...(window === null ? [] : wedge(window, laid)),
    ...laneMarks(laneWords, perUnit),
  ];
}

/** A landing point beyond the frame, drawn in toward home plate until only just outside: its bearing stays. */
function hold([x, y]: Place, frame: Frame): Place {
  const k = Math.max(1, x > 0 ? x / frame.x[1] : x / frame.x[0], y > 0 ? y / frame.y[1] : y / frame.y[0]);
  return k === 1 ? [x, y] : [(x / k) * 1.0001, (y / k) * 1.0001];
}

/** Said instead of a field where no ball came down. */
function nowhere(options: SprayChartOptions, rows: number, field: PlayingField): SVGSVGElement {
  const said =
    rows === 0
      ? "There are no swings to draw."
      : `No field is drawn: ${rows === 1 ? "the swing has" : `none of ${number(rows)} swings has`} a direction and a carry.`;
  return compose(options, {
    ...named,
    subtitle: ["0 landing points"],
    key: [],
    notes: [said],
    description: [`Landing points on the field ${field.name}: no swings to draw.`],
    plot: ({ top, bottom }) => ({
      height: top + bottom + 2,
      margin: 0,
      x: { domain: [0, 1], axis: null },
      y: { domain: [0, 1], axis: null },
      marks: [],
    }),
  });
}

/** The lines of a lane's words: the share of 100 alone, then the count and the interval, on two lines where it is narrow. */
function linesOf({ count, n, share, low, high }: LaneShare, narrow: boolean): string[] {
  const interval = low === null || high === null ? "" : `(${number(low * 100)}–${number(high * 100)})`;
  const counted = `${count} of ${n}`;
  const more = narrow ? [counted, interval] : [`${counted} ${interval}`.trim()];
  return [number(share! * 100), ...more.filter(Boolean)];
}

const ofHundred = " of 100";
/** Between the share and what it is a share of, px. */
const gapOf = 4;
const boxHeight = (lines: readonly string[]): number => laneLine.share + (lines.length - 1) * laneLine.more;
const boxWidth = ([share, ...more]: readonly string[]): number =>
  largest(
    more.map((text) => textWidth(text, fontSize.small)),
    textWidth(share!, fontSize.figure, true) + gapOf + textWidth(ofHundred, fontSize.small),
  );

/** The bearing of each lane's middle, °. */
const middles = laneEdges_deg.slice(0, -1).map((edge, i) => (edge + laneEdges_deg[i + 1]!) / 2);

/** How far words may stand beside their lane's line, px. */
const shifts = [0, 8, -8, 16, -16, 24, -24, 32, -32];

/** Each lane's words as near outside the fence as they touch nothing, px from home plate, y downward while they are laid. */
function layLaneWords(
  shares: readonly LaneShare[],
  {
    half,
    narrow,
    taken,
    end,
  }: {
    readonly half: number;
    readonly narrow: boolean;
    readonly taken: readonly Box[];
    readonly end: (bearing: number) => Place;
  },
): LaneWords[] {
  const standing: Box[] = [];
  const free: Box = { left: -half, right: half, top: -Infinity, bottom: Infinity };
  // From center outward: those at the sides have the most room to give.
  const order = [...shares].sort(
    (a, b) =>
      Math.abs(fairLanes.indexOf(a.lane as never) - 2) - Math.abs(fairLanes.indexOf(b.lane as never) - 2),
  );
  return order.map((share) => {
    const bearing = middles[fairLanes.indexOf(share.lane as (typeof fairLanes)[number])]!;
    const lines = linesOf(share, narrow);
    const [wide, high] = [boxWidth(lines), boxHeight(lines)];
    const [ex, ey] = end(bearing);
    const [sin, cos] = [Math.sin((bearing * Math.PI) / 180), Math.cos((bearing * Math.PI) / 180)];
    // Outward first; a little to the side where that keeps the words nearer. Center stays over center.
    const places = Array.from({ length: 120 }, (_, i) => 5 + i * 4)
      .flatMap((out) => (bearing === 0 ? [0] : shifts).map((shift) => ({ out, shift })))
      .sort((p, q) => p.out + Math.abs(p.shift) - q.out - Math.abs(q.shift))
      .map(({ out, shift }): Box => {
        const x = ex + sin * (out + wide / 2) + shift;
        const held = Math.max(-half + wide / 2, Math.min(half - wide / 2, x));
        const y = ey - cos * (out + high / 2);
        return { left: held - wide / 2, right: held + wide / 2, top: y - high / 2, bottom: y + high / 2 };
      });
    const box = firstFree(places, [...taken, ...standing], free) ?? places[0]!;
    standing.push(box);
    const [x, y] = middleOf(box);
    return { share, x, y, lines };
  });
}

/** A lane's words as marks: its share in bold with what it is a share of, its count and interval below. */
function laneMarks(words: readonly LaneWords[], perUnit: number): Plot.Markish[] {
  const first = ({ y, lines }: LaneWords): number => y - boxHeight(lines) / 2 + laneLine.share / 2;
  const wide = ({ lines: [share] }: LaneWords): number =>
    textWidth(share!, fontSize.figure, true) + gapOf + textWidth(ofHundred, fontSize.small);
  const style = { fill: ink, stroke: paper, strokeWidth: 4 } as const;
  return [
    Plot.text(words, {
      x: (w: LaneWords) => (w.x - wide(w) / 2) / perUnit,
      y: (w: LaneWords) => -first(w) / perUnit,
      text: (w: LaneWords) => w.lines[0]!,
      textAnchor: "start",
      fontSize: fontSize.figure,
      fontWeight: "bold",
      ...style,
      ariaDescription: "share of the lane",
    }),
    Plot.text(words, {
      x: (w: LaneWords) =>
        (w.x - wide(w) / 2 + textWidth(w.lines[0]!, fontSize.figure, true) + gapOf) / perUnit,
      y: (w: LaneWords) => -(first(w) + 2) / perUnit,
      text: () => ofHundred.trim(),
      textAnchor: "start",
      fontSize: fontSize.small,
      ...style,
      fill: faintInk,
      ariaDescription: "of 100",
    }),
    ...[1, 2].map((line) =>
      Plot.text(
        words.filter(({ lines }) => lines.length > line),
        {
          x: (w: LaneWords) => w.x / perUnit,
          y: (w: LaneWords) => -(first(w) + laneLine.share / 2 + (line - 0.5) * laneLine.more) / perUnit,
          text: (w: LaneWords) => w.lines[line]!,
          fontSize: fontSize.small,
          ...style,
          fill: faintInk,
          ariaDescription: line === 1 ? "count" : "interval",
        },
      ),
    ),
  ];
}

/** A window's ends on the field, °, and its words. */
interface SpokenWindow {
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

/** The window's ends and words; null where it has none. */
function windowOf(target: SprayWindow | null): SpokenWindow | null {
  if (target === null) return null;
  const { spray_angle_deg_low: low, spray_angle_deg_high: high } = target;
  if (low === null && high === null) return null;
  const words =
    low === null
      ? `spray up to ${number(high!)}°`
      : high === null
        ? `spray from ${number(low)}°`
        : `spray ${number(low)} to ${number(high)}°`;
  return { low: Math.max(-45, low ?? -45), high: Math.min(45, high ?? 45), words };
}

/** The window on the field: from home plate to the fence between its two directions. */
function wedge({ low, high }: SpokenWindow, { place, fenceAt }: LaidField): Plot.Markish[] {
  const steps = 24;
  const arc = Array.from({ length: steps + 1 }, (_, i) => {
    const bearing = low + ((high - low) * i) / steps;
    return place(fenceAt(bearing), bearing);
  });
  return [
    Plot.line([[0, 0], ...arc, [0, 0]], {
      stroke: targetColour,
      strokeWidth: 1.6,
      strokeDasharray: "6 3",
      ariaDescription: "target",
    }),
  ];
}
