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
import type { Flight } from "../flight/carry.ts";
import type { Launch } from "../flight/launch.ts";
import { flyWithRange, type RangedFlight } from "../flight/range.ts";
import type { SpinSource } from "../flight/spin.ts";
import { follow } from "../flight/trajectory.ts";
import { fenceAtLeast, fenceDistance, fenceHeight, type PlayingField } from "../field/fields.ts";
import { normalProbability, normalQuantile } from "../stats/normal.ts";
import { deg } from "../units/index.ts";
import { mostReach, reachFigures, reachIn, type Defence, type Fielder } from "./fielders.ts";

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

/** A landing's spread in parts alike likely: their deviates outward and sideward. */
export interface LandingParts {
  readonly outward: readonly number[];
  readonly sideward: readonly number[];
}

/** So many parts each way. */
export function landingParts(outward: number, sideward: number): LandingParts {
  const parts = (n: number): number[] => Array.from({ length: n }, (_, i) => normalQuantile((i + 0.5) / n));
  return { outward: parts(outward), sideward: parts(sideward) };
}

/** Over or short is a step, which a few parts would miss by far. */
const nearFence = landingParts(15, 5);
/** No part is further from the middle, in deviations. */
const outermost = Math.hypot(nearFence.outward.at(-1)!, nearFence.sideward.at(-1)!);
/** Without that step fewer do as well: each chance is within 0.04 of what 151 by 41 parts give, here as there. */
const shortOfFence = landingParts(9, 5);

const line = 45 * deg;
const step = 0.05;

/**
 * The chances of one ball.
 * @param defence from `defenceOn` of the same field
 * @param parts of the landing's spread; as many as the ball needs when left out
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
  parts?: LandingParts,
): Chances | null {
  const { flight, range } = flown;
  if (Math.abs(flight.bearing) > line) return null;
  const lined = linedInto(launch, air, ball, flight, defence);
  const slope = Math.tan(flight.descent);
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
  const inside = fenceAtLeast(field);
  const level = reachFigures.groundSpeed * launch.speed * Math.cos(launch.launchAngle);
  const most = distance(mx, my) + outermost * Math.sqrt(out2 + side2);
  const { outward, sideward } = parts ?? (most < inside ? shortOfFence : nearFence);
  const weight = 1 / (outward.length * sideward.length);
  let [over, caught, fielded] = [0, 0, 0];
  for (const u of outward)
    for (const v of sideward) {
      const far = u * out;
      const wide = u * drift + v * rest;
      const x = mx + far * sin + wide * cos;
      const y = my + far * cos - wide * sin;
      const carry = distance(x, y);
      if (carry >= inside) {
        const bearing = Math.min(line, Math.max(-line, Math.atan2(x, y)));
        const beyond = carry - fenceDistance(field, bearing)!;
        if (beyond > 0 && beyond * slope > fenceHeight(field, bearing)!) {
          over += weight;
          continue;
        }
      }
      const air = Math.max(lined, inAir(x, y, reach, defence));
      caught += weight * air;
      fielded += weight * (1 - air) * onGround(x, y, carry, flight.hang, level, defence);
    }
  return { over, caught, fielded, down: Math.max(0, 1 - over - caught - fielded) };
}

/** Of points a field's length apart at most: nothing overflows, and this is asked a thousand times a ball. */
const distance = (x: number, y: number): number => Math.sqrt(x * x + y * y);

/** How far each kind of fielder gets while it is in the air. */
type Reach = Readonly<Record<Fielder["kind"], number>>;

/** The best chance that somebody is where it comes down in time: of the nearest of each kind, by how sure its reach is. */
function inAir(x: number, y: number, reach: Reach, { infield, outfield }: Defence): number {
  // Before the reaction nobody moves: what comes within an arm then is a matter of luck.
  const most = Math.max(
    (reach.outfield - nearest(outfield, x, y)) / reachFigures.spread,
    (reach.infield - nearest(infield, x, y)) / reachFigures.infieldSpread,
  );
  return reachFigures.surest * normalProbability(most);
}

function nearest(fielders: readonly Fielder[], x: number, y: number): number {
  let least = Infinity;
  for (const fielder of fielders) {
    const dx = x - fielder.x;
    const dy = y - fielder.y;
    least = Math.min(least, dx * dx + dy * dy);
  }
  return Math.sqrt(least);
}

/** The best chance that an infielder takes it on its way, where it passes no higher than a glove gets. */
function linedInto(launch: Launch, air: Air, ball: Ball, flight: Flight, defence: Defence): number {
  const { infield, running } = defence;
  const [sin, cos] = [Math.sin(flight.bearing), Math.cos(flight.bearing)];
  let best = 0;
  let i = 0;
  const pass = (t: number, far: number, z: number): boolean => {
    for (; i < infield.length && infield[i]!.depth <= far; i++) {
      const { depth } = infield[i]!;
      if (depth === 0 || z > reachFigures.jump) continue;
      const room = roomAt(infield[i]!, depth * sin, depth * cos, t, running);
      best = Math.max(best, reachFigures.surest * normalProbability(room));
    }
    return i < infield.length;
  };
  follow(launch, air, ball, step, (t, x, y, z) =>
    t < flight.hang ? pass(t, distance(x, y), z) : (pass(flight.hang, flight.carry, 0), false),
  );
  return best;
}

/** By how many spreads of an infielder's reach a ball that passes a place at a time is within it. */
function roomAt(fielder: Fielder, x: number, y: number, time: number, running: Defence["running"]): number {
  const away = distance(x - fielder.x, y - fielder.y);
  return (reachIn(time, fielder.kind, running) - away) / reachFigures.infieldSpread;
}

/** How far in an infielder may come for a slow ball, of the depth he stands at. */
const chargesTo = [1, 0.85, 0.7, 0.55, 0.4] as const;

/** So far down there is no chance at all. */
const noChance = -7;
/** The distribution at steps from there up: a chance is ruled out by where it stands among them, without its series. */
const stepsAUnit = 20;
const probabilities = Float64Array.from({ length: -2 * noChance * stepsAUnit + 1 }, (_, i) =>
  normalProbability(i / stepsAUnit + noChance),
);

/** A deviate whose probability is no more than this one, and not by much. */
function deviateUnder(probability: number): number {
  let [low, high] = [0, probabilities.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (probabilities[middle]! <= probability) low = middle;
    else high = middle;
  }
  return low / stepsAUnit + noChance;
}

/**
 * The best chance that an infielder has it on the ground and that the throw is there before the runner.
 * @param level how fast it runs along the ground, m/s
 */
function onGround(
  x: number,
  y: number,
  carry: number,
  hang: number,
  level: number,
  { infield, running }: Defence,
): number {
  if (!(level > 0)) return 0;
  // A ball near the line that drifts across it is taken as if on the line: it was fair as it was.
  const isFair = Math.abs(x) <= y && carry > 0;
  const sin = isFair ? x / carry : Math.sign(x) * Math.SQRT1_2;
  const cos = isFair ? y / carry : Math.SQRT1_2;
  let best = 0;
  /** A candidate has to be above it in both chances. */
  let least = noChance;
  for (const fielder of infield) {
    const stands = Math.max(fielder.depth, 1);
    if (stands < carry) continue;
    // The last place where he can be is the one he has most time for, and none is nearer than the ball's line.
    const most = mostReach(hang + (stands - carry) / level, fielder.kind, running);
    const off = Math.abs(fielder.x * cos - fielder.y * sin);
    if ((most - off) / reachFigures.infieldSpread <= least) continue;
    for (const share of chargesTo) {
      const depth = stands * share;
      // What comes down behind him is past him.
      if (depth < carry) break;
      const time = hang + (depth - carry) / level;
      const early = (running.toFirst - time - running.throwing) / reachFigures.throwSpread;
      if (early <= least) continue;
      const room = roomAt(fielder, depth * sin, depth * cos, time, running);
      if (room <= least) continue;
      const both = normalProbability(Math.min(room, early)) * normalProbability(Math.max(room, early));
      if (reachFigures.surest * both <= best) continue;
      best = reachFigures.surest * both;
      least = deviateUnder(best);
    }
  }
  return best;
}
