/** A setup from the side, to scale: whether the tracker is level, and what a tilt does at the plate. */
import { plateDepth_ft } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { farWords } from "../setup/lengths.ts";
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
 * A setup from first base's side, the pitcher at the right, with room for a tracker before or behind the plate; below it
 * the tilt larger, and the lean as seen by the catcher.
 */
export function setupSide(budget: Budget, options: ChartOptions = {}): SVGSVGElement {
  const width = widthOf(options);
  const { placement, balls } = budget;
  return compose(options, {
    kind: "setup-side",
    title: "From the side: is it level?",
    subtitle: [
      `pitcher's end down ${number(placement.tilt_deg, 1)}°, leaning ${number(placement.roll_deg, 1)}°`,
    ],
    key: setupKey,
    notes: [
      ...adviceWords(budget, ["tilt_deg", "roll_deg"]),
      "Angles are as they are, not stretched; heights and lengths are to scale, the tracker's box is not.",
    ],
    description: [
      `The tracker stands ${placementWords(budget)}.`,
      `A ball met ${farWords(balls[1]!.ball.contact_ft[2], budget.units)} up is read ${farWords(balls[1]!.readContact_ft[2], budget.units).replace("-", "−")} up.`,
      ...adviceWords(budget, ["tilt_deg", "roll_deg"]),
    ],
    plot: ({ top, bottom }) => {
      const place = placement.distance_ft;
      const low = Math.min(-2, place - 2);
      const high = Math.max(5, place + 2, low + 22);
      const scale = (width - 2 * pad) / (high - low);
      const tall = Math.max(64, 5 * scale);
      const floor = top + 14 + tall;
      const at = (y_ft: number, z_ft: number): Px => [
        pad + (y_ft - low) * scale,
        Math.max(top + 10, Math.min(floor + 8, floor - z_ft * scale)),
      ];
      // The pitcher is at the right: an end down there turns the box clockwise on the page.
      const angle = placement.tilt_deg * deg;
      // Far away it would be a dot: never smaller than this.
      const [long_px, tall_px] = [Math.max(box_ft.long * scale, 14), Math.max(box_ft.tall * scale, 12)];
      const height = tall_px / 2;
      const center: Px = [at(place, 0)[0], floor - height];
      const axis = through(
        center,
        [Math.cos(angle), Math.sin(angle)],
        [
          [pad, top + 10],
          [width - pad, floor + 8],
        ],
      );
      const fly = balls[1]!;
      // The two words stand one under the other where they would touch.
      const under = Math.abs(place - plateDepth_ft / 2) * scale < 48 ? 14 : 0;
      const detail = floor + 52 + under;
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
        path(axis, statement, "its line to center field"),
        shape(boxAt(center, long_px, tall_px, 0), "none", faintInk, "as it should"),
        shape(boxAt(center, long_px, tall_px, angle), statement, statement, "as it stands"),
        ...metAndRead(
          at(fly.ball.contact_ft[1], fly.ball.contact_ft[2]),
          at(fly.readContact_ft[1], fly.readContact_ft[2]),
        ),
        word([at(plateDepth_ft / 2, 0)[0], floor + 20], "plate"),
        word([center[0], floor + 20 + under], "tracker"),
        word([tiltMiddle[0], detail - 12], "tilt, from the side"),
        word([rollMiddle[0], detail - 12], "lean, from the catcher"),
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
        word([tiltMiddle[0], detail + 92], "pitcher to the right"),
        word([rollMiddle[0], detail + 92], "first base to the right"),
      ]);
    },
  });
}
