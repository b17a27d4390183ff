import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openLibrary } from "../../src/library/library.ts";
import { libraryMaps, keepMap } from "../../src/library/maps.ts";
import { takeLock } from "../../src/library/lock.ts";
import { byHandFile, keepByHand, putRows, takeBackByHand } from "../../src/library/rows.ts";
import { inFolder } from "../reading/support.ts";

function inLibrary(
  files: Readonly<Record<string, string | Buffer>>,
  work: (dir: string, text: (name: string) => Promise<string>) => Promise<void>,
): Promise<void> {
  return inFolder({}, async (root) => {
    const dir = join(root, "library");
    await mkdir(dir);
    for (const [name, text] of Object.entries(files)) await writeFile(join(dir, name), text);
    await work(dir, (name) => readFile(join(dir, name), "utf8"));
  });
}

describe("rows beside the swings", () => {
  it("make the table where there is none, with every field's heading", () =>
    inLibrary({}, async (dir) => {
      const done = await putRows(dir, "hitters", [
        { hitter: "=Ana, of the B's", bats: "L", level: "High School" },
      ]);
      expect(done).toEqual({ added: 1, changed: 0 });
      const { hitters, problems } = await openLibrary(dir);
      expect(hitters).toEqual([
        { hitter: "=Ana, of the B's", bats: "L", level: "high school", height_in: null },
      ]);
      expect(problems).toEqual([]);
    }));

  it("leave every other row, column, mark and line end as it stands", () =>
    inLibrary(
      {
        "Sessions.CSV":
          '\ufeffsession;Coach;date;temperature_f\n"mon ""A""";=x+1;2026-05-01;70,5\n\ntue;"two\nlines";2026-05-02;\nbad;;soon;71,0',
      },
      async (dir, text) => {
        const done = await putRows(dir, "sessions", [
          { session: "tue", temperature_f: "68.25", field: "60/90", date: "" },
          { session: "wed", temperature_f: "66", place: "a;b" },
        ]);
        expect(done).toEqual({ added: 1, changed: 1 });
        expect(await text("Sessions.CSV")).toBe(
          '\ufeffsession;Coach;date;temperature_f;place;field\n"mon ""A""";=x+1;2026-05-01;70,5;;\n\n' +
            'tue;"two\nlines";;68,25;;60/90\nbad;;soon;71,0;;\nwed;;;66;"a;b";\n',
        );
        const { sessions } = await openLibrary(dir);
        expect(sessions.map(({ session, temperature_f }) => [session, temperature_f])).toEqual([
          ['mon "A"', 70.5],
          ["tue", 68.25],
          ["wed", 66],
        ]);
        // Written again, nothing changes.
        const before = await text("Sessions.CSV");
        await putRows(dir, "sessions", [{ session: "wed", temperature_f: "66", place: "a;b" }]);
        expect(await text("Sessions.CSV")).toBe(before);
      },
    ));

  it("are refused with a sentence, and nothing is written", () =>
    inLibrary({ "hitters.csv": "hitter,bats\nAna,R\n" }, async (dir, text) => {
      const tries: [Parameters<typeof putRows>[1], Record<string, string>[], RegExp][] = [
        ["hitters", [{ hitter: "Ana", bats: "X" }], /^bats "X" is not one of L, R, S\.$/],
        ["hitters", [{ hitter: " " }], /hitter is missing/],
        ["hitters", [{ hitter: "A" }, { hitter: "A " }], /Row 2: hitter "A" stands twice/],
        ["hitters", [JSON.parse('{"hitter":"A","__proto__":"x"}')], /"__proto__" is no field of hitters/],
        ["hitters", [{ hitter: "A", height_in: "400" }], /height_in "400" is over 90 in/],
        ["sessions", [{ session: "s", field: "moon" }], /field "moon" is not in the field table/],
        [
          "targets",
          [{ drill: "d", exit_velocity_mph_low: "90", exit_velocity_mph_high: "80" }],
          /is over exit_velocity_mph_high, 80/,
        ],
      ];
      for (const [table, rows, why] of tries) await expect(putRows(dir, table, rows)).rejects.toThrow(why);
      expect(await text("hitters.csv")).toBe("hitter,bats\nAna,R\n");
      expect((await readdir(dir)).sort()).toEqual(["hitters.csv", "swings"]);
    }));

  it("never touch a table that can't be read row by row, nor one that another process writes", () =>
    inLibrary(
      { "hitters.csv": 'hitter,bats\n"Ana,R\nBo,L\n', "sessions.csv": Buffer.from([0x50, 0x4b, 3, 4, 0, 0]) },
      async (dir, text) => {
        await expect(putRows(dir, "hitters", [{ hitter: "Bo", bats: "R" }])).rejects.toThrow(
          "quotation marks that don't match",
        );
        await expect(putRows(dir, "sessions", [{ session: "s" }])).rejects.toThrow("a spreadsheet or a zip");
        expect(await text("hitters.csv")).toBe('hitter,bats\n"Ana,R\nBo,L\n');
        const lock = await takeLock(dir, "add");
        await expect(putRows(dir, "targets", [{ drill: "d" }])).rejects.toThrow('is being written by "add"');
        await lock.release();
        await putRows(dir, "targets", [{ drill: "d", launch_angle_deg_low: "10" }]);
        expect((await openLibrary(dir)).targets).toHaveLength(1);
      },
    ));
});

describe("maps that a library keeps", () => {
  it("are each kept once, and the newest is found first", () =>
    inLibrary({}, async (dir) => {
      const first = { columns: { EV: "exit_velocity_mph" } };
      const second = { columns: { EV: { field: "exit_velocity_mph", unit: "km/h" as const } } };
      expect(await keepMap(dir, first)).toBe("map.json");
      expect(await keepMap(dir, second)).toBe("map-2.json");
      expect(await keepMap(dir, first)).toBe("map.json");
      for (let n = 3; n < 12; n++) await keepMap(dir, { columns: { [`EV${n}`]: null, EV: "hitter" } });
      const maps = await libraryMaps(dir);
      expect(maps).toHaveLength(11);
      expect(maps[0]!.columns).toHaveProperty("EV11");
      expect(maps.at(-1)).toEqual(first);
    }));
});

describe("swings typed one by one", () => {
  const swing = {
    swing_id: "hand-1",
    hitter: "=Ana",
    input: "tee",
    exit_velocity_mph: "80",
    launch_angle_deg: "-12",
    note: "by hand",
  };

  it("stand in a file of their own, once each however often they are told, and go again", () =>
    inLibrary({}, async (dir) => {
      await keepByHand(dir, swing);
      await keepByHand(dir, { ...swing, swing_id: "hand-2", exit_velocity_mph: "81.5" });
      await keepByHand(dir, { ...swing, swing_id: "hand-2", exit_velocity_mph: "81.5" });
      const first = await openLibrary(dir);
      expect(first.problems).toEqual([]);
      expect(first.swings.map((s) => [s.swing_id, s.hitter, s.outcome, s.exit_velocity_mph])).toEqual([
        ["hand-1", "=Ana", "in_play", 80],
        ["hand-2", "=Ana", "in_play", 81.5],
      ]);
      expect(await takeBackByHand(dir, "hand-2")).toBe(true);
      expect(await takeBackByHand(dir, "hand-2")).toBe(false);
      expect((await openLibrary(dir)).swings.map((s) => s.swing_id)).toEqual(["hand-1"]);
      expect(await takeBackByHand(dir, "hand-1")).toBe(true);
      expect((await openLibrary(dir)).swings).toEqual([]);
      await keepByHand(dir, swing);
      expect((await openLibrary(dir)).swings).toHaveLength(1);
    }));

  it("are refused in a sentence with the field when a value can't stand, and nothing is written", () =>
    inLibrary({}, async (dir) => {
      await expect(keepByHand(dir, { ...swing, exit_velocity_mph: "800" })).rejects.toThrow(
        /exit_velocity_mph "800"/,
      );
      await expect(keepByHand(dir, { ...swing, launch_angle_deg: "" })).rejects.toThrow(/launch_angle_deg/);
      await expect(keepByHand(dir, { ...swing, swing_id: "" })).rejects.toThrow(/swing_id is missing/);
      expect((await readdir(dir)).filter((name) => name.endsWith(".csv"))).toEqual([]);
      expect(await takeBackByHand(dir, "hand-1")).toBe(false);
    }));

  it("wait for another writer, and leave what somebody wrote into the file", () =>
    inLibrary(
      {
        [byHandFile]: "swing_id;hitter;input;exit_velocity_mph;launch_angle_deg;mood\r\nx1;Bo;tee;;;good\r\n",
      },
      async (dir, text) => {
        const lock = await takeLock(dir, "test", 0);
        await expect(keepByHand(dir, swing, 50)).rejects.toThrow(/is being written by/);
        await lock.release();
        await keepByHand(dir, { swing_id: "hand-1", hitter: "Ana", input: "tee" });
        expect(await text(byHandFile)).toBe(
          "swing_id;hitter;input;exit_velocity_mph;launch_angle_deg;mood\r\nx1;Bo;tee;;;good\r\nhand-1;Ana;tee;;;\r\n",
        );
      },
    ));
});
