/** The two-way fit, where the answer is known. */
import fc from "fast-check";
import { jStat } from "jstat";
import { describe, expect, it } from "vitest";
import { twoWay, type Observation } from "../../src/setup/twoWay.ts";

/** Four values a cell, spread about it evenly. */
const cell = (hitter: string, session: string, value: number): Observation[] =>
  [-3, -1, 1, 3].map((off) => ({ value: value + off, stratum: hitter, hitter, session }));

describe("twoWay", () => {
  it("finds session effects exactly where hitters and sessions add up, whatever they are", () => {
    const level = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(level, { minLength: 3, maxLength: 5 }),
        fc.array(level, { minLength: 3, maxLength: 7 }),
        (hitters, sessions) => {
          const rows = hitters.flatMap((h, i) => sessions.flatMap((s, j) => cell(`h${i}`, `s${j}`, h + s)));
          const { sessions: found } = twoWay(rows, 0.5);
          found.forEach(({ value }, j) =>
            expect(value - found[0]!.value).toBeCloseTo(sessions[j]! - sessions[0]!, 6),
          );
        },
      ),
      { numRuns: 40 },
    );
  });

  it("works through hitters who missed sessions", () => {
    const rows = [
      ...cell("a", "1", 10),
      ...cell("a", "2", 15),
      ...cell("b", "2", 25),
      ...cell("b", "3", 20),
      ...cell("c", "3", 0),
      ...cell("c", "1", 0),
    ];
    const { sessions } = twoWay(rows, 0.5);
    expect(sessions.map((s) => s.value)).toEqual([0, 5, 0].map((v) => expect.closeTo(v, 6)));
    expect(sessions.every((s) => s.compared === 3 && s.hitters === 2 && s.n === 8)).toBe(true);
  });

  it("draws one hitter's odd day in, and leaves it with that hitter", () => {
    const hitters = ["a", "b", "c", "d", "e"];
    const rows = hitters.flatMap((h, i) =>
      ["1", "2", "3", "4"].flatMap((s) => cell(h, s, 10 * i + (h === "c" && s === "3" ? 30 : 0))),
    );
    const { sessions, days } = twoWay(rows, 1);
    expect(Math.abs(sessions[2]!.value)).toBeLessThan(2);
    const odd = days.reduce((a, b) => (Math.abs(b.value) > Math.abs(a.value) ? b : a));
    expect([odd.hitter, odd.session]).toEqual(["c", "3"]);
    expect(odd.value).toBeGreaterThan(20);
  });

  it("keeps apart what nothing connects", () => {
    const rows = [...cell("a", "1", 0), ...cell("a", "2", 4), ...cell("b", "3", 0), ...cell("b", "4", 40)];
    const { sessions } = twoWay(rows, 0.5);
    expect(sessions.map((s) => s.compared)).toEqual([2, 2, 2, 2]);
    expect(sessions.map((s) => s.value)).toEqual([-2, 2, -20, 20].map((v) => expect.closeTo(v, 6)));
    expect(twoWay(cell("a", "1", 5), 0.5).sessions[0]!.compared).toBe(1);
    expect(twoWay([], 0.5).sessions).toEqual([]);
  });

  it("is surer of a session with more hitters", () => {
    const rows = ["a", "b", "c", "d", "e", "f"].flatMap((h, i) =>
      ["1", "2", "3", "4"].flatMap((s) =>
        s === "4" && i > 1 ? [] : cell(h, s, 10 * i + ((i * 7 + Number(s) * 3) % 5) / 5),
      ),
    );
    const { sessions } = twoWay(rows, 0.5);
    expect(sessions[3]!.error).toBeGreaterThan(sessions[0]!.error * 1.2);
  });

  it("takes the middle between two sessions where as many lie on either side", () => {
    for (const levels of [
      [0, 0, 4, 4],
      [4, 0, 4, 0, 0, 4],
    ]) {
      const rows = ["a", "b", "c"].flatMap((h, i) => levels.flatMap((s, j) => cell(h, `s${j}`, 20 * i + s)));
      const values = twoWay(rows, 0.5).sessions.map((s) => s.value);
      expect(values).toEqual(levels.map((level) => expect.closeTo(level - 2, 6)));
    }
  });

  it("gives the errors of a full table by its formula, whether sessions or hitters are the more", () => {
    for (const [hitters, sessions] of [
      [3, 8],
      [8, 3],
      [5, 5],
    ] as const) {
      const rows = Array.from({ length: hitters }, (_, h) =>
        Array.from({ length: sessions }, (_, s) => cell(`h${h}`, `s${s}`, 10 * h + s)).flat(),
      ).flat();
      const least = 0.5;
      const { sessions: found, days } = twoWay(rows, least);
      // Of H means, each of variance v, less the mean of S such: v/H·(1 − 1/S), from the table's margins; each day's
      // error is √v. The factor is Student's for the table's (H − 1)(S − 1) degrees of freedom over the normal one.
      const free = (hitters - 1) * (sessions - 1);
      const factor = jStat.studentt.inv(0.975, free) / jStat.normal.inv(0.975, 0, 1);
      const expected = factor * days[0]!.error * Math.sqrt((1 - 1 / sessions) / hitters);
      for (const { error } of found) expect(error / expected).toBeCloseTo(1, 6);
    }
  });

  it("takes thousands of sessions, and chains of them in which each has a hitter in common with the next", () => {
    const drift = (s: number): number => ((s * 7919) % 13) - 6;
    const team = Array.from({ length: 3000 }, (_, s) =>
      [0, 1, 2].flatMap((i) => cell(`h${(s + i * 5) % 12}`, `s${s}`, ((s + i * 5) % 12) * 10 + drift(s))),
    ).flat();
    const chain = Array.from({ length: 400 }, (_, s) =>
      [s, s + 1].flatMap((h) => cell(`h${h}`, `s${s}`, h * 10 + drift(s))),
    ).flat();
    for (const rows of [team, chain]) {
      const { sessions } = twoWay(rows, 0.5);
      const off = sessions.map(({ value }, s) => value - drift(s));
      expect(Math.max(...off) - Math.min(...off)).toBeLessThan(1e-6);
    }
  });
});
