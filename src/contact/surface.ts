/** Carry and category over launch angle and exit velocity: the ground under a map of contact. */
import type { PlayingField } from "../field/fields.ts";
import type { Air } from "../flight/air.ts";
import type { Ball } from "../flight/ball.ts";
import { fly } from "../flight/carry.ts";
import { estimateSpin } from "../flight/spin.ts";
import type { Category } from "../swing/fields.ts";
import { deg, ft, mph } from "../units/index.ts";
import { categoryOf } from "./category.ts";
import { defaultThresholds, type Thresholds } from "./thresholds.ts";

/** A grid of balls hit straight away: cell (i, j) of the lists, i an exit velocity, j a launch angle, is at i·(number of angles) + j. */
export interface ContactSurface {
  /** What the categories are by. */
  readonly field: PlayingField;
  readonly launchAngles_deg: number[];
  readonly exitVelocities_mph: number[];
  readonly carry_ft: Float64Array;
  readonly category: Category[];
}

/** What the balls of a surface fly over and through. */
export interface SurfaceOptions {
  readonly field: PlayingField;
  readonly air: Air;
  readonly ball: Ball;
  /** The batter's side, which the estimated spin needs; null when unknown. */
  readonly bats: "L" | "R" | null;
  readonly thresholds?: Thresholds;
}

function steps(from: number, to: number, by: number): number[] {
  return Array.from({ length: Math.round((to - from) / by) + 1 }, (_, i) => from + i * by);
}

/**
 * Carry and category of balls hit straight away with the spin their launch lets expect: launch angles from −50.5°
 * to 80.5° by 1°, exit velocities from 19 to 121 mph by 2. The angles lie between whole degrees, so that a
 * threshold of whole degrees falls midway between two of them, where a map draws the border.
 * @returns rows by exit velocity: carry_ft[i·launchAngles_deg.length + j]
 */
export function contactSurface(options: SurfaceOptions): ContactSurface {
  const { field, air, ball, bats, thresholds = defaultThresholds } = options;
  const launchAngles_deg = steps(-50.5, 80.5, 1);
  const exitVelocities_mph = steps(19, 121, 2);
  const carry_ft = new Float64Array(launchAngles_deg.length * exitVelocities_mph.length);
  const category: Category[] = [];
  const spins = launchAngles_deg.map((angle) => estimateSpin(angle * deg, 0, bats));
  for (const speed of exitVelocities_mph) {
    for (let j = 0; j < launchAngles_deg.length; j++) {
      const angle = launchAngles_deg[j]!;
      const { backspin, sidespin } = spins[j]!;
      const flight = fly(
        { speed: speed * mph, launchAngle: angle * deg, sprayAngle: 0, backspin, sidespin },
        air,
        ball,
      );
      carry_ft[category.length] = flight.carry / ft;
      category.push(categoryOf(angle, flight, field, thresholds));
    }
  }
  return { field, launchAngles_deg, exitVelocities_mph, carry_ft, category };
}
