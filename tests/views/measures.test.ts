/** The registry of measures: each once, taken of the rows that it says, and shown where it says. */
import { describe, expect, it } from "vitest";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { measures, measuresIn, rowsOf, type MeasurePlace } from "../../src/views/measures.ts";
import { swing } from "./rows.ts";

const names = (place: MeasurePlace): string[] => measuresIn(place).map(({ name }) => name);
const named = (name: string) => measures.find((m) => m.name === name)!;

describe("the measures", () => {
  it("have a name, a title and a place each, and no two the same", () => {
    expect(new Set(measures.map(({ name }) => name)).size).toBe(measures.length);
    expect(new Set(measures.map(({ title }) => title)).size).toBe(measures.length);
    for (const { name, shown } of measures) {
      expect(name).toMatch(/^[a-z][a-z_]+$/);
      expect(shown.length, name).toBeGreaterThan(0);
    }
  });

  it("stand in each place in one order, exit velocity first", () => {
    for (const place of ["gap", "changes", "group", "reliability"] as const)
      expect(names(place)[0], place).toBe("exit_velocity");
    expect(names("changes")).toEqual([
      "exit_velocity",
      "power_kept",
      "well_hit",
      "launch_angle",
      "launch_spread",
      "carry",
      "misses",
    ]);
  });

  it("are taken over balls in play, misses over all swings, unknown as null", () => {
    const rows = [
      swing({ outcome: "in_play", exit_velocity_mph: 90, bucket: "flush" }),
      swing({ outcome: "in_play", exit_velocity_mph: 70, bucket: null }),
      swing({ outcome: "miss", exit_velocity_mph: null }),
      swing({ outcome: "take", exit_velocity_mph: null }),
    ];
    const values = (name: string): (number | null)[] =>
      rowsOf(named(name), rows).map((row) => named(name).value(row, defaultThresholds));
    expect(values("exit_velocity")).toEqual([90, 70]);
    expect(values("well_hit")).toEqual([1, null]);
    expect(values("share_flush")).toEqual([1, null]);
    expect(values("misses")).toEqual([0, 0, 1]);
  });
});
