import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { contactSurface } from "../../src/contact/surface.ts";
import { fieldFor } from "../../src/field/fields.ts";
import { airFor, defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { ball } from "./swings.ts";

const options = { field: fieldFor(null), air: defaultAir, ball: ballFor(null), bats: "R" } as const;

describe("contact surface", () => {
  const surface = contactSurface(options);
  const columns = surface.launchAngles_deg.length;

  it("covers −50° to 80° and 20 to 120 mph in steps of 1°, a whole degree midway between two", () => {
    expect([surface.launchAngles_deg[0], surface.launchAngles_deg.at(-1)]).toEqual([-50.5, 80.5]);
    expect([surface.exitVelocities_mph[0], surface.exitVelocities_mph.at(-1)]).toEqual([19, 121]);
    for (let j = 1; j < columns; j++)
      expect((surface.launchAngles_deg[j]! + surface.launchAngles_deg[j - 1]!) / 2).toBe(j - 51);
    expect(surface.carry_ft).toHaveLength(columns * surface.exitVelocities_mph.length);
    expect(surface.category).toHaveLength(surface.carry_ft.length);
  });

  it("has in each cell what a swing there is given", () => {
    const cells = [
      [61, 10.5],
      [75, 33.5],
      [91, -12.5],
      [99, 28.5],
      [121, 70.5],
    ] as const;
    const rows = enrich({
      swings: cells.map(([ev, la]) => ball(ev, la, { bats: "R", spray_angle_deg: 0 })),
      sessions: [],
      hitters: [],
    });
    cells.forEach(([ev, la], k) => {
      const at = surface.exitVelocities_mph.indexOf(ev) * columns + surface.launchAngles_deg.indexOf(la);
      expect(surface.carry_ft[at]).toBeCloseTo(rows[k]!.carry_ft!, 6);
      expect(surface.category[at]).toBe(rows[k]!.category);
    });
  });

  it("carries further the harder the ball is hit, but where it goes nearly straight up", () => {
    for (let j = 0; surface.launchAngles_deg[j]! <= 50; j++) {
      for (let i = 1; i < surface.exitVelocities_mph.length; i++) {
        expect(surface.carry_ft[i * columns + j]!).toBeGreaterThan(surface.carry_ft[(i - 1) * columns + j]!);
      }
    }
  });

  it("has all five categories, and others in other air and on another field", () => {
    expect(new Set(surface.category).size).toBe(5);
    const thin = contactSurface({ ...options, air: airFor({ altitude_ft: 5000 }) });
    expect(Math.max(...thin.carry_ft)).toBeGreaterThan(Math.max(...surface.carry_ft) + 15);
    const small = contactSurface({ ...options, field: fieldFor("46/60") });
    expect(small.carry_ft).toEqual(surface.carry_ft);
    expect(small.category).not.toEqual(surface.category);
  });

  it("takes under a twentieth of a second", () => {
    contactSurface(options);
    // Processor time, as other tests may be running.
    const times = Array.from({ length: 10 }, () => {
      const before = process.cpuUsage();
      contactSurface(options);
      return process.cpuUsage(before).user / 1000;
    });
    expect(Math.min(...times)).toBeLessThan(50);
  });
});
