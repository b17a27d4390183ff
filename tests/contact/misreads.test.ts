/** Misreads: each kind with its reason, at its limit, and none on the demo's sound rows. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { enrich } from "../../src/contact/enrich.ts";
import { flagsOf, flagWords, isDoubtful, withoutDoubtful } from "../../src/contact/flags.ts";
import { Neighbours } from "../../src/contact/misreads.ts";
import { defaultThresholds as t } from "../../src/contact/thresholds.ts";
import type { EnrichedSwing, Swing } from "../../src/swing/fields.ts";
import { openLibrary, type Library } from "../../src/library/library.ts";
import { ball } from "./swings.ts";

const flagged = (changes: Partial<Swing>): string[] =>
  flagsOf(
    enrich({ swings: [{ ...ball(90, 20), spray_angle_deg: 5, ...changes }], sessions: [], hitters: [] })[0]!,
  );

describe("a row's own readings", () => {
  it("spin beyond a bat's, and a rate less than its parts", () => {
    expect(flagged({ backspin_rpm: t.spin_most_rpm + 1, sidespin_rpm: 0 })).toContain("odd_spin");
    expect(flagged({ backspin_rpm: t.spin_most_rpm - 1, sidespin_rpm: 0 })).not.toContain("odd_spin");
    expect(flagged({ backspin_rpm: 2000, sidespin_rpm: 1500, spin_rpm: 1800 })).toContain("odd_spin");
    expect(flagged({ backspin_rpm: 2000, sidespin_rpm: 1500, spin_rpm: 2500 })).not.toContain("odd_spin");
  });

  it("spin beyond what the slip between this bat and this pitch gives: 5/7 of it, by hand", () => {
    // 50 mph is 22.352 m/s; 5/7 of it over 36.9 mm is 432.8 rad/s, 4133 rpm; with room for 2500, 6633.
    const off = { input: "tee", bat_speed_mph: 50, sidespin_rpm: 0 } as const;
    expect(flagged({ ...off, backspin_rpm: 6700 })).toContain("odd_spin");
    expect(flagged({ ...off, backspin_rpm: 6550 })).not.toContain("odd_spin");
  });

  it("spin by both its parts, by the one that is known, or by the rate alone, each at its limit", () => {
    const odd = (spin: Partial<Swing>): boolean => flagged(spin).includes("odd_spin");
    const most = t.spin_most_rpm;
    // 0.6 and 0.8 of the most: together the most itself.
    expect(odd({ backspin_rpm: 0.6 * most, sidespin_rpm: 0.8 * most })).toBe(false);
    expect(odd({ backspin_rpm: 0.6 * most, sidespin_rpm: 0.8 * most + 10 })).toBe(true);
    for (const part of ["backspin_rpm", "sidespin_rpm"] as const)
      for (const sign of [1, -1]) {
        expect(odd({ [part]: sign * most })).toBe(false);
        expect(odd({ [part]: sign * (most + 1) })).toBe(true);
      }
    expect([most, most + 1].map((spin_rpm) => odd({ spin_rpm }))).toEqual([false, true]);
    const parts = { backspin_rpm: 2500 + t.spin_parts_rpm, sidespin_rpm: 0 };
    expect([2500, 2499].map((spin_rpm) => odd({ ...parts, spin_rpm }))).toEqual([false, true]);
  });

  it("spin by the slip of bat and pitch together, where both are known", () => {
    // 60 mph is 26.822 m/s; 5/7 of it over 36.9 mm is 519 rad/s, 4960 rpm; with room for 2500, 7460.
    const off = { input: "live", bat_speed_mph: 30, sidespin_rpm: 0 } as const;
    const odd = (backspin_rpm: number, pitch_speed_mph: number | null): boolean =>
      flagged({ ...off, backspin_rpm, pitch_speed_mph }).includes("odd_spin");
    expect([odd(5000, 30), odd(7420, 30), odd(7490, 30)]).toEqual([false, false, true]);
    expect([odd(7490, null), odd(7510, null)]).toEqual([false, true]);
  });

  it("in play, and behind the plate", () => {
    expect(flagged({ spray_angle_deg: 91 })).toContain("behind_plate");
    expect(flagged({ spray_angle_deg: -89 })).not.toContain("behind_plate");
    expect(flagged({ spray_angle_deg: 120, outcome: "foul", input: "live" })).not.toContain("behind_plate");
  });

  it("off a tee with the ball coming in, and met where no tee stands", () => {
    expect(flagged({ input: "tee", pitch_speed_mph: 40 })).toContain("tee_moving");
    expect(flagged({ input: "tee", pitch_speed_mph: null })).not.toContain("tee_moving");
    expect(flagged({ input: "live", pitch_speed_mph: 40 })).not.toContain("tee_moving");
    for (const place of [
      { contact_height_ft: 5.6 },
      { contact_height_ft: 0.4 },
      { contact_side_ft: -3.6 },
      { contact_depth_ft: 4.3 },
    ])
      expect(flagged({ input: "tee", ...place }), JSON.stringify(place)).toContain("off_tee");
    expect(
      flagged({ input: "tee", contact_height_ft: 2.5, contact_side_ft: 0.5, contact_depth_ft: 2 }),
    ).not.toContain("off_tee");
    expect(flagged({ input: "live", contact_height_ft: 5.6 })).not.toContain("off_tee");
  });

  it("a carry of the tracker's own far from ours, and its own carry in no figure", () => {
    const plain = enrich({ swings: [ball(95, 28)], sessions: [], hitters: [] })[0]!;
    const told = (carry: number): EnrichedSwing =>
      enrich({ swings: [{ ...ball(95, 28), tracker_carry_ft: carry }], sessions: [], hitters: [] })[0]!;
    expect(flagsOf(told(plain.carry_ft! * 0.8))).toContain("carry_apart");
    expect(flagsOf(told(plain.carry_ft! * 1.05))).not.toContain("carry_apart");
    expect(told(100).carry_ft).toBe(plain.carry_ft);
  });
});

describe("rows beside one another", () => {
  const seen = (rows: Partial<Swing>[]): Map<string, readonly string[]> => {
    const watch = new Neighbours(t);
    rows.forEach((row, i) =>
      watch.see({
        ...ball(80 + i * 1.37, 10 + i * 0.73),
        spray_angle_deg: i * 1.9,
        session: "s",
        swing_id: `${i}`,
        ...row,
      }),
    );
    return new Map(watch.flags);
  };

  it("readings that are stuck, the first of them too", () => {
    const stuck = seen([
      {},
      { exit_velocity_mph: 91.3 },
      { exit_velocity_mph: 91.3 },
      { exit_velocity_mph: 91.3 },
      {},
    ]);
    expect([...stuck.keys()]).toEqual(["1", "2", "3"]);
    expect(seen([{ exit_velocity_mph: 91.3 }, { exit_velocity_mph: 91.3 }, {}]).size).toBe(0);
  });

  it("whole numbers, which recur by chance, only after two more", () => {
    const four = [1, 2, 3, 4].map(() => ({ exit_velocity_mph: 91 }));
    expect(seen(four).size).toBe(0);
    expect(seen([...four, { exit_velocity_mph: 91 }]).size).toBe(5);
  });

  it("all three the same twice", () => {
    const one = { exit_velocity_mph: 88.1, launch_angle_deg: 12.2, spray_angle_deg: -4.4 };
    expect([...seen([one, one, {}]).keys()]).toEqual(["0", "1"]);
    expect(seen([one, { ...one, session: "other" }]).size).toBe(0);
  });

  it("a trigger that fired twice, the second row alone", () => {
    const [one, again] = [
      { exit_velocity_mph: 88.1, launch_angle_deg: 12.2, spray_angle_deg: -4.4 },
      { exit_velocity_mph: 87.6, launch_angle_deg: 13.1, spray_angle_deg: null },
    ];
    const twice = seen([
      { time: "2025-03-04T19:00:00", ...one, exit_velocity_mph: 80 },
      { time: "2025-03-04T19:00:10", ...one },
      { time: "2025-03-04T19:00:11", ...again },
      { time: "2025-03-04T19:00:20", ...one },
    ]);
    expect([...twice]).toEqual([["2", ["doubled"]]]);
  });

  it("not two balls of a quick round whose clock counts whole seconds", () => {
    const one = { exit_velocity_mph: 88.1, launch_angle_deg: 12.2, spray_angle_deg: -4.4 };
    for (const other of [{ exit_velocity_mph: 79.3 }, { launch_angle_deg: 17.9 }, { spray_angle_deg: 8.2 }])
      expect(
        seen([
          { time: "2025-03-04T19:00:10", ...one },
          { time: "2025-03-04T19:00:11", ...one, ...other },
        ]).size,
      ).toBe(0);
    expect(seen([{ time: "2025-03-04" }, { time: "2025-03-04" }, { time: null }]).size).toBe(0);
  });

  it("reach the rows of enrich", () => {
    const one = { exit_velocity_mph: 88.1, launch_angle_deg: 12.2, spray_angle_deg: -4.4 };
    const swings = [1, 2].map((i): Swing => ({
      ...ball(88.1, 12.2),
      ...one,
      session: "s",
      swing_id: `${i}`,
    }));
    expect(enrich({ swings, sessions: [], hitters: [] }).map((r) => flagsOf(r).includes("stuck"))).toEqual([
      true,
      true,
    ]);
  });
});

describe("rows in doubt", () => {
  it("are left out only by the one call that counts them", () => {
    const rows = [
      { flags: "no_spray" },
      { flags: "stuck" },
      { flags: null },
      { flags: "turned_back;off_tee" },
    ];
    expect(rows.map(isDoubtful)).toEqual([false, true, false, true]);
    expect(withoutDoubtful(rows)).toEqual({ kept: [rows[0], rows[2]], leftOut: 2 });
  });

  it("each have a reason in words", () => {
    for (const words of Object.values(flagWords)) expect(words.length).toBeGreaterThan(20);
  });
});

describe("the demo", () => {
  let library: Library;
  let rows: EnrichedSwing[];
  const lines = readFileSync(
    fileURLToPath(new URL("../../data/demo/swings.csv", import.meta.url)),
    "utf8",
  ).split("\n");
  const keyOf = (r: Pick<Swing, "session" | "time">): string => `${r.session} ${r.time}`;
  const misread = new Map(
    truths.misread.map((m) => [
      `${m.session} ${/\d{4}-\d\d-\d\dT[\d:]{8}/.exec(lines[m.row - 1]!)![0]}`,
      m.what,
    ]),
  );
  beforeAll(async () => {
    library = await openLibrary(fileURLToPath(new URL("../../data/demo", import.meta.url)));
    rows = enrich(library);
  });

  // A launch angle near straight up, or a third too much speed with no bat speed beside it, could be true.
  it("has every misread that physics tells flagged", () => {
    const telling = /behind the plate|far above the zone|pitch read as the ball/;
    const missed = rows
      .filter((r) => telling.test(misread.get(keyOf(r)) ?? "") && !isDoubtful(r))
      .map((r) => misread.get(keyOf(r)));
    expect(missed).toEqual([]);
    expect(rows.filter((r) => misread.has(keyOf(r)) && isDoubtful(r)).length).toBeGreaterThanOrEqual(8);
  });

  it("has next to no other row flagged: three in a thousand at most", () => {
    const wrong = rows.filter((r) => isDoubtful(r) && !misread.has(keyOf(r)));
    expect(wrong.map((r) => r.flags).length / rows.length).toBeLessThan(0.003);
  });
});
