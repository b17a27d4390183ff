import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { mergeThin } from "../../src/gap/cells.ts";
import { gap } from "../../src/gap/gap.ts";
import { beyondPitchOf, splitExitVelocity, splitLaunchAngle } from "../../src/gap/parts.ts";
import { makeReady, type ReadySwing } from "../../src/gap/rows.ts";
import { inputs } from "../../src/swing/fields.ts";
import { arbitrarySwing } from "../views/rows.ts";
import { badNumbers, ball } from "./support.ts";

const ready = { thresholds: defaultThresholds };
const part = (split: ReturnType<typeof splitExitVelocity>, name: string) =>
  split.parts.find((p) => p.part === name)!;

/** Balls of one cell: exit velocity, and what else is given. */
const balls = (n: number, speed: number, given: Partial<ReadySwing>): ReadySwing[] =>
  Array.from({ length: n }, (_, i) => ball({ exit_velocity_mph: speed + (i % 2 === 0 ? 1 : -1), ...given }));

describe("the parts of an exit-velocity gap", () => {
  it("by hand: half the balls move to a cell 10 mph slower, against 80 mph pitches", () => {
    // Tee: 20 balls in the middle at 90, 20 low and outside at 80: 85. Live: 10 at 106 and 30 at 96, all 16 up: 98.5.
    const from = [...balls(20, 90, { cell: 4 }), ...balls(20, 80, { cell: 2 })];
    const live = { input: "live", plate_speed_mph: 80 } as const;
    const to = [...balls(10, 106, { cell: 4, ...live }), ...balls(30, 96, { cell: 2, ...live })];
    const split = splitExitVelocity({ from, to }, ready);
    expect(split.gap.value).toBe(13.5);
    expect(part(split, "pitch speed").value).toBe(16);
    expect(part(split, "place").value).toBe(-2.5);
    expect(part(split, "bat speed").value).toBeNull();
    expect(part(split, "contact").value).toBe(0);
    expect(split.predicted.value).toBe(101);
    expect(split.beyondPitch.value).toBe(-2.5);
    expect(split.cells.map((c) => [c.name, c.from.n, c.to.n])).toEqual([
      ["low and outside", 20, 30],
      ["middle of the zone", 20, 10],
    ]);
    expect(split.notes).toEqual([]);
  });

  it("are not needed for what is beyond the pitch: by itself it is the same to the last digit", () => {
    const live = { input: "live", plate_speed_mph: 80 } as const;
    const tee = [
      ...balls(20, 90, { cell: 4, bat_speed_mph: 70, session: "a" }),
      ...balls(20, 80, { cell: 2, bat_speed_mph: 66, session: "b" }),
    ];
    const pitched = [
      ...balls(10, 106, { cell: 4, bat_speed_mph: 71, session: "c", ...live }),
      ...balls(30, 96, { cell: 2, session: "d", ...live, plate_speed_mph: 70 }),
    ];
    const unknown = balls(9, 80, { input: "live", plate_speed_mph: null });
    const cases = [
      [tee, pitched],
      [tee, pitched.slice(0, 12)],
      [tee.slice(0, 3), pitched],
      [tee, pitched.slice(0, 1)],
      [tee, unknown],
      [tee, []],
    ] as const;
    const found = cases.map(([from, to]) => {
      const whole = splitExitVelocity({ from, to }, ready);
      const alone = beyondPitchOf({ from, to }, ready);
      expect(alone).toEqual({ from: whole.from, to: whole.to, beyondPitch: whole.beyondPitch });
      return alone.beyondPitch;
    });
    expect(found.map(({ value, low }) => [value !== null, low !== null])).toEqual([
      [true, true],
      [true, true],
      [false, false],
      [false, false],
      [false, false],
      [false, false],
    ]);
  });

  it("have the degrees of freedom of what varies: the pitches live, the bat where it differs, all balls for the gap", () => {
    const side = (
      input: "tee" | "live",
      n: number,
      pitch: (i: number) => number,
      bat: (i: number) => number,
    ) =>
      Array.from({ length: n }, (_, i) =>
        ball({
          input,
          session: input,
          cell: 4,
          exit_velocity_mph: 80 + ((i * 7) % 11),
          plate_speed_mph: pitch(i),
          bat_speed_mph: bat(i),
        }),
      );
    const from = side(
      "tee",
      24,
      () => 0,
      (i) => 60 + (i % 5),
    );
    const to = side(
      "live",
      40,
      (i) => 60 + (i % 9),
      () => 62,
    );
    const split = splitExitVelocity({ from, to }, ready);
    const freedom = (name: string): number => part(split, name).freedom!;
    // Welch, by hand: a side that does not vary takes no part.
    expect(freedom("pitch speed")).toBeCloseTo(39, 9);
    expect(freedom("bat speed")).toBeCloseTo(23, 9);
    const share = (rows: readonly ReadySwing[]): number => {
      const speeds = rows.map((r) => r.exit_velocity_mph!);
      const middle = speeds.reduce((a, b) => a + b, 0) / speeds.length;
      return speeds.reduce((sum, v) => sum + (v - middle) ** 2, 0) / (speeds.length - 1) / speeds.length;
    };
    const [a, b] = [share(from), share(to)];
    expect(split.gap.freedom).toBeCloseTo((a + b) ** 2 / (a ** 2 / 23 + b ** 2 / 39), 6);
  });

  it("counts a place's cost in bat speed once: in place", () => {
    // The bat is 10 mph slower low and outside, tee and live alike; live only the places change.
    const make = (n: number, cell: number, bat: number): ReadySwing[] =>
      balls(n, 1.2 * bat, { cell, bat_speed_mph: bat });
    const split = splitExitVelocity(
      { from: [...make(20, 4, 70), ...make(20, 2, 60)], to: [...make(10, 4, 70), ...make(30, 2, 60)] },
      ready,
    );
    expect(split.batSpeed.value).toBe(-2.5);
    expect(part(split, "place").value).toBeCloseTo(-3, 8);
    expect(part(split, "bat speed").value).toBeCloseTo(0, 8);
    expect(part(split, "contact").value).toBeCloseTo(0, 8);
  });

  it("finds bat speed gained at like places: (1 + q) times it", () => {
    const make = (n: number, cell: number, bat: number, up: number): ReadySwing[] =>
      balls(n, 1.2 * (bat + up), { cell, bat_speed_mph: bat + up });
    const split = splitExitVelocity(
      {
        from: [...make(20, 4, 70, 0), ...make(20, 2, 60, 0)],
        to: [...make(20, 4, 70, 3), ...make(20, 2, 60, 3)],
      },
      ready,
    );
    expect(part(split, "bat speed").value).toBeCloseTo(3.6, 8);
    expect(part(split, "contact").value).toBeCloseTo(0, 8);
  });

  it("merges cells that are too thin, and says so", () => {
    const from = [...balls(10, 90, { cell: 4 }), ...balls(3, 85, { cell: 5 }), ...balls(10, 80, { cell: 0 })];
    const split = splitExitVelocity({ from, to: from }, ready);
    expect(split.cells.map((c) => c.cells)).toEqual([[0], [4, 5]]);
    expect(split.notes).toContain(
      "Cells with fewer than 5 balls on a side are merged with a neighbor: middle of the zone + outside, middle height.",
    );
    expect(split.gap.value).toBe(0);
  });

  it("launch angle: place and the rest", () => {
    const make = (n: number, cell: number, angle: number): ReadySwing[] =>
      balls(n, 80, { cell, launch_angle_deg: angle });
    const split = splitLaunchAngle({
      from: [...make(20, 4, 20), ...make(20, 2, 10)],
      to: [...make(10, 4, 14), ...make(30, 2, 4)],
    });
    expect(split.gap.value).toBe(-8.5);
    expect(split.parts.map((p) => [p.part, p.value])).toEqual([
      ["place", -2.5],
      ["rest", -6],
    ]);
  });
});

describe("too little to say everything", () => {
  const live = { input: "live", plate_speed_mph: 80 } as const;
  const tee = balls(20, 90, { cell: 4, session: "a" });

  it("no live rows: a sentence and no figure", () => {
    const split = splitExitVelocity({ from: tee, to: [] }, ready);
    expect(split.gap).toMatchObject({ value: null, reason: "too few to compare: 20 and 0 balls in play" });
    expect(badNumbers(split)).toEqual([]);
  });

  it("one swing on a side: the difference, and no interval", () => {
    const split = splitExitVelocity({ from: tee, to: balls(1, 99, { cell: 4, ...live }) }, ready);
    expect(split.gap).toMatchObject({
      value: 10,
      low: null,
      reason: "too few for an interval: 20 and 1 balls in play",
    });
    expect(badNumbers(split)).toEqual([]);
  });

  it("one session: swings alone are drawn, and the report says so", () => {
    const swings = [...tee, ...balls(20, 95, { cell: 4, session: "b", ...live })];
    const report = gap(
      { swings, hitters: ["Robin Test"], levels: new Map(), thresholds: defaultThresholds },
      "Robin Test",
    );
    expect(report.exitVelocity.resampled).toBe("swings");
    expect(report.notes.join(" ")).toMatch(/One session on a side: .* not how days do/);
  });

  it("all values equal: no width, and a sentence", () => {
    const same = (n: number, given: Partial<ReadySwing>) =>
      Array.from({ length: n }, () => ball({ exit_velocity_mph: 80, cell: 4, ...given }));
    const split = splitExitVelocity({ from: same(20, {}), to: same(20, { input: "live" }) }, ready);
    expect(split.gap).toMatchObject({ value: 0, low: 0, high: 0 });
    expect(split.notes.join(" ")).toMatch(/the same value/);
    expect(part(split, "pitch speed")).toMatchObject({
      value: null,
      reason: "too few balls with a pitch speed: 20 of 20 and 0 of 20",
    });
    expect(badNumbers(split)).toEqual([]);
  });

  it("pitch speeds missing for half: the known ones stand for all, and the report says so", () => {
    const to = balls(20, 95, { cell: 4, ...live }).map((r, i) =>
      i < 10 ? { ...r, plate_speed_mph: null } : r,
    );
    const split = splitExitVelocity({ from: tee, to }, ready);
    expect(part(split, "pitch speed").value).toBe(16);
    expect(split.notes).toContain("Pitch speed is known for 10 of 20 live balls; their mean stands for all.");
    expect(split.notes.join(" ")).not.toMatch(/Cells/);
    expect(part(split, "place").reason).toMatch(/no two parts of the zone have 5 on both sides/);
  });

  it("is never NaN and always adds up, on any rows the definitions allow", () => {
    const rows = fc.array(fc.tuple(arbitrarySwing, fc.constantFrom(...inputs)), { maxLength: 40 });
    fc.assert(
      fc.property(rows, (list) => {
        const swings = list.map(([row, input]) => ({ ...row, input }));
        const made = makeReady({ swings, sessions: [], hitters: [], thresholds: null });
        const report = gap(made, "Robin Test", { measures: ["exit_velocity", "misses", "launch_spread"] });
        expect(badNumbers(report)).toEqual([]);
        for (const split of [report.exitVelocity, report.launchAngle])
          if (split.gap.value !== null)
            expect(split.parts.reduce((sum, p) => sum + (p.value ?? 0), 0)).toBe(split.gap.value);
        for (const m of report.measures) expect(m.words).toMatch(/./);
      }),
      { numRuns: 60, seed: 5 },
    );
  });
});

describe("cells", () => {
  it("merge to groups with enough on both sides, and lose no ball", () => {
    const counts = fc.array(fc.nat(12), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(counts, counts, (from, to) => {
        const groups = mergeThin(from, to);
        const met = [0, 1, 2, 3, 4, 5, 6, 7, 8].filter((c) => from[c]! + to[c]! > 0);
        expect(groups.flatMap((g) => [...g.cells]).sort((a, b) => a - b)).toEqual(met);
        const sum = (side: number[], cells: readonly number[]) => cells.reduce((s, c) => s + side[c]!, 0);
        if (groups.length > 1)
          for (const g of groups) {
            expect(sum(from, g.cells)).toBeGreaterThanOrEqual(5);
            expect(sum(to, g.cells)).toBeGreaterThanOrEqual(5);
          }
      }),
    );
  });

  it("with none empty on one side are nine", () => {
    const many = Array<number>(9).fill(5);
    expect(mergeThin(many, many).map((g) => g.cells)).toEqual([[0], [1], [2], [3], [4], [5], [6], [7], [8]]);
    expect(mergeThin(many, Array<number>(9).fill(0))).toHaveLength(1);
  });
});
