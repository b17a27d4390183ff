/** How far each session's tracker looks turned and tilted, with its interval and its verdict. */
import * as Plot from "@observablehq/plot";
import type { SessionDrift } from "../setup/drift.ts";
import { axes, compose, emptyMark, widthOf, type ChartOptions, type KeyEntry } from "./frame.ts";
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
  const { title, axis: axisName, word } = names[axis];
  const width = widthOf(options);
  const known = rows.filter((r) => r[axis].value !== null && r.verdict !== null);
  const flagged = known.filter((r) => r.verdict !== "sound");
  const left = Math.min(width * 0.42, width < phoneWidth ? 140 : 190);
  const ends = known.flatMap((r) => [r[axis].low ?? r[axis].value!, r[axis].high ?? r[axis].value!]);
  const reach = largest(ends.map(Math.abs), 2) * 1.05;
  const used = [...new Set(known.map((r) => r.verdict!))];
  return compose(options, {
    kind: "drift-shifts",
    title,
    subtitle: known.length ? [`${count(known.length, "session")} of tee and flip work, 95% intervals`] : [],
    key: (Object.keys(verdictCodes) as (keyof typeof verdictCodes)[])
      .filter((v) => used.includes(v))
      .map((v): KeyEntry => ({ label: v, code: verdictCodes[v] })),
    notes: [
      known.length
        ? "The verdict is the whole session's, not this measure's alone."
        : "That takes tee or flip work of two hitters, in two sessions at least.",
    ],
    description: known.length
      ? [
          `${count(known.length, "session")}.`,
          flagged.length
            ? `${listed(flagged.map((r) => `${r.session}: ${r.verdict}, ${word} ${sayInterval(r[axis], (v) => `${number(v, 1)}°`)}`))}.`
            : "None looks moved.",
        ]
      : ["There are no swings to draw from sessions that can be compared."],
    plot: ({ top, bottom }) => ({
      height: top + Math.max(3, known.length) * rowHeight + 56 + bottom,
      marginTop: top + 8,
      marginBottom: 48 + bottom,
      marginLeft: left,
      marginRight: 14,
      x: { domain: [-reach, reach], axis: null },
      y: { domain: [-0.5, Math.max(3, known.length) - 0.5], reverse: true, axis: null },
      marks: known.length
        ? [
            Plot.gridX({ stroke: hairline, strokeOpacity: 1, ticks: 5 }),
            Plot.ruleX([0], { stroke: faintInk, strokeWidth: 1.2 }),
            Plot.ruleY(known, {
              y: (_: ShiftRow, i: number) => i,
              x1: (r: ShiftRow) => r[axis].low ?? r[axis].value,
              x2: (r: ShiftRow) => r[axis].high ?? r[axis].value,
              stroke: (r: ShiftRow) => verdictCodes[r.verdict!].colour,
              strokeWidth: 2,
              ariaDescription: "95% intervals",
            }),
            Plot.dot(known, {
              x: (r: ShiftRow) => r[axis].value,
              y: (_: ShiftRow, i: number) => i,
              r: 5,
              symbol: (r: ShiftRow) => verdictCodes[r.verdict!].shape,
              fill: (r: ShiftRow) => verdictCodes[r.verdict!].colour,
              stroke: paper,
              strokeWidth: 0.8,
              ariaDescription: "sessions",
              title: (r: ShiftRow) =>
                `${r.session}: ${word} ${sayInterval(r[axis], (v) => `${number(v, 1)}°`)}`,
            } as Plot.DotOptions),
            Plot.text(known, {
              y: (_: ShiftRow, i: number) => i,
              frameAnchor: "left",
              dx: -left + 4,
              textAnchor: "start",
              fontSize: fontSize.label,
              fill: ink,
              text: (r: ShiftRow) => shorten(r.session, left - 12),
            }),
            ...axes({ x: axisName, y: "" }, left, { x: 5 }).filter((_, i) => i === 0 || i === 2),
          ]
        : [emptyMark("no sessions to compare")],
    }),
  });
}
