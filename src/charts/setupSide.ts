/** A setup from the side, to scale: whether the tracker is level, and what a tilt does at the plate. */
import type * as Plot from "@observablehq/plot";
import { plateDepth_ft } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { farWords } from "../setup/lengths.ts";
import { deg } from "../units/index.ts";
import { compose, type ChartOptions, type Words } from "./frame.ts";
import {
  adviceWords,
  box_ft,
  boxAt,
  groundBand,
  inPx,
  levelLine,
  levelWords,
  metAndRead,
  pad,
  path,
  placementWords,
  setupKey,
  shape,
  through,
  trackerBoxes,
  word,
  type Px,
} from "./setupPicture.ts";
import { faintInk, paper, statement } from "./theme.ts";

/**
 * A setup from first base's side, the pitcher at the right, with room for a tracker before or behind the plate; below it
 * the tilt larger, and the lean as seen by the catcher.
 */
export function setupSide(budget: Budget, options: ChartOptions = {}): SVGSVGElement {
  return compose(options, {
    kind: "setup-side",
    ...wordsOf(budget),
    plot: ({ width, top, bottom }) => {
      const side = laySide(budget, width, top);
      const detail = side.floor + 52 + side.under;
      return inPx(detail + 104 + bottom, [...sideMarks(budget, side), ...largerMarks(budget, detail, width)]);
    },
  });
}

function wordsOf(budget: Budget): Words {
  const { placement, balls, units } = budget;
  const advice = adviceWords(budget, ["tilt_deg", "roll_deg"]);
  const [met, read] = [balls[1]!.ball.contact_ft[2], balls[1]!.readContact_ft[2]];
  return {
    title: "From the side: is it level?",
    subtitle: [levelWords(placement)],
    key: setupKey,
    notes: [
      ...advice,
      "Angles are as they are, not stretched; heights and lengths are to scale, the tracker's box is not.",
    ],
    description: [
      `The tracker stands ${placementWords(budget)}.`,
      `A ball met ${farWords(met, units)} up is read ${farWords(read, units).replace("-", "−")} up.`,
      ...advice,
    ],
  };
}

/** From behind the plate or the tracker to beyond them, and the ground, px. */
function laySide({ placement }: Budget, width: number, top: number) {
  const place = placement.distance_ft;
  const low = Math.min(-2, place - 2);
  const high = Math.max(5, place + 2, low + 22);
  const scale = (width - 2 * pad) / (high - low);
  const floor = top + 14 + Math.max(64, 5 * scale);
  return {
    width,
    ceiling: top + 10,
    floor,
    scale,
    // The two words stand one under the other where they would touch.
    under: Math.abs(place - plateDepth_ft / 2) * scale < 48 ? 14 : 0,
    at: (y_ft: number, z_ft: number): Px => [
      pad + (y_ft - low) * scale,
      Math.max(top + 10, Math.min(floor + 8, floor - z_ft * scale)),
    ],
  };
}

type Side = ReturnType<typeof laySide>;

/** Plate, tracker and ball on their ground, with the line that the tracker takes for level. */
function sideMarks({ placement, balls }: Budget, side: Side): Plot.Markish[] {
  const { at, scale, floor, ceiling, under, width } = side;
  // The pitcher is at the right: an end down there turns the box clockwise on the page.
  const angle = placement.tilt_deg * deg;
  // Far away it would be a dot: never smaller than this.
  const [long, tall] = [Math.max(box_ft.long * scale, 14), Math.max(box_ft.tall * scale, 12)];
  const center: Px = [at(placement.distance_ft, 0)[0], floor - tall / 2];
  const axis = through(
    center,
    [Math.cos(angle), Math.sin(angle)],
    [
      [pad, ceiling],
      [width - pad, floor + 8],
    ],
  );
  const deep = plateDepth_ft;
  const fly = balls[1]!;
  return [
    groundBand([pad, floor], [width - pad, floor + 8]),
    shape([at(0, 0), at(deep, 0), at(deep, 0.15), at(0, 0.15), at(0, 0)], paper, faintInk, "plate"),
    levelLine(center[1], [pad, width - pad], "level"),
    path(axis, statement, "its line to center field"),
    ...trackerBoxes(boxAt(center, long, tall, 0), boxAt(center, long, tall, angle)),
    ...metAndRead(
      at(fly.ball.contact_ft[1], fly.ball.contact_ft[2]),
      at(fly.readContact_ft[1], fly.readContact_ft[2]),
    ),
    word([at(deep / 2, 0)[0], floor + 20], "plate"),
    word([center[0], floor + 20 + under], "tracker"),
  ];
}

/** The tilt larger, and the lean beside it. */
function largerMarks({ placement }: Budget, top: number, width: number): Plot.Markish[] {
  const wide = width - 2 * pad;
  const [tilt, lean]: [Px, Px] = [
    [pad + wide * 0.3, top + 40],
    [pad + wide * 0.8, top + 40],
  ];
  return [
    word([tilt[0], top - 12], "tilt, from the side"),
    word([lean[0], top - 12], "lean, from the catcher"),
    ...turnedBox(tilt, wide * 0.27, placement.tilt_deg * deg, 46, ["level", "its length", "its tilt"]),
    ...turnedBox(lean, wide * 0.17, placement.roll_deg * deg, 38, ["level across", "its width", "its lean"]),
    word([tilt[0], top + 92], "pitcher to the right"),
    word([lean[0], top + 92], "first base to the right"),
  ];
}

/**
 * A box turned about its middle, with the level it should have.
 * @param room for half of its axis, px: as long as there is room, and no longer than the panel is tall
 * @param turn rad, clockwise on the page
 */
function turnedBox(
  middle: Px,
  room: number,
  turn: number,
  wide: number,
  [level, axis, box]: readonly [string, string, string],
): Plot.Markish[] {
  const arm = Math.min(room, 44 / Math.max(1e-6, Math.abs(Math.sin(turn))));
  const [x, y] = middle;
  return [
    levelLine(y, [x - arm, x + arm], `${level}, larger`),
    path(boxAt(middle, 2 * arm, 0.01, turn).slice(0, 2), statement, `${axis}, larger`),
    shape(boxAt(middle, wide, 34, turn), statement, statement, `${box}, larger`),
  ];
}
