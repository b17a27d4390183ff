import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { acrossHitters } from "../../src/gap/across.ts";
import { measureNamed } from "../../src/gap/measures.ts";
import type { Ready, ReadySwing } from "../../src/gap/rows.ts";
import { stabilizing } from "../../src/gap/stabilizing.ts";
import { badNumbers, ball } from "./support.ts";

const normal = randomNormal.source(randomLcg(0.6))(0, 1);

/** One hitter's balls: tee about 85 mph, live by a gap more. */
const hitter = (name: string, gap: number, n: number): ReadySwing[] =>
  (["tee", "live"] as const).flatMap((input) =>
    Array.from({ length: n }, () =>
      ball({ hitter: name, input, exit_velocity_mph: 85 + (input === "live" ? gap : 0) + 5 * normal() }),
    ),
  );
const made = (swings: ReadySwing[]): Ready => ({
  swings,
  hitters: [...new Set(swings.map((s) => s.hitter))].sort(),
  levels: new Map(),
  thresholds: defaultThresholds,
});

describe("gaps across hitters", () => {
  it("warn where swings are too few to rank, and pool those the most", () => {
    const ready = made([
      ...hitter("A", -8, 60),
      ...hitter("B", 0, 60),
      ...hitter("C", 8, 60),
      ...hitter("D", 20, 6),
      ...hitter("E", 0, 1),
    ]);
    const across = acrossHitters(ready, "exit_velocity");
    const of = (name: string) => across.hitters.find((h) => h.hitter === name)!;
    expect(of("A").warning).toBeNull();
    expect(of("D").warning).toBe("too few swings to rank: 6 and 6, where 15 on each side are wanted");
    expect(of("E")).toMatchObject({ pooled: null, warning: "no interval, so no place in the order" });
    expect(across.hitters.at(-1)!.hitter).toBe("E");
    expect(of("D").pooled!.own).toBeLessThan(of("A").pooled!.own);
    expect(across.pairs.clear).toBeGreaterThanOrEqual(3);
    expect(across.group!.tau.value).toBeGreaterThan(4.5);
    expect(across.group!.differ).toBe(true);
    expect(across.notes).toContain("Too few swings to rank: D.");
    expect(badNumbers(across)).toEqual([]);
  });

  it("of one hitter have no group", () => {
    const across = acrossHitters(made(hitter("A", -8, 30)), "exit_velocity");
    expect(across.group).toBeNull();
    expect(across.hitters[0]).toMatchObject({ pooled: null });
    expect(across.hitters[0]!.raw.value).not.toBeNull();
    expect(across.notes).toEqual([
      "Fewer than two hitters have an interval: there is no group to pool anyone toward.",
    ]);
  });

  it("lie closer to the truth pooled than as they are", () => {
    let [raw, together] = [0, 0];
    for (let team = 0; team < 10; team++) {
      const truths = Array.from({ length: 8 }, () => -5 + 2 * normal());
      const ready = made(truths.flatMap((gap, i) => hitter(`H${i}`, gap, 12)));
      for (const h of acrossHitters(ready, "exit_velocity").hitters) {
        const truth = truths[Number(h.hitter.slice(1))]!;
        raw += (h.raw.value! - truth) ** 2;
        together += (h.pooled!.value - truth) ** 2;
      }
    }
    expect(together).toBeLessThan(raw);
  });

  it("name the measures there are when asked for another", () => {
    expect(() => measureNamed("speed")).toThrow(/no measure named "speed"; they are exit_velocity,/);
  });
});

describe("how many swings", () => {
  it("fewer than three hitters can't be told apart", () => {
    const [speed] = stabilizing(made([...hitter("A", 0, 20), ...hitter("B", 9, 20)]), "live");
    expect(speed).toMatchObject({ hitters: 2, curve: [] });
    expect(speed!.needed).toEqual({ value: null, low: null, high: null });
    expect(speed!.words).toBe("Exit velocity: 2 hitters have 5 swings or more; it takes 3 to tell apart.");
  });

  it("compares hitters with those of their level: one team's figure, whoever else is in the library", () => {
    const swings = Array.from({ length: 60 }, (_, i) => {
      // Two teams, 25 mph apart; in each, hitters and swings vary alike: 7/3 swings to 0.7.
      const own = (i < 30 ? 60 : 85) + 5 * normal();
      return Array.from({ length: 20 }, () =>
        ball({ hitter: `H${i}`, input: "live", exit_velocity_mph: own + 5 * normal() }),
      );
    }).flat();
    const pooled = made(swings);
    const levels = new Map(
      pooled.hitters.map((h) => [h, Number(h.slice(1)) < 30 ? "under 12" : "adult"] as const),
    );
    expect(stabilizing(pooled, "live")[0]!.needed.value).toBe(1);
    const [speed] = stabilizing({ ...pooled, levels }, "live");
    expect(speed!.icc.value).toBeCloseTo(0.5, 0);
    expect(speed!.needed.value).toBeGreaterThanOrEqual(2);
    expect(speed!.needed.value).toBeLessThanOrEqual(4);
    expect(speed!.halves.needed).toBeGreaterThanOrEqual(2);
    expect(speed!.halves.needed).toBeLessThanOrEqual(4);
    expect(speed!.caveat).toBe("Hitters are compared with those of their own level, 2 levels.");
    // One level for all: the same as none.
    const alike = new Map(pooled.hitters.map((h) => [h, "adult"] as const));
    expect(stabilizing({ ...pooled, levels: alike }, "live")).toEqual(stabilizing(pooled, "live"));
    // Each of a level of one's own: nothing to compare.
    const alone = new Map(pooled.hitters.map((h) => [h, h] as const));
    const [none] = stabilizing({ ...pooled, levels: alone }, "live");
    expect(none!.needed.value).toBeNull();
    expect(none!.words).toBe(
      "Exit velocity: 60 hitters have 5 swings or more, too few of them of one level to tell apart.",
    );
    expect(badNumbers(none)).toEqual([]);
  });

  it("is named for hitters who don't differ at most 1 time in 20, whether their days do or not", () => {
    for (const daySd of [0, 3]) {
      let named = 0;
      const runs = 60;
      for (let run = 0; run < runs; run++) {
        const swings = Array.from({ length: 8 }, (_, i) =>
          ["a", "b", "c"].flatMap((session) => {
            const day = 85 + daySd * normal();
            return Array.from({ length: 8 }, () =>
              ball({ hitter: `H${i}`, session, input: "live", exit_velocity_mph: day + 8 * normal() }),
            );
          }),
        ).flat();
        const [speed] = stabilizing(made(swings), "live");
        if (speed!.needed.value === null) {
          expect(speed!.words).toMatch(/^Exit velocity: these hitters don't differ clearly beside their own/);
          expect(speed!.curve).toEqual([]);
        } else named++;
      }
      // 3 of 60, and two standard errors.
      expect(named, `days ${daySd}`).toBeLessThanOrEqual(6);
    }
  });

  it("is named where hitters differ beyond their days, and not where each has one day alone", () => {
    const team = (sessions: readonly string[]) =>
      made(
        Array.from({ length: 10 }, (_, i) => {
          const own = 85 + 6 * normal();
          return sessions.flatMap((session) => {
            const day = own + normal();
            return Array.from({ length: 10 }, () =>
              ball({ hitter: `H${i}`, session, input: "live", exit_velocity_mph: day + 6 * normal() }),
            );
          });
        }).flat(),
      );
    const [several] = stabilizing(team(["a", "b", "c"]), "live");
    expect(several!.needed.value).toBeLessThan(8);
    expect(several!.needed.high).toBeGreaterThan(several!.needed.value!);
    const [one] = stabilizing(team(["a"]), "live");
    expect(one!.needed.value).toBeNull();
    expect(one!.words).toBe(
      "Exit velocity: each hitter has one day of it, and a hitter can't be told from a day.",
    );
  });

  it("comes back from hitters made to differ by as much as their swings do: 7/3 swings to 0.7", () => {
    // Hitters and swings vary alike: one swing's reliability is a half, and 0.7 takes 0.7/0.3 of one.
    const swings = Array.from({ length: 60 }, (_, i) => {
      const own = 85 + 5 * normal();
      return Array.from({ length: 20 }, () =>
        ball({ hitter: `H${i}`, input: "live", exit_velocity_mph: own + 5 * normal() }),
      );
    }).flat();
    const [speed] = stabilizing(made(swings), "live");
    expect(speed!.icc.value).toBeCloseTo(0.5, 0);
    expect(speed!.needed.value).toBeGreaterThanOrEqual(2);
    expect(speed!.needed.value).toBeLessThanOrEqual(4);
    expect(speed!.halves.needed).toBeGreaterThanOrEqual(2);
    expect(speed!.halves.needed).toBeLessThanOrEqual(4);
    const at = speed!.curve.find((c) => c.swings === 10)!;
    expect(at.low).toBeLessThan(at.reliability);
    expect(at.reliability).toBeLessThan(at.high);
    expect(badNumbers(speed)).toEqual([]);
  });
});

describe("a share that is the same on every resample", () => {
  it("has an interval and no spread of its own, and is still pooled", () => {
    const ready = made([...hitter("A", 0, 30), ...hitter("B", 0, 30)]);
    // Every ball was hit: no miss on either side.
    const sessions = ready.swings.map((s, i) => ({ ...s, session: `${s.input}-${i % 3}` }));
    const across = acrossHitters({ ...ready, swings: sessions }, "misses");
    expect(across.hitters.map((h) => h.raw.value)).toEqual([0, 0]);
    for (const { raw, pooled } of across.hitters) {
      if (raw.low !== null && raw.high !== raw.low) expect(pooled!.value).toBeCloseTo(0, 10);
    }
    expect(across.hitters.some((h) => h.pooled !== null)).toBe(true);
  });
});
