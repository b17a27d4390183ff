import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ceilingAt, ceilingsOf } from "../../src/contact/ceiling.ts";
import { enrich, enricher, type EnrichSource } from "../../src/contact/enrich.ts";
import { flagWords, isDoubtful } from "../../src/contact/flags.ts";
import { derivedAt } from "../../src/contact/shape.ts";
import { BadThresholds, defaultThresholds } from "../../src/contact/thresholds.ts";
import { airFor, defaultAir } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { fly } from "../../src/flight/carry.ts";
import { carryRange } from "../../src/flight/range.ts";
import {
  computedFields,
  swingFields,
  type EnrichedSwing,
  type Hitter,
  type Session,
  type Swing,
} from "../../src/swing/fields.ts";
import { deg, ft, mph, rpm } from "../../src/units/index.ts";
import { ball, sessionOf as session, swing } from "./swings.ts";

const hitter = (given: Partial<Hitter>): Hitter => ({
  hitter: "Hitter A",
  bats: null,
  level: null,
  height_in: null,
  ...given,
});
const source = (swings: Swing[], sessions: Session[] = [], hitters: Hitter[] = []): EnrichSource => ({
  swings,
  sessions,
  hitters,
});
const one = (given: Swing, sessions: Session[] = [], hitters: Hitter[] = []): EnrichedSwing =>
  enrich(source([given], sessions, hitters))[0]!;
const flagsOf = (row: EnrichedSwing): string[] => row.flags?.split(";") ?? [];

describe("enriched rows", () => {
  it("go without the ranges of their carries when told to, and are otherwise the same to the last digit", () => {
    const swings = [ball(95, 24), ball(80, -12), ball(99, 31), swing({ input: "live", outcome: "miss" })];
    const whole = enrich(source(swings));
    const plain = enrich(source(swings), { ranges: false });
    expect(whole.filter((row) => row.carry_low_ft! < row.carry_high_ft!)).toHaveLength(3);
    expect(plain).toEqual(whole.map((row) => ({ ...row, carry_low_ft: null, carry_high_ft: null })));
  });

  it("come in order, each with every field and its own values untouched", () => {
    const swings = [ball(90, 20), swing({ outcome: "miss" }), ball(70, -5, { note: "kept" })];
    const rows = enrich(source(swings));
    expect(rows).toHaveLength(3);
    rows.forEach((row, i) => {
      expect(row).toMatchObject(swings[i]!);
      expect(Object.keys(row)).toEqual([...swingFields, ...computedFields].map((f) => f.name));
    });
  });

  it("are unknown throughout for a miss, a take, and a ball without its launch", () => {
    for (const given of [
      swing({ outcome: "miss" }),
      ball(90, 20, { outcome: "take" }),
      swing({ outcome: "foul" }),
      swing({ outcome: "foul", exit_velocity_mph: 80 }),
      swing({ outcome: null }),
    ]) {
      const row = one(given);
      for (const { name } of computedFields) expect(row[name], name).toBeNull();
    }
  });

  it("leave the swings they were made from as they were", () => {
    const given = Object.freeze(ball(90, 20, { spray_angle_deg: 5 }));
    expect(one(given).carry_ft).toBeGreaterThan(200);
  });
});

describe("flight columns", () => {
  const given = ball(95, 24, { spray_angle_deg: -20, bats: "R", backspin_rpm: 2000, sidespin_rpm: -500 });
  const launch = {
    speed: 95 * mph,
    launchAngle: 24 * deg,
    sprayAngle: -20 * deg,
    backspin: 2000 * rpm,
    sidespin: -500 * rpm,
  };

  it("are the flight's, in the fields' units", () => {
    const flight = fly(launch, defaultAir, ballFor(null));
    const range = carryRange(launch, defaultAir, ballFor(null), "measured");
    const row = one(given);
    expect(row.carry_ft).toBeCloseTo(flight.carry / ft, 9);
    expect(row.carry_low_ft).toBeCloseTo(range.low / ft, 9);
    expect(row.carry_high_ft).toBeCloseTo(range.high / ft, 9);
    expect(row.hang_s).toBeCloseTo(flight.hang, 9);
    expect(row.apex_ft).toBeCloseTo(flight.apex / ft, 9);
    expect(row.bearing_deg).toBeCloseTo(flight.bearing / deg, 9);
    expect(row).toMatchObject({ spin_source: "measured", air_source: "default" });
    expect(row.carry_low_ft!).toBeLessThan(row.carry_ft!);
    expect(row.carry_high_ft!).toBeGreaterThan(row.carry_ft!);
  });

  it("use the session's air and ball", () => {
    const mountain = session("s1", { altitude_ft: 5280, temperature_f: 90, ball: "softball" });
    const row = one({ ...given, session: "s1" }, [mountain]);
    expect(row.carry_ft).toBeCloseTo(fly(launch, airFor(mountain), ballFor("softball")).carry / ft, 9);
    expect(row.air_source).toBe("session");
    expect(one({ ...given, session: "elsewhere" }, [mountain]).air_source).toBe("default");
  });

  it("say where the spin came from", () => {
    expect(one(ball(95, 24)).spin_source).toBe("estimated");
    expect(one(ball(95, 24, { spin_rpm: 2200 })).spin_source).toBe("rate_only");
    expect(one(ball(95, 24, { spin_rpm: 2200, spin_axis_deg: 10 })).spin_source).toBe("measured");
  });

  it("have carry but no place without a spray angle, as if the ball went straight away", () => {
    const row = one(ball(95, 24, { bats: "R" }));
    expect(row).toMatchObject({ bearing_deg: null, lane: null, side: null, category: "line drive" });
    expect(row.carry_ft).toBeCloseTo(one(ball(95, 24, { bats: "R", spray_angle_deg: 0 })).carry_ft!, 9);
    expect(flagsOf(row)).toContain("no_spray");
    expect(flagsOf(one(ball(95, 24, { spray_angle_deg: 0 })))).not.toContain("no_spray");
  });

  it("count a foul ball's flight too", () => {
    const row = one(ball(80, 40, { outcome: "foul", spray_angle_deg: 70, bats: "R" }));
    expect(row).toMatchObject({ lane: "foul", side: null });
    expect(row.carry_ft).toBeGreaterThan(100);
  });
});

describe("place", () => {
  it("is pull on the batter's own side", () => {
    expect(one(ball(90, 15, { spray_angle_deg: -30, bats: "R" })).side).toBe("pull");
    expect(one(ball(90, 15, { spray_angle_deg: -30, bats: "L" })).side).toBe("opposite");
    expect(one(ball(90, 15, { spray_angle_deg: -30 })).side).toBeNull();
  });

  it("takes the hitter's listed side when the swing has none, and says so", () => {
    const given = ball(90, 15, { spray_angle_deg: -30 });
    const row = one(given, [], [hitter({ bats: "R" })]);
    expect(row).toMatchObject({ side: "pull", bats: null });
    expect(flagsOf(row)).toContain("listed_side");
    expect(row.carry_ft).toBe(one({ ...given, bats: "R" }).carry_ft);
    // A switch hitter's listing doesn't tell the side of one swing.
    expect(one(given, [], [hitter({ bats: "S" })])).toMatchObject({ side: null });
    expect(flagsOf(one({ ...given, bats: "L" }, [], [hitter({ bats: "R" })]))).not.toContain("listed_side");
  });

  it("mirrors with the batter when there is no wind", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 120, noNaN: true }),
        fc.double({ min: -60, max: 80, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (ev, la, spray) => {
          const right = one(ball(ev, la, { bats: "R", spray_angle_deg: spray }));
          const left = one(ball(ev, la, { bats: "L", spray_angle_deg: -spray }));
          expect(left.carry_ft).toBeCloseTo(right.carry_ft!, 6);
          expect(left.bearing_deg! + right.bearing_deg!).toBeCloseTo(0, 6);
          expect(left.category).toBe(right.category);
          expect(left.side).toBe(right.side);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("contact columns", () => {
  const college = hitter({ level: "college" });

  it("are the exit velocity over the ceiling, and its bucket", () => {
    const swings = Array.from({ length: 40 }, (_, i) => ball(60 + i, 10));
    const rows = enrich(source(swings, [], [college]));
    const { byHitter, shape } = ceilingsOf(swings, { sessions: [], hitters: [college] });
    const most = ceilingAt(byHitter.get("Hitter A")!.unknown!.together, shape, 10)!;
    rows.forEach((row, i) => expect(row.power_kept).toBeCloseTo((60 + i) / most, 9));
    expect(rows.at(-1)!.bucket).toBe("flush");
    expect(rows[0]!.bucket).toBe("mishit");
    expect(flagsOf(rows[0]!)).not.toContain("few_swings");
  });

  it("are unknown with too few swings and no level, and doubtful with few and a level", () => {
    const few = one(ball(90, 10));
    expect(few).toMatchObject({ power_kept: null, bucket: null });
    expect(flagsOf(few)).toContain("no_ceiling");
    const listed = one(ball(90, 10), [], [college]);
    expect(listed.power_kept).toBeGreaterThan(0.8);
    expect(flagsOf(listed)).toEqual(["no_spray", "few_swings"]);
    // 15 swings weigh as much as the level: its figure is no longer more than half of the ceiling.
    const swings = Array.from({ length: 15 }, (_, i) => ball(80 + i, 10));
    const doubted = (n: number): boolean =>
      flagsOf(enrich(source(swings.slice(0, n), [], [college]))[0]!).includes("few_swings");
    expect([14, 15].map(doubted)).toEqual([true, false]);
  });

  it("are unknown, and said to be, for a hitter that the ceilings were found without", () => {
    const row = enricher(source([])).enrich(ball(90, 10));
    expect(row).toMatchObject({ power_kept: null, bucket: null });
    expect(flagsOf(row)).toContain("no_ceiling");
  });

  it("are one stick for tee and live: the pitch's part is taken out", () => {
    const fixed = { ceilings: { "Hitter A": 100 } };
    const pitched: Partial<Swing> = { input: "live", pitch_speed_mph: 80 };
    const [tee, live, slow] = enrich(
      source([ball(90, 8), ball(106, 8, pitched), ball(10, 8, pitched)]),
      fixed,
    );
    expect(tee!.power_kept).toBeCloseTo(0.9, 9);
    expect(live!.power_kept).toBeCloseTo(0.9, 9);
    expect(live!.bucket).toBe(tee!.bucket);
    // Less than the pitch alone would give: none of the swing's own is left, and no less than none.
    expect(slow).toMatchObject({ power_kept: 0, bucket: "mishit" });
  });

  it("say where pitch speeds are unknown, for all of a kind of work or for some", () => {
    const fixed = { ceilings: { "Hitter A": 100 } };
    const live = (pitch_speed_mph: number | null) => ball(90, 8, { input: "live", pitch_speed_mph });
    const none = enrich(source([live(null), live(null)]), fixed);
    expect(none[0]!.power_kept).toBeCloseTo(0.9, 9);
    expect(flagsOf(none[0]!)).toContain("own_ceiling");
    const some = enrich(source([live(80), live(null)]), fixed);
    expect(flagsOf(some[0]!)).not.toContain("own_ceiling");
    expect(some[1]).toMatchObject({ power_kept: null, bucket: null });
    expect(flagsOf(some[1]!)).toContain("no_pitch_speed");
    expect(isDoubtful(some[1]!)).toBe(false);
  });

  it("are of the side of the plate a swing is from", () => {
    const right = Array.from({ length: 20 }, () => ball(80, 8, { bats: "R" }));
    const left = Array.from({ length: 20 }, () => ball(64, 8, { bats: "L" }));
    const rows = enrich(source([...right, ...left]));
    expect(rows[0]!.power_kept).toBeCloseTo(1, 9);
    expect(rows[20]!.power_kept).toBeCloseTo(1, 9);
  });

  it("take a fixed ceiling", () => {
    const [row] = enrich(source([ball(90, 8)]), { ceilings: { "Hitter A": 100 } });
    expect(row!.power_kept).toBeCloseTo(0.9, 9);
    expect(row!.bucket).toBe("clean");
    expect(flagsOf(row!)).toEqual(["no_spray"]);
  });

  it("call a ball outside the ceiling's range a mishit without power", () => {
    const fixed = { ceilings: { "Hitter A": 100 } };
    const rows = enrich(source([ball(90, -20.1), ball(90, 45.1), ball(90, -20), ball(90, 45)]), fixed);
    for (const row of rows.slice(0, 2)) expect(row).toMatchObject({ power_kept: null, bucket: "mishit" });
    for (const row of rows.slice(2)) expect(row.power_kept).toBeGreaterThan(0.9);
  });

  it("flag what passes the ceiling by far, and what the bat can't have given", () => {
    const fixed = { ceilings: { "Hitter A": 80 } };
    expect(flagsOf(enrich(source([ball(88.1, 8)]), fixed)[0]!)).toContain("above_ceiling");
    expect(flagsOf(enrich(source([ball(87.9, 8)]), fixed)[0]!)).not.toContain("above_ceiling");
    const withBat = (ev: number, given: Partial<Swing> = {}) =>
      flagsOf(one(ball(ev, 10, { bat_speed_mph: 60, ...given })));
    // 1.35 · 60 off a tee, and 0.35 · 80 more against 80 mph.
    expect(withBat(81.1)).toContain("fast_for_bat");
    expect(withBat(80.9)).not.toContain("fast_for_bat");
    expect(withBat(108.9, { input: "live", pitch_speed_mph: 80 })).not.toContain("fast_for_bat");
    expect(withBat(109.1, { input: "live", pitch_speed_mph: 80 })).toContain("fast_for_bat");
    expect(withBat(109.1, { input: "live" })).not.toContain("fast_for_bat");
  });
});

describe("what the library says", () => {
  it("puts the session's field under the ball", () => {
    const drive = ball(80, 9, { session: "s1" });
    expect(one(drive, [session("s1", { field: "46/60" })]).category).toBe("line drive");
    expect(one(drive, [session("s1", { field: "60/90" })]).category).toBe("ground ball");
  });

  it("says when a field or a ball is not in the tables", () => {
    const odd = one(ball(90, 20, { session: "s1" }), [session("s1", { field: "moon", ball: "orange" })]);
    expect(flagsOf(odd)).toEqual(["unknown_field", "unknown_ball", "no_spray", "no_ceiling"]);
    expect(odd.carry_ft).toBe(one(ball(90, 20)).carry_ft);
  });

  it("brings its own thresholds", () => {
    const drive = { ...source([ball(90, 9.5)]), thresholds: { line_drive_from_deg: 8 } };
    expect(enricher(drive).thresholds.line_drive_from_deg).toBe(8);
    expect(() => enrich({ ...drive, thresholds: { no_such: 1 } })).toThrow(BadThresholds);
  });

  it("keeps the range a range for balls that graze the ground, or start under it", () => {
    const graze = {
      spray_angle_deg: -101.921,
      backspin_rpm: 8000,
      contact_side_ft: -3.509,
      bats: "L",
    } as const;
    const grazing = one(ball(130, -3.2802513940259814, graze));
    expect(grazing.carry_low_ft!).toBeLessThan(grazing.carry_ft!);
    expect(grazing.carry_high_ft!).toBeGreaterThan(grazing.carry_ft!);
    const under = one(ball(119, -1.16, { contact_height_ft: -1 }));
    expect(under).toMatchObject({ carry_ft: 0, hang_s: 0, category: "ground ball" });
    expect(under.carry_low_ft).toBeGreaterThanOrEqual(0);
  });

  it("leaves the flight of one impossible ball unknown, and the other columns as they are", () => {
    const rows = enrich(source([ball(90, 10), ball(90, 20, { spray_angle_deg: NaN })]), {
      ceilings: { "Hitter A": 100 },
    });
    expect(rows[1]).toMatchObject({ carry_ft: null, carry_low_ft: null, category: null, lane: null });
    const { collision_q } = defaultThresholds;
    expect(rows[1]!.power_kept).toBeCloseTo(0.9 / derivedAt(10, collision_q), 9);
    expect(flagsOf(rows[1]!)).toEqual(["no_flight"]);
    expect(rows[0]!.carry_ft).toBeGreaterThan(100);
  });

  it("marks a swing whose launch is outside its limits, and goes on with the next", () => {
    const odd: Partial<Swing>[] = [
      { launch_angle_deg: 120 },
      { exit_velocity_mph: 900 },
      { exit_velocity_mph: NaN },
      { spin_rpm: 90_000 },
    ];
    const rows = enrich(source([...odd.map((more) => ball(90, 20, more)), ball(90, 20)]));
    for (const row of rows.slice(0, odd.length)) {
      expect(row).toMatchObject({ carry_ft: null, category: null });
      expect(flagsOf(row)).toContain("no_flight");
    }
    expect(rows[0]!.power_kept).toBeNull();
    expect(rows.at(-1)!.carry_ft).toBeGreaterThan(100);
  });

  it("marks swings in an air that can't be, and uses of it what can", () => {
    const given = ball(95, 24, { session: "s1", spray_angle_deg: 0 });
    for (const wrong of [
      { humidity_pct: -5 },
      { temperature_f: 200 },
      { pressure_inhg: 1013 },
      { wind_mph: 300, wind_toward_deg: 0 },
    ]) {
      const row = one(given, [session("s1", { ...wrong, altitude_ft: 5000 })]);
      expect(flagsOf(row)).toContain("doubtful_air");
      expect(row.carry_ft).toBeCloseTo(one(given, [session("s1", { altitude_ft: 5000 })]).carry_ft!, 9);
    }
    expect(flagsOf(one(given, [session("s1", { humidity_pct: 5 })]))).not.toContain("doubtful_air");
  });

  it("marks swings of a session that isn't there, where there is a table of sessions", () => {
    const given = ball(95, 24, { session: "s2" });
    expect(flagsOf(one(given, [session("s1", {})]))).toContain("unknown_session");
    expect(flagsOf(one(given))).not.toContain("unknown_session");
    expect(flagsOf(one({ ...given, session: null }, [session("s1", {})]))).not.toContain("unknown_session");
    const [row] = enrich({ ...source([given]), sessionsGiven: true });
    expect(flagsOf(row!)).toContain("unknown_session");
  });

  it("never throws on a swing within the fields' limits, and flags only with the words explained", () => {
    const number = (name: string) => {
      const field = swingFields.find((f) => f.name === name) as { min: number; max: number };
      // In thousandths: finer than any tracker, and round values come up.
      const thousandths = fc.integer({ min: field.min * 1000, max: field.max * 1000 });
      return fc.option(
        thousandths.map((n) => n / 1000),
        { nil: null },
      );
    };
    const numbers = swingFields.filter((f) => f.type === "number").map((f) => f.name);
    const any = fc.record({
      bats: fc.constantFrom("L", "R", null),
      input: fc.constantFrom("tee", "flip", "live"),
      outcome: fc.constantFrom("in_play", "foul", "miss", "take", null),
      ...Object.fromEntries(numbers.map((name) => [name, number(name)])),
    });
    fc.assert(
      fc.property(any, (given) => {
        const row = one(swing(given as Partial<Swing>), [], [college()]);
        for (const word of flagsOf(row)) expect(Object.keys(flagWords)).toContain(word);
        for (const { name, type } of computedFields) {
          if (type === "number" && row[name] !== null) expect(row[name], name).toSatisfy(Number.isFinite);
        }
        expect(row.carry_low_ft ?? 0).toBeLessThanOrEqual(row.carry_high_ft ?? 0);
        // A ball beaten down at the plate may fall nearer to it than its range, which has no less than nothing.
        if (row.carry_ft !== null && row.carry_ft > 20) {
          expect(row.carry_low_ft!).toBeLessThan(row.carry_ft);
          expect(row.carry_high_ft!).toBeGreaterThan(row.carry_ft);
        }
      }),
      { numRuns: 300 },
    );
  });
});

function college(): Hitter {
  return hitter({ level: "college" });
}
