/** The demo's files: the same on every run, and what is planted in them can be found in the rows. */
import { csvParse, deviation, mean, median, quantile, rollup } from "d3";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { readSwings } from "../../src/library/files.ts";
import { make } from "../../data/demo/make.ts";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { swingPitchSpeed } from "../../src/contact/collision.ts";
import { findLevel } from "../../src/contact/levels.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { findField } from "../../src/field/fields.ts";
import { cellOf } from "../../src/field/zone.ts";
import { findBall } from "../../src/flight/ball.ts";
import { inputs, swingFields, type Input, type Swing } from "../../src/swing/fields.ts";
import { openLibrary, type Library } from "../../src/library/library.ts";

const dir = fileURLToPath(new URL("../../data/demo", import.meta.url));
const text = (name: string): string => readFileSync(`${dir}/${name}`, "utf8");

let library: Library;
/** Swings but for misread ones, with the batter's side filled in. */
let swings: Swing[];
beforeAll(async () => {
  library = await openLibrary(dir);
  const misread = new Set(truths.misread.map((m) => `${m.session} ${timeOfRow(m.row)}`));
  const sides = new Map(library.hitters.map((h) => [h.hitter, h.bats]));
  swings = library.swings
    .filter((s) => !misread.has(`${s.session} ${s.time}`))
    .map((s) => ({ ...s, bats: s.bats ?? (sides.get(s.hitter) as "L" | "R") }));
});

const lines = text("swings.csv").split("\n");
const timeOfRow = (row: number): string => /\d{4}-\d\d-\d\dT[\d:]{8}/.exec(lines[row - 1]!)![0];

const inPlay = (s: Swing): boolean =>
  s.exit_velocity_mph !== null && (s.outcome === null || s.outcome === "in_play");
const moved = new Set([truths.turned.session, truths.tilted.session]);
const of = (hitter: string, input: Input): Swing[] =>
  swings.filter((s) => s.hitter === hitter && s.input === input && inPlay(s));
const values = (rows: readonly Swing[], field: keyof Swing): number[] =>
  rows.map((r) => r[field]).filter((v): v is number => typeof v === "number");

describe("the files", () => {
  it("are what the generator writes, byte for byte, on every run", async () => {
    const [once, again] = [await make(), await make()];
    expect(Object.keys(once).sort()).toEqual([
      "hitters.csv",
      "sessions.csv",
      "swings.csv",
      "targets.csv",
      "truths.json",
    ]);
    for (const [name, made] of Object.entries(once)) {
      expect(again[name]).toBe(made);
      expect(text(name) === made, `${name} is stale: npm run demo`).toBe(true);
    }
  });

  it("are RFC 4180 with LF, the columns of the one definition, and no -0", () => {
    expect(lines[0]).toBe(swingFields.map((f) => f.name).join(","));
    expect(lines.at(-1)).toBe("");
    expect(text("swings.csv")).not.toMatch(/\r|,-0(\.0+)?(,|\n)/);
  });

  it("hold six weeks of eight hitters, all three inputs, in order of time", () => {
    expect(library.swings.length).toBeGreaterThanOrEqual(2700);
    expect(library.swings.length).toBeLessThanOrEqual(3300);
    expect(library.hitters).toHaveLength(8);
    expect(new Set(library.swings.map((s) => s.hitter)).size).toBe(8);
    expect(new Set(library.hitters.map((h) => h.bats))).toEqual(new Set(["L", "R", "S"]));
    for (const input of inputs) {
      expect(library.swings.filter((s) => s.input === input).length).toBeGreaterThan(500);
    }
    const times = library.swings.map((s) => s.time!);
    expect(times).toEqual([...times].sort());
    const days = library.sessions.map((s) => Date.parse(s.date!) / 86_400_000);
    expect(days.at(-1)! - days[0]!).toBeGreaterThan(35);
    const outdoors = library.sessions.filter((s) => s.indoor === false);
    expect(outdoors).toHaveLength(3);
    expect(outdoors.every((s) => s.session.endsWith("live"))).toBe(true);
  });

  it("name only sessions, hitters, drills, fields, balls and levels that there are", () => {
    const sessions = new Set(library.sessions.map((s) => s.session));
    const hitters = new Set(library.hitters.map((h) => h.hitter));
    const drills = new Set(library.swings.map((s) => s.drill));
    expect(library.swings.filter((s) => !sessions.has(s.session!) || !hitters.has(s.hitter))).toEqual([]);
    expect(library.targets).toHaveLength(5);
    expect(library.targets.filter((t) => !drills.has(t.drill))).toEqual([]);
    expect(library.sessions.filter((s) => s.field !== null && findField(s.field) === null)).toEqual([]);
    expect(library.sessions.filter((s) => findBall(s.ball!) === null)).toEqual([]);
    expect(library.hitters.filter((h) => findLevel(h.level!) === null)).toEqual([]);
  });

  it("have exactly the rows refused and repeated that the truths list", async () => {
    const reading = await readSwings(`${dir}/swings.csv`);
    expect(reading.refused.map((r) => [r.row, r.problems[0]!.field])).toEqual(
      truths.refused.map((r) => [r.row, r.field]),
    );
    expect(truths.refused.length).toBeGreaterThanOrEqual(6);
    const repeated = reading.problems.filter((p) => p.kind === "warning").map((p) => p.row);
    expect(repeated).toEqual(truths.duplicate.map((d) => d.row));
    for (const { row } of truths.duplicate) expect(lines[row - 1]).toBe(lines[row - 2]);
    expect(reading.rows.length + truths.refused.length + truths.duplicate.length).toBe(lines.length - 2);
  });

  it("hold every misread row as a usable one", () => {
    expect(truths.misread.length).toBeGreaterThanOrEqual(10);
    const refused = new Set(truths.refused.map((r) => r.row));
    for (const m of truths.misread) {
      expect(refused.has(m.row)).toBe(false);
      expect(lines[m.row - 1]).toContain(m.session);
      if (m.swing_id !== null) expect(lines[m.row - 1]!.startsWith(`${m.swing_id},`)).toBe(true);
    }
  });

  it("have the gaps of a real export", () => {
    const share = (rows: readonly Swing[], blank: (s: Swing) => boolean): number =>
      rows.filter(blank).length / rows.length;
    const hits = library.swings.filter(inPlay);
    // The reader fills a blank outcome in, so the file itself is asked.
    const printed = csvParse(text("swings.csv"));
    expect(printed.filter((row) => row.outcome === "").length / printed.length).toBeGreaterThan(0.2);
    expect(share(hits, (s) => s.spray_angle_deg === null)).toBeGreaterThan(0.005);
    expect(share(hits, (s) => s.contact_side_ft === null)).toBeGreaterThan(0.01);
    expect(share(hits, (s) => s.bat_speed_mph === null)).toBeGreaterThan(0.2);
    const spin = rollup(
      hits,
      (rows) => rows.length,
      (s) =>
        s.backspin_rpm !== null ? "components" : s.spin_axis_deg !== null ? "axis" : s.spin_rpm !== null,
    );
    expect(spin.size).toBe(4);
    expect(Math.min(...spin.values())).toBeGreaterThan(100);
    expect(library.hitters.filter((h) => h.height_in === null).map((h) => h.hitter)).toEqual(
      truths.gaps.hitters_without_height,
    );
  });
});

describe("what a coach would believe", () => {
  it("levels: the hardest balls, the pitch's part taken out, come near the level's figure", () => {
    for (const { hitter, level } of library.hitters) {
      const own = inputs.flatMap((input) => measured(hitter, input).map(({ power }) => power));
      const hard = quantile(own, 0.95)!;
      expect(Math.abs(hard - findLevel(level!)!.top_exit_velocity_mph), `${hitter} ${hard}`).toBeLessThan(6);
    }
  });

  it("launch and spray angles and contact depth spread wider live than on a tee, for everyone", () => {
    for (const { hitter } of library.hitters) {
      for (const field of ["launch_angle_deg", "spray_angle_deg", "contact_depth_ft"] as const) {
        const [tee, live] = [of(hitter, "tee"), of(hitter, "live")].map((rows) =>
          deviation(values(rows, field))!,
        );
        expect(live!, `${hitter} ${field}`).toBeGreaterThan(tee! * 1.2);
      }
      const tee = deviation(values(of(hitter, "tee"), "launch_angle_deg"))!;
      expect(tee).toBeGreaterThan(6);
      expect(tee).toBeLessThan(15);
    }
  });

  it("more balls go to the pull side than to the opposite one", () => {
    const pulled = swings
      .filter((s) => inPlay(s) && s.spray_angle_deg !== null)
      .map((s) => (s.bats === "R" ? -1 : 1) * s.spray_angle_deg!);
    const [pull, opposite] = [pulled.filter((a) => a > 15).length, pulled.filter((a) => a < -15).length];
    expect(pull / opposite).toBeGreaterThan(1.5);
    expect(pull / opposite).toBeLessThan(5);
  });

  it("pitches that bend or slow down are missed more often than fastballs, and a coach's balls least", () => {
    const missed = (rows: readonly Swing[]): number =>
      rows.filter((s) => s.outcome === "miss").length / rows.length;
    const swung = swings.filter((s) => s.input === "live" && s.outcome !== "take");
    const [coach, pitched] = [true, false].map((is) =>
      swung.filter((s) => s.pitcher!.startsWith("Coach") === is),
    ) as [Swing[], Swing[]];
    const type = (name: string): number => missed(pitched.filter((s) => s.pitch_type === name));
    expect(missed(coach)).toBeLessThan(0.1);
    expect(type("fastball")).toBeGreaterThan(missed(coach));
    for (const name of ["changeup", "curveball", "slider"])
      expect(type(name)).toBeGreaterThan(type("fastball"));
    expect(type("curveball")).toBeLessThan(0.35);
    const fouls = pitched.filter((s) => s.outcome === "foul").length / pitched.length;
    expect(fouls).toBeGreaterThan(0.12);
    expect(fouls).toBeLessThan(0.4);
  });
});

describe("a tracker that stood wrong", () => {
  /** Each hitter's mean there less the mean in the hitter's other tee and flip sessions. */
  const shifts = (
    at: { session: string; hitters: readonly string[] },
    field: keyof Swing,
    drill?: string,
  ): number[] =>
    at.hitters.map((hitter) => {
      const rows = swings.filter(
        (s) =>
          s.hitter === hitter &&
          s.input !== "live" &&
          inPlay(s) &&
          (drill === undefined || s.drill === drill),
      );
      const there = rows.filter((s) => s.session === at.session);
      const elsewhere = rows.filter((s) => !moved.has(s.session!));
      expect(there.length).toBeGreaterThan(5);
      expect(elsewhere.length).toBeGreaterThan(20);
      return mean(values(there, field))! - mean(values(elsewhere, field))!;
    });

  it("turned: spray angles shift by as much, over at least four hitters", () => {
    expect(truths.turned.turned_deg).toBe(3);
    expect(truths.turned.hitters.length).toBeGreaterThanOrEqual(4);
    expect(Math.abs(mean(shifts(truths.turned, "spray_angle_deg"))! - 3)).toBeLessThan(0.7);
    expect(Math.abs(mean(shifts(truths.turned, "launch_angle_deg"))!)).toBeLessThan(1.5);
  });

  it("tilted: launch angles shift by as much, over at least four hitters", () => {
    expect(truths.tilted.tilted_deg).toBe(1.5);
    expect(truths.tilted.hitters.length).toBeGreaterThanOrEqual(4);
    expect(Math.abs(mean(shifts(truths.tilted, "launch_angle_deg"))! - 1.5)).toBeLessThan(0.7);
    expect(Math.abs(mean(shifts(truths.tilted, "spray_angle_deg"))!)).toBeLessThan(1.5);
  });

  it("moves each hitter's contact points too, by the lever from the tracker to the plate", () => {
    const lever = 17 + defaultThresholds.zone_width_in / 12 - 2;
    const rad = Math.PI / 180;
    for (const shift of shifts(truths.turned, "contact_side_ft", "Tee, middle")) {
      expect(Math.abs(shift + lever * Math.sin(3 * rad))).toBeLessThan(0.1);
    }
    for (const shift of shifts(truths.tilted, "contact_height_ft", "Tee, middle")) {
      expect(Math.abs(shift + lever * Math.sin(1.5 * rad))).toBeLessThan(0.1);
    }
  });

  it("is not in the log", () => {
    for (const session of library.sessions.filter((s) => moved.has(s.session))) {
      expect([session.tracker_yaw_deg, session.tracker_tilt_deg, session.tracker_roll_deg]).toEqual([
        0, 0, 0,
      ]);
    }
  });
});

/** Exit velocity less what the pitch's speed gives, and the cell, of the swings that have both. */
function measured(hitter: string, input: Input): { power: number; cell: number; swing: Swing }[] {
  const sessions = new Map(library.sessions.map((s) => [s.session, s]));
  const height = library.hitters.find((h) => h.hitter === hitter)!.height_in;
  return of(hitter, input).flatMap((swing) => {
    const pitch = swingPitchSpeed(swing, sessions.get(swing.session!)!);
    const cell = cellOf(swing, height);
    if (pitch === null || cell === null || moved.has(swing.session!)) return [];
    const power = swing.exit_velocity_mph! - defaultThresholds.collision_q * pitch;
    return [{ power, cell: cell.row * 3 + cell.column, swing }];
  });
}

/** Live less tee: in all, and split in two by Kitagawa's rule (E. M. Kitagawa, JASA 50, 1955, 1168). */
function gap(hitter: string): { all: number; place: number; within: number } {
  const [tee, live] = [measured(hitter, "tee"), measured(hitter, "live")];
  let [place, within] = [0, 0];
  for (let cell = 0; cell < 9; cell++) {
    const [a, b] = [tee, live].map((rows) => rows.filter((r) => r.cell === cell)) as [
      typeof tee,
      typeof live,
    ];
    expect(Math.min(a.length, b.length), `${hitter}, cell ${cell}`).toBeGreaterThan(0);
    const [share, shareLive] = [a.length / tee.length, b.length / live.length];
    const [power, powerLive] = [mean(a, (r) => r.power)!, mean(b, (r) => r.power)!];
    place += ((shareLive - share) * (power + powerLive)) / 2;
    within += ((shareLive + share) * (powerLive - power)) / 2;
  }
  return { all: mean(live, (r) => r.power)! - mean(tee, (r) => r.power)!, place, within };
}

describe("the hitters", () => {
  it("place: the gap is where he is pitched, and next to nothing in matched cells", () => {
    const { all, place, within } = gap(truths.place.hitter);
    expect(all).toBeLessThan(-5);
    expect(place).toBeLessThan(-5);
    expect(Math.abs(within)).toBeLessThan(1.5);
    expect(place + within).toBeCloseTo(all, 9);
  });

  it("timing: the gap is in every cell alike, and in how far from his usual depth he meets the ball", () => {
    const { all, place, within } = gap(truths.timing.hitter);
    expect(all).toBeLessThan(-5);
    expect(within).toBeLessThan(-5);
    expect(Math.abs(place)).toBeLessThan(1);

    const live = measured(truths.timing.hitter, "live");
    const usual = median(live, (r) => r.swing.contact_depth_ft)!;
    const off = (r: (typeof live)[number]): number => Math.abs(r.swing.contact_depth_ft! - usual);
    const sorted = [...live].sort((a, b) => off(a) - off(b));
    const third = Math.floor(sorted.length / 3);
    const [near, far] = [sorted.slice(0, third), sorted.slice(-third)].map((rows) =>
      mean(rows, (r) => r.power)!,
    );
    expect(near! - far!).toBeGreaterThan(6);

    const spread = (hitter: string): number => deviation(values(of(hitter, "live"), "contact_depth_ft"))!;
    for (const { hitter } of library.hitters.filter((h) => h.hitter !== truths.timing.hitter)) {
      expect(spread(truths.timing.hitter)).toBeGreaterThan(1.3 * spread(hitter));
    }
  });

  it("no one else's gap is in the place", () => {
    for (const { hitter } of library.hitters.filter((h) => h.hitter !== truths.place.hitter)) {
      expect(Math.abs(gap(hitter).place), hitter).toBeLessThan(1.5);
    }
  });

  /** Least-squares slope of a tee swing's exit velocity over the weeks, mph a week, and its standard error. */
  function slope(hitter: string): { b: number; se: number } {
    const rows = of(hitter, "tee");
    const weeks = rows.map((r) => Date.parse(`${r.time}Z`) / (7 * 86_400_000));
    const [t, y] = [mean(weeks)!, mean(rows, (r) => r.exit_velocity_mph)!];
    const sxx = weeks.reduce((sum, w) => sum + (w - t) ** 2, 0);
    const b = weeks.reduce((sum, w, i) => sum + (w - t) * (rows[i]!.exit_velocity_mph! - y), 0) / sxx;
    const rest = weeks.reduce((sum, w, i) => sum + (rows[i]!.exit_velocity_mph! - y - b * (w - t)) ** 2, 0);
    return { b, se: Math.sqrt(rest / (rows.length - 2) / sxx) };
  }

  it("improving: exit velocity rises as the bat speed does, and nobody else's clearly", () => {
    const { b, se } = slope(truths.improving.hitter);
    const expected = (1 + defaultThresholds.collision_q) * truths.improving.gain_mph_a_week;
    expect(b / se).toBeGreaterThan(4);
    expect(Math.abs(b - expected)).toBeLessThan(0.4);
    for (const { hitter } of library.hitters.filter((h) => h.hitter !== truths.improving.hitter)) {
      const other = slope(hitter);
      expect(Math.abs(other.b / other.se), hitter).toBeLessThan(2.5);
    }
  });
});
