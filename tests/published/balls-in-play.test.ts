/**
 * Shares of hits by kind of batted ball against a grown players' defence, home runs counted as hits. Published year by year for
 * the highest leagues; the values here are from memory, rounded to what years differ by: ground balls about 24 in 100, line
 * drives about 65, fly balls about 23, pop-ups about 2. The balls are made up: speeds and angles by kind, from memory too (means and
 * spreads below). The tolerance, 8 in 100, is what both may be off by; no procedure fitted
 * the model to them, but its figures without a source are judgements, which may have leaned toward them.
 */
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { onField } from "../../src/defence/onField.ts";
import { swing } from "../views/rows.ts";

const tolerance = 0.08;
const kinds = [
  { kind: "ground ball", angles: [-20, 10], speed: [86, 14], hits: 0.24 },
  { kind: "line drive", angles: [10, 25], speed: [93, 11], hits: 0.65 },
  { kind: "fly ball", angles: [25, 50], speed: [91, 9], hits: 0.23 },
  { kind: "pop-up", angles: [50, 75], speed: [78, 12], hits: 0.02 },
] as const;

describe("shares of hits by kind of batted ball", { timeout: 60_000 }, () => {
  it.each(kinds)("$kind: about $hits", ({ kind, angles, speed, hits }) => {
    const random = randomLcg(0.3);
    const normal = randomNormal.source(random);
    const balls = Array.from({ length: 400 }, () =>
      swing({
        bats: "R",
        exit_velocity_mph: Math.min(115, Math.max(35, normal(...speed)())),
        launch_angle_deg: angles[0] + (angles[1] - angles[0]) * random(),
        spray_angle_deg: Math.min(44, Math.max(-44, normal(kind === "ground ball" ? -6 : 0, 22)())),
      }),
    );
    const { total } = onField(balls, { field: "60/90" });
    expect(total.n).toBeGreaterThan(330);
    expect(Math.abs(total.safe.value / total.n - hits)).toBeLessThan(tolerance);
  });
});
