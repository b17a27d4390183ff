import { describe, expect, it } from "vitest";
import {
  BadThresholds,
  defaultThresholds,
  thresholdTable,
  thresholdsFrom,
} from "../../src/contact/thresholds.ts";

describe("the table of thresholds", () => {
  it("gives every figure its limits, a reason and a source", () => {
    const entries = Object.entries(thresholdTable);
    expect(entries.length).toBeGreaterThan(20);
    for (const [name, entry] of entries) {
      expect(entry.value, name).toBeGreaterThanOrEqual(entry.min);
      expect(entry.value, name).toBeLessThanOrEqual(entry.max);
      expect(entry.reason.length, name).toBeGreaterThan(15);
      expect(entry.source.length, name).toBeGreaterThan(10);
    }
  });

  it("passes its own checks", () => {
    expect(thresholdsFrom(thresholdTable)).toEqual(defaultThresholds);
  });
});

describe("a library's own thresholds", () => {
  it("replace the table's by name, as a number or as a changed entry", () => {
    const own = thresholdsFrom({
      bloop_speed_ft_s: 70,
      fly_from_deg: { ...thresholdTable.fly_from_deg, value: 27 },
    });
    expect(own).toEqual({ ...defaultThresholds, bloop_speed_ft_s: 70, fly_from_deg: 27 });
    expect(defaultThresholds.bloop_speed_ft_s).toBe(80);
  });

  it("may be absent or empty", () => {
    expect(thresholdsFrom(null)).toBe(defaultThresholds);
    expect(thresholdsFrom(undefined)).toBe(defaultThresholds);
    expect(thresholdsFrom({})).toEqual(defaultThresholds);
  });

  it.each<[unknown, RegExp]>([
    [{ bloop_sped_ft_s: 70 }, /no threshold named "bloop_sped_ft_s"/],
    [{ toString: 1 }, /no threshold named/],
    [{ bloop_speed_ft_s: "70" }, /bloop_speed_ft_s must be a number from 0 to 250 \(ft\/s\), not "70"/],
    [{ bloop_speed_ft_s: null }, /must be a number/],
    [{ bloop_speed_ft_s: 251 }, /must be a number from 0 to 250/],
    [{ flush_power_kept: Number.NaN }, /must be a number/],
    [{ flush_power_kept: 0.8 }, /clean_power_kept \(0.85\) may not be above flush_power_kept \(0.8\)/],
    [{ line_drive_from_deg: 30 }, /line_drive_from_deg \(30\) may not be above fly_from_deg \(25\)/],
    [[1, 2], /one JSON object/],
    ["flush", /one JSON object/],
  ])("are refused with a plain sentence: %j", (given, reason) => {
    expect(() => thresholdsFrom(given)).toThrow(BadThresholds);
    expect(() => thresholdsFrom(given)).toThrow(reason);
  });
});
