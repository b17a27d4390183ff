/** How far each session's tracker looks turned and tilted, with its interval and its verdict. */
import * as Plot from "@observablehq/plot";
import type { SessionDrift } from "../setup/drift.ts";
import {
  axisBelow,
  compose,
  emptyFrame,
  laidOut,
  widthOf,
  type ChartOptions,
  type KeyEntry,
  type Words,
} from "./frame.ts";
import { listed } from "../swing/words.ts";
import { count, number, sayInterval, shorten } from "./text.ts";
import { faintInk, fontSize, hairline, ink, paper, phoneWidth, verdictCodes } from "./theme.ts";
import { largest } from "../swing/lists.ts";

/** What the chart shows of a session. */
export type ShiftRow = Pick<
  SessionDrift,
  "session" | "date" | "yaw_deg" | "tilt_deg" | "verdict" | "swings" | "hitters"
>;

export interface DriftShiftsOptions extends ChartOptions {
  /** Which of the two. */
  readonly axis: "yaw_deg" | "tilt_deg";
}

const names = {
  yaw_deg: { title: "Is a session turned?", axis: "turn, ° (right: toward right field)", word: "turned" },
  tilt_deg: { title: "Is a session tilted?", axis: "tilt, ° (right: up)", word: "tilted" },
} as const;

const rowHeight = 26;

/** One row a session, oldest first: the turn or the tilt that its shifts add up to, and its 95 % interval. */
export function driftShifts(rows: readonly ShiftRow[], options: DriftShiftsOptions): SVGSVGElement {
  const { axis } = options;
  const width = widthOf(options);
  const known = rows.filter((r) => r[axis].value !== null && r.verdict !== null);
  const left = known.length === 0 ? 8 : Math.min(width * 0.42, width < phoneWidth ? 140 : 190);
  const ends = known.flatMap((r) => [r[axis].low ?? r[axis].value!, r[axis].high ?? r[axis].value!]);
  const reach = largest(ends.map(Math.abs), 2) * 1.05;
  const lines = Math.max(3, known.length);
  return compose(options, {
    kind: "drift-shifts",
    ...wordsOf(known, axis),
    plot: (room) => ({
      ...laidOut({ left, right: known.length === 0 ? 8 : 14, top: 8, bottom: 48 }, lines * rowHeight, room),
      x: { domain: [-reach, reach], axis: null },
      y: { domain: [-0.5, lines - 0.5], reverse: true, axis: null },
      marks: known.length
        ? [
            Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 5 }),
            Plot.ruleX([0], { stroke: faintInk, strokeWidth: 1.2 }),
            ...sessionMarks(known, axis, left),
            ...axisBelow(names[axis].axis, 5),
          ]
        : emptyFrame("no sessions to compare"),
    }),
  });
}

type Axis = DriftShiftsOptions["axis"];

const said = (row: ShiftRow, axis: Axis): string =>
  `${names[axis].word} ${sayInterval(row[axis], (v) => `${number(v, 1)}°`)}`;

function wordsOf(known: readonly ShiftRow[], axis: Axis): Words {
  const { title } = names[axis];
  if (known.length === 0)
    return {
      title,
      subtitle: [],
      key: [],
      notes: ["That takes tee or flip work of two hitters, in two sessions at least."],
      description: ["There are no swings to draw from sessions that can be compared."],
    };
  const sessions = count(known.length, "session");
  const flagged = known.filter((r) => r.verdict !== "sound");
  const used = new Set(known.map((r) => r.verdict!));
  return {
    title,
    subtitle: [`${sessions} of tee and flip work, 95% intervals`],
    key: (Object.keys(verdictCodes) as (keyof typeof verdictCodes)[])
      .filter((v) => used.has(v))
      .map((v): KeyEntry => ({ label: v, code: verdictCodes[v] })),
    notes: ["The verdict is the whole session's, not this measure's alone."],
    description: [
      `${sessions}.`,
      flagged.length
        ? `${listed(flagged.map((r) => `${r.session}: ${r.verdict}, ${said(r, axis)}`))}.`
        : "None looks moved.",
    ],
  };
}

/** Each session's interval, its figure with its verdict, and its name. */
function sessionMarks(known: readonly ShiftRow[], axis: Axis, left: number): Plot.Markish[] {
  const y = (_: ShiftRow, i: number): number => i;
  const code = (r: ShiftRow) => verdictCodes[r.verdict!];
  return [
    Plot.ruleY(known, {
      y,
      x1: (r: ShiftRow) => r[axis].low ?? r[axis].value,
      x2: (r: ShiftRow) => r[axis].high ?? r[axis].value,
      stroke: (r: ShiftRow) => code(r).colour,
      strokeWidth: 2,
      ariaDescription: "95% intervals",
    }),
    Plot.dot(known, {
      x: (r: ShiftRow) => r[axis].value,
      y,
      r: 5,
      symbol: (r: ShiftRow) => code(r).shape,
      fill: (r: ShiftRow) => code(r).colour,
      stroke: paper,
      strokeWidth: 0.8,
      ariaDescription: "sessions",
      title: (r: ShiftRow) => `${r.session}: ${said(r, axis)}`,
    } as Plot.DotOptions),
    Plot.text(known, {
      y,
      frameAnchor: "left",
      dx: -left + 4,
      textAnchor: "start",
      fontSize: fontSize.label,
      fill: ink,
      text: (r: ShiftRow) => shorten(r.session, left - 12),
    }),
  ];
}
