import { expect, it } from "vitest";
import { findLevel, levels } from "../../src/contact/levels.ts";

it("has every level once, with a speed a person can hit", () => {
  expect(levels.length).toBeGreaterThan(8);
  expect(new Set(levels.map((l) => l.name)).size).toBe(levels.length);
  for (const level of levels) {
    expect(level.top_exit_velocity_mph).toBeGreaterThan(30);
    expect(level.top_exit_velocity_mph).toBeLessThan(125);
  }
});

it("grows with age within a game", () => {
  const tops = (names: string[]) => names.map((name) => findLevel(name)!.top_exit_velocity_mph);
  for (const ladder of [
    ["under 10", "under 12", "under 14", "under 16", "high school", "college", "professional"],
    [
      "softball under 10",
      "softball under 12",
      "softball under 14",
      "softball high school",
      "softball college",
    ],
  ]) {
    expect(tops(ladder)).toEqual([...tops(ladder)].sort((a, b) => a - b));
  }
});

it("finds a level whatever its capitals, and null for what it hasn't", () => {
  expect(findLevel(" College ")?.name).toBe("college");
  expect(findLevel("moon")).toBeNull();
  expect(findLevel(null)).toBeNull();
});
