/** The spread of a landing point by drawing: slow, and as near the truth as the number of draws allows. */
import { randomLcg, randomNormal } from "d3-random";
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { give } from "./carry.ts";
import { dragWithoutSpin } from "./coefficients.ts";
import { run } from "./kernel.ts";
import { aim, given, landed } from "./room.ts";
import { unmeasuredContact, type Launch } from "./launch.ts";
import type { SpinSource } from "./spin.ts";
import { deviationsOf } from "./spreads.ts";

/** Landing points drawn, m. */
export interface LandingDraws {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly carry: Float64Array;
}

/**
 * Draws balls like one, every quantity of the table of spreads off by its own normal deviate. The same seed gives the
 * same draws.
 * @returns what puts the next draw into the kernel's `given`
 */
export function flightDraws(
  launch: Launch,
  air: Air,
  ball: Ball,
  spinSource: SpinSource,
  seed: number,
): () => void {
  const d = deviationsOf(launch, air, spinSource);
  const normal = randomNormal.source(randomLcg(seed))(0, 1);
  const [x0, y0, z0] = launch.contact ?? unmeasuredContact;
  const rate = Math.hypot(launch.backspin, launch.sidespin);
  const back = d.ownDirection ? launch.backspin / rate : 1;
  const side = d.ownDirection ? launch.sidespin / rate : 0;
  return () => {
    const along = d.spinAlong * normal();
    const across = d.spinAcross * normal();
    aim[0] = launch.speed + d.speed * normal();
    aim[1] = launch.launchAngle + d.launchAngle * normal();
    aim[2] = launch.sprayAngle + d.sprayAngle * normal();
    aim[3] = launch.backspin + along * back - across * side;
    aim[4] = launch.sidespin + along * side + across * back;
    aim[5] = x0 + d.contactPlace * normal();
    aim[6] = y0 + d.contactPlace * normal();
    aim[7] = z0 + d.contactHeight * normal();
    aim[8] = air.density * Math.max(0, 1 + d.density * normal());
    aim[9] = air.wind[0] + d.wind * normal();
    aim[10] = air.wind[1] + d.wind * normal();
    give(ball);
    given[9] = given[9]! * Math.max(0, 1 + (d.drag * normal()) / dragWithoutSpin);
  };
}

/** Draws `count` landing points, of balls as `flightDraws` draws them. */
export function landingDraws(
  launch: Launch,
  air: Air,
  ball: Ball,
  spinSource: SpinSource,
  count: number,
  seed: number,
): LandingDraws {
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const carry = new Float64Array(count);
  const draw = flightDraws(launch, air, ball, spinSource, seed);
  for (let i = 0; i < count; i++) {
    draw();
    run();
    x[i] = landed[0]!;
    y[i] = landed[1]!;
    carry[i] = Math.hypot(x[i]!, y[i]!);
  }
  return { x, y, carry };
}
