/** One ball's flight: where it comes down, when, and how high it went. */
import { rpm } from "../units/index.ts";
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { dragPerThousandRpm, dragWithoutSpin, liftSlope } from "./coefficients.ts";
import { given, landed, run } from "./kernel.ts";
import { unmeasuredContact, type Launch } from "./launch.ts";

/** A flight in SI. */
export interface Flight {
  /** Horizontal distance from the plate's rear point to the landing point, m. */
  readonly carry: number;
  /** Time from contact to landing, s. */
  readonly hang: number;
  /** Greatest height above the ground, m. */
  readonly apex: number;
  /** Direction of the landing point, rad; signs as the spray angle. */
  readonly bearing: number;
  /** The landing point, m. */
  readonly x: number;
  readonly y: number;
}

/** ρA/2m, 1/m: what a coefficient becomes an acceleration with, by the square of the speed. */
function perCoefficient(air: Air, ball: Ball): number {
  return (air.density * Math.PI * ball.radius * ball.radius) / (2 * ball.mass);
}

/** The kernel's spin drag constant (`given[10]`) of a ball that turns 1 rad/s. */
export function spinDrag(air: Air, ball: Ball): number {
  return (perCoefficient(air, ball) * dragPerThousandRpm) / (1000 * rpm);
}

/** Writes a launch into the kernel's `given`. */
export function load(launch: Launch, air: Air, ball: Ball): void {
  const contact = launch.contact ?? unmeasuredContact;
  const cosSpray = Math.cos(launch.sprayAngle);
  const sinSpray = Math.sin(launch.sprayAngle);
  const level = launch.speed * Math.cos(launch.launchAngle);
  const k = perCoefficient(air, ball);
  given[0] = contact[0];
  given[1] = contact[1];
  given[2] = contact[2];
  given[3] = level * sinSpray;
  given[4] = level * cosSpray;
  given[5] = launch.speed * Math.sin(launch.launchAngle);
  given[6] = launch.backspin * cosSpray;
  given[7] = -launch.backspin * sinSpray;
  given[8] = -launch.sidespin;
  given[9] = k * dragWithoutSpin;
  given[10] = spinDrag(air, ball) * Math.sqrt(launch.backspin ** 2 + launch.sidespin ** 2);
  given[11] = k * ball.radius;
  given[12] = liftSlope * ball.radius;
  given[13] = air.wind[0];
  given[14] = air.wind[1];
  let sum = 0;
  for (let i = 0; i < 15; i++) sum += given[i]!;
  if (!Number.isFinite(sum)) throw new RangeError("a launch, its air and its ball have to be finite numbers");
}

/**
 * Flies a launch to its first fall to the ground.
 * @throws RangeError when a number isn't finite.
 */
export function fly(launch: Launch, air: Air, ball: Ball): Flight {
  load(launch, air, ball);
  run();
  const x = landed[0]!;
  const y = landed[1]!;
  return {
    carry: Math.sqrt(x * x + y * y),
    hang: landed[2]!,
    apex: landed[3]!,
    bearing: Math.atan2(x, y),
    x,
    y,
  };
}
