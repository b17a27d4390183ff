/**
 * What a ball would have been on a field, against a defence: over the fence, caught, fielded on the ground, or down. A
 * rough estimate: fielders stand where the table puts them, and nobody is known by name.
 *
 * The landing point is spread by the carry's own range, in direction too, and every landing counts, in
 * parts alike likely. A fielder reaches a point with a chance that falls
 * from one to nought about the edge of the reach; the one with the best chance has it.
 */
import type { Air } from "../flight/air.ts";
import type { Ball } from "../flight/ball.ts";
import type { Launch } from "../flight/launch.ts";
import { flyWithRange, type RangedFlight } from "../flight/range.ts";
import type { SpinSource } from "../flight/spin.ts";
import { trajectory, type FlightPoint } from "../flight/trajectory.ts";
import { fenceDistance, fenceHeight, type PlayingField } from "../field/fields.ts";
import { normalProbability, normalQuantile } from "../stats/normal.ts";
import { deg } from "../units/index.ts";
import { reachFigures, reachIn, type Defence, type Fielder } from "./fielders.ts";

/** What may come of a ball in fair ground; the four add up to one. */
export interface Chances {
  readonly over: number;
  /** In the air. */
  readonly caught: number;
  /** On the ground, and thrown out at first. */
  readonly fielded: number;
  /** Falls in, or gets through. */
  readonly down: number;
}

/** So many parts alike likely: over or short is a step, which a few weighted nodes would miss by far. */
const parts = (n: number): number[] => Array.from({ length: n }, (_, i) => normalQuantile((i + 0.5) / n));
const outward = parts(15);
const sideward = parts(5);
const weight = 1 / (outward.length * sideward.length);

const line = 45 * deg;
const step = 0.05;

/**
 * The chances of one ball.
 * @param defence from `defenceOn` of the same field
 * @returns null for a ball that comes down in foul ground
 * @throws RangeError when a number isn't finite
 */
export function chancesOf(
  launch: Launch,
  air: Air,
  ball: Ball,
  spinSource: SpinSource,
  field: PlayingField,
  defence: Defence,
  flown: RangedFlight = flyWithRange(launch, air, ball, spinSource),
): Chances | null {
  const { flight, range } = flown;
  if (Math.abs(flight.bearing) > line) return null;
  const path = trajectory(launch, air, ball, step, flight);
  const lined = linedInto(path, flight.bearing, defence);
  const slope = descent(path);
  const { x: mx, y: my, xx, xy, yy } = range.landing;
  const middle = Math.atan2(mx, my);
  const [sin, cos] = [Math.sin(middle), Math.cos(middle)];
  // The landing's spread outward, sideward, and how the two go together.
  const out2 = xx * sin * sin + 2 * xy * sin * cos + yy * cos * cos;
  const side2 = xx * cos * cos - 2 * xy * sin * cos + yy * sin * sin;
  const both = (xx - yy) * sin * cos + xy * (cos * cos - sin * sin);
  const out = Math.sqrt(out2);
  const drift = out === 0 ? 0 : both / out;
  const rest = Math.sqrt(Math.max(0, side2 - drift * drift));
  const reach = {
    outfield: reachIn(flight.hang, "outfield", defence.running),
    infield: reachIn(flight.hang, "infield", defence.running),
  };
  let [over, caught, fielded] = [0, 0, 0];
  for (const u of outward)
    for (const v of sideward) {
      const far = u * out;
      const wide = u * drift + v * rest;
      const x = mx + far * sin + wide * cos;
      const y = my + far * cos - wide * sin;
      // A ball near the line that drifts across it is taken as if on the line: it was fair as it was.
      const bearing = Math.min(line, Math.max(-line, Math.atan2(x, y)));
      const carry = Math.hypot(x, y);
      const beyond = carry - fenceDistance(field, bearing)!;
      if (beyond > 0 && beyond * slope > fenceHeight(field, bearing)!) {
        over += weight;
        continue;
      }
      const air = Math.max(lined, inAir(x, y, reach, defence));
      caught += weight * air;
      fielded += weight * (1 - air) * onGround(bearing, carry, flight.hang, launch, defence);
    }
  return { over, caught, fielded, down: Math.max(0, 1 - over - caught - fielded) };
}

/** How steeply it comes down: height lost per distance on the last part of its way. */
function descent(path: readonly FlightPoint[]): number {
  const [before, last] = [path[Math.max(0, path.length - 3)]!, path.at(-1)!];
  const level = Math.hypot(last.x - before.x, last.y - before.y);
  return level === 0 ? Infinity : (before.z - last.z) / level;
}

/** Of points a field's length apart at most: nothing overflows, and this is asked a thousand times a ball. */
const distance = (x: number, y: number): number => Math.sqrt(x * x + y * y);

/** How far each kind of fielder gets while it is in the air. */
type Reach = Readonly<Record<Fielder["kind"], number>>;

/** The best chance that somebody is where it comes down in time: of who has most room, by how sure that kind's reach is. */
function inAir(x: number, y: number, reach: Reach, { fielders }: Defence): number {
  let most = -Infinity;
  for (const fielder of fielders) {
    const { kind } = fielder;
    const spread = kind === "outfield" ? reachFigures.spread : reachFigures.infieldSpread;
    // Before the reaction nobody moves: what comes within an arm then is a matter of luck.
    const room = reach[kind] - distance(x - fielder.x, y - fielder.y);
    most = Math.max(most, room / spread);
  }
  return reachFigures.surest * normalProbability(most);
}

/** The best chance that an infielder takes it on its way, where it passes no higher than a glove gets. */
function linedInto(path: readonly FlightPoint[], bearing: number, { fielders, running }: Defence): number {
  let best = 0;
  for (const fielder of fielders) {
    if (fielder.kind === "outfield") continue;
    const depth = Math.hypot(fielder.x, fielder.y);
    const point = path.find(({ x, y }) => Math.hypot(x, y) >= depth);
    if (depth === 0 || point === undefined || point.z > reachFigures.jump) continue;
    const room = roomAt(fielder, depth, bearing, point.t, running);
    best = Math.max(best, reachFigures.surest * normalProbability(room));
  }
  return best;
}

/** By how many spreads of an infielder's reach a ball that passes at a distance from the plate is within it. */
function roomAt(
  fielder: Fielder,
  depth: number,
  bearing: number,
  time: number,
  running: Defence["running"],
): number {
  const away = distance(depth * Math.sin(bearing) - fielder.x, depth * Math.cos(bearing) - fielder.y);
  return (reachIn(time, fielder.kind, running) - away) / reachFigures.infieldSpread;
}

/** How far in an infielder may come for a slow ball, of the depth he stands at. */
const chargesTo = [1, 0.85, 0.7, 0.55, 0.4] as const;

/** The best chance that an infielder has it on the ground and that the throw is there before the runner. */
function onGround(
  bearing: number,
  carry: number,
  hang: number,
  { speed, launchAngle }: Launch,
  { fielders, running }: Defence,
): number {
  const { groundSpeed, throwSpread } = reachFigures;
  const level = groundSpeed * speed * Math.cos(launchAngle);
  if (!(level > 0)) return 0;
  let best = 0;
  for (const fielder of fielders) {
    if (fielder.kind === "outfield") continue;
    const stands = Math.max(distance(fielder.x, fielder.y), 1);
    if (stands < carry) continue;
    for (const share of chargesTo) {
      const depth = stands * share;
      // What comes down behind him is past him.
      if (depth < carry) continue;
      const time = hang + (depth - carry) / level;
      const room = roomAt(fielder, depth, bearing, time, running);
      const early = (running.toFirst - time - running.throwing) / throwSpread;
      // The less likely of the two alone may rule it out.
      const less = normalProbability(Math.min(room, early));
      if (less <= best) continue;
      best = Math.max(best, reachFigures.surest * less * normalProbability(Math.max(room, early)));
    }
  }
  return best;
}
