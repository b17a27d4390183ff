/** A session corrected: the tracker's turn undone, recorded, and undone by emptying the cells. */
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { enrich } from "../../src/contact/enrich.ts";
import { flagsOf, isDoubtful } from "../../src/contact/flags.ts";
import { readFrom } from "../../src/field/tracker.ts";
import { corrected } from "../../src/field/corrected.ts";
import { departureOf, velocityOf } from "../../src/field/vector.ts";
import { drift } from "../../src/setup/drift.ts";
import { openLibrary } from "../../src/library/library.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const row = {
  launch_angle_deg: 12,
  spray_angle_deg: -8,
  contact_side_ft: 0.2,
  contact_depth_ft: 1.7,
  contact_height_ft: 2.4,
  turned_back: null,
};
const session = (
  turn: Partial<Record<"yaw" | "tilt" | "roll", number>>,
  distance_ft = 21.6,
  offset_in = 0,
) => ({
  turned_back_yaw_deg: turn.yaw ?? null,
  turned_back_tilt_deg: turn.tilt ?? null,
  turned_back_roll_deg: turn.roll ?? null,
  tracker_distance_ft: distance_ft,
  tracker_offset_in: offset_in,
});

describe("corrected", () => {
  it("undoes what a turned tracker read, wherever it stood", () => {
    fc.assert(
      fc.property(
        fc.record({ yaw: between(-15, 15), tilt: between(-15, 15), roll: between(-15, 15) }),
        between(-60, 60),
        between(-300, 300),
        between(-40, 50),
        between(-60, 60),
        (turn, distance_ft, offset_in, launch, spray) => {
          const stand = { distance_ft, offset_in };
          const read = readFrom(
            { velocity: velocityOf(90, launch, spray), contact: [0.3, 1.6, 2.2] },
            { ...stand, yaw_deg: turn.yaw, tilt_deg: turn.tilt, roll_deg: turn.roll },
            { stand, scaled: false },
          );
          const seen = departureOf(read.velocity);
          const back = corrected(
            {
              launch_angle_deg: seen.launchAngle_deg,
              spray_angle_deg: seen.sprayAngle_deg,
              contact_side_ft: read.contact[0],
              contact_depth_ft: read.contact[1],
              contact_height_ft: read.contact[2],
              turned_back: null,
            },
            session(turn, distance_ft, offset_in),
          );
          expect(back.launch_angle_deg).toBeCloseTo(launch, 7);
          expect(back.spray_angle_deg).toBeCloseTo(spray, 7);
          expect(back.contact_side_ft).toBeCloseTo(0.3, 9);
          expect(back.contact_depth_ft).toBeCloseTo(1.6, 9);
          expect(back.contact_height_ft).toBeCloseTo(2.2, 9);
        },
      ),
    );
  });

  it("is the very row where there is nothing to turn back", () => {
    expect(corrected(row, null)).toBe(row);
    expect(corrected(row, session({}))).toBe(row);
    expect(corrected(row, session({ yaw: 0 }))).toBe(row);
  });

  it("turns nothing twice: the row says by what it was turned, and is left", () => {
    const once = corrected(row, session({ yaw: 2, tilt: -1.5 }));
    expect(once.turned_back).toBe("yaw 2 tilt -1.5");
    expect(corrected(once, session({ yaw: 2, tilt: -1.5 }))).toBe(once);
    expect(corrected(once, session({ roll: 1 }))).toBe(once);
  });

  it("leaves the row given as it was, and unknown as unknown", () => {
    const bare = { ...row, spray_angle_deg: null, contact_side_ft: null };
    const before = { ...bare };
    const back = corrected(bare, session({ yaw: 2, tilt: 1.5 }));
    expect(bare).toEqual(before);
    expect(back.spray_angle_deg).toBeNull();
    expect(back.contact_side_ft).toBeNull();
    expect(back.launch_angle_deg).toBeCloseTo(10.5, 2);
    expect(corrected({ ...row, launch_angle_deg: null }, session({ yaw: 2 })).spray_angle_deg).toBe(-8);
    const nowhere = corrected(
      { ...row, contact_side_ft: null, contact_depth_ft: null, contact_height_ft: null },
      session({ yaw: 2 }),
    );
    expect([nowhere.contact_side_ft, nowhere.contact_depth_ft, nowhere.contact_height_ft]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it("turns the directions alone where no distance is logged: the place is then unknown, not guessed", () => {
    const logged = corrected(row, session({ yaw: 2 }));
    const none = corrected(row, { ...session({ yaw: 2 }), tracker_distance_ft: null });
    expect(none).toEqual({
      ...logged,
      contact_side_ft: null,
      contact_depth_ft: null,
      contact_height_ft: null,
    });
    expect(logged.contact_side_ft).not.toBeNull();
  });
});

describe("a library with a session corrected", async () => {
  const library = await openLibrary(fileURLToPath(new URL("../../data/demo", import.meta.url)));
  const sessions = library.sessions.map((s) =>
    s.session === truths.turned.session ? { ...s, turned_back_yaw_deg: 3, turned_back_why: "drift" } : s,
  );
  const rows = enrich({ ...library, sessions });

  it("has that session's rows marked, in doubt by nothing, and no other row changed", () => {
    const before = enrich(library);
    rows.forEach((r, i) => {
      const mine = r.session === truths.turned.session && r.launch_angle_deg !== null;
      expect(flagsOf(r).includes("turned_back")).toBe(mine && r.carry_ft !== null);
      if (!mine) expect(r).toEqual(before[i]);
      else if (r.spray_angle_deg !== null && Math.abs(r.spray_angle_deg) < 80)
        expect(r.spray_angle_deg).toBeCloseTo(before[i]!.spray_angle_deg! - 3, 9);
    });
    expect(isDoubtful({ flags: "turned_back" })).toBe(false);
  });

  it("looks sound again to the comparison of sessions", () => {
    const { sessions: judged } = drift(rows, sessions);
    const corrected = judged.find((s) => s.session === truths.turned.session)!;
    expect(Math.abs(corrected.yaw_deg.value!)).toBeLessThan(0.3);
    expect(corrected.verdict).toBe("sound");
  });

  it("has the same rows when what enrich gave is enriched again", () => {
    expect(enrich({ ...library, swings: rows, sessions })).toEqual(rows);
  });

  it("says so of rows that were corrected by other amounts than the session's now", () => {
    const mine = rows.filter((r) => r.session === truths.turned.session && r.carry_ft !== null);
    expect(mine.length).toBeGreaterThan(10);
    for (const turned_back_yaw_deg of [null, 2]) {
      const again = enrich({
        ...library,
        swings: mine,
        sessions: sessions.map((s) => ({ ...s, turned_back_yaw_deg })),
      });
      again.forEach((r, i) => {
        expect(flagsOf(r)).toContain("turned_otherwise");
        expect(isDoubtful(r)).toBe(true);
        expect(r.launch_angle_deg).toBe(mine[i]!.launch_angle_deg);
        expect(r.carry_ft).toBe(mine[i]!.carry_ft);
      });
    }
  });

  it("is as it was when the cells are emptied", () => {
    const emptied = sessions.map((s) => ({ ...s, turned_back_yaw_deg: null }));
    expect(enrich({ ...library, sessions: emptied })).toEqual(enrich(library));
  });
});
