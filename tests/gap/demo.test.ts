/** What was planted in the demo comes back. */
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { beforeAll, describe, expect, it } from "vitest";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { acrossHitters, beyondPitch } from "../../src/gap/across.ts";
import { gap, measureTable, type HitterGap } from "../../src/gap/gap.ts";
import { stabilizing } from "../../src/gap/stabilizing.ts";
import type { Ready } from "../../src/gap/rows.ts";
import type { Library } from "../../src/library/library.ts";
import { inputs } from "../../src/swing/fields.ts";
import { timingView } from "../../src/views/timing.ts";
import { badNumbers, demo } from "./support.ts";

let ready: Ready;
let library: Library;
const gaps = new Map<string, HitterGap>();
const part = (g: HitterGap, name: string) => g.exitVelocity.parts.find((p) => p.part === name)!;

beforeAll(async () => {
  ({ ready, library } = await demo());
  for (const hitter of ready.hitters) gaps.set(hitter, gap(ready, hitter));
});

describe("the place hitter", () => {
  it("loses most of what is lost to the place of the pitches, and nothing clear to contact", () => {
    const g = gaps.get(truths.place.hitter)!;
    const [place, contact] = [part(g, "place"), part(g, "contact")];
    expect(place.high!).toBeLessThan(-3);
    expect(place.value! / g.exitVelocity.beyondPitch.value!).toBeGreaterThan(0.7);
    expect(contact.low! < 0 && contact.high! > 0).toBe(true);
    // Outside and low is where it goes.
    const least = [...g.exitVelocity.cells].sort((a, b) => a.place - b.place)[0]!;
    expect(least.name).toBe("low and outside");
  });

  it("has no bat speed, and the report says where that part is then", () => {
    const bat = part(gaps.get(truths.gaps.hitters_without_bat_speed[0]!)!, "bat speed");
    expect(bat).toMatchObject({ value: null, low: null, reason: "no bat speed was measured" });
  });
});

describe("the timing hitter", () => {
  it("loses nothing to place and the rest to contact", () => {
    const g = gaps.get(truths.timing.hitter)!;
    const [place, contact] = [part(g, "place"), part(g, "contact")];
    expect(place.low! < 0 && place.high! > 0).toBe(true);
    expect(Math.abs(place.value!)).toBeLessThan(0.2 * Math.abs(g.exitVelocity.beyondPitch.value!));
    expect(contact.high!).toBeLessThan(-3);
  });

  it("is early and late by far more than the others", () => {
    const spreadOf = (hitter: string) =>
      timingView(
        ready.swings.filter((s) => s.hitter === hitter),
        "live",
        { sessions: library.sessions, thresholds: defaultThresholds },
      );
    const late = spreadOf(truths.timing.hitter);
    const others = ready.hitters.filter((h) => h !== truths.timing.hitter).map(spreadOf);
    for (const other of others) expect(late.spread_ms.value!).toBeGreaterThan(other.spread_ms.value! * 1.2);
    expect(late.spread_ms.value!).toBeGreaterThan(0.7 * truths.timing.timing_spread_ms);
    expect(late.spread_ms.value!).toBeLessThan(1.2 * truths.timing.timing_spread_ms);
    expect(late.early_ms.high!).toBeLessThan(0);
    expect(late.early_ms.low!).toBeLessThan(-truths.timing.late_ms);
  });
});

it("pitch speed's part is q times the mean speed at the plate, and its interval says so", () => {
  const q = ready.thresholds.collision_q;
  const release = new Set(truths.gaps.pitch_speed_at_release);
  for (const [hitter, g] of gaps) {
    const speeds = library.swings
      .filter((s) => s.hitter === hitter && s.input === "live" && s.exit_velocity_mph !== null)
      .filter((s) => s.outcome === "in_play" && s.pitch_speed_mph !== null)
      .map((s) => s.pitch_speed_mph! * (release.has(s.session!) ? 11 / 12 : 1));
    const expected = (q * speeds.reduce((a, b) => a + b, 0)) / speeds.length;
    const pitch = part(g, "pitch speed");
    expect(pitch.value).toBeCloseTo(expected, 6);
    expect(pitch.low!).toBeLessThan(expected);
    expect(pitch.high!).toBeGreaterThan(expected);
    expect(pitch.high! - pitch.low!).toBeLessThan(2);
    expect(g.exitVelocity.predicted.value).toBeCloseTo(g.exitVelocity.from.mean! + expected, 6);
  }
});

it("parts add up to the last digit, for every pair of kinds of work", () => {
  for (const [from, to] of [
    ["tee", "live"],
    ["tee", "flip"],
    ["flip", "live"],
  ] as const)
    for (const hitter of ready.hitters) {
      const { exitVelocity, launchAngle } = gap(ready, hitter, { from, to, measures: [] });
      for (const split of [exitVelocity, launchAngle]) {
        expect(split.parts.reduce((sum, p) => sum + (p.value ?? 0), 0)).toBe(split.gap.value);
        expect(split.parts.reduceRight((sum, p) => sum + (p.value ?? 0), 0)).toBe(split.gap.value);
        expect(badNumbers(split)).toEqual([]);
        const place = split.parts.find((p) => p.part === "place")!.value;
        if (place !== null) expect(split.cells.reduce((sum, c) => sum + c.place, 0)).toBeCloseTo(place, 6);
      }
    }
});

it("every table is whole, counted and free of NaN", () => {
  for (const hitter of ready.hitters) {
    const table = measureTable(ready, hitter);
    expect(table.length).toBeGreaterThan(50);
    expect(badNumbers(table)).toEqual([]);
    for (const row of table) {
      expect(row.n).toBeGreaterThan(0);
      expect(row.value).not.toBeNull();
      expect(row.low! <= row.value! && row.value! <= row.high!, `${row.input} ${row.measure}`).toBe(true);
    }
  }
});

it("the hitters' gaps are pooled, never past the group, and ranked with care", () => {
  const across = acrossHitters(ready, beyondPitch);
  expect(across.hitters).toHaveLength(8);
  const { mean } = across.group!;
  for (const { raw, pooled } of across.hitters) {
    expect(Math.abs(pooled!.value - mean)).toBeLessThanOrEqual(Math.abs(raw.value! - mean));
    expect(Math.sign(pooled!.value - mean)).toBe(Math.sign(raw.value! - mean));
    expect(pooled!.own).toBeGreaterThan(0);
    expect(pooled!.own).toBeLessThan(1);
  }
  expect(across.pairs.clear).toBeLessThan(across.pairs.all / 2);
  expect(across.notes.join(" ")).toMatch(/with all (28 pairs|of them) looked at together/);
  expect(badNumbers(across)).toEqual([]);
});

it("how many swings a measure needs is told for each kind of work, within levels, and both opinions agree roughly", () => {
  for (const input of inputs) {
    const list = stabilizing(ready, input);
    expect(list.length).toBeGreaterThan(10);
    expect(badNumbers(list)).toEqual([]);
    const speed = list.find((s) => s.measure === "exit_velocity")!;
    expect(speed.caveat).toMatch(/own level, 3 levels; 2 alone at theirs left out/);
    expect(speed.hitters).toBe(6);
    // Children and grown hitters together: exit velocity would seem to settle at once.
    const pooled = stabilizing({ ...ready, levels: new Map() }, input);
    const alike = pooled.find((s) => s.measure === "exit_velocity")!;
    expect(alike).toMatchObject({ hitters: 8, caveat: null });
    expect(alike.needed.value!).toBeLessThan(3);
    expect(speed.needed.value!).toBeGreaterThan(3);
    for (const { needed, halves } of [speed, pooled.find((s) => s.measure === "launch_spread")!]) {
      expect(needed.low!).toBeLessThanOrEqual(needed.value!);
      expect(halves.needed! / needed.value!).toBeGreaterThan(0.3);
      expect(halves.needed! / needed.value!).toBeLessThan(3);
    }
  }
});
