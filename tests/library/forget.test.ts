import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { addFile } from "../../src/library/add.ts";
import { forgetHitter } from "../../src/library/forget.ts";
import { openLibrary } from "../../src/library/library.ts";
import { inFolder } from "../reading/support.ts";

const head = "swing_id,session,hitter,input,outcome,exit_velocity_mph,launch_angle_deg,pitcher,note";

/** All that stands in a folder's files, one below the other. */
async function everything(dir: string): Promise<string> {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  expect(files.length).toBeGreaterThan(3);
  const texts = files.map(
    async (entry) => `${entry.name}\n${await readFile(join(entry.parentPath, entry.name), "latin1")}`,
  );
  return (await Promise.all(texts)).join("\n");
}

describe("forgetting a hitter", () => {
  it("leaves the name nowhere: swings, history, refused rows, lists, other rows, files' names", async () => {
    await inFolder({}, async (root) => {
      const dir = join(root, "library");
      await mkdir(dir);
      const add = async (name: string, rows: string): Promise<void> => {
        await writeFile(join(root, name), `${head}\n${rows}\n`);
        await addFile(dir, join(root, name));
      };
      await add(
        "Ana Rivera.csv",
        "1,may,Ana Rivera,tee,,80,10,,\n2,may,Bo,live,,90,20,Ana Rivera,against Ana Rivera\n3,june,Ana Rivera,tee,,x,9,,",
      );
      await add(
        "corrected.csv",
        "1,may,Ana Rivera,tee,,81,10,,\n4,july,Ana Rivera,live,miss,,,,\n5,may,Ana Rivera-Smith,tee,,70,1,,",
      );
      await writeFile(join(dir, "hitters.csv"), "hitter,level\nana  rivera,high school\nBo,college\n");
      await writeFile(
        join(dir, "own.csv"),
        'hitter;input;outcome;note\nBo;tee;miss;"a;b"\nAna Rivera;tee;miss;\nAna Rivera;tee;miss;\nAna Rivera;tea;miss;\n',
      );
      expect(await everything(dir)).toMatch(/Ana Rivera/);
      expect(await forgetHitter(dir, "Ana Rivera")).toEqual({
        hitter: "Ana Rivera",
        late: null,
        swings: 3,
        history: 1,
        refused: 2,
        listed: 1,
        mentions: 1,
        left: [],
      });
      const text = await everything(dir);
      expect(text.replaceAll("Ana Rivera-Smith", "")).not.toMatch(/ana +rivera/i);
      expect(await readFile(join(dir, "own.csv"), "utf8")).toBe(
        'hitter;input;outcome;note\r\nBo;tee;miss;"a;b"\r\n',
      );
      expect(await readFile(join(dir, "hitters.csv"), "utf8")).toBe("hitter,level\r\nBo,college\r\n");
      const { swings } = await openLibrary(dir);
      expect(swings.map((s) => [s.hitter, s.pitcher, s.note])).toEqual([
        ["Bo", null, null],
        ["Ana Rivera-Smith", null, null],
        ["Bo", null, "a;b"],
      ]);
    });
  });

  it("says where the name is left, and why", async () => {
    const files = {
      "a.csv": "hitter,input,outcome\nAna,tee,miss\nBo,tee,miss\n",
      "map.json": '{"columns": {"x": "note"}, "always": {"drill": "with Ana"}}',
      "sessions.csv": "session,place\nmay,Ana's barn\n",
    };
    await inFolder(files, async (dir) => {
      const { swings, left } = await forgetHitter(dir, "ana");
      expect(swings).toBe(1);
      expect(left.map(({ file }) => file)).toEqual(["map.json", "sessions.csv"]);
    });
  });

  it("does nothing for a name that is nowhere, and not without a library", async () => {
    await inFolder({ "a.csv": "hitter,input,outcome\nAna,tee,miss\n" }, async (dir) => {
      expect(await forgetHitter(dir, "An")).toMatchObject({ swings: 0, listed: 0, left: [] });
      expect(await readFile(join(dir, "a.csv"), "utf8")).toBe("hitter,input,outcome\nAna,tee,miss\n");
      await expect(forgetHitter(join(dir, "none"), "Ana")).rejects.toMatchObject({ fault: "call" });
    });
  });
});
