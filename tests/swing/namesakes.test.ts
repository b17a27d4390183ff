import { describe, expect, it } from "vitest";
import { openLibrary } from "../../src/swing/library.ts";
import { namesakes } from "../../src/swing/namesakes.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { run } from "../cli/run.ts";
import { inFolder } from "./support.ts";

describe("namesakes", () => {
  it("are names that differ in capitals, accents, marks, spaces or the order of words alone", () => {
    expect(namesakes(["José Díaz", "jose  diaz", "Diaz, Jose", "JOSE-DIAZ", "Jose Diaz Jr", "Bo"])).toEqual([
      ["José Díaz", "jose  diaz", "Diaz, Jose", "JOSE-DIAZ"],
    ]);
  });

  it("are not made by other letters, by initials, or by names without any", () => {
    expect(namesakes(["Ana R", "Ana Ruiz", "Anna Ruiz", "-", "?", "", "山田", "山本"])).toEqual([]);
  });
});

describe("two spellings of a hitter", () => {
  const head = "hitter,input,session,exit_velocity_mph,launch_angle_deg";
  const sheet = `${head}\nAna Ruiz,tee,a,70,10\n"ruiz, ana",tee,a,71,11\nBo,tee,a,60,5\n`;
  const sentence =
    'hitter "Ana Ruiz" may be the same as "ruiz, ana", and counts as another; a column map\'s words can give both one name.';

  it("are told by check and by add, and nothing is put together", async () => {
    await inFolder({ "a.csv": sheet }, async (dir) => {
      expect((await run("check", `${dir}/a.csv`)).out.replace(/\s+/g, " ")).toContain(sentence);
      const added = await run("add", `${dir}/a.csv`, "--library", `${dir}/l`);
      expect(added.status).toBe(0);
      expect(added.err.replace(/\s+/g, " ")).toContain(sentence);
      const library = await openLibrary(`${dir}/l`);
      expect(new Set(library.swings.map((s) => s.hitter)).size).toBe(3);
      expect(library.problems.map(problemSentence)).toEqual([`The library: ${sentence}`]);
    });
  });

  it("are told where the library's list has the other one", async () => {
    const hitters = "hitter,bats\nRUIZ Ana,R\nBo,L\n";
    await inFolder({ "new.csv": `${head}\nAna Ruiz,tee,a,70,10\n`, "hitters.csv": hitters }, async (dir) => {
      const { out } = await run("check", `${dir}/new.csv`, "--library", dir);
      expect(out.replace(/\s+/g, " ")).toContain('"Ana Ruiz" may be the same as "RUIZ Ana"');
    });
  });
});
