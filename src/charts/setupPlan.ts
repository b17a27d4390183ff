/** A setup from above, to scale: plate, tracker, rubber, where the tracker looks, and what to move. */
import { farFromPlate, trackerPlace, type Stand } from "../field/tracker.ts";
import type { Budget } from "../setup/budget.ts";
import { farWords, lengthWords, placeWords, sideOf } from "../setup/lengths.ts";
import { deg } from "../units/index.ts";
import { compose, type ChartOptions, type Words } from "./frame.ts";
import {
  adviceWords,
  box_ft,
  boxAt,
  fieldLine,
  inPx,
  levelLine,
  metAndRead,
  moveArrow,
  pad,
  path,
  placementWords,
  rubber_ft,
  setupKey,
  shape,
  through,
  trackerBoxes,
  word,
  type Px,
} from "./setupPicture.ts";
import { number } from "./text.ts";
import { faintInk, paper, statement } from "./theme.ts";
import type * as Plot from "@observablehq/plot";

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
  return compose(options, {
    kind: "setup-plan",
    ...wordsOf(budget),
    plot: ({ width, top, bottom }) => {
      const field = layField(budget, width, top);
      const larger = layLarger(field, width);
      return inPx(larger.foot + 14 + bottom, [
        ...groundMarks(field),
        ...trackerMarks(budget, field),
        ...nameMarks(budget, field, width),
        ...largerMarks(budget, larger, field, width),
      ]);
    },
  });
}

function wordsOf(budget: Budget): Words {
  const { placement, believed, units } = budget;
  const ahead = rubber_ft - placement.distance_ft;
  const lands_in = placement.offset_in - 12 * Math.tan(placement.yaw_deg * deg) * ahead;
  const advice = adviceWords(budget, ["distance_ft", "offset_in", "yaw_deg"]);
  return {
    title: "From above: place and aim",
    subtitle: [`verdict of the whole setup: ${budget.verdict}`],
    key: setupKey,
    notes: [
      ...advice,
      "Places and lines are to scale, the tracker's box and the plate's surroundings are not. The ball met is the fly ball to center.",
    ],
    description: [
      `The tracker stands ${placementWords(budget)}.`,
      `It was told that it stands ${placeWords(believed, units)}; there it should stand, straight and level.`,
      ahead > 0
        ? `A sight through it lands ${lengthWords(Math.abs(lands_in), units)} off the rubber's middle, toward ${sideOf(lands_in)} base's side.`
        : "",
      ...advice,
    ],
  };
}

/** Where a tracker stands, ft. */
function standsAt(stand: Stand): Px {
  const [x, y] = trackerPlace(stand);
  return [x!, y!];
}

/** The whole field's strip from plate to rubber, and both places of the tracker: as it stands and as it should. */
function layField({ placement, believed }: Budget, width: number, top: number) {
  const [stands, should] = [standsAt(placement), standsAt(believed)];
  const low = Math.min(-2, stands[1] - 2, should[1] - 2);
  const high = Math.max(rubber_ft + 2, stands[1] + 2, should[1] + 2);
  const aside = Math.max(Math.abs(stands[0]), Math.abs(should[0]));
  const scale = Math.min((width - 2 * pad) / (high - low), mostAside / (aside + 1.5));
  const left = (width - (high - low) * scale) / 2;
  const half = Math.max(Math.max(40, Math.min(70, 4.2 * scale)), (aside + 1.5) * scale);
  const middle = top + 28 + half;
  return {
    stands,
    should,
    low,
    high,
    scale,
    half,
    middle,
    // Turned toward right field in its readings, its far end points to third base's side: up, on the page.
    slope: -Math.tan(placement.yaw_deg * deg),
    panel: [
      [pad, middle - half - 6],
      [width - pad, middle + half + 6],
    ] as const,
    at: (x_ft: number, y_ft: number): Px => [
      left + (y_ft - low) * scale,
      middle + Math.max(-half - 6, Math.min(half + 6, x_ft * scale)),
    ],
  };
}

type Field = ReturnType<typeof layField>;

const w = 17 / 24;
/** Corners about the plate's rear point and the rubber's front edge, ft. */
const plate = [
  [0, 0],
  [-w, w],
  [-w, 2 * w],
  [w, 2 * w],
  [w, w],
  [0, 0],
] as const;
const rubber = [
  [-1, 0],
  [1, 0],
  [1, 0.5],
  [-1, 0.5],
  [-1, 0],
] as const;

const groundMarks = ({ at, low, high }: Field): Plot.Markish[] => [
  fieldLine([at(0, low + 0.5), at(0, high - 0.5)], "line to the rubber"),
  shape(
    plate.map(([x, y]) => at(x, y)),
    paper,
    faintInk,
    "plate",
  ),
  shape(
    rubber.map(([x, y]) => at(x, rubber_ft + y)),
    paper,
    faintInk,
    "rubber",
  ),
];

function trackerMarks({ balls }: Budget, { at, stands, should, slope, panel, scale }: Field): Plot.Markish[] {
  const box = 0.9 * Math.max(scale, 9);
  const fly = balls[1]!;
  return [
    path(through(at(...stands), [1, slope], panel), statement, "its line to center field"),
    ...trackerBoxes(
      boxAt(at(...should), box, box * 0.8, 0),
      boxAt(at(...stands), box, box * 0.8, Math.atan(slope)),
    ),
    ...metAndRead(
      at(fly.ball.contact_ft[0], fly.ball.contact_ft[1]),
      at(fly.readContact_ft[0], fly.readContact_ft[1]),
    ),
  ];
}

/** Names about the strip: the tracker's keeps inside the picture. */
function nameMarks({ believed, units }: Budget, field: Field, width: number): Plot.Markish[] {
  const { at, should, middle, half } = field;
  const [x] = at(...should);
  const anchor = Math.min(x, width - x) > 100 ? "middle" : x < width / 2 ? "start" : "end";
  const from = { start: pad, middle: x, end: width - pad }[anchor];
  const below = middle + half + 14;
  return [
    word([at(0, 0.7)[0], below], "plate"),
    word(
      [from, middle - half - 16],
      `tracker, ${farWords(farFromPlate(believed), units)} from the plate`,
      anchor,
    ),
    word([at(0, rubber_ft)[0], below], "rubber"),
  ];
}

/** The tracker's place larger, as far as the way between its two places and the panel allow. */
function layLarger({ stands, should, middle, half }: Field, width: number) {
  const top = middle + half + 40;
  const tall = 62;
  const off = Math.hypot(stands[0] - should[0], stands[1] - should[1]);
  const zoom = Math.min(
    (width / 2 - 50) / Math.max(2.4, off + 1.2),
    (tall - 22) / Math.max(0.6, Math.abs(stands[0] - should[0]) + 0.6),
  );
  const near = ([x, y]: Px): Px => [width / 2 + (y - should[1]) * zoom, top + tall + (x - should[0]) * zoom];
  return { top, foot: top + 2 * tall, off, zoom, near };
}

function largerMarks(
  { believed }: Budget,
  { top, foot, off, zoom, near }: ReturnType<typeof layLarger>,
  { stands, should, slope, scale }: Field,
  width: number,
): Plot.Markish[] {
  const size = Math.max(20, box_ft.long * zoom * 0.8);
  const [a, b] = [near(stands), near(should)];
  const edges = [
    [pad, top],
    [width - pad, foot],
  ] as const;
  const times = zoom > 1.5 * scale ? `, ${number(zoom / scale, 0)} times larger` : "";
  return [
    word([width / 2, top - 10], `the tracker's place${times}; ${plateLies(believed)}`),
    levelLine(near([0, 0])[1], [pad, width - pad], "line to the rubber, larger"),
    path(through(a, [1, slope], edges), statement, "its line to center field, larger"),
    ...trackerBoxes(
      boxAt(b, size, size * box_ft.wide, 0),
      boxAt(a, size, size * box_ft.wide, Math.atan(slope)),
      ", larger",
    ),
    ...(off * zoom > 6 ? moveArrow(a, b) : []),
    word([pad, foot + 8], "first base's side", "start"),
    word([width - pad, top + 2], "third base's side", "end"),
  ];
}
