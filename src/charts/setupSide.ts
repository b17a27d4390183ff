/** A setup from the side, to scale: whether the tracker is level, and what a tilt does at the plate. */
import { plateDepth_ft } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { deg } from "../units/index.ts";
import { compose, widthOf, type ChartOptions } from "./frame.ts";
import {
  adviceWords,
  box_ft,
  boxAt,
  fieldLine,
  groundBand,
  inPx,
  metAndRead,
  pad,
  path,
  placementWords,
  setupKey,
  shape,
  through,
  word,
  type Px,
} from "./setupPicture.ts";
import { number } from "./text.ts";
import { faintInk, paper, statement } from "./theme.ts";

/**
 * A setup from first base's side, the plate at the left; below it the tilt larger, and the lean as seen from
 * behind the plate.
 */
export function setupSide(budget: Budget, options: ChartOptions = {}): SVGSVGElement {
  const width = widthOf(options);
  const { placement, balls } = budget;
  return compose(options, {
    kind: "setup-side",
    title: "From the side: is it level?",
    subtitle: [`nose up ${number(placement.tilt_deg, 1)}°, leaning ${number(placement.roll_deg, 1)}°`],
    key: setupKey,
    notes: [
      ...adviceWords(budget, ["tilt_deg", "roll_deg"]),
      "Angles are as they are, not stretched; heights and lengths are to scale, the tracker's box is not.",
    ],
    description: [
      `The tracker stands ${placementWords(budget)}.`,
      `A ball met ${number(balls[1]!.ball.contact_ft[2], 1)} ft up is read ${number(balls[1]!.readContact_ft[2], 1)} ft up.`,
      ...adviceWords(budget, ["tilt_deg", "roll_deg"]),
    ],
    plot: ({ top, bottom }) => {
      const far = Math.max(20, plateDepth_ft + placement.distance_ft + 2);
      const scale = (width - 2 * pad) / (far + 2);
      const tall = 5 * scale;
      const floor = top + 14 + tall;
      const at = (y_ft: number, z_ft: number): Px => [
        pad + (y_ft + 2) * scale,
        Math.max(top + 10, Math.min(floor + 8, floor - z_ft * scale)),
      ];
      const place = plateDepth_ft + placement.distance_ft;
      // Its nose faces the plate, to the left; nose up turns the box clockwise on the page.
      const angle = placement.tilt_deg * deg;
      const height = (box_ft.tall / 2) * scale;
      const center: Px = [at(place, 0)[0], floor - height];
      const nose = through(
        center,
        [-Math.cos(angle), -Math.sin(angle)],
        [
          [pad, top + 10],
          [width - pad, floor + 8],
        ],
        "point",
      );
      const fly = balls[1]!;
      const detail = floor + 52;
      const wide = width - 2 * pad;
      const tiltMiddle: Px = [pad + wide * 0.3, detail + 40];
      const rollMiddle: Px = [pad + wide * 0.8, detail + 40];
      /** As long as there is room, and no longer than the panel is tall. */
      const arm = (length: number, turn: number): number =>
        Math.min(length, 44 / Math.max(1e-6, Math.abs(Math.sin(turn))));
      const long = arm(wide * 0.27, angle);
      const short = arm(wide * 0.17, placement.roll_deg * deg);
      const lean = -placement.roll_deg * deg;
      return inPx(detail + 104 + bottom, [
        groundBand([pad, floor], [width - pad, floor + 8]),
        shape(
          [at(0, 0), at(plateDepth_ft, 0), at(plateDepth_ft, 0.15), at(0, 0.15), at(0, 0)],
          paper,
          faintInk,
          "plate",
        ),
        fieldLine(
          [
            [pad, center[1]],
            [width - pad, center[1]],
          ],
          "level",
        ),
        path(nose, statement, "where its nose points"),
        shape(boxAt(center, box_ft.long * scale, box_ft.tall * scale, 0), "none", faintInk, "as it should"),
        shape(
          boxAt(center, box_ft.long * scale, box_ft.tall * scale, angle),
          statement,
          statement,
          "as it stands",
        ),
        ...metAndRead(
          at(fly.ball.contact_ft[1], fly.ball.contact_ft[2]),
          at(fly.readContact_ft[1], fly.readContact_ft[2]),
        ),
        word([at(plateDepth_ft / 2, 0)[0], floor + 20], "plate"),
        word([center[0], floor + 20], "tracker"),
        word([tiltMiddle[0], detail - 12], "tilt, from the side"),
        word([rollMiddle[0], detail - 12], "lean, from the plate"),
        fieldLine(
          [
            [tiltMiddle[0] - long, tiltMiddle[1]],
            [tiltMiddle[0] + long, tiltMiddle[1]],
          ],
          "level, larger",
        ),
        path(boxAt(tiltMiddle, 2 * long, 0.01, angle).slice(0, 2), statement, "its length, larger"),
        shape(boxAt(tiltMiddle, 46, 34, angle), statement, statement, "its tilt, larger"),
        fieldLine(
          [
            [rollMiddle[0] - short, rollMiddle[1]],
            [rollMiddle[0] + short, rollMiddle[1]],
          ],
          "level across, larger",
        ),
        path(boxAt(rollMiddle, 2 * short, 0.01, -lean).slice(0, 2), statement, "its width, larger"),
        shape(boxAt(rollMiddle, 38, 34, -lean), statement, statement, "its lean, larger"),
        word([tiltMiddle[0], detail + 92], "plate to the left"),
        word([rollMiddle[0], detail + 92], "first base to the right"),
      ]);
    },
  });
}
