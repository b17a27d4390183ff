/** Invented swings and figures that every chart's test draws: the same every time. */
import { randomLcg, randomNormal } from "d3";
import type { Surface } from "../../src/charts/contactMap.ts";
import type { Category, EnrichedSwing } from "../../src/swing/fields.ts";
import { enrichedOf } from "../../src/swing/unknown.ts";

/** A right-handed hitter's ball off the tee, in play, with the given fields; everything else unknown. */
export const row = (fields: Partial<EnrichedSwing>): EnrichedSwing =>
  enrichedOf({ hitter: "Hitter A", bats: "R", input: "tee", outcome: "in_play", ...fields });

// A stand-in for the flight model, smooth and plausible: the charts only place what they are given.
const carryOf = (mph: number, degrees: number): number =>
  Math.max(
    4,
    degrees <= -3
      ? 4 + 40 / -degrees
      : 0.047 * mph ** 2 * Math.sin(((2 * degrees + 12) * Math.PI) / 180) * (1 - mph / 460),
  );
const categoryOf = (mph: number, degrees: number): Category => {
  const carry = carryOf(mph, degrees);
  if (degrees < 10) return carry < 120 ? "ground ball" : "line drive";
  if (degrees < 25) return mph < 62 ? "bloop" : "line drive";
  if (carry <= 150) return "pop-up";
  return carry <= 210 ? (degrees < 50 ? "bloop" : "pop-up") : "fly ball";
};

export const surface: Surface = (() => {
  const launchAngles_deg = Array.from({ length: 150 }, (_, i) => i - 60.5);
  const exitVelocities_mph = Array.from({ length: 91 }, (_, j) => 29.5 + j);
  const grid = exitVelocities_mph.flatMap((v) => launchAngles_deg.map((a) => [v, a] as const));
  return {
    field: { name: "60/90" },
    launchAngles_deg,
    exitVelocities_mph,
    carry_ft: Float64Array.from(grid, ([v, a]) => carryOf(v, a)),
    category: grid.map(([v, a]) => categoryOf(v, a)),
  };
})();

const tenth = (value: number): number => Math.round(value * 10) / 10;

function invent(): EnrichedSwing[] {
  const source = randomLcg(0.42);
  const normal = randomNormal.source(source)(0, 1);
  return Array.from({ length: 64 }, (_, i) => {
    const quality = Math.min(1.02, 0.9 + 0.09 * normal() - (source() < 0.15 ? 0.22 : 0));
    const degrees = tenth(12 + 15 * normal());
    const mph = tenth(98 * quality * Math.cos(((degrees - 10) * Math.PI) / 180));
    const depth = tenth(1.6 + 0.55 * normal());
    const spray = tenth(-34 * (depth - 1.5) + 15 * normal());
    const carry = tenth(carryOf(mph, degrees));
    const bearing = tenth(spray * 1.08);
    return row({
      swing_id: `s${i + 1}`,
      session: i < 30 ? "2026-05-02" : i < 50 ? "2026-05-06" : "2026-05-09",
      input: i < 40 ? "tee" : "flip",
      drill: i < 40 ? "High tee, middle" : "Front toss",
      exit_velocity_mph: mph,
      launch_angle_deg: degrees,
      spray_angle_deg: spray,
      contact_side_ft: tenth(0.4 * normal()),
      contact_depth_ft: depth,
      carry_ft: carry,
      carry_low_ft: tenth(carry * 0.95),
      carry_high_ft: tenth(carry * 1.05),
      bearing_deg: bearing,
      category: categoryOf(mph, degrees),
      power_kept: Math.round(quality * 1000) / 1000,
      bucket: quality >= 0.92 ? "flush" : quality >= 0.85 ? "clean" : quality >= 0.7 ? "partial" : "mishit",
      spin_source: "estimated",
      air_source: i < 50 ? "session" : "default",
      flags: i % 17 === 5 ? "far from the others" : null,
    });
  });
}

/** 64 invented swings of one right-handed hitter: three sessions, two drills, some flagged. */
export const swings: readonly EnrichedSwing[] = invent();

/** What doesn't fit in: a freak speed, a ball straight up, fouls, misses, and unknowns. */
export const oddities: readonly EnrichedSwing[] = [
  row({
    session: "2026-05-09",
    drill: "Front toss",
    input: "flip",
    exit_velocity_mph: 127,
    launch_angle_deg: 18,
    spray_angle_deg: -3,
    carry_ft: 540,
    bearing_deg: -4,
    contact_depth_ft: 7,
    contact_side_ft: 3,
    category: "line drive",
    bucket: "flush",
    flags: "faster than the level",
  }),
  row({
    session: "2026-05-09",
    drill: "Front toss",
    input: "flip",
    exit_velocity_mph: 41,
    launch_angle_deg: 88,
    spray_angle_deg: 150,
    carry_ft: 12,
    bearing_deg: 150,
    contact_depth_ft: -2,
    contact_side_ft: -3,
    category: "pop-up",
    bucket: "mishit",
  }),
  row({ session: "2026-05-09", drill: "Front toss", input: "flip", outcome: "foul" }),
  row({ session: "2026-05-09", drill: "Front toss", input: "flip", outcome: "miss" }),
];
