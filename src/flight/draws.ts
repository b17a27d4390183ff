/** The spread of a landing point by drawing: slow, and as near the truth as the number of draws allows. */
import { randomLcg, randomNormal } from "d3";
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { load } from "./carry.ts";
import { dragWithoutSpin } from "./coefficients.ts";
import { run } from "./kernel.ts";
import { given, landed } from "./lanes.ts";
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
 * Draws a ball `count` times, every quantity of the table of spreads off by its own normal deviate, and puts each
 * into the kernel's `given` before it tells of it. The same seed gives the same draws.
 */
export function drawFlights(
  launch: Launch,
  air: Air,
  ball: Ball,
  spinSource: SpinSource,
  count: number,
  seed: number,
  each: (i: number) => void,
): void {
  const d = deviationsOf(launch, air, spinSource);
  const normal = randomNormal.source(randomLcg(seed))(0, 1);
  const [x0, y0, z0] = launch.contact ?? unmeasuredContact;
  const rate = Math.hypot(launch.backspin, launch.sidespin);
  const back = d.ownDirection ? launch.backspin / rate : 1;
  const side = d.ownDirection ? launch.sidespin / rate : 0;
  for (let i = 0; i < count; i++) {
    const along = d.spinAlong * normal();
    const across = d.spinAcross * normal();
    load(
      {
        speed: launch.speed + d.speed * normal(),
        launchAngle: launch.launchAngle + d.launchAngle * normal(),
        sprayAngle: launch.sprayAngle + d.sprayAngle * normal(),
        backspin: launch.backspin + along * back - across * side,
        sidespin: launch.sidespin + along * side + across * back,
        contact: [
          x0 + d.contactPlace * normal(),
          y0 + d.contactPlace * normal(),
          z0 + d.contactHeight * normal(),
        ],
      },
      {
        ...air,
        density: air.density * Math.max(0, 1 + d.density * normal()),
        wind: [air.wind[0] + d.wind * normal(), air.wind[1] + d.wind * normal()],
      },
      ball,
    );
    given[9] = given[9]! * Math.max(0, 1 + (d.drag * normal()) / dragWithoutSpin);
    each(i);
  }
}

/** Draws `count` landing points, as `drawFlights` draws balls. */
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
  drawFlights(launch, air, ball, spinSource, count, seed, (i) => {
    run();
    x[i] = landed[0]!;
    y[i] = landed[1]!;
    carry[i] = Math.hypot(landed[0]!, landed[1]!);
  });
  return { x, y, carry };
}
