/** A group over days: what is called clear, what is not, and how often that is wrong. */
import { randomLcg, randomNormal } from "d3";
import { beforeAll, describe, expect, it } from "vitest";
import { enricher } from "../../src/contact/enrich.ts";
import { makeReady, type Ready } from "../../src/gap/rows.ts";
import { openLibrary, type Library } from "../../src/library/library.ts";
import { groupOver } from "../../src/season/group.ts";
import { needs } from "../../src/season/needs.ts";
import { clearPairs } from "../../src/stats/pairs.ts";
import { pooledShares } from "../../src/stats/pooledShares.ts";
import { share } from "../../src/stats/share.ts";
import { BadSpan, spanNamed, weeksTo } from "../../src/views/spans.ts";

let library: Library;
let ready: Ready;
const week = { since: "2025-04-07", until: "2025-04-13" };

beforeAll(async () => {
  library = await openLibrary("data/demo");
  const { enrich } = enricher(library);
  ready = makeReady({ ...library, swings: library.swings.map(enrich) });
}, 60_000);

const zone = (hitter: string) => ({
  height_in: library.hitters.find((h) => h.hitter === hitter)?.height_in ?? null,
});

describe("needs", () => {
  it("find what was planted: Cal R. loses power low and outside, and live costs him by place", () => {
    const found = needs(ready, { targets: library.targets, zone });
    const cal = found.hitters.find(({ hitter }) => hitter === "Cal R.")!;
    expect(cal.need).toMatchObject({ kind: "gap", largest: { way: "lost", part: { part: "place" } } });
    expect(cal.also).toContainEqual(
      expect.objectContaining({
        kind: "place",
        cell: expect.objectContaining({ cell: { row: 0, column: 2 } }),
      }),
    );
    // Finn L. is early and late wherever the pitch is: no place is weak.
    const finn = found.hitters.find(({ hitter }) => hitter === "Finn L.")!;
    expect([finn.need, ...finn.also].some((need) => need?.kind === "place")).toBe(false);
    expect(found.lines).toBe(found.hitters.reduce((sum, { lines }) => sum + lines, 0));
    expect(found.lines).toBeGreaterThan(100);
  });

  it("stand only after all hitters' lines were looked at: of one week's swings nothing does", () => {
    const found = needs(ready, { ...week, targets: library.targets, zone });
    expect(found.hitters.every(({ need }) => need === null)).toBe(true);
  });
});

describe("a week", () => {
  it("counts who did what, and leaves out nobody who did nothing", () => {
    const group = groupOver(ready, { ...week, targets: library.targets });
    const inside = ready.swings.filter(({ date }) => date! >= week.since && date! <= week.until);
    expect(group.swings).toBe(inside.length);
    expect(group.rows.map(({ hitter }) => hitter)).toEqual(ready.hitters);
    const dov = group.rows.find(({ hitter }) => hitter === "Dov M.")!;
    expect(dov).toMatchObject({ sessions: 0, last: null, swings: { tee: 0, flip: 0, live: 0 } });
    const ada = group.rows.find(({ hitter }) => hitter === "Ada K.")!;
    const own = inside.filter(({ hitter }) => hitter === "Ada K.");
    expect(ada.swings.tee + ada.swings.flip + ada.swings.live).toBe(own.length);
    for (const { cells, pairs } of group.columns) {
      expect(cells).toHaveLength(8);
      if (pairs.clear === 0) expect(cells.every(({ ahead }) => ahead === null || ahead === 0)).toBe(true);
    }
  });
});

describe("pooled shares", () => {
  it("cover the truth about 95 times in 100, hitters alike or not", { timeout: 120_000 }, () => {
    for (const spread of [0, 0.7]) {
      const random = randomLcg(0.31 + spread);
      const normal = randomNormal.source(random)(0.2, spread);
      let [held, all] = [0, 0];
      for (let run = 0; run < 40; run++) {
        const truths = Array.from({ length: 8 }, () => 1 / (1 + Math.exp(-normal())));
        const shares = truths.map((p) => {
          const n = 12 + Math.floor(random() * 30);
          return share(Array.from({ length: n }, () => random() < p).filter(Boolean).length, n);
        });
        pooledShares(shares)!.members.forEach((member, i) => {
          all++;
          if (member!.low <= truths[i]! && truths[i]! <= member!.high) held++;
        });
      }
      // Of 320: 95 in 100, less three standard errors; hitters who are alike are held more often.
      expect(all).toBe(320);
      expect(held / all).toBeGreaterThan(0.913);
      if (spread > 0) expect(held / all).toBeLessThan(0.987);
    }
  });

  it("call no pair of equal hitters clear more than 5 times in 100", () => {
    const random = randomLcg(0.77);
    const normal = randomNormal.source(random)(0, 1);
    let wrong = 0;
    for (let run = 0; run < 400; run++) {
      const own = Array.from({ length: 8 }, () => ({ value: normal(), variance: 1, freedom: null }));
      if (clearPairs(own).clear > 0) wrong++;
    }
    expect(wrong).toBeGreaterThan(0);
    // 5 in 100 and two standard errors of 400 runs.
    expect(wrong / 400).toBeLessThan(0.072);
  });
});

describe("spans", () => {
  it("are weeks from Monday to Sunday, over the turn of a year and in a leap year's February", () => {
    expect(weeksTo("2025-01-01", 1)).toEqual({ since: "2024-12-30", until: "2025-01-05" });
    expect(weeksTo("2024-03-01", 1)).toEqual({ since: "2024-02-26", until: "2024-03-03" });
  });

  it.each(["2025-03", "2025-02-30/2025-03-01", "tomorrow", "2025-03-01/2025-03-02/2025-03-03"])(
    "refuse %s in a sentence",
    (text) => expect(() => spanNamed(text, null)).toThrow(BadSpan),
  );

  it("refuse a first day after the last", () => {
    expect(() => spanNamed("2025-03-31/2025-03-01", null)).toThrow(/first day, 2025-03-31, is after/);
  });
});
