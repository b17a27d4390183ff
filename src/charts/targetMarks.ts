/** A drill's window on a chart of swings. */
import * as Plot from "@observablehq/plot";
import { paper, targetColour } from "./theme.ts";

/** The window's ends, in the scales' units. */
export interface TargetBox {
  readonly x1: number;
  readonly x2: number;
  readonly y1: number;
  readonly y2: number;
}

/**
 * A dashed outline about what a drill asks for, with its name at an upper corner.
 * @param name which corner, and how the name stands to it
 * @param words what the window is called
 */
export function targetMarks(
  box: TargetBox,
  name: Pick<Plot.TextOptions, "textAnchor" | "lineAnchor" | "dx" | "dy"> & { readonly x: "x1" | "x2" },
  words = "target",
): Plot.Markish[] {
  return [
    Plot.rect([box], {
      x1: "x1",
      x2: "x2",
      y1: "y1",
      y2: "y2",
      fill: "none",
      stroke: targetColour,
      strokeWidth: 1.8,
      strokeDasharray: "6 3",
      ariaDescription: "target",
    }),
    Plot.text([box], {
      y: "y2",
      text: () => words,
      fill: targetColour,
      stroke: paper,
      strokeWidth: 4,
      fontWeight: "bold",
      ...name,
    }),
  ];
}
