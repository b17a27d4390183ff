/** One session from swing to swing: exit velocity and power kept by the swing's number, rests marked. */
import * as Plot from "@observablehq/plot";
import type { WithinLine } from "../season/withinSession.ts";
import { largest, smallest } from "../swing/lists.ts";
import type { UnitName } from "../units/index.ts";
import { shownNumber, signAfter } from "../units/system.ts";
import {
  compose,
  emptyFrame,
  laidOut,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  type Words,
} from "./frame.ts";
import { bandedLine, panelGrid, panelHeads, panelsFloor, placePanel } from "./panels.ts";
import { circle } from "./shapes.ts";
import { count, number } from "./text.ts";
import { faintInk, fontSize, ink, paper, phoneWidth } from "./theme.ts";

/** One measure of the session. */
export interface SwingPanel {
  readonly name: string;
  readonly unit: UnitName;
  /** What all of the hitter's sessions come to, in words. */
  readonly said: string;
  /** Each swing's number in the session, from 1 on, and its value. */
  readonly swings: readonly { readonly number: number; readonly value: number }[];
  /** The slope of all sessions together, for each ten swings more. */
  readonly slope: Pick<WithinLine, "value" | "low" | "high" | "stands">;
}

/** The session that is drawn. */
export interface SessionDrawn {
  /** Its name, and the work that is drawn: "off the tee". */
  readonly session: string;
  readonly work: string;
  /** Its swings, those of other work too. */
  readonly all: number;
  readonly rests: readonly { readonly after: number; readonly minutes: number }[];
}

const panel = { tall: 104, head: 22, gap: 14 } as const;
const margin = { left: 44, right: 12, top: 4, bottom: 44 };
/** Swings that a slope is given for. */
const perSlope = 10;

/**
 * Panels one below the other over the same swings: a point a swing, a dashed upright where the hitter rested, and the slope
 * of all sessions together through the middle of this one, between the ends of its interval.
 * @param panels those without a swing are left out
 */
export function withinSession(
  panels: readonly SwingPanel[],
  session: SessionDrawn,
  options: ChartOptions = {},
): SVGSVGElement {
  const shown = panels.filter(({ swings }) => swings.length > 0);
  const laid = laySession(shown, session, options);
  return compose(options, {
    kind: "within-session",
    ...wordsOf(laid, session),
    plot: (room) => ({
      ...laidOut(margin, laid.tall, room),
      x: { domain: laid.edges, axis: null },
      y: { domain: [laid.tall, 0], axis: null },
      marks: shown.length
        ? [
            ...laid.panels.flatMap((l) => [
              ...panelGrid(l, laid.edges[0], l.unit),
              ...restMarks(l, session),
              ...slopeMarks(l),
              swingMark(l),
            ]),
            ...panelHeads(laid.panels, laid.edges, ({ name, said }) => `${name}: ${said}`, {
              head: panel.head,
              left: margin.left,
              width: widthOf(options),
            }),
            ...axisMarks(laid),
          ]
        : emptyFrame("no swings to draw"),
    }),
  });
}

function wordsOf({ panels }: Laid, { session, work, all, rests }: SessionDrawn): Words {
  const title = "From swing to swing";
  if (panels.length === 0)
    return { title, subtitle: [], key: [], notes: [], description: ["There is no session to draw."] };
  const drawn = largest(panels.map(({ swings }) => swings.length));
  const rested = rests.map(({ after, minutes }) => `${number(minutes)} min after swing ${after}`).join(", ");
  return {
    title,
    subtitle: [`${session}, ${work}`, `figures: for each ${perSlope} swings more`],
    key: [
      { label: "a swing", code: { colour: ink, shape: circle } },
      ...(rests.length > 0 ? [{ label: "┆ a rest" } satisfies KeyEntry] : []),
    ],
    notes: [
      "Line: the slope of all sessions together, through the middle of this one, with its 95% interval; solid where it stands, dashed where it could be chance.",
      ...(all > drawn
        ? [`${count(all - drawn, "swing")} of other work, or without a value, not drawn.`]
        : []),
    ],
    description: [
      `${session}, ${work}: ${count(all, "swing")}.`,
      rested === "" ? "" : `Rests: ${rested}.`,
      ...panels.map(({ name, said, swings, turn, sign }) => {
        const [first, last] = [swings[0]!, swings.at(-1)!];
        const say = (v: number): string => `${number(turn(v))}${sign}`;
        return `${name}, ${count(swings.length, "swing")} from ${say(first.value)} at swing ${first.number} to ${say(last.value)} at swing ${last.number}; ${said}.`;
      }),
    ],
  };
}

/** Swings to the right, px downward; each panel on a scale of its own. */
function laySession(shown: readonly SwingPanel[], { all }: SessionDrawn, options: ChartOptions) {
  const last = Math.max(2, all);
  const floor = panelsFloor(shown.length, panel);
  const step = [5, 10, 20, 50, 100].find((s) => last / s <= (widthOf(options) < phoneWidth ? 6 : 10)) ?? 200;
  return {
    panels: shown.map((one, i) => layPanel(one, i, options)),
    edges: [1 - last * 0.03, last * 1.03] as [number, number],
    ticks: [1, ...Array.from({ length: Math.floor(last / step) }, (_, i) => (i + 1) * step)],
    floor,
    tall: Math.max(floor, 90),
  };
}

type Laid = ReturnType<typeof laySession>;

function layPanel(one: SwingPanel, i: number, options: ChartOptions) {
  const system = options.units ?? "us";
  const turn = (v: number): number => shownNumber(v, one.unit, system);
  const values = one.swings.map(({ value }) => turn(value));
  const [least, most] = [smallest(values), largest(values)];
  const extent = Math.max(1e-6, most - least) * 1.16;
  const from = (least + most - extent) / 2;
  const placed = placePanel(i, panel, { from, extent }, 0.4);
  return {
    ...one,
    ...placed,
    turn,
    y: (v: number): number => placed.yOf(turn(v)),
    sign: signAfter(one.unit, system),
  };
}

type LaidPanel = Laid["panels"][number];

/** An upright where the hitter rested, with how long. */
const restMarks = ({ top, foot }: LaidPanel, { rests }: SessionDrawn): Plot.Markish[] => [
  Plot.link(rests, {
    x1: (r: { after: number }) => r.after + 0.5,
    x2: (r: { after: number }) => r.after + 0.5,
    y1: () => top,
    y2: () => foot,
    stroke: faintInk,
    strokeDasharray: "3 3",
    ariaDescription: "rests",
  }),
  Plot.text(rests, {
    x: (r: { after: number }) => r.after + 0.5,
    y: () => top,
    dx: 3,
    dy: 6,
    textAnchor: "start",
    text: (r: { minutes: number }) => `${number(r.minutes)} min`,
    fontSize: fontSize.small,
    fill: faintInk,
    stroke: paper,
    strokeWidth: 3,
    ariaDescription: "rests",
  }),
];

/** The slope through the session's middle, and the wings between the ends of its interval, held inside the panel. */
function slopeMarks({ swings, slope, y, top, foot }: LaidPanel): Plot.Markish[] {
  const { value, low, high, stands } = slope;
  if (value === null || low === null || high === null || swings.length < 2) return [];
  const mean = (of: (s: { number: number; value: number }) => number): number =>
    swings.reduce((sum, s) => sum + of(s), 0) / swings.length;
  const middle = { number: mean((s) => s.number), value: mean((s) => s.value) };
  const ends = [swings[0]!.number, swings.at(-1)!.number];
  const at = (n: number, per: number): number =>
    Math.max(top, Math.min(foot, y(middle.value + (per / perSlope) * (n - middle.number))));
  const points = {
    band: [ends[0]!, middle.number, ends[1]!],
    line: ends,
    x: (n: number) => n,
    low: (n: number) => at(n, low),
    high: (n: number) => at(n, high),
    y: (n: number) => at(n, value),
  };
  return bandedLine(points, stands, "slope");
}

const swingMark = ({ swings, y, turn, sign }: LaidPanel): Plot.Markish =>
  Plot.dot(swings, {
    x: "number",
    y: (s: { value: number }) => y(s.value),
    symbol: circle,
    r: 3,
    fill: ink,
    stroke: paper,
    strokeWidth: 0.8,
    title: (s: { number: number; value: number }) => `swing ${s.number}: ${number(turn(s.value), 1)}${sign}`,
    ariaDescription: "swings",
  } as Plot.DotOptions);

const axisMarks = ({ ticks, edges, floor }: Laid): Plot.Markish[] => [
  Plot.text(ticks, {
    x: (n: number) => n,
    y: () => floor,
    dy: 12,
    text: (n: number) => number(n),
    fontSize: fontSize.label,
    fill: ink,
    ariaDescription: "x axis",
  }),
  Plot.text(["Swing of the session"], {
    x: () => (edges[0] + edges[1]) / 2,
    y: () => floor,
    dy: 30,
    fontSize: fontSize.label,
    fill: ink,
    ariaDescription: "x axis",
  }),
];
