/** A facility's own playing field, in the commands that read no library. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { CarryAnswer } from "../../src/cli/carry.ts";
import { ownFieldFields } from "../../src/swing/fields.ts";
import { run } from "./run.ts";

let dir = "";
const put = (name: string, ...lines: string[]): string => {
  const path = join(dir, name);
  writeFileSync(path, `${lines.join("\n")}\n`);
  return path;
};
const heading = ownFieldFields.map(({ name }) => name).join(",");
const lot = "Back Lot,60,46,50,180,205,220,200,175,6";
let fields = "";
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), "own-fields-"));
  fields = put("fields.csv", heading, lot);
});
afterEach(() => rmSync(dir, { recursive: true }));

const hit = ["--exit-velocity", "75", "--launch-angle", "30", "--spray-angle", "0"];

describe("carry", () => {
  it("flies a ball at the fence of a field of one's own, by its name", async () => {
    const { status, out, err } = await run(
      "carry",
      ...[...hit, "--field", "back  lot", "--fields", fields, "--json"],
    );
    expect([status, err]).toEqual([0, ""]);
    const { field, fence } = JSON.parse(out) as CarryAnswer;
    expect(field).toBe("Back Lot");
    expect(fence!.distance_ft).toBeGreaterThan(200);
    expect(fence!.distance_ft).toBeLessThanOrEqual(220);
    expect(fence!.fence_height_ft).toBe(6);
  });

  it("refuses a name that neither has, with those there are, the nearest first", async () => {
    const { status, err } = await run("carry", ...hit, "--field", "Back Lots", "--fields", fields);
    expect(status).toBe(2);
    expect(err).toBe('--field is one of Back Lot, 60/90, 50/70, 46/60, softball 43/60, not "Back Lots".\n');
    expect((await run("carry", ...hit, "--fields", join(dir, "no.csv"))).err).toContain("does not exist");
  });

  it("tells a row that is no field, and goes on with the others", async () => {
    put("fields.csv", heading, lot, "Yard,60,46,50,180,205,,200,175,6");
    const { status, out, err } = await run("carry", ...hit, "--field", "back lot", "--fields", fields);
    expect(status).toBe(1);
    expect(err).toMatch(/fields\.csv, row 3: center_ft/);
    expect(out).toContain("Fence of Back Lot");
  });
});

describe("enrich and what reads CSV files with their sessions", () => {
  const swings = (): string =>
    put(
      "in.csv",
      "swing_id,session,hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg",
      "a,day,Ada,R,tee,62,14,0",
      "b,full,Ada,R,tee,62,14,0",
    );
  const sessions = (): string =>
    put("sessions.csv", "session,date,field", "day,2025-03-04,back lot", "full,2025-03-04,60/90");

  it("know it, in one thread and in two alike", async () => {
    const call = async (threads: number): Promise<string> => {
      const out = join(dir, `out${threads}.csv`);
      const ended = await run(
        "enrich",
        ...[swings(), "-o", out, "--sessions", sessions(), "--fields", fields, "--threads", `${threads}`],
      );
      expect([ended.status, ended.err]).toEqual([0, ""]);
      return readFileSync(out, "utf8");
    };
    const one = await call(1);
    // 135 ft straight out is past the small field's dirt (46 + 50 = 96 ft), and on the full one's (60.5 + 95 = 155.5 ft).
    const [small, full] = one.trim().split("\r\n").slice(1) as [string, string];
    expect(small).toContain("line drive");
    expect(full).toContain("bloop");
    expect(await call(2)).toBe(one);
  });

  it("refuse the session where nothing says what the field is, and say which file lies beside", async () => {
    const out = join(dir, "out.csv");
    const ended = await run("enrich", swings(), "-o", out, "--sessions", sessions());
    expect(ended.status).toBe(1);
    expect(ended.err).toMatch(/row 2: field "back lot" is not in the field table \(/);
    expect(ended.out).toContain(`Not used: ${fields}, which lies beside the swings; --fields takes it in.`);
  });

  it.each(["gap", "drift", "progress"])(
    "%s takes the file with CSV files, and none with a library",
    async (name) => {
      const without = await run(name, swings(), "--sessions", sessions());
      expect(without.err).toContain("is not in the field table");
      const ended = await run(name, swings(), "--sessions", sessions(), "--fields", fields);
      expect(ended.err).not.toContain("field");
      expect((await run(name, "--library", dir, "--fields", fields)).err).toContain(
        "--fields goes with CSV files",
      );
    },
  );
});
