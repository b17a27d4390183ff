/** The two-way fit, where the answer is known. */
import fc from "fast-check";
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
});
