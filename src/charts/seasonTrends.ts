/** A measure over the sessions of a season, a panel for each kind of work: sessions with their intervals, and the line. */
import * as Plot from "@observablehq/plot";
import type { TrendLine } from "../season/progress.ts";
import { largest, smallest } from "../swing/lists.ts";
import { capital } from "../swing/words.ts";
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
import { circle, diamond, square, type Shape } from "./shapes.ts";
import { count, number } from "./text.ts";
import { fontSize, hairline, ink, paper, phoneWidth } from "./theme.ts";

/** One panel. */
export interface SeasonPanel {
  readonly line: TrendLine;
  /** What the line comes to, in words. */
  readonly said: string;
  /** What is usual, as a band behind the sessions: a level's. */
  readonly band?: { readonly low: number; readonly high: number; readonly label: string } | null | undefined;
}

const shapes: Readonly<Record<"tee" | "flip" | "live" | "all", { shape: Shape; label: string }>> = {
  tee: { shape: circle, label: "off the tee" },
  flip: { shape: square, label: "off flips" },
  live: { shape: diamond, label: "live" },
  all: { shape: circle, label: "all work" },
};

const panel = { tall: 92, head: 22, gap: 12 } as const;
const months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");
const week_ms = 7 * 86_400_000;
const margin = { left: 44, right: 12, top: 4, bottom: 30 };

/**
 * Panels one below the other, all with as many units to the pixel: a point a session with its interval by its swings,
 * and the line with its band. A line that stands with all of them looked at together is solid, others are dashed.
 * @param panels those without a session are left out
 */
export function seasonTrends(panels: readonly SeasonPanel[], options: ChartOptions = {}): SVGSVGElement {
  const shown = panels.filter(({ line }) => line.sessions.length > 0);
  const season = laySeason(shown, options);
  const { tall, edges } = season;
  return compose(options, {
    kind: "season-trends",
    ...wordsOf(season),
    plot: (room) => ({
      ...laidOut(margin, tall, room),
      x: { domain: edges, axis: null },
      y: { domain: [tall, 0], axis: null },
      marks: shown.length
        ? [
            ...season.panels.flatMap((l) => [
              ...gridMarks(l, season),
              ...trendMarks(l),
              ...sessionMarks(l, season),
            ]),
            ...panelHeads(season.panels, edges, (l) => `${capital(l.code.label)}: ${l.said}`, {
              head: panel.head,
              left: margin.left,
              width: widthOf(options),
            }),
            dateMark(season),
          ]
        : emptyFrame("no dated sessions to draw"),
    }),
  });
}

function wordsOf({ panels, weeks, at, dayAt, turn, sign }: Season): Words {
  const title = panels[0]?.line.title ?? "Over the season";
  const titled = `${title}, session by session`;
  const nothing = "There are no dated sessions to draw.";
  if (panels.length === 0) return { title: titled, subtitle: [], key: [], notes: [], description: [nothing] };
  const kinds = panels.filter((l, i) => panels.findIndex((o) => o.code.label === l.code.label) === i);
  return {
    title: titled,
    subtitle: [`${sign.trim() || "share"}, bars: 95% by the session's swings`],
    key: kinds.map(({ code }): KeyEntry => ({
      label: `${code.label}, a session`,
      code: { colour: ink, shape: code.shape },
    })),
    notes: [
      "Line and band: the trend with its 95% interval; solid where the change stands, dashed where it could be chance.",
      ...panels.flatMap(({ band }) => (band == null ? [] : [`Grey band: ${band.label}.`])),
    ],
    description: [
      `${title} over ${count(Math.max(1, Math.round(weeks)), "week")}.`,
      ...panels.map(({ code, line: { sessions }, said }) => {
        const days = sessions.map((s) => `${dayAt(at(s.date))} ${number(turn(s.value), 1)}`).join(", ");
        return `${capital(code.label)}, ${count(sessions.length, "session")}: ${days}; ${said}.`;
      }),
    ],
  };
}

/** The weeks since the first session of any panel, as the panels share them. */
function layWeeks(panels: readonly SeasonPanel[], phone: boolean) {
  const dates = panels.flatMap(({ line }) => line.sessions.map((s) => s.date)).sort();
  const start = dates[0] === undefined ? 0 : Date.parse(dates[0]);
  const at = (date: string): number => (Date.parse(date) - start) / week_ms;
  const weeks = largest(dates.map(at), 1);
  const step = [1, 2, 4, 8, 13, 26, 52].find((w) => weeks / w <= (phone ? 4 : 7)) ?? 104;
  return {
    at,
    weeks,
    edges: [-weeks * 0.03, weeks * 1.03] as [number, number],
    ticks: Array.from({ length: Math.floor(weeks / step) + 1 }, (_, i) => i * step),
    dayAt: (week: number): string => {
      const day = new Date(start + week * week_ms);
      return `${day.getUTCDate()} ${months[day.getUTCMonth()]}`;
    },
  };
}

/** Everything in the reader's units, weeks to the right and px downward: each panel covers as many units. */
function laySeason(shown: readonly SeasonPanel[], options: ChartOptions) {
  const system = options.units ?? "us";
  const unit = shown[0]?.line.unit ?? "mph";
  const turn = (v: number): number => shownNumber(v, unit, system);
  const time = layWeeks(shown, widthOf(options) < phoneWidth);
  const spans = shown.map(({ line, band }) => {
    const ends = [
      ...line.sessions.flatMap((s) => [s.low, s.high]),
      ...line.line.map((l) => l.value),
      ...(band == null ? [] : [band.low, band.high]),
    ].map(turn);
    return { low: smallest(ends), high: largest(ends) };
  });
  const widest = largest(
    spans.map(({ low, high }) => high - low),
    1e-6,
  );
  const panels = shown.map((one, i) =>
    layPanel(one, i, spans[i]!, widest * 1.12, turn, time.at(one.line.sessions[0]!.date)),
  );
  const floor = panelsFloor(shown.length, panel);
  return { ...time, unit, sign: signAfter(unit, system), turn, panels, floor, tall: Math.max(floor, 90) };
}

type Season = ReturnType<typeof laySeason>;

/** One panel: its middle is its figures', its extent that of all; where a shown value and a table's stand, px. */
function layPanel(
  one: SeasonPanel,
  i: number,
  span: { readonly low: number; readonly high: number },
  extent: number,
  turn: (value: number) => number,
  offset: number,
) {
  const from = (span.low + span.high - extent) / 2;
  const placed = placePanel(i, panel, { from, extent }, 0.35);
  return {
    ...one,
    ...placed,
    y: (v: number): number => placed.yOf(turn(v)),
    code: shapes[one.line.input ?? "all"],
    /** Weeks from the first session of all to this panel's. */
    offset,
  };
}

type Laid = Season["panels"][number];

/** What is usual, as a band, and the grid with its numbers. */
const gridMarks = (l: Laid, { edges, unit }: Season): Plot.Markish[] => [
  ...(l.band == null
    ? []
    : [
        Plot.rect([l.band], {
          x1: () => edges[0],
          x2: () => edges[1],
          y1: (b: { high: number }) => l.y(b.high),
          y2: (b: { low: number }) => l.y(b.low),
          fill: hairline,
          ariaDescription: "usual",
        }),
      ]),
  ...panelGrid(l, edges[0], unit),
];

/** The line and its band, held inside the panel. */
function trendMarks({ line: { line, stands }, offset, y, top, foot }: Laid): Plot.Markish[] {
  if (line.length === 0) return [];
  const held = (v: number): number => Math.max(top, Math.min(foot, y(v)));
  const points = {
    band: line,
    line,
    x: (p: { weeks: number }) => offset + p.weeks,
    low: (p: { low: number }) => held(p.low),
    high: (p: { high: number }) => held(p.high),
    y: (p: { value: number }) => y(p.value),
  };
  return bandedLine<(typeof line)[number]>(points, stands, "trend");
}

type Session = TrendLine["sessions"][number];

/** A point a session with its interval. */
function sessionMarks({ line: { sessions }, y, code }: Laid, { at, turn, sign }: Season): Plot.Markish[] {
  const x = (s: Session): number => at(s.date);
  const say = (v: number): string => number(turn(v), 1);
  return [
    Plot.link(sessions, {
      x1: x,
      x2: x,
      y1: (s: Session) => y(s.low),
      y2: (s: Session) => y(s.high),
      stroke: ink,
      strokeWidth: 1,
      ariaDescription: "intervals of sessions",
    }),
    Plot.dot(sessions, {
      x,
      y: (s: Session) => y(s.value),
      symbol: code.shape,
      r: 4.25,
      fill: ink,
      stroke: paper,
      strokeWidth: 0.8,
      title: (s: Session) =>
        `${s.session}: ${say(s.value)}${sign} (${say(s.low)} to ${say(s.high)}, n ${s.n})`,
      ariaDescription: "sessions",
    } as Plot.DotOptions),
  ];
}

const dateMark = ({ ticks, floor, dayAt }: Season): Plot.Markish =>
  Plot.text(ticks, {
    x: (w: number) => w,
    y: () => floor,
    dy: 14,
    text: dayAt,
    fontSize: fontSize.label,
    fill: ink,
    ariaDescription: "x axis",
  });
