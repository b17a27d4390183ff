/** A setup from above, to scale: plate, tracker, rubber, where the tracker looks, and what to move. */
import { plateDepth_ft } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { deg } from "../units/index.ts";
import { compose, widthOf, type ChartOptions } from "./frame.ts";
import {
  adviceWords,
  box_ft,
  boxAt,
  fieldLine,
  inPx,
  metAndRead,
  moveArrow,
  pad,
  path,
  placementWords,
  rubber_ft,
  setupKey,
  shape,
  through,
  word,
  type Px,
} from "./setupPicture.ts";
import { number } from "./text.ts";
import { faintInk, paper, statement } from "./theme.ts";

/**
 * A setup from above. The plate is at the left and the rubber at the right; first base's side is at the bottom.
 * Below, the tracker's place larger.
 */
export function setupPlan(budget: Budget, options: ChartOptions = {}): SVGSVGElement {
  const width = widthOf(options);
  const { placement, believed, balls } = budget;
  const behind = rubber_ft - plateDepth_ft - placement.distance_ft;
  const lands = placement.offset_in / 12 - Math.tan(placement.yaw_deg * deg) * behind;
  return compose(options, {
    kind: "setup-plan",
    title: "From above: place and aim",
    subtitle: [`verdict of the whole setup: ${budget.verdict}`],
    key: setupKey,
    notes: [
      ...adviceWords(budget, ["distance_ft", "offset_in", "yaw_deg"]),
      "Places and lines are to scale, the tracker's box and the plate's surroundings are not. The ball met is the fly ball to center.",
    ],
    description: [
      `The tracker stands ${placementWords(budget)}.`,
      `It should stand ${number(believed.distance_ft, 1)} ft away, ${number(believed.offset_in, 1)} in off the line, straight and level.`,
      behind > 0
        ? `Its far sight lands ${number(Math.abs(lands) * 12, 1)} in off the rubber's middle, toward ${lands < 0 ? "third" : "first"} base's side.`
        : "",
      ...adviceWords(budget, ["distance_ft", "offset_in", "yaw_deg"]),
    ],
    plot: ({ top, bottom }) => {
      const scale = (width - 2 * pad) / (rubber_ft + 4);
      const half = Math.max(40, Math.min(70, 4.2 * scale));
      const middle = top + 18 + half;
      const at = (x_ft: number, y_ft: number): Px => [
        pad + (y_ft + 2) * scale,
        middle + Math.max(-half - 6, Math.min(half + 6, x_ft * scale)),
      ];
      const w = 17 / 24;
      const plate = (
        [
          [0, 0],
          [-w, w],
          [-w, 2 * w],
          [w, 2 * w],
          [w, w],
          [0, 0],
        ] as const
      ).map(([x, y]) => at(x, y));
      const rubber = (
        [
          [-1, 0],
          [1, 0],
          [1, 0.5],
          [-1, 0.5],
          [-1, 0],
        ] as const
      ).map(([x, y]) => at(x, rubber_ft + y));
      const stands: Px = [placement.offset_in / 12, plateDepth_ft + placement.distance_ft];
      const should: Px = [believed.offset_in / 12, plateDepth_ft + believed.distance_ft];
      // Turned toward right field in its readings, its far end points to third base's side: up, on the page.
      const slope = -Math.tan(placement.yaw_deg * deg);
      const panel = [
        [pad, middle - half - 6],
        [width - pad, middle + half + 6],
      ] as const;
      const box = 0.9 * Math.max(scale, 9);
      const fly = balls[1]!;

      const detailTop = middle + half + 40;
      const detailHalf = 62;
      const detailMiddle = detailTop + detailHalf;
      const off = Math.hypot(stands[0] - should[0], stands[1] - should[1]);
      const zoom = Math.min(
        (width / 2 - 50) / Math.max(2.4, off + 1.2),
        (detailHalf - 22) / Math.max(0.6, Math.abs(stands[0] - should[0]) + 0.6),
      );
      const near = ([x, y]: Px): Px => [
        width / 2 + (y - should[1]) * zoom,
        detailMiddle + (x - should[0]) * zoom,
      ];
      const larger = [
        [pad, detailTop],
        [width - pad, detailTop + 2 * detailHalf],
      ] as const;
      const size = Math.max(20, box_ft.long * zoom * 0.8);
      const moved = off * zoom > 6;
      const [a, b] = [near(stands), near(should)];
      return inPx(detailTop + 2 * detailHalf + 14 + bottom, [
        fieldLine([at(0, -1.5), at(0, rubber_ft + 1.5)], "line to the rubber"),
        shape(plate, paper, faintInk, "plate"),
        shape(rubber, paper, faintInk, "rubber"),
        path(through(at(...stands), [1, slope], panel), statement, "where it looks"),
        shape(boxAt(at(...should), box, box * 0.8, 0), "none", faintInk, "as it should"),
        shape(boxAt(at(...stands), box, box * 0.8, Math.atan(slope)), statement, statement, "as it stands"),
        ...metAndRead(
          at(fly.ball.contact_ft[0], fly.ball.contact_ft[1]),
          at(fly.readContact_ft[0], fly.readContact_ft[1]),
        ),
        word([pad, middle + half + 14], "plate", "start"),
        word([at(0, should[1])[0], middle + half + 14], `${number(believed.distance_ft, 0)} ft`),
        word([width - pad, middle + half + 14], "rubber", "end"),
        word(
          [width / 2, detailTop - 10],
          `the tracker's place${zoom > 1.5 * scale ? `, ${number(zoom / scale, 0)} times larger` : ""}; plate to the left`,
        ),
        fieldLine(
          [
            [pad, near([0, 0])[1]],
            [width - pad, near([0, 0])[1]],
          ],
          "line to the rubber, larger",
        ),
        path(through(near(stands), [1, slope], larger), statement, "where it looks, larger"),
        shape(boxAt(b, size, size * box_ft.wide, 0), "none", faintInk, "as it should, larger"),
        shape(
          boxAt(a, size, size * box_ft.wide, Math.atan(slope)),
          statement,
          statement,
          "as it stands, larger",
        ),
        ...(moved ? moveArrow(a, b) : []),
        word([pad, detailTop + 2 * detailHalf + 8], "first base's side", "start"),
        word([width - pad, detailTop + 2], "third base's side", "end"),
      ]);
    },
  });
}
