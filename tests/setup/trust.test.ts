import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { enrich } from "../../src/contact/enrich.ts";
import { trustBySession, trustOf } from "../../src/setup/trust.ts";
import { sessionFields, type Session } from "../../src/swing/fields.ts";
import { openLibrary } from "../../src/library/library.ts";

const blank = Object.fromEntries(sessionFields.map((f) => [f.name, null])) as unknown as Session;
const logged: Session = {
  ...blank,
  session: "a",
  date: "2025-03-04",
  tracker_distance_ft: 21.6,
  tracker_offset_in: -4.6,
  tracker_yaw_deg: 0,
  tracker_tilt_deg: 0,
  tracker_roll_deg: 0,
  calibrated_at: "2025-03-04T10:00:00",
};
const sound = { verdict: "sound", reasons: [] } as const;
const rows = (n: number, doubtful: number) =>
  Array.from({ length: n }, (_, i) => ({ exit_velocity_mph: 80, flags: i < doubtful ? "stuck" : null }));

describe("trustOf", () => {
  it("has nothing to say of a session in order", () => {
    expect(trustOf("a", logged, rows(40, 0), sound)).toEqual({
      session: "a",
      verdict: "sound",
      compared: true,
      turnedBack: false,
      rows: 40,
      doubtful: 0,
      reasons: [],
    });
  });

  it("takes the comparison's word, with its reasons", () => {
    const trust = trustOf("a", logged, rows(40, 0), { verdict: "hold back", reasons: ["turned"] });
    expect(trust).toMatchObject({ verdict: "hold back", reasons: ["turned"] });
  });

  it("judges the placement that is logged by the table of tolerances", () => {
    expect(trustOf("a", { ...logged, tracker_tilt_deg: 1 }, [], sound)).toMatchObject({
      verdict: "look again",
      reasons: ["The log gives the tracker's tilt as 1.0°: tighten it."],
    });
    expect(trustOf("a", { ...logged, tracker_yaw_deg: -4 }, [], sound).verdict).toBe("hold back");
    // A place that was measured was told to the tracker as well, on whichever side of the plate.
    for (const [tracker_distance_ft, tracker_offset_in] of [
      [23, 0],
      [-13.7, 31.4],
      [2.6, -148],
    ] as const)
      expect(trustOf("a", { ...logged, tracker_distance_ft, tracker_offset_in }, [], sound).verdict).toBe(
        "sound",
      );
  });

  it("judges a logged turn by its directions where the log has no distance, and says what is missing", () => {
    const trust = trustOf("a", { ...logged, tracker_distance_ft: null, tracker_yaw_deg: -4 }, [], sound);
    expect(trust.verdict).toBe("hold back");
    expect(trust.reasons).toEqual([
      "The log gives the tracker's yaw as −4.0°: redo it.",
      "The log leaves out the tracker's distance.",
    ]);
    expect(trustOf("a", { ...logged, tracker_distance_ft: null }, [], sound).verdict).toBe("sound");
  });

  it("counts readings in doubt, by kind", () => {
    expect(trustOf("a", logged, rows(100, 4), sound).verdict).toBe("sound");
    // Wilson's low ends: 2 of 30, 0.018; 12 of 100, 0.070; 10 of 20, 0.299.
    expect(trustOf("a", logged, rows(30, 2), sound).verdict).toBe("sound");
    const some = trustOf("a", logged, rows(100, 12), sound);
    expect(some.verdict).toBe("look again");
    expect(some.reasons).toEqual(["12 of 100 readings are in doubt (stuck 12)."]);
    expect(trustOf("a", logged, rows(20, 10), sound).verdict).toBe("hold back");
  });

  it("says what is not logged, and asks to look again where nothing is known at all", () => {
    const none = trustOf("a", { ...blank, session: "a" }, rows(5, 0), null);
    expect(none).toMatchObject({ verdict: "look again", compared: false });
    expect(none.reasons).toContain("No tracker placement is logged.");
    expect(none.reasons).toContain("No calibration is logged.");
    expect(trustOf("a", { ...blank, session: "a" }, rows(5, 0), sound).verdict).toBe("sound");
    expect(trustOf("a", null, [], null).reasons[0]).toMatch(/not in sessions\.csv/);
    expect(trustOf("a", { ...logged, tracker_roll_deg: null }, [], sound).reasons).toEqual([
      "The log leaves out the tracker's roll.",
    ]);
    expect(
      trustOf("a", { ...logged, calibrated_at: "2025-03-01T10:00:00" }, [], sound).reasons.join(),
    ).toMatch(/before the day/);
  });

  it("says that readings are corrected, by how much and why", () => {
    const turned = { ...logged, tracker_yaw_deg: 3, turned_back_yaw_deg: 3, turned_back_why: "two tapes" };
    expect(trustOf("a", turned, [], sound)).toMatchObject({
      verdict: "sound",
      turnedBack: true,
      reasons: ["Readings are corrected by yaw 3°, as sessions.csv says (two tapes)."],
    });
  });
});

describe("the demo", async () => {
  const library = await openLibrary(fileURLToPath(new URL("../../data/demo", import.meta.url)));
  const trust = trustBySession(enrich(library), library.sessions);

  it("has every session judged, and only the two moved ones not sound", () => {
    expect(trust.size).toBe(library.sessions.length);
    const flagged = [...trust.values()].filter((t) => t.verdict !== "sound").map((t) => t.session);
    expect(flagged.sort()).toEqual([truths.turned.session, truths.tilted.session].sort());
  });

  it("says of live sessions that they weren't compared", () => {
    expect(trust.get("2025-03-08 live")).toMatchObject({ compared: false, verdict: "sound" });
    expect(trust.get("2025-04-12 live")!.reasons.join(" ")).toMatch(/No calibration is logged/);
    expect(trust.get("2025-04-01 tee")!.reasons.join(" ")).toMatch(/leaves out the tracker's roll/);
  });
});
