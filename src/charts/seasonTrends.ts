/** A measure over the sessions of a season, a panel for each kind of work: sessions with their intervals, and the line. */
import * as Plot from "@observablehq/plot";
import type { TrendLine } from "../season/progress.ts";
import { largest, smallest } from "../swing/lists.ts";
import { shownNumber, signAfter } from "../units/system.ts";
import { compose, emptyMark, laidOut, widthOf, type ChartOptions, type KeyEntry } from "./frame.ts";
import { circle, diamond, square, type Shape } from "./shapes.ts";
import { count, number, shorten } from "./text.ts";
import { accent, faintInk, fontSize, hairline, ink, line as lineColour, paper, phoneWidth } from "./theme.ts";

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

/**
 * Panels one below the other, all with as many units to the pixel: a point a session with its interval by its swings,
 * and the line with its band. A line that stands with all of them looked at together is solid, others are dashed.
 * @param panels those without a session are left out
 */
export function seasonTrends(panels: readonly SeasonPanel[], options: ChartOptions = {}): SVGSVGElement {
  const shown = panels.filter(({ line }) => line.sessions.length > 0);
  const system = options.units ?? "us";
  const unit = shown[0]?.line.unit ?? "mph";
  const turn = (v: number): number => shownNumber(v, unit, system);
  const sign = signAfter(unit, system);
  const width = widthOf(options);
  const phone = width < phoneWidth;
  const margin = { left: 44, right: 12, top: 4, bottom: 30 };
  const spans = shown.map(({ line, band }) => {
    const ends = [
      ...line.sessions.flatMap((s) => [s.low, s.high]),
      ...line.line.flatMap((l) => [l.value]),
      ...(band == null ? [] : [band.low, band.high]),
    ].map(turn);
    return [smallest(ends), largest(ends)] as const;
  });
  const extent =
    largest(
      spans.map(([a, b]) => b - a),
      1e-6,
    ) * 1.12;
  const tall = Math.max(1, shown.length) * (panel.head + panel.tall + panel.gap) - panel.gap;
  const first = smallestDate(shown);
  const start = first === null ? 0 : Date.parse(first);
  const at = (date: string): number => (Date.parse(date) - start) / (7 * 86_400_000);
  const weeks = largest(
    shown.flatMap(({ line }) => line.sessions.map((s) => at(s.date))),
    1,
  );
  const step = [1, 2, 4, 8, 13, 26, 52].find((w) => weeks / w <= (phone ? 4 : 7)) ?? 104;
  const ticks = Array.from({ length: Math.floor(weeks / step) + 1 }, (_, i) => i * step);
  const dayAt = (week: number): string => {
    const day = new Date(start + week * 7 * 86_400_000);
    return `${day.getUTCDate()} ${months[day.getUTCMonth()]}`;
  };
  const laid = shown.map((one, i) => {
    const [low, high] = spans[i]!;
    const from = (low + high - extent) / 2;
    const top = i * (panel.head + panel.tall + panel.gap) + panel.head;
    const y = (v: number): number => top + panel.tall * (1 - (turn(v) - from) / extent);
    const { line } = one;
    const code = shapes[line.input ?? "all"];
    const offset = line.sessions.length === 0 ? 0 : at(line.sessions[0]!.date);
    const [lowTick, highTick] = [from + extent * 0.15, from + extent * 0.85];
    const tick = niceStep((highTick - lowTick) / 2);
    const yTicks: number[] = [];
    for (let v = Math.ceil(from / tick) * tick; v <= from + extent; v += tick) yTicks.push(v);
    const yOf = (v: number): number => top + panel.tall * (1 - (v - from) / extent);
    return { ...one, top, y, yOf, code, offset, yTicks };
  });
  type Laid = (typeof laid)[number];
  const stroke = (l: Laid): string => (l.line.stands ? accent : faintInk);
  const key: KeyEntry[] = [
    ...laid
      .filter((l, i) => laid.findIndex((o) => o.code.label === l.code.label) === i)
      .map((l) => ({ label: `${l.code.label}, a session`, code: { colour: ink, shape: l.code.shape } })),
  ];
  const title = shown[0]?.line.title ?? "Over the season";
  return compose(options, {
    kind: "season-trends",
    title: `${title}, session by session`,
    subtitle: shown.length ? [`${sign.trim() || "share"}, bars: 95% by the session's swings`] : [],
    key: shown.length ? key : [],
    notes: shown.length
      ? [
          "Line and band: the trend with its 95% interval; solid where the change stands, dashed where it could be chance.",
          ...laid.flatMap(({ band }) => (band == null ? [] : [`Grey band: ${band.label}.`])),
        ]
      : [],
    description: shown.length
      ? [
          `${title} over ${count(Math.max(1, Math.round(weeks)), "week")}.`,
          ...laid.map(
            ({ line, said }) =>
              `${capital(shapes[line.input ?? "all"].label)}, ${count(line.sessions.length, "session")}: ${line.sessions
                .map((s) => `${dayAt(at(s.date))} ${number(turn(s.value), 1)}`)
                .join(", ")}; ${said}.`,
          ),
        ]
      : ["There are no dated sessions to draw."],
    plot: (room) => ({
      ...laidOut(margin, Math.max(tall, 90), room),
      x: { domain: [-weeks * 0.03, weeks * 1.03], axis: null },
      y: { domain: [Math.max(tall, 90), 0], axis: null },
      marks: shown.length
        ? [
            ...laid.flatMap((l) => [
              ...(l.band == null
                ? []
                : [
                    Plot.rect([l.band], {
                      x1: () => -weeks * 0.03,
                      x2: () => weeks * 1.03,
                      y1: (b: { high: number }) => l.y(b.high),
                      y2: (b: { low: number }) => l.y(b.low),
                      fill: hairline,
                      ariaDescription: "usual",
                    }),
                  ]),
              Plot.ruleY(l.yTicks, {
                y: (v: number) => l.yOf(v),
                stroke: hairline,
                ariaDescription: "grid",
              }),
              Plot.text(l.yTicks, {
                x: () => -weeks * 0.03,
                y: (v: number) => l.yOf(v),
                text: (v: number) => (unit === "share" ? `${number(v)}%` : number(v)),
                dx: -6,
                textAnchor: "end",
                fontSize: fontSize.label,
                fill: ink,
                ariaDescription: "y axis",
              }),
              ...(l.line.line.length === 0
                ? []
                : [
                    Plot.areaY(l.line.line, {
                      x: (p: { weeks: number }) => l.offset + p.weeks,
                      y1: (p: { low: number }) => clamp(l.y(p.low), l.top, panel.tall),
                      y2: (p: { high: number }) => clamp(l.y(p.high), l.top, panel.tall),
                      fill: stroke(l),
                      fillOpacity: 0.14,
                      ariaDescription: "interval of the trend",
                    }),
                    Plot.line(l.line.line, {
                      x: (p: { weeks: number }) => l.offset + p.weeks,
                      y: (p: { value: number }) => l.y(p.value),
                      stroke: stroke(l),
                      strokeWidth: 2,
                      ...(l.line.stands ? {} : { strokeDasharray: "5 4" }),
                      ariaDescription: "trend",
                    }),
                  ]),
              Plot.link(l.line.sessions, {
                x1: (s: { date: string }) => at(s.date),
                x2: (s: { date: string }) => at(s.date),
                y1: (s: { low: number }) => l.y(s.low),
                y2: (s: { high: number }) => l.y(s.high),
                stroke: ink,
                strokeWidth: 1,
                ariaDescription: "intervals of sessions",
              }),
              Plot.dot(l.line.sessions, {
                x: (s: { date: string }) => at(s.date),
                y: (s: { value: number }) => l.y(s.value),
                symbol: l.code.shape,
                r: 4.25,
                fill: ink,
                stroke: paper,
                strokeWidth: 0.8,
                title: (s: {
                  date: string;
                  session: string;
                  value: number;
                  low: number;
                  high: number;
                  n: number;
                }) =>
                  `${s.session}: ${number(turn(s.value), 1)}${sign} (${number(turn(s.low), 1)} to ${number(turn(s.high), 1)}, n ${s.n})`,
                ariaDescription: "sessions",
              } as Plot.DotOptions),
            ]),
            Plot.text(laid, {
              x: () => -weeks * 0.03,
              y: (l: Laid) => l.top - panel.head / 2,
              dx: 4 - margin.left,
              textAnchor: "start",
              text: (l: Laid) =>
                shorten(`${capital(l.code.label)}: ${l.said}`, width - 12, fontSize.label, true),
              fontWeight: "bold",
              fill: ink,
              ariaDescription: "what each panel says",
            }),
            Plot.link(laid, {
              x1: () => -weeks * 0.03,
              x2: () => weeks * 1.03,
              y1: (l: Laid) => l.top + panel.tall,
              y2: (l: Laid) => l.top + panel.tall,
              stroke: lineColour,
              ariaDescription: "floors",
            }),
            Plot.text(ticks, {
              x: (w: number) => w,
              y: () => tall,
              dy: 14,
              text: (w: number) => dayAt(w),
              fontSize: fontSize.label,
              fill: ink,
              ariaDescription: "x axis",
            }),
          ]
        : [Plot.frame({ stroke: hairline }), emptyMark("no dated sessions to draw")],
    }),
  });
}

const capital = (text: string): string => text[0]!.toUpperCase() + text.slice(1);
const clamp = (y: number, top: number, tall: number): number => Math.max(top, Math.min(top + tall, y));

function smallestDate(panels: readonly SeasonPanel[]): string | null {
  const dates = panels.flatMap(({ line }) => line.sessions.map((s) => s.date)).sort();
  return dates[0] ?? null;
}

/** A round step about as large as asked. */
function niceStep(wish: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(wish, 1e-9)));
  return [1, 2, 5, 10].map((m) => m * power).find((s) => s >= wish) ?? 10 * power;
}
