/** Launch angle against exit velocity, over the ground that the flight model lays: categories and carry. */
import * as Plot from "@observablehq/plot";
import { contours, max, min, type ContourMultiPolygon } from "d3";
import { assumedFieldWords, type PlayingField } from "../field/fields.ts";
import type { Category, Target } from "../swing/fields.ts";
import { accountOf } from "./account.ts";
import {
  axes,
  compose,
  emptyMark,
  laidOut,
  measuresOf,
  widthOf,
  type ChartOptions,
  type Words,
} from "./frame.ts";
import {
  assumptions,
  categoryCounts,
  categorySentence,
  cloud,
  fillKey,
  flaggedWords,
  spotOf,
  type Frame,
  type CarryBasis,
  type Cloud,
  type SpokenSwing,
  type Spot,
} from "./swings.ts";
import { categoryCodes, faintInk, fontSize, ink, line, markRadius, paper, phoneWidth } from "./theme.ts";
import { firstFree, markBox, textBox } from "./labels.ts";
import { targetMarks } from "./targetMarks.ts";
import { regionsOf, type Regions } from "./regions.ts";
import { count, number, shorten, spanWords, textWidth } from "./text.ts";

/** The contact surface as `src/contact/surface.ts` computes it: row-major by exit velocity. */
export interface Surface {
  /** The field that the categories are by. */
  readonly field: Pick<PlayingField, "name" | "assumed">;
  readonly launchAngles_deg: readonly number[];
  readonly exitVelocities_mph: readonly number[];
  readonly carry_ft: ArrayLike<number>;
  readonly category: readonly Category[];
}

export type ContactMapRow = SpokenSwing & CarryBasis;

/** The window of a drill, in the measures this chart has. Null ends are open. */
export type ContactWindow = Pick<
  Target,
  "exit_velocity_mph_low" | "exit_velocity_mph_high" | "launch_angle_deg_low" | "launch_angle_deg_high"
>;

export interface ContactMapOptions extends ChartOptions {
  readonly surface: Surface;
  /** The window of a drill, and what it is called where there is more than one drill. */
  readonly target?: ContactWindow | null;
  readonly targetName?: string | undefined;
}

/**
 * Each swing at its exit velocity (across) and launch angle (up), its category as colour and shape. Behind them
 * the category regions, and lines of equal carry, both from the surface.
 * @param rows swings; those without exit velocity or launch angle are left out and counted
 */
export function contactMap(rows: readonly ContactMapRow[], options: ContactMapOptions): SVGSVGElement {
  const drawn = rows.filter(isPlaced);
  const view = lay(drawn, options);
  const { frame } = view;
  return compose(options, {
    kind: "contact-map",
    balls: drawn,
    ...wordsOf(drawn, rows.length, view, options),
    plot: (room) => ({
      ...laidOut(margin, frame.tall, room),
      x: { domain: [...frame.x], label: null },
      y: { domain: [...frame.y], label: null },
      marks: [
        ...groundMarks(view),
        ...frameMarks(options),
        ...targetOf(view, options),
        ...carryNumbers(view.carryLines, measuresOf(options).distance.unit),
        ...view.swings.marks,
        ...regionNames(view.labels),
        ...(drawn.length ? [] : [emptyMark()]),
      ],
    }),
  });
}

/** A swing that has a place on the map. */
type PlacedRow = ContactMapRow & { readonly exit_velocity_mph: number; readonly launch_angle_deg: number };
const isPlaced = (row: ContactMapRow): row is PlacedRow =>
  row.exit_velocity_mph !== null && row.launch_angle_deg !== null;

/** All that stands in the picture, in the scales' units. */
interface View {
  readonly frame: Frame;
  readonly ground: Ground;
  readonly carryLines: readonly CarryLine[];
  readonly swings: Cloud;
  /** Each category's name with its count; and those of them that find room in their region. */
  readonly named: readonly { readonly name: Category; readonly text: string; readonly n: number }[];
  readonly labels: readonly Label[];
  readonly window: ReturnType<typeof windowOf>;
}

const margin = { left: 40, right: 14, top: 22, bottom: 40 };
const isPhone = (options: ChartOptions): boolean => widthOf(options) < phoneWidth;

/** Lays the picture out: the ground to the speeds and angles there are, and names where they hide nothing. */
function lay(drawn: readonly PlacedRow[], options: ContactMapOptions): View {
  const { surface, target = null, units } = options;
  const { speed, distance } = measuresOf(options);
  const frame = frameOf(drawn, options);
  const spots = drawn.map((row) =>
    spotOf(row, [speed.from(row.exit_velocity_mph), row.launch_angle_deg], units),
  );
  const ground = new Ground(surface, speed.from, frame);
  const carryLines = ground
    .carryLines(units === "metric" ? [30, 60, 90, 120] : [100, 200, 300, 400], distance.from)
    .map((one) => clearOfSwings(one, distance.unit, spots, frame));
  const named = [...categoryCounts(drawn)].map(([name, n]) => ({ name, n, text: `${name} · ${n}` }));
  return {
    frame,
    ground,
    carryLines,
    swings: cloud(spots, frame, options.tip),
    named,
    labels: ground.labels(named, crowdOf(spots, carryLines, frame)),
    window: target === null ? null : windowOf(target, speed.from, frame),
  };
}

/** The speeds and angles shown, and the room for them. */
function frameOf(drawn: readonly PlacedRow[], options: ContactMapOptions): Frame {
  const { speed } = measuresOf(options);
  const angles = drawn.map((r) => r.launch_angle_deg);
  const [slow, fast] = speedSpan(drawn.map((r) => r.exit_velocity_mph));
  const across = widthOf(options) - margin.left - margin.right;
  return {
    x: [speed.from(slow), speed.from(fast)],
    y: [reach(min(angles), -19, -50, 10), reach(max(angles), 59, 80, 10)],
    across,
    tall: isPhone(options) ? 300 : Math.min(460, Math.round(across * 0.62)),
  };
}

/** What the chart says: how many of what, from where to where, and what its lines rest on. */
function wordsOf(
  drawn: readonly PlacedRow[],
  all: number,
  { swings, named, labels, window }: View,
  options: ContactMapOptions,
): Words {
  const { speed } = measuresOf(options);
  const account = accountOf(drawn, all, "exit velocity or launch angle", swings);
  const swingCount = count(drawn.length, "swing");
  const speeds = (): string =>
    spanWords(
      drawn.map((r) => r.exit_velocity_mph),
      speed.say,
      (v) => number(speed.from(v)),
    );
  const angles = (): string =>
    spanWords(
      drawn.map((r) => r.launch_angle_deg),
      (v) => `${number(v)}°`,
    );
  return {
    title: "Contact map: how hard, how high",
    subtitle: [`${swingCount} in play`, ...flaggedWords(drawn)],
    // A region too full of swings, or out of the frame, is named above instead.
    key: [
      ...named
        .filter(({ name, n }) => n > 0 && !labels.some((l) => l.name === name))
        .map(({ name, text }) => ({ label: text, code: categoryCodes[name] })),
      ...fillKey(drawn),
    ],
    notes: [
      "Lines of equal carry are for the estimated spin, straight to center field.",
      ...account.notes,
      assumedFieldWords(options.surface.field),
      options.basis === false ? "" : assumptions(drawn),
    ],
    description: [
      `Exit velocity against launch angle${drawn.length ? ` for ${swingCount}: ${speeds()}, ${angles()}` : ": no swings to draw"}.`,
      categorySentence(drawn),
      ...account.sentences,
      window ? `The target is ${window.words}.` : "",
    ],
  };
}

/** The regions of the categories with their borders, and the lines of equal carry. */
const groundMarks = ({ ground, carryLines }: View): Plot.Markish[] => [
  ground.regions().map(({ name, shape }) =>
    Plot.geo([shape], {
      fill: categoryCodes[name].colour,
      fillOpacity: 0.11,
      clip: "frame",
      ariaDescription: name,
    }),
  ),
  Plot.geo([ground.borders()], {
    stroke: line,
    clip: "frame",
    ariaDescription: "borders of the categories",
  }),
  carryLines.map(({ shape }) =>
    Plot.geo([shape], {
      stroke: faintInk,
      strokeOpacity: 0.7,
      strokeDasharray: "1.5 3",
      strokeLinecap: "round",
      clip: "frame",
      ariaDescription: "carry",
    }),
  ),
];

/** Both axes, the level, and the frame's own line. */
const frameMarks = (options: ContactMapOptions): Plot.Markish[] => [
  ...axes({ x: `Exit velocity (${measuresOf(options).speed.unit})`, y: "Launch angle (°)" }, margin.left, {
    x: isPhone(options) ? 5 : 8,
  }),
  Plot.ruleY([0], { stroke: line }),
  Plot.frame({ stroke: line }),
];

/** The drill's window under its name. */
const targetOf = ({ window, frame }: View, { targetName = "target" }: ContactMapOptions): Plot.Markish[] =>
  window === null
    ? []
    : targetMarks(
        window,
        { x: "x2", textAnchor: "end", lineAnchor: "top", dx: -4, dy: 4 },
        shorten(targetName, 0.6 * frame.across, fontSize.label, true),
      );

/** Each line's carry, where it turns back. */
const carryNumbers = (lines: readonly CarryLine[], unit: string): Plot.Markish[] => [
  Plot.text(
    lines.filter((l) => l.tip !== null),
    {
      x: (l: CarryLine) => l.tip![0],
      y: (l: CarryLine) => l.tip![1],
      text: (l: CarryLine) => `${l.value} ${unit}`,
      fill: faintInk,
      stroke: paper,
      strokeWidth: 4,
      fontSize: fontSize.small,
    },
  ),
];

/** The names of the regions, each with its mark. */
const regionNames = (labels: readonly Label[]): Plot.Markish[] => [
  Plot.dot(labels, {
    x: "x",
    y: "y",
    dx: 0,
    symbol: (l: Label) => categoryCodes[l.name].shape,
    r: 5,
    fill: (l: Label) => categoryCodes[l.name].colour,
    stroke: paper,
    strokeWidth: 1,
  } as Plot.DotOptions),
  Plot.text(labels, {
    x: "x",
    y: "y",
    dx: 9,
    text: "text",
    textAnchor: "start",
    fill: ink,
    stroke: paper,
    strokeWidth: 4,
    fontWeight: "bold",
  }),
];

/** Where a speed and an angle stand, px from the frame's upper left corner. */
const pxIn =
  ({ x, y, across, tall }: Frame) =>
  ([speed, angle]: readonly number[]): [number, number] => [
    ((speed! - x[0]) / (x[1] - x[0])) * across,
    ((y[1] - angle!) / (y[1] - y[0])) * tall,
  ];

/** A line of equal carry, its number where the line turns back, or as near to that as no swing hides it. */
function clearOfSwings(one: CarryLine, unit: string, spots: readonly Spot[], frame: Frame): CarryLine {
  const { across, tall } = frame;
  const px = pxIn(frame);
  if (one.tip === null) return one;
  const tip = px(one.tip);
  const near = one.shape.coordinates
    .flat()
    .map((at) => ({ at, far: Math.hypot(px(at)[0] - tip[0], px(at)[1] - tip[1]) }))
    .sort((a, b) => a.far - b.far);
  const boxes = near.map(({ at }) => textBox(`${one.value} ${unit}`, fontSize.small, px(at)));
  const inside = { left: 4, right: across - 4, top: 4, bottom: tall - 4 };
  const taken = spots.map((spot) => markBox(px([spot.x, spot.y]), markRadius));
  const free = firstFree(boxes, taken, inside);
  const at = free === null ? one.tip : near[boxes.indexOf(free)]!.at;
  return { ...one, tip: [at[0]!, at[1]!] };
}

function crowdOf(spots: readonly Spot[], lines: readonly CarryLine[], frame: Frame): Crowd {
  const { across, tall } = frame;
  const place = pxIn(frame);
  const crowd = new Crowd(across, tall);
  const at = (px: number, py: number, halfWide: number, halfHigh: number): void => {
    const [cx, cy] = place([px, py]);
    crowd.add(cx - halfWide, cy - halfHigh, cx + halfWide, cy + halfHigh);
  };
  for (const spot of spots) at(spot.x, spot.y, 5, 5);
  for (const { tip } of lines) if (tip !== null) at(tip[0], tip[1], 22, 8);
  // Where there are no swings, that is said in the middle.
  if (spots.length === 0) crowd.add(across / 2 - 80, tall / 2 - 12, across / 2 + 80, tall / 2 + 12);
  return crowd;
}

/**
 * The speeds shown, mph: those there are, to round numbers, 40 mph at least. A freak is drawn at the frame's edge
 * rather than squeezing all the others.
 */
function speedSpan(velocities: readonly number[]): readonly [number, number] {
  if (velocities.length === 0) return [60, 100];
  const high = Math.min(120, Math.ceil((max(velocities)! + 1) / 5) * 5);
  const low = Math.max(20, Math.floor((min(velocities)! - 1) / 10) * 10);
  return [Math.max(20, Math.min(low, high - 40)), Math.max(high, 60)];
}

/** The frame's end: round, at least as far as `usual`, at most as far as `most`. */
function reach(far: number | undefined, usual: number, most: number, step: number): number {
  const end = far ?? usual;
  return usual > most
    ? Math.max(most, Math.floor((Math.min(end, usual) - 1) / step) * step)
    : Math.min(most, Math.ceil((Math.max(end, usual) + 1) / step) * step);
}

function windowOf(target: ContactWindow, speed: (mph: number) => number, frame: Frame) {
  const {
    exit_velocity_mph_low: v1,
    exit_velocity_mph_high: v2,
    launch_angle_deg_low: a1,
    launch_angle_deg_high: a2,
  } = target;
  if (v1 === null && v2 === null && a1 === null && a2 === null) return null;
  const ends = (low: number | null, high: number | null, unit: string, say: string) =>
    low === null && high === null
      ? null
      : low === null
        ? `${say} up to ${number(high!)}${unit}`
        : high === null
          ? `${say} from ${number(low)}${unit}`
          : `${say} ${number(low)} to ${number(high)}${unit}`;
  const [s1, s2] = [v1 === null ? null : speed(v1), v2 === null ? null : speed(v2)];
  return {
    x1: s1 ?? frame.x[0],
    x2: s2 ?? frame.x[1],
    y1: a1 ?? frame.y[0],
    y2: a2 ?? frame.y[1],
    words: [ends(s1, s2, "", "exit velocity"), ends(a1, a2, "°", "launch angle")].filter(Boolean).join(", "),
  };
}

interface CarryLine {
  readonly value: number;
  readonly shape: { type: "MultiLineString"; coordinates: number[][][] };
  readonly tip: readonly [number, number] | null;
}

interface Label {
  readonly name: Category;
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

/** The surface in the chart's units, as regions and lines. */
class Ground {
  readonly #columns: number;
  readonly #rows: number;
  readonly #angles: readonly number[];
  readonly #speeds: readonly number[];
  readonly #regions: Regions<Category>;

  constructor(
    readonly surface: Surface,
    speed: (mph: number) => number,
    readonly frame: Frame,
  ) {
    this.#angles = surface.launchAngles_deg;
    this.#speeds = surface.exitVelocities_mph.map(speed);
    this.#columns = this.#angles.length;
    this.#rows = this.#speeds.length;
    this.#regions = regionsOf(surface.category, this.#columns);
  }

  /** Contours come in grid steps, a node at the middle of its square. */
  #place = ([i, j]: readonly number[]): [number, number] => [
    along(this.#speeds, j! - 0.5),
    along(this.#angles, i! - 0.5),
  ];

  #contour(values: ArrayLike<number>, at: number): ContourMultiPolygon {
    return contours().size([this.#columns, this.#rows]).thresholds([at])(Array.from(values))[0]!;
  }

  /** Only what runs through the grid: a contour's polygon also closes along the grid's edge. */
  #lines(polygons: ContourMultiPolygon): { type: "MultiLineString"; coordinates: number[][][] } {
    const onEdge = ([i, j]: readonly number[]): boolean =>
      i! <= 0.5 || j! <= 0.5 || i! >= this.#columns - 0.5 || j! >= this.#rows - 0.5;
    const coordinates: number[][][] = [];
    for (const ring of polygons.coordinates.flat()) {
      let open: number[][] = [];
      for (const point of ring) {
        if (open.length && onEdge(point) && onEdge(open.at(-1)!)) {
          if (open.length > 1) coordinates.push(open);
          open = [];
        }
        open.push(point);
      }
      if (open.length > 1) coordinates.push(open);
    }
    return { type: "MultiLineString", coordinates: coordinates.map((l) => l.map(this.#place)) };
  }

  regions(): { name: Category; shape: { type: "Polygon"; coordinates: number[][][] } }[] {
    return [...this.#regions.rings].map(([name, rings]) => ({
      name,
      shape: { type: "Polygon", coordinates: rings.map((ring) => ring.map(this.#place)) },
    }));
  }

  borders(): { type: "MultiLineString"; coordinates: number[][][] } {
    return { type: "MultiLineString", coordinates: this.#regions.borders.map((l) => l.map(this.#place)) };
  }

  carryLines(levels: readonly number[], distance: (ft: number) => number): CarryLine[] {
    const carry = Array.from(this.surface.carry_ft, distance);
    const { x, y, across } = this.frame;
    return levels.map((value) => {
      const shape = this.#lines(this.#contour(carry, value));
      // The label stands where the least speed reaches this carry: the line turns back there.
      let tip: [number, number] | null = null;
      const room = (26 / across) * (x[1] - x[0]);
      for (const [px, py] of shape.coordinates.flat() as [number, number][])
        if (px >= x[0] + room && px <= x[1] - room && py > y[0] && py < y[1] && (tip === null || px < tip[0]))
          tip = [px, py];
      return { value, shape, tip };
    });
  }

  /** Each region's name where it fits inside the region and hides nothing; none where there is no such place. */
  labels(names: View["named"], crowd: Crowd): Label[] {
    const { x, y, across, tall } = this.frame;
    const [perX, perY] = [across / (x[1] - x[0]), tall / (y[1] - y[0])];
    const at = (px: number, py: number): Category | undefined => {
      const i = nearest(this.#angles, y[1] - py / perY);
      const j = nearest(this.#speeds, x[0] + px / perX);
      return i === null || j === null ? undefined : this.surface.category[j * this.#columns + i];
    };
    return names.flatMap(({ name, text }) => {
      const [wide, high] = [textWidth(text, fontSize.label, true) + 16, 18];
      let best: { cost: number; left: number; top: number } | null = null;
      for (let top = 3; top + high <= tall - 2; top += 4)
        for (let left = 3; left + wide <= across - 2; left += 4) {
          // Asked first, being the quicker question: many swings leave few places.
          if (crowd.within(left, top, left + wide, top + high) > 1e-9) continue;
          let outside = 0;
          for (const fx of [0, 0.25, 0.5, 0.75, 1])
            for (const fy of [0, 0.5, 1]) if (at(left + fx * wide, top + fy * high) !== name) outside++;
          if (outside > 3) continue;
          // Far from the middle height, where swings are to be expected, and to the right.
          const central = Math.abs(top + high / 2 - tall / 2) / tall;
          const cost = outside * 2 - central * 0.5 + (across - left - wide) * 1e-4;
          if (best === null || cost < best.cost - 1e-9) best = { cost, left, top };
        }
      if (best === null) return [];
      const { left, top } = best as { left: number; top: number };
      crowd.add(left, top, left + wide, top + high);
      return [{ name, text, x: x[0] + (left + 6) / perX, y: y[1] - (top + high / 2) / perY }];
    });
  }
}

/** What already stands where, on a grid of small squares, so that a label finds room however many swings there are. */
class Crowd {
  static readonly #side = 4;
  readonly #columns: number;
  readonly #rows: number;
  readonly #weights: Float64Array;
  #sums: Float64Array | null = null;

  constructor(across: number, tall: number) {
    this.#columns = Math.ceil(across / Crowd.#side) + 1;
    this.#rows = Math.ceil(tall / Crowd.#side) + 1;
    this.#weights = new Float64Array(this.#columns * this.#rows);
  }

  /** A box, px from the frame's upper left corner. A swing is a small one. */
  add(left: number, top: number, right: number, bottom: number): void {
    const [i1, j1, i2, j2] = this.#squares(left, top, right, bottom);
    const each = 1 / ((i2 - i1 + 1) * (j2 - j1 + 1));
    // A wide thing weighs by its size: hiding half of a label is as bad as hiding several swings.
    const weight = each * Math.max(1, ((right - left) * (bottom - top)) / 80);
    for (let j = j1; j <= j2; j++)
      for (let i = i1; i <= i2; i++) this.#weights[j * this.#columns + i]! += weight;
    this.#sums = null;
  }

  /** The weight of all that stands in a box. */
  within(left: number, top: number, right: number, bottom: number): number {
    this.#sums ??= this.#sum();
    const [i1, j1, i2, j2] = this.#squares(left, top, right, bottom);
    const wide = this.#columns + 1;
    const s = this.#sums;
    return (
      s[(j2 + 1) * wide + i2 + 1]! - s[j1 * wide + i2 + 1]! - s[(j2 + 1) * wide + i1]! + s[j1 * wide + i1]!
    );
  }

  #squares(left: number, top: number, right: number, bottom: number): [number, number, number, number] {
    const hold = (v: number, end: number): number =>
      Math.max(0, Math.min(end - 1, Math.floor(v / Crowd.#side)));
    return [
      hold(left, this.#columns),
      hold(top, this.#rows),
      hold(right, this.#columns),
      hold(bottom, this.#rows),
    ];
  }

  #sum(): Float64Array {
    const wide = this.#columns + 1;
    const sums = new Float64Array(wide * (this.#rows + 1));
    for (let j = 0; j < this.#rows; j++)
      for (let i = 0; i < this.#columns; i++)
        sums[(j + 1) * wide + i + 1] =
          this.#weights[j * this.#columns + i]! +
          sums[j * wide + i + 1]! +
          sums[(j + 1) * wide + i]! -
          sums[j * wide + i]!;
    return sums;
  }
}

/** The value at a fractional index; the ends hold beyond them. */
function along(values: readonly number[], index: number): number {
  const held = Math.max(0, Math.min(values.length - 1, index));
  const below = Math.floor(held);
  const value = values[below]!;
  return value + (held - below) * ((values[below + 1] ?? value) - value);
}

/** Index of the nearest grid value, or null outside the grid. */
function nearest(values: readonly number[], value: number): number | null {
  if (!(value >= values[0]! && value <= values.at(-1)!)) return null;
  let [low, high] = [0, values.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle]! <= value) low = middle;
    else high = middle;
  }
  return value - values[low]! <= values[high]! - value ? low : high;
}
