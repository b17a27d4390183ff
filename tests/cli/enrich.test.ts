import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readSessions, readSwings } from "../../src/library/files.ts";
import { run } from "./run.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { computedFields, swingFields } from "../../src/swing/fields.ts";

const heading =
  "swing_id,session,hitter,bats,input,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg,note";
const good = [
  "a,s1,Hitter A,R,tee,,88.5,12,-20,fine",
  "c,s1,Hitter A,R,live,miss,,,,",
  'd,s2,Hitter B,L,live,,92,28,,"has, comma"',
];
const bad = ["b,s1,Hitter A,R,tee,,880,12,-20,too fast", "e,s1,Hitter A,R,live,,x,28,-1.50,=1+1", "f,s1"];

let dir = "";
const at = (name: string): string => join(dir, name);
const put = (name: string, ...lines: string[]): string => {
  writeFileSync(at(name), `${lines.join("\n")}\n`);
  return at(name);
};
const table = (name: string): Record<string, string>[] => parse(readFileSync(at(name)), { columns: true });

const call = (...args: string[]) => run("enrich", ...args);

beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), "enrich-"));
});
afterEach(() => rmSync(dir, { recursive: true }));

describe("enrich, all rows good", () => {
  it("writes every swing with every column, as the function computes them", async () => {
    const file = put("in.csv", heading, ...good);
    const sessions = put("air.csv", "session,altitude_ft,field", "s1,5280,46/60");
    const { status, err } = await call(file, "-o", at("out.csv"), "--sessions", sessions);
    // A session that the table passed hasn't is worth a word, and no more.
    expect(err).toMatch(/session "s2" is not in it, and 1 swing names it/);
    expect(status).toBe(0);
    const expected = enrich({
      swings: (await readSwings(file)).rows,
      sessions: (await readSessions(sessions)).rows,
      hitters: [],
    });
    const rows = table("out.csv");
    expect(Object.keys(rows[0]!)).toEqual([...swingFields, ...computedFields].map((f) => f.name));
    expect(rows).toHaveLength(3);
    rows.forEach((row, i) => {
      for (const { name, type } of [...swingFields, ...computedFields]) {
        const value = expected[i]![name];
        if (value === null) expect(row[name], name).toBe("");
        else if (type === "number")
          expect(Math.abs(Number(row[name]) - Number(value)), name).toBeLessThan(0.0051);
        else expect(row[name], name).toBe(value);
      }
    });
    expect(rows[0]).toMatchObject({ air_source: "session", lane: "left-center" });
    expect(readdirSync(dir).sort()).toEqual(["air.csv", "in.csv", "out.csv"]);
  });

  it("sums up for people and for machines", async () => {
    const file = put("in.csv", heading, ...good);
    const people = await call(file, "-o", at("out.csv"));
    expect(people.out).toMatch(/3 swings, 2 with a flight/);
    expect(people.out).toMatch(/Air: default 2 \(default: 70 °F/);
    expect(people.out).toMatch(/1 flagged no_spray: no spray angle/);
    const machine = JSON.parse((await call(file, "-o", at("out.csv"), "--json")).out);
    expect(machine).toMatchObject({
      swings: 3,
      with_flight: 2,
      refused: 0,
      refused_file: null,
      copies: 0,
      category: { "line drive": 1, "fly ball": 1 },
      air_source: { default: 2 },
      flags: { no_ceiling: 2, no_spray: 1 },
    });
  });

  it("reads several files as one table, counting copies once", async () => {
    const { status, out } = await call(
      put("one.csv", heading, good[0]!, good[1]!),
      put("two.csv", heading, good[0]!, good[2]!),
      "-o",
      at("out.csv"),
    );
    expect(status).toBe(0);
    expect(table("out.csv").map((row) => row["swing_id"])).toEqual(["a", "c", "d"]);
    expect(out).toMatch(/1 row is an exact copy/);
  });
});

describe("enrich of what enrich wrote", () => {
  it("gives the same table, whose turned session is not turned again", async () => {
    const sessions = put(
      "air.csv",
      "session,altitude_ft,turned_back_yaw_deg,turned_back_tilt_deg",
      "s1,5280,3,-1.5",
      "s2,0,,",
    );
    const first = await call(put("in.csv", heading, ...good), "-o", at("once.csv"), "--sessions", sessions);
    const again = await call(at("once.csv"), "-o", at("twice.csv"), "--sessions", sessions);
    expect([first.status, again.status]).toEqual([0, 0]);
    expect(table("once.csv").map((r) => [r["swing_id"], r["turned_back"]])).toEqual([
      ["a", "yaw 3 tilt -1.5"],
      ["c", ""],
      ["d", ""],
    ]);
    expect(Number(table("once.csv")[0]!["spray_angle_deg"])).toBeCloseTo(-23, 0);
    expect(readFileSync(at("twice.csv"), "utf8")).toBe(readFileSync(at("once.csv"), "utf8"));
  });
});

describe("enrich and the tables beside", () => {
  const lying = (): string => {
    put("sessions.csv", "session,altitude_ft", "s1,5280", "s2,5280");
    put("hitters.csv", "hitter,bats,level", "Hitter A,R,college", "Hitter B,L,moon");
    put("thresholds.json", `{ "fly_from_deg": 29, "bloop_speed_ft_s": 60 }`);
    return put("in.csv", heading, ...good);
  };

  it("doesn't use what was not passed, and says so", async () => {
    const file = lying();
    const { out } = await call(file, "-o", at("out.csv"));
    for (const name of ["sessions.csv", "hitters.csv", "thresholds.json"]) {
      expect(out).toContain(`Not used: ${at(name)}`);
    }
    expect(table("out.csv")[0]).toMatchObject({
      air_source: "default",
      power_kept: "",
      category: "line drive",
    });
  });

  it("uses what was", async () => {
    const file = lying();
    const { out, err, status } = await call(
      ...[file, "-o", at("out.csv"), "--sessions", at("sessions.csv"), "--hitters", at("hitters.csv")],
      ...["--thresholds", at("thresholds.json"), "--ceiling", "Hitter B=100"],
    );
    expect(status).toBe(0);
    expect(out).not.toContain("Not used");
    expect(err).toMatch(/level "moon" is not in the level table/);
    const [a, , d] = table("out.csv");
    expect(a).toMatchObject({ air_source: "session", category: "line drive", flags: "few_swings" });
    // 28° is a line-drive angle by these thresholds; power kept is 0.92 over the derived shape 18° above the best angle.
    expect(d).toMatchObject({ category: "line drive", power_kept: "0.9626", bucket: "flush" });
  });
});

describe("enrich, some rows bad", () => {
  it("says which and why, keeps them beside, and writes the rest", async () => {
    const { status, out, err } = await call(put("in.csv", heading, ...good, ...bad), "-o", at("out.csv"));
    expect(status).toBe(1);
    expect(err.trim().split("\n")).toEqual([
      expect.stringMatching(/in\.csv, row 5: exit_velocity_mph "880" is over 130/),
      expect.stringMatching(/in\.csv, row 6: exit_velocity_mph "x" is not a number/),
      expect.stringMatching(/in\.csv, row 7: the row has 2 cells/),
    ]);
    expect(out).toContain(`3 rows were refused, and are in ${at("out.refused.csv")}`);
    expect(table("out.csv")).toHaveLength(3);
    const refused = table("out.refused.csv");
    expect(refused).toHaveLength(3);
    expect(refused[0]).toMatchObject({
      refused_file: at("in.csv"),
      refused_row: "5",
      swing_id: "b",
      exit_velocity_mph: "880",
      spray_angle_deg: "-20",
      note: "too fast",
    });
    expect(refused[0]!["refused_reason"]).toMatch(/is over 130/);
    // What a spreadsheet would compute is guarded.
    expect(refused[1]).toMatchObject({ note: "'=1+1", exit_velocity_mph: "x" });
    expect(refused[2]).toMatchObject({ swing_id: "f", session: "s1", hitter: "" });
  });

  it("keeps refused rows such that they can be mended and read again", async () => {
    await call(put("in.csv", heading, ...good, ...bad), "-o", at("out.csv"));
    const mended = readFileSync(at("out.refused.csv"), "utf8")
      .replace(",880,", ",88,")
      .replace(",x,", ",80,");
    writeFileSync(at("mended.csv"), mended);
    const again = await call(at("mended.csv"), "-o", at("more.csv"));
    expect(again.status).toBe(1);
    expect(table("more.csv").map((row) => [row["swing_id"], row["spray_angle_deg"], row["note"]])).toEqual([
      ["b", "-20", "too fast"],
      ["e", "-1.5", "'=1+1"],
    ]);
  });

  it("keeps cells whose heading is missing, empty or there twice", async () => {
    const file = put(
      "in.csv",
      "hitter,input,exit_velocity_mph,launch_angle_deg,,extra,extra",
      "Hitter A,tee,90,10,p,q,r",
      "Hitter A,tee,990,10,p,q,r,s",
    );
    await call(file, "-o", at("out.csv"));
    expect(table("out.refused.csv")[0]).toMatchObject({
      "cell 5": "p",
      extra: "q",
      "cell 7": "r",
      "cell 8": "s",
    });
  });
});

describe("enrich, a wrong call", () => {
  it.each<[string, string[], number, RegExp]>([
    ["no output", [], 2, /--output/],
    ["an output over an input", ["-o", "in.csv"], 2, /in\.csv would be read and written over at once/],
    ["a folder that isn't there", ["-o", "no/out.csv"], 2, /There is no folder/],
    ["a folder as output", ["-o", "."], 2, /is a folder/],
    ["sessions that aren't there", ["-o", "out.csv", "--sessions", "no.csv"], 2, /no\.csv does not exist/],
    ["thresholds that aren't there", ["-o", "out.csv", "--thresholds", "no.json"], 2, /no\.json/],
    ["a ceiling without a speed", ["-o", "out.csv", "--ceiling", "Hitter A"], 2, /--ceiling takes a hitter/],
    ["thresholds that aren't JSON", ["-o", "out.csv", "--thresholds", "in.csv"], 1, /in\.csv is not JSON/],
    [
      "a threshold that isn't one",
      ["-o", "out.csv", "--thresholds", "odd.json"],
      1,
      /no threshold named "flash"/,
    ],
  ])("%s", async (_, args, status, reason) => {
    put("in.csv", heading, ...good);
    put("odd.json", `{ "flash": 1 }`);
    const paths = args.map((arg) => (/^(-|Hitter)/.test(arg) ? arg : join(dir, arg)));
    const ended = await call(at("in.csv"), ...paths);
    expect(ended.status).toBe(status);
    expect(ended.err).toMatch(reason);
    expect(ended.err.trim().split("\n")).toHaveLength(1);
    expect(readdirSync(dir).sort()).toEqual(["in.csv", "odd.json"]);
  });

  it("leaves what was there when nothing can be used", async () => {
    put("out.csv", "kept");
    const ended = await call(put("in.csv", "who,what", "1,2"), "-o", at("out.csv"));
    expect(ended.status).toBe(1);
    expect(readFileSync(at("out.csv"), "utf8")).toBe("kept\n");
    expect((await call(at("none.csv"), "-o", at("out.csv"))).status).toBe(2);
  });
});
