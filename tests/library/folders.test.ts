/** The sessions' folders: names that a person reads, safe on every disk, none for two sessions. */
import { mkdir, readdir, readFile, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";
import { Folders, Shelves } from "../../src/library/shelves.ts";
import { partitionName, partitionProblem, sessionOfPartition } from "../../src/swing/partition.ts";
import { inFolder } from "../reading/support.ts";

const head = "session,hitter,input,exit_velocity_mph,launch_angle_deg";

/** What a disk that ignores case and Unicode's forms, as Windows' and the Mac's do, takes for the same. */
const asDisk = (name: string): string => name.normalize("NFD").toUpperCase().toLowerCase();

function foldersOf(sessions: readonly string[]): string[] {
  const folders = new Folders([]);
  return sessions.map((session) => folders.of(session));
}

describe("a session's folder", () => {
  it.each([
    "Cage week 38",
    "May 5, tee (left)",
    "Übung Fröhlich – Halle 2",
    "Owen's & Ana's day",
    "Séance nº 3",
    "練習 五月",
    "शाम का सत्र",
    "2026-05-05_tee.2",
  ])("is named as the session is: %s", (session) => {
    expect(partitionName(session)).toBe(`session=${session}`);
    expect(sessionOfPartition(partitionName(session))).toBe(session);
  });

  it.each([
    ["../up", "session=..%2Fup"],
    ["a/b\\c:d", "session=a%2Fb%5Cc%3Ad"],
    ['what? "why" <no> a|b *', "session=what%3F %22why%22 %3Cno%3E a%7Cb %2A"],
    ["a=b#c%d", "session=a%3Db%23c%25d"],
    ["[may] {5}", "session=%5Bmay%5D %7B5%7D"],
    ["con", "session=con"],
    ["the end.", "session=the end%2E"],
    ["the end... ", "session=the end...%20"],
    ["a\u0000b\u202ec\u200bd\u00a0e\nf", "session=a%00b%E2%80%AEc%E2%80%8Bd%C2%A0e%0Af"],
    // A mark would join what stands before it, on a disk that composes letters.
    ["\u0338x", "session=%CC%B8x"],
    [":\u0301", "session=%3A%CC%81"],
    ["Zoe\u0308", "session=Zo\u00eb"],
    ["__HIVE_DEFAULT_PARTITION__", "session=%5F_HIVE_DEFAULT_PARTITION__"],
    ["__hive_default_partition__", "session=%5F_hive_default_partition__"],
  ])("is safe on every disk: %j", (session, folder) => {
    expect(partitionName(session)).toBe(folder);
    expect(sessionOfPartition(folder)).toBe(session.normalize("NFC"));
  });

  it("has room for a name of 247 letters, and for no longer one", () => {
    expect(partitionProblem("C".repeat(247))).toBeNull();
    expect(partitionProblem("C".repeat(248))).toContain("too long");
    expect(partitionProblem("\u00fc".repeat(124))).toContain("too long");
  });

  it("is no other session's, on a disk that ignores case and Unicode's forms", () => {
    const sessions = ["Cage", "cage", "CAGE", "cAge", "Weiß", "weiss", "WEISS", "\u30ab", "\uff76", "a", "A"];
    const folders = foldersOf(sessions);
    expect(folders.map((folder) => sessionOfPartition(folder.slice("swings/".length)))).toEqual(sessions);
    expect(new Set(folders.map(asDisk)).size).toBe(sessions.length);
    expect(folders.slice(0, 4)).toEqual([
      "swings/session=Cage",
      "swings/session=%63age",
      "swings/session=%43AGE",
      "swings/session=%63%41ge",
    ]);
  });

  it("is told to be impossible when a name is too long to be told from one like it", () => {
    const folders = new Folders([]);
    folders.of("c".repeat(247));
    expect(() => folders.of("C".repeat(247))).toThrow(/differs? from another's in capitals/);
  });

  it("keeps to all of this for whatever names there are", () => {
    const letter = fc.constantFrom(
      ..."aAäÄsSßẞıİiI.. -_%=/\\:*?\"<>|'\u0301\u0338\u30ab\uff76\ud55c\u3164🥎0",
    );
    const name = fc.oneof(
      fc.array(letter, { minLength: 1, maxLength: 6 }).map((letters) => letters.join("")),
      fc.string({ unit: "binary", minLength: 1, maxLength: 20 }),
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(
          name.map((text) => text.normalize("NFC")),
          { maxLength: 12 },
        ),
        (names) => {
          const sessions = names.filter((session) => partitionProblem(session) === null);
          const folders = [...foldersOf(sessions), "swings/session=__HIVE_DEFAULT_PARTITION__"];
          const own = folders.map((folder) => folder.slice("swings/".length));
          expect(own.slice(0, -1).map(sessionOfPartition)).toEqual(sessions);
          expect(new Set(own.map(asDisk)).size).toBe(own.length);
          for (const folder of own) {
            expect(folder).not.toMatch(/[<>:"/\\|?*\p{C}]|[. ]$/u);
            expect(new TextEncoder().encode(folder).length).toBeLessThanOrEqual(255);
            // A disk that keeps letters apart, or composes them, gives the same session.
            for (const form of ["NFD", "NFC"])
              expect(sessionOfPartition(folder.normalize(form))).toBe(sessionOfPartition(folder));
          }
        },
      ),
      { seed: 38, numRuns: 400 },
    );
  });
});

describe("folders that an older version named", () => {
  it("are found, added to and corrected in, and no second one is made", () =>
    inFolder({}, async (dir) => {
      const library = join(dir, "library");
      const sheet = async (name: string, rows: string): Promise<string> => {
        await writeFile(join(dir, name), `${head}\n${rows}`);
        return join(dir, name);
      };
      const week = "Cage week 38";
      await addFile(library, await sheet("a.csv", `${week},Ana,tee,80,10\n${week},Ana,tee,x,10\n`));
      const old = join(library, "swings", "session=%43age%20week%2038");
      await rename(join(library, "swings", `session=${week}`), old);
      const [addition] = await (await Shelves.open(library)).additions();
      expect(addition!.into).toBe("session=Cage%20week%2038");

      await addFile(library, await sheet("b.csv", `${week},Bo,tee,81,10\n${week},Bo,tee,y,10\n`));
      const page = join(old, "refused.csv");
      const refused = await readFile(page, "utf8");
      expect(refused.match(/Ana|Bo/g)).toEqual(["Ana", "Bo"]);
      await writeFile(page, refused.replace(",x,", ",82,"));
      expect(await addFile(library, page)).toMatchObject({ new: 1, refused: 1 });
      // One whose name differs in case alone gets its own, beside the old one.
      await addFile(library, await sheet("c.csv", `cage week 38,Cy,tee,83,10\n`));
      expect((await readdir(join(library, "swings"))).filter((name) => name.startsWith("session="))).toEqual([
        "session=%43age%20week%2038",
        "session=cage week 38",
      ]);
      const { swings, problems } = await openLibrary(library);
      expect(swings.map((s) => [s.session, s.hitter, s.exit_velocity_mph])).toEqual([
        ["cage week 38", "Cy", 83],
        [week, "Ana", 80],
        [week, "Bo", 81],
        [week, "Ana", 82],
      ]);
      expect(problems.map((problem) => problem.reason)).toEqual([
        expect.stringContaining("1 row was refused, and waits beside it"),
      ]);
    }));
});

it("a damaged session in a folder with blanks says which files it came from", () =>
  inFolder({}, async (dir) => {
    const library = join(dir, "library");
    await writeFile(join(dir, "a.csv"), `${head}\nCage week 38,Ana,tee,80,10\nother,Bo,tee,80,10\n`);
    await writeFile(join(dir, "b.csv"), `${head}\nother,Bo,tee,81,10\n`);
    for (const name of ["a.csv", "b.csv"]) await addFile(library, join(dir, name));
    await mkdir(join(library, "swings"), { recursive: true });
    const shelves = await Shelves.open(library);
    await writeFile(join(library, "swings", "session=Cage week 38", "swings.parquet"), "x");
    await expect(shelves.swings("swings/session=Cage week 38")).rejects.toThrow(/and add again "a\.csv"\.$/);
  }));
