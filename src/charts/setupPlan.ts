/** A setup from above, to scale: plate, tracker, rubber, where the tracker looks, and what to move. */
import { farFromPlate, trackerPlace, type Stand } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { farWords, lengthWords, placeWords, sideOf } from "../setup/lengths.ts";
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

/** No further than this may the picture reach to either side of the line, px. */
const mostAside = 150;

/** Where the plate lies from a tracker, on a page whose right is toward the pitcher and whose foot is first base's side. */
function plateLies({ distance_ft, offset_in }: Stand): string {
  if (Math.abs(offset_in / 12) > Math.abs(distance_ft))
    return offset_in > 0 ? "plate toward the top" : "plate toward the foot";
  return distance_ft > 0 ? "plate to the left" : "plate to the right";
}

/**
 * A setup from above, the pitcher's rubber at the right and first base's side at the bottom, with room for a tracker on
 * any side of the plate. Below, the tracker's place larger.
 */
export function setupPlan(budget: Budget, options: ChartOptions = {}): SVGSVGElement {
  const width = widthOf(options);
  const { placement, believed, balls } = budget;
  const { units } = budget;
  const ahead = rubber_ft - placement.distance_ft;
  const lands_in = placement.offset_in - 12 * Math.tan(placement.yaw_deg * deg) * ahead;
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
      `It was told that it stands ${placeWords(believed, units)}; there it should stand, straight and level.`,
      ahead > 0
        ? `A sight through it lands ${lengthWords(Math.abs(lands_in), units)} off the rubber's middle, toward ${sideOf(lands_in)} base's side.`
        : "",
      ...adviceWords(budget, ["distance_ft", "offset_in", "yaw_deg"]),
    ],
    plot: ({ top, bottom }) => {
      const [stands, should] = [placement, believed].map((place): Px => {
        const [x, y] = trackerPlace(place);
        return [x!, y!];
      }) as [Px, Px];
      const low = Math.min(-2, stands[1] - 2, should[1] - 2);
      const high = Math.max(rubber_ft + 2, stands[1] + 2, should[1] + 2);
      const aside = Math.max(Math.abs(stands[0]), Math.abs(should[0]));
      const scale = Math.min((width - 2 * pad) / (high - low), mostAside / (aside + 1.5));
      const left = (width - (high - low) * scale) / 2;
      const half = Math.max(Math.max(40, Math.min(70, 4.2 * scale)), (aside + 1.5) * scale);
      const middle = top + 28 + half;
      const at = (x_ft: number, y_ft: number): Px => [
        left + (y_ft - low) * scale,
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
      // Turned toward right field in its readings, its far end points to third base's side: up, on the page.
      const slope = -Math.tan(placement.yaw_deg * deg);
      const panel = [
        [pad, middle - half - 6],
        [width - pad, middle + half + 6],
      ] as const;
      const box = 0.9 * Math.max(scale, 9);
      const fly = balls[1]!;
      const room = Math.min(at(...should)[0], width - at(...should)[0]);
      const labelled = room > 100 ? "middle" : at(...should)[0] < width / 2 ? "start" : "end";

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
        fieldLine([at(0, low + 0.5), at(0, high - 0.5)], "line to the rubber"),
        shape(plate, paper, faintInk, "plate"),
        shape(rubber, paper, faintInk, "rubber"),
        path(through(at(...stands), [1, slope], panel), statement, "its line to center field"),
        shape(boxAt(at(...should), box, box * 0.8, 0), "none", faintInk, "as it should"),
        shape(boxAt(at(...stands), box, box * 0.8, Math.atan(slope)), statement, statement, "as it stands"),
        ...metAndRead(
          at(fly.ball.contact_ft[0], fly.ball.contact_ft[1]),
          at(fly.readContact_ft[0], fly.readContact_ft[1]),
        ),
        word([at(0, 0.7)[0], middle + half + 14], "plate"),
        word(
          [
            labelled === "middle" ? at(...should)[0] : labelled === "start" ? pad : width - pad,
            middle - half - 16,
          ],
          `tracker, ${farWords(farFromPlate(believed), units)} from the plate`,
          labelled,
        ),
        word([at(0, rubber_ft)[0], middle + half + 14], "rubber"),
        word(
          [width / 2, detailTop - 10],
          `the tracker's place${zoom > 1.5 * scale ? `, ${number(zoom / scale, 0)} times larger` : ""}; ${plateLies(believed)}`,
        ),
        fieldLine(
          [
            [pad, near([0, 0])[1]],
            [width - pad, near([0, 0])[1]],
          ],
          "line to the rubber, larger",
        ),
        path(through(near(stands), [1, slope], larger), statement, "its line to center field, larger"),
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
