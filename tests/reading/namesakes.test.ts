import { describe, expect, it } from "vitest";
import { openLibrary } from "../../src/library/library.ts";
import { namesakes } from "../../src/reading/namesakes.ts";
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

describe("one letter", () => {
  it.each([
    ["other", ["Lena Kock", "Lena Koch"]],
    ["more, in capitals and the other order", ["MUELLER, JAN", "Jan Müller"]],
    ["less", ["Sebastian Ort", "Sebastan Ort"]],
    ["in another's place", ["Nora Wietz", "Nora Weitz"]],
    ["in another's place, the first", ["Nora Elias", "Nora Leias"]],
    ["in a long name of one word", ["Johannes", "Johanes"]],
  ])("%s makes namesakes", (_, names) => expect(namesakes(names)).toEqual([names]));

  it.each([
    ["short words", ["Ana Ruiz", "Anna Ruiz", "Ann Ruiz"]],
    ["initials", ["Ada K.", "Ada L.", "Ada M."]],
    ["short names of one word", ["Marta", "Maria", "Bo", "Jo"]],
    ["numbers", ["Player 1041", "Player 1042", "Hitter2025", "Hitter2026"]],
    ["two letters", ["Lena Koch", "Lena Korn"]],
    ["a letter gone and one come elsewhere", ["Lena Koch", "Lena Ochs"]],
    ["a letter that only one way changed places", ["Lena Koch", "Lena Odch"]],
    ["the same, the other way", ["Lena Odch", "Lena Koch"]],
    ["letters that changed places before other ends", ["Lena Abac", "Lena Bach"]],
    ["two words", ["Lena Koch", "Lina Kock"]],
  ])("makes none of %s", (_, names) => expect(namesakes(names)).toEqual([]));

  it("is found among ten thousand names", () => {
    const letters = "abcdefghijklmnopqrstuvwxyz";
    const word = (n: number): string =>
      Array.from({ length: 8 }, (_, i) => letters[Math.floor(n * 7919 * (i + 3) ** 3) % 26]).join("");
    const names = Array.from({ length: 10_000 }, (_, i) => `${word(i)} ${word(i + 77_777)} ${"x".repeat(4)}`);
    expect(namesakes([...new Set(names), "Lena Kock", "Lena Koch"]).at(-1)).toEqual([
      "Lena Kock",
      "Lena Koch",
    ]);
  });
});

describe("two spellings of a hitter", () => {
  const head = "hitter,input,session,exit_velocity_mph,launch_angle_deg";
  const sheet = `${head}\nAna Ruiz,tee,a,70,10\n"ruiz, ana",tee,a,71,11\nBo,tee,a,60,5\n`;
  const sentence =
    'hitter "Ana Ruiz" may be the same as "ruiz, ana", and counts as another; a row of names.csv gives both one name.';

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

  it("are told by add and check where the library's swings or list have the other one", async () => {
    const files = {
      "a.csv": `${head}\nLena Koch,tee,a,70,10\n`,
      "b.csv": `${head}\nLena Kock,tee,b,71,11\n`,
      "c.csv": `${head}\nLena Koch,tee,c,72,12\n`,
    };
    const told = '"Lena Kock" may be the same as "Lena Koch"';
    await inFolder(files, async (dir) => {
      const add = (name: string): ReturnType<typeof run> =>
        run("add", `${dir}/${name}`, "--library", `${dir}/l`);
      expect((await add("a.csv")).err).toBe("");
      const { out } = await run("check", `${dir}/b.csv`, "--library", `${dir}/l`);
      expect(out.replace(/\s+/g, " ")).toContain(told);
      const second = await add("b.csv");
      expect(second).toMatchObject({ status: 0 });
      expect(second.err.replace(/\s+/g, " ")).toContain(told);
    });
    await inFolder({ ...files, "hitters.csv": "hitter\nLena Koch\nBo\n" }, async (dir) => {
      expect((await run("add", `${dir}/b.csv`, "--library", dir)).err.replace(/\s+/g, " ")).toContain(told);
    });
  });
});
