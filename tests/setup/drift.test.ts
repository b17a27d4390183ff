/** Drift: the demo's two moved sessions, and libraries in which it is known what the tracker did. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import truths from "../../data/demo/truths.json" with { type: "json" };
import figures from "../../data/drift-simulation.json" with { type: "json" };
import { simulate, trials, tried } from "../../data/drift-simulation.ts";
import { drift, type Drift, type DriftSwing } from "../../src/setup/drift.ts";
import { openLibrary, type Library } from "../../src/library/library.ts";

const dir = fileURLToPath(new URL("../../data/demo", import.meta.url));
let library: Library;
let found: Drift;
beforeAll(async () => {
  library = await openLibrary(dir);
  found = drift(library.swings, library.sessions);
});
const of = (d: Drift, session: string) => d.sessions.find((s) => s.session === session)!;

describe("the demo", () => {
  it("has its turned session found within half a degree, and held back", () => {
    const { yaw_deg, tilt_deg, verdict, reasons } = of(found, truths.turned.session);
    expect(Math.abs(yaw_deg.value! - truths.turned.turned_deg)).toBeLessThan(0.5);
    expect(Math.abs(tilt_deg.value!)).toBeLessThan(0.5);
    expect(verdict).toBe("hold back");
    expect(reasons.join()).toMatch(/turned \d\.\d° toward right field/);
  });

  it("has its tilted session found within half a degree", () => {
    const { yaw_deg, tilt_deg, verdict, reasons } = of(found, truths.tilted.session);
    expect(Math.abs(tilt_deg.value! - truths.tilted.tilted_deg)).toBeLessThan(0.5);
    expect(Math.abs(yaw_deg.value!)).toBeLessThan(0.5);
    expect(verdict).not.toBe("sound");
    expect(reasons.join()).toMatch(/tilted \d\.\d° up/);
  });

  it("has no other session flagged, and every one of tee or flip work judged", () => {
    expect(found.limits).toBeNull();
    const worked = new Set(library.swings.filter((s) => s.input !== "live").map((s) => s.session));
    expect(new Set(found.sessions.map((s) => s.session))).toEqual(worked);
    const flagged = found.sessions.filter((s) => s.verdict !== "sound").map((s) => s.session);
    expect(flagged).toEqual([truths.turned.session, truths.tilted.session]);
  });

  it("has a shift with its interval and count in every measure of every session", () => {
    for (const { shifts } of found.sessions)
      for (const { n, value, low, high } of Object.values(shifts)) {
        expect(n).toBeGreaterThan(20);
        expect(low!).toBeLessThan(value!);
        expect(high!).toBeGreaterThan(value!);
      }
  });
});

describe("one hitter's change", () => {
  it("is the hitter's, and not the tracker's", () => {
    const { swings, sessions, chosen } = simulate(7, { hitters: 5, sessions: 6 });
    const changed = swings.map((s) =>
      s.session === chosen && s.hitter === "Hitter 2"
        ? { ...s, spray_angle_deg: s.spray_angle_deg! - 28 }
        : s,
    );
    const d = drift(changed, sessions);
    expect(of(d, chosen).verdict).toBe("sound");
    const own = d.changes.filter((c) => c.measure === "spray_angle_deg");
    expect(own.map((c) => [c.session, c.hitter])).toEqual([[chosen, "Hitter 2"]]);
    expect(own[0]!.value).toBeLessThan(-10);
  });
});

describe("what can't be told", () => {
  const { swings, sessions } = simulate(3, { hitters: 4, sessions: 4, turn: { yaw_deg: 3 } });
  const silent = (d: Drift): void => {
    for (const s of d.sessions) {
      expect(s.verdict).toBeNull();
      expect(s.reasons).toHaveLength(1);
      expect(s.yaw_deg).toMatchObject({ value: null, low: null, high: null });
    }
  };

  it("one hitter only: says that the tracker and the hitter look alike", () => {
    const d = drift(
      swings.filter((s) => s.hitter === "Hitter 1"),
      sessions,
    );
    expect(d.limits).toMatch(/^One hitter alone/);
    expect(d.sessions).toHaveLength(4);
    silent(d);
  });

  it("one session only: says that a second one is needed", () => {
    const d = drift(
      swings.filter((s) => s.session === "Session 2"),
      sessions,
    );
    expect(d.limits).toMatch(/^There is one session/);
    silent(d);
  });

  it("sessions that share no hitters: says so", () => {
    const d = drift(
      swings.filter((s) => (s.session === "Session 1") === s.hitter < "Hitter 3"),
      sessions.slice(0, 2),
    );
    expect(of(d, "Session 1").reasons[0]).toMatch(/No other session has the same hitters/);
    expect(of(d, "Session 1").verdict).toBeNull();
  });

  it("nothing but live work: says so", () => {
    const d = drift(
      swings.map((s): DriftSwing => ({ ...s, input: "live" })),
      sessions,
    );
    expect(d.sessions).toEqual([]);
    expect(d.limits).toMatch(/no tee or flip work/);
  });

  it("which of two sessions moved: asks to look at both again, and holds neither back", () => {
    const two = simulate(11, { hitters: 4, sessions: 2, turn: { yaw_deg: 8 } });
    const d = drift(two.swings, two.sessions);
    expect(d.sessions.map((s) => s.verdict)).toEqual(["look again", "look again"]);
    expect(d.sessions[0]!.reasons.join()).toMatch(/nothing tells which of them moved/);
  });

  it("a tracker put down elsewhere: is no turn", () => {
    const lib = simulate(5, { hitters: 4, sessions: 6 });
    const moved = lib.swings.map((s) =>
      s.session === lib.chosen ? { ...s, contact_side_ft: s.contact_side_ft! + 1.5 } : s,
    );
    const { verdict, reasons, yaw_deg } = of(drift(moved, lib.sessions), lib.chosen);
    expect(verdict).toBe("hold back");
    expect(yaw_deg.value).toBeNull();
    expect(reasons.join()).toMatch(/farther to first base's side/);
  });

  it("without contact points: the direction alone is judged, with its wider interval", () => {
    const lib = simulate(9, { hitters: 6, sessions: 8, turn: { tilt_deg: 9 } });
    const bare = lib.swings.map((s) => ({
      ...s,
      contact_side_ft: null,
      contact_depth_ft: null,
      contact_height_ft: null,
    }));
    const { tilt_deg, verdict } = of(drift(bare, lib.sessions), lib.chosen);
    expect(verdict).toBe("hold back");
    expect(tilt_deg.low!).toBeLessThan(9);
    expect(tilt_deg.high!).toBeGreaterThan(9);
    expect(tilt_deg.high! - tilt_deg.low!).toBeGreaterThan(2);
  });
});

describe("over simulated libraries", () => {
  it("cries wolf in under 5 % and misses a 2° turn with four hitters in under 10 % (200 each, kept figures)", () => {
    const kept = (what: string, hitters: number) =>
      figures.find((f) => f.what === what && f.hitters === hitters)!;
    expect(figures.map((f) => [f.what, f.hitters, f.libraries])).toEqual(
      trials.map(({ what, planted }) => [what, planted.hitters, 200]),
    );
    for (const f of figures) expect(f.false_alarms / f.libraries).toBeLessThan(0.05);
    expect(kept("turned 2°", 4).missed / 200).toBeLessThan(0.1);
    expect(kept("turned 3°", 4).missed / 200).toBeLessThan(0.01);
  });

  it("does so here too, on 40 of the libraries, which are those of the kept figures", () => {
    const quiet = tried(40, trials[0]!.planted);
    expect(quiet.false_alarms).toBeLessThanOrEqual(3);
    const turned = tried(40, trials[2]!.planted);
    expect(turned.missed).toBeLessThanOrEqual(6);
    expect(turned.error_deg).toBeLessThan(0.6);
    expect(turned.error_deg).toBeGreaterThan(0);
  });

  it("is what the kept figures were made with", () => {
    const again = tried(200, trials[5]!.planted);
    expect(again).toEqual(
      Object.fromEntries(
        Object.entries(figures[5]!).filter(([k]) => !["what", "hitters", "sessions"].includes(k)),
      ),
    );
    expect(readFileSync(new URL("../../data/drift-simulation.json", import.meta.url), "utf8")).toMatch(/\n$/);
  });
});
