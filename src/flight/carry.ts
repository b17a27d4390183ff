/** One ball's flight: where it comes down, when, and how high it went. */
import { rpm } from "../units/index.ts";
import type { Air } from "./air.ts";
import type { Ball } from "./ball.ts";
import { dragPerThousandRpm, dragWithoutSpin, liftSlope } from "./coefficients.ts";
import { run } from "./kernel.ts";
import * as room from "./room.ts";
import { unmeasuredContact, type Launch } from "./launch.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { aim, given, landed } = room;

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
  /** How steeply it comes down: its way's angle below level at the landing, rad; 0 where it doesn't fall. */
  readonly descent: number;
  /** The landing point, m. */
  readonly x: number;
  readonly y: number;
}

/** ρA/2m, 1/m: what a coefficient becomes an acceleration with, by the square of the speed. */
function perCoefficient(density: number, ball: Ball): number {
  return (density * Math.PI * ball.radius * ball.radius) / (2 * ball.mass);
}

/** The kernel's spin drag constant (`given[10]`) of a ball that turns 1 rad/s, by its `perCoefficient`. */
const spinDragBy = (k: number): number => (k * dragPerThousandRpm) / (1000 * rpm);

/** That constant of a ball in an air. */
export function spinDrag(air: Air, ball: Ball): number {
  return spinDragBy(perCoefficient(air.density, ball));
}

/**
 * Writes what stands in `aim` into the kernel's `given`.
 * @throws RangeError when a number isn't finite.
 */
export function give(ball: Ball): void {
  const speed = aim[0]!;
  const launchAngle = aim[1]!;
  const sprayAngle = aim[2]!;
  const backspin = aim[3]!;
  const sidespin = aim[4]!;
  const cosSpray = Math.cos(sprayAngle);
  const sinSpray = Math.sin(sprayAngle);
  const level = speed * Math.cos(launchAngle);
  const k = perCoefficient(aim[8]!, ball);
  given[0] = aim[5]!;
  given[1] = aim[6]!;
  given[2] = aim[7]!;
  given[3] = level * sinSpray;
  given[4] = level * cosSpray;
  given[5] = speed * Math.sin(launchAngle);
  given[6] = backspin * cosSpray;
  given[7] = -backspin * sinSpray;
  given[8] = -sidespin;
  given[9] = k * dragWithoutSpin;
  given[10] = spinDragBy(k) * Math.sqrt(backspin * backspin + sidespin * sidespin);
  given[11] = k * ball.radius;
  given[12] = liftSlope * ball.radius;
  given[13] = aim[9]!;
  given[14] = aim[10]!;
  let sum = 0;
  for (let i = 0; i < 15; i++) sum += given[i]!;
  if (!Number.isFinite(sum)) throw new RangeError("a launch, its air and its ball have to be finite numbers");
}

/** Writes a launch into the kernel's `given`. */
export function load(launch: Launch, air: Air, ball: Ball): void {
  const contact = launch.contact ?? unmeasuredContact;
  aim[0] = launch.speed;
  aim[1] = launch.launchAngle;
  aim[2] = launch.sprayAngle;
  aim[3] = launch.backspin;
  aim[4] = launch.sidespin;
  aim[5] = contact[0];
  aim[6] = contact[1];
  aim[7] = contact[2];
  aim[8] = air.density;
  aim[9] = air.wind[0];
  aim[10] = air.wind[1];
  give(ball);
}

/**
 * Flies a launch to its first fall to the ground.
 * @throws RangeError when a number isn't finite.
 */
export function fly(launch: Launch, air: Air, ball: Ball): Flight {
  load(launch, air, ball);
  run();
  return flown();
}

/** The flight that the kernel has just left in `landed`. */
export function flown(): Flight {
  const x = landed[0]!;
  const y = landed[1]!;
  const down = Math.max(0, -landed[6]!);
  return {
    carry: Math.sqrt(x * x + y * y),
    hang: landed[2]!,
    apex: landed[3]!,
    bearing: Math.atan2(x, y),
    descent: Math.atan2(down, Math.sqrt(landed[4]! * landed[4]! + landed[5]! * landed[5]!)),
    x,
    y,
  };
}
