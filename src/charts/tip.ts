/** What a chart says of the mark that is pointed at: beside the mark, and never outside the picture. */
import * as Plot from "@observablehq/plot";
import { colour, fontSize, line } from "./theme.ts";

/** The pointing corner and the rim that a tip has around its words, px. */
const around = 32;

/** As wide as a tip's lines may be, em: beside a mark in the picture's middle there has to be room on one side. */
const linesWithin = (width: number): number =>
  Math.max(6, Math.min(20, Math.floor((width / 2 - around) / fontSize.label)));

interface TipOptions<Datum> {
  readonly x: string | ((d: Datum) => number);
  readonly y: string | ((d: Datum) => number);
  /** The channel that holds the words. */
  readonly title: string;
  /** How far from a mark still points at it, px. */
  readonly maxRadius?: number;
}

type Render = NonNullable<Plot.MarkOptions["render"]>;

/** Moves what stands over an edge back into the picture, once it is laid out. */
const inside: Render = (index, scales, values, dimensions, context, next) => {
  const drawn = next!(index, scales, values, dimensions, context) as SVGGElement | null;
  const svg = context.ownerSVGElement;
  if (drawn === null || index.length === 0) return drawn;
  const { width, height } = dimensions;
  const settle = (): void => {
    for (const bubble of drawn.children as unknown as Iterable<SVGGElement>) {
      const box = bubble.getBBox();
      const at = /translate\((-?[\d.]+),\s*(-?[\d.]+)\)/.exec(bubble.getAttribute("transform") ?? "");
      if (at === null) continue;
      const [x, y] = [Number(at[1]), Number(at[2])];
      const [left, top] = [x + box.x, y + box.y];
      const dx = Math.max(1 - left, Math.min(0, width - 1 - left - box.width));
      const dy = Math.max(1 - top, Math.min(0, height - 1 - top - box.height));
      if (dx !== 0 || dy !== 0) bubble.setAttribute("transform", `translate(${x + dx},${y + dy})`);
    }
  };
  // The library lays the words out in a step of its own that it has asked for by now; this one comes after it.
  if (svg.isConnected) void Promise.resolve().then(settle);
  else if (typeof requestAnimationFrame !== "undefined") requestAnimationFrame(settle);
  return drawn;
};

/**
 * A tip for the mark nearest to the pointer.
 * @param width of the whole chart, px
 */
export function pointedTip<Datum>(
  data: readonly Datum[],
  { x, y, title, maxRadius }: TipOptions<Datum>,
  width: number,
): Plot.Markish {
  return Plot.tip(
    data as Datum[],
    Plot.pointer({
      x,
      y,
      title,
      fontSize: fontSize.label,
      lineWidth: linesWithin(width),
      render: inside,
      fill: colour("raised"),
      stroke: line,
      ...(maxRadius === undefined ? {} : { maxRadius }),
    } as Plot.TipOptions),
  );
}
