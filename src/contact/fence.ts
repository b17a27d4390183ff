/** Would it clear the fence: how high the ball is where it gets there, and how likely it is to go over. */
import { foulLine_deg } from "../field/lanes.ts";
import { fenceDistance, fenceHeight, type PlayingField } from "../field/fields.ts";
import type { Air } from "../flight/air.ts";
import type { Ball } from "../flight/ball.ts";
import { load } from "../flight/carry.ts";
import { flightDraws } from "../flight/draws.ts";
import { march, run } from "../flight/kernel.ts";
import { landed } from "../flight/room.ts";
import type { Launch } from "../flight/launch.ts";
import { carryRange, type CarryRange } from "../flight/range.ts";
import type { SpinSource } from "../flight/spin.ts";
import { deg, ft } from "../units/index.ts";
import { smallest } from "../swing/lists.ts";

/** Where a ball meets the line of the fence, SI. */
export interface FenceMeeting {
  /** `over` and `into`: it gets to the fence in the air. `short`: it comes down before. `foul`: past a foul line. */
  readonly result: "over" | "into" | "short" | "foul";
  /** Direction, rad: of the place at the fence, or of the landing point when it comes down before. */
  readonly bearing: number;
  /** From home plate to the fence in that direction, and how high the fence is there; null in foul ground. */
  readonly distance: number | null;
  readonly fence: number | null;
  /** Height of the ball's middle there; null when it doesn't get there. */
  readonly height: number | null;
  /** How far short of the fence it comes down; null when it gets there, and in foul ground. */
  readonly missing: number | null;
}

/** A meeting with its chance, from the table of spreads. */
export interface FenceOdds extends FenceMeeting {
  /** Share of such balls that go over. */
  readonly chance: number;
  /** Draws behind the chance; 0 when the ball comes down too far from any fence for one. */
  readonly draws: number;
}

const lines = foulLine_deg * deg;
/** Steps along the flight, s: a parabola through three of its points is within millimetres of it. */
const stride = 0.2;
/** Halvings of a stride until the crossing is known to a tenth of a millimetre. */
const halvings = 17;
const drawCount = 2000;
const drawSeed = 0.5;
/** A fence this many standard deviations past the landing point is out of reach. */
const outOfReach = 6;

const inside = (bearing: number): boolean => Math.abs(bearing) <= lines;

/** How far (x, y) is past the line of the fence, m; in foul ground, past the pole's distance. */
function past(field: PlayingField, x: number, y: number): number {
  const bearing = Math.atan2(x, y);
  const held = Math.min(lines, Math.max(-lines, bearing));
  return Math.hypot(x, y) - fenceDistance(field, held)!;
}

const nearestOf = new WeakMap<PlayingField, number>();

/** The nearest that a fence comes to home plate, m: at a post, or near the middle of the piece between two. */
function nearest(field: PlayingField): number {
  let found = nearestOf.get(field);
  if (found === undefined) {
    const bearings = Array.from({ length: 181 }, (_, i) => (i / 2 - 45) * deg);
    const posts = field.fence.map((post) => post.distance_ft * ft);
    // A quarter of a degree beside the nearest place is less than a thousandth nearer.
    found = 0.999 * smallest([...posts, ...bearings.map((b) => fenceDistance(field, b)!)]);
    nearestOf.set(field, found);
  }
  return found;
}

type Point = readonly [number, number, number];

/** The parabola through points at −1, 0 and 1, at u. */
function between(a: Point, b: Point, c: Point, u: number): Point {
  const at = (i: 0 | 1 | 2): number =>
    b[i] + (u * (c[i] - a[i])) / 2 + (u * u * (a[i] - 2 * b[i] + c[i])) / 2;
  return [at(0), at(1), at(2)];
}

/** Where the flight in the kernel's `given`, which lands past the fence, crosses its line. */
function crossing(field: PlayingField): Point {
  const least = nearest(field) ** 2;
  let before: Point | null = null;
  let last: Point | null = null;
  let found: Point | null = null;
  march(stride, (_t, x, y, z) => {
    const here: Point = [x, y, z];
    if (last !== null && x * x + y * y >= least && past(field, x, y) >= 0) {
      // The first stride has no point before it: a straight line there, far inside any fence.
      const a: Point = before ?? [2 * last[0] - x, 2 * last[1] - y, 2 * last[2] - z];
      let [low, high] = [0, 1];
      for (let i = 0; i < halvings; i++) {
        const middle = (low + high) / 2;
        const [mx, my] = between(a, last, here, middle);
        if (past(field, mx, my) >= 0) high = middle;
        else low = middle;
      }
      found = between(a, last, here, high);
      return false;
    }
    before = last;
    last = here;
    return true;
  });
  return found!;
}

/** How the flight in `given` meets the fence. */
function meet(field: PlayingField, ball: Ball): FenceMeeting {
  run();
  const [lx, ly] = [landed[0]!, landed[1]!];
  const over = past(field, lx, ly);
  if (over < 0) {
    const bearing = Math.atan2(lx, ly);
    if (!inside(bearing)) return foul(bearing);
    const distance = fenceDistance(field, bearing);
    const fence = fenceHeight(field, bearing);
    return { result: "short", bearing, distance, fence, height: null, missing: -over };
  }
  const [x, y, z] = crossing(field);
  const bearing = Math.atan2(x, y);
  if (!inside(bearing)) return foul(bearing);
  const fence = fenceHeight(field, bearing)!;
  return {
    result: z - ball.radius > fence ? "over" : "into",
    bearing,
    distance: fenceDistance(field, bearing),
    fence,
    height: z,
    missing: null,
  };
}

function foul(bearing: number): FenceMeeting {
  return { result: "foul", bearing, distance: null, fence: null, height: null, missing: null };
}

/**
 * How a ball meets the fence: its height at the fence's distance along its way, all of the ball above it or not. A
 * ball that passes the fence between the poles is fair wherever it comes down after.
 * @throws RangeError when a number isn't finite.
 */
export function meetFence(launch: Launch, air: Air, ball: Ball, field: PlayingField): FenceMeeting {
  load(launch, air, ball);
  return meet(field, ball);
}

/** How the balls like one are drawn. */
export interface FenceDraws {
  /** The ball's own range, where it is known already. */
  readonly range?: CarryRange;
  /** How many are drawn. */
  readonly draws?: number | undefined;
  /** From 0 to 1: where chances are added up, a seed for each, or their errors add up too. */
  readonly seed?: number;
}

/**
 * How a ball meets the fence, and the share of `draws` balls like it that go over: each drawn from the table of
 * spreads, as the range of the carry is, and followed to the fence. Seeded: the same ball has the same chance.
 * @throws RangeError when a number isn't finite.
 */
export function fenceOdds(
  launch: Launch,
  air: Air,
  ball: Ball,
  spinSource: SpinSource,
  field: PlayingField,
  { range = carryRange(launch, air, ball, spinSource), draws = drawCount, seed = drawSeed }: FenceDraws = {},
): FenceOdds {
  const meeting = meetFence(launch, air, ball, field);
  const { high, sd } = range;
  if (high + (outOfReach - 1) * sd < nearest(field)) return { ...meeting, chance: 0, draws: 0 };
  let over = 0;
  const draw = flightDraws(launch, air, ball, spinSource, seed);
  for (let i = 0; i < draws; i++) {
    draw();
    if (meet(field, ball).result === "over") over++;
  }
  return { ...meeting, chance: over / draws, draws };
}
