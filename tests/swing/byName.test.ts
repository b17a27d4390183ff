/** Names as people look them up: one order, whatever the order they come in, wherever they are listed. */
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hitterOptions } from "../../notebooks/components/pick.ts";
import { whoCanHit } from "../../notebooks/components/trialPlan.ts";
import { orderOf } from "../../notebooks/components/groupSay.ts";
import type { PageLibrary } from "../../notebooks/components/library.ts";
import { acrossHitters } from "../../src/gap/across.ts";
import { makeReady } from "../../src/gap/rows.ts";
import { initialsOf } from "../../src/library/initials.ts";
import { openLibrary } from "../../src/library/library.ts";
import { groupOver } from "../../src/season/group.ts";
import { liveRounds } from "../../src/season/liveRounds.ts";
import { seasons } from "../../src/season/plan.ts";
import { byName } from "../../src/swing/byName.ts";
import { offersOf } from "../../src/views/filter.ts";
import { sessionsInOrder } from "../../src/views/sessions.ts";
import { addFile } from "../../src/library/add.ts";
import { run } from "../cli/run.ts";
import { filesUnder, root } from "../house/files.ts";
import { inFolder } from "../reading/support.ts";
import { swing } from "../views/rows.ts";

const sources = ["src", "notebooks"].flatMap((folder) => filesUnder(folder, [".ts", ".html"]));

describe("the order of names", () => {
  it("puts numbers by size, and leaves capitals and accents beside their letters", () => {
    const names = [
      "Bay 10",
      "bay 2",
      "Bay 1",
      "Zoe",
      "Émile",
      "émile",
      "Finn",
      "Bay 2",
      "Bay 1.10",
      "Bay 1.9",
    ];
    expect(names.sort(byName)).toEqual([
      "Bay 1",
      "Bay 1.9",
      "Bay 1.10",
      "bay 2",
      "Bay 2",
      "Bay 10",
      "émile",
      "Émile",
      "Finn",
      "Zoe",
    ]);
  });

  it("is the same for any order they come in, and tells all different names apart", () => {
    const name = fc.oneof(fc.string({ maxLength: 6 }), fc.stringMatching(/^[aAáB ]{0,2}0{0,2}[0-9]{0,3}$/));
    fc.assert(
      fc.property(fc.uniqueArray(name, { maxLength: 12 }), fc.nat(), (names, seed) => {
        const turned = [...names.slice(seed % 12), ...names.slice(0, seed % 12)].reverse();
        expect([...names].sort(byName)).toEqual(turned.sort(byName));
        for (const a of names)
          for (const b of names) expect(Math.sign(byName(a, b))).toBe(-Math.sign(byName(b, a)) || 0);
        for (const a of names) for (const b of names) expect(byName(a, b) === 0).toBe(a === b);
      }),
    );
  });

  it("is made in one place", () => {
    const found = sources.filter((file) => /Intl\.Collator/.test(readFileSync(file, "utf8")));
    expect(found.map((file) => relative(root, file))).toEqual([join("src", "swing", "byName.ts")]);
    // What else is compared as text is a day or a time.
    for (const file of sources)
      for (const [call] of readFileSync(file, "utf8").matchAll(/.*\.localeCompare\(.*/g))
        expect(call, file).toMatch(/\.(date|time) \?\? ""\)\.localeCompare\(.\.(date|time) \?\? ""\)/);
  });
});

const counted = ["Hitter 1", "Hitter 2", "Hitter 3", "Hitter 10", "Hitter 11"];
const asMet = ["Hitter 10", "Hitter 2", "Hitter 11", "Hitter 1", "Hitter 3"];
const swings = asMet.flatMap((hitter) =>
  Array.from({ length: 4 }, (_, i) =>
    swing({
      swing_id: `${hitter} ${i}`,
      hitter,
      session: "a",
      time: `2025-03-03T10:0${i}:00`,
      input: i < 2 ? "tee" : "live",
      pitcher: i < 2 ? null : `Pitcher ${i === 2 ? 10 : 9}`,
      pitch_type: i < 2 ? null : `pitch ${i === 2 ? 10 : 9}`,
      pitch_speed_mph: i < 2 ? null : 70,
    }),
  ),
);
const source = { swings, sessions: [], hitters: [], thresholds: null };
const page = source as unknown as PageLibrary;

describe("names with numbers", () => {
  it("stand as people count where a page lists hitters", () => {
    expect(hitterOptions(page).map(({ value }) => value)).toEqual(counted);
    expect(whoCanHit(page)).toEqual(counted);
    const group = groupOver(makeReady(source));
    expect(group.rows.map(({ hitter }) => hitter)).toEqual(counted);
    // Whoever can't be told apart keeps to the order of the names, whatever is asked first.
    for (const sort of ["name", "swings", "need", "met"])
      expect(
        orderOf(group, null, sort).map((i) => group.rows[i]!.hitter),
        sort,
      ).toEqual(counted);
    // Without a pooled figure there is no other order than that of the names.
    const { hitters } = acrossHitters(makeReady(source), "carry");
    expect(hitters.map(({ hitter }) => hitter)).toEqual(counted);
    expect(seasons(source).map(({ hitter }) => hitter)).toEqual(counted);
  });

  it("stand so where pitchers and pitches are as often met", () => {
    const offers = offersOf(swings, source);
    expect(offers.pitchers.map(({ value }) => value)).toEqual(["Pitcher 9", "Pitcher 10"]);
    expect(offers.pitch_types.map(({ value }) => value)).toEqual(["pitch 9", "pitch 10"]);
    const rounds = liveRounds(source);
    expect(rounds.hitters).toEqual(counted);
    expect(rounds.pitchers).toEqual(["Pitcher 9", "Pitcher 10"]);
  });

  it("count initials in that order", () => {
    expect([...initialsOf(["A10", "A9"])]).toEqual([
      ["A10", "A. 2"],
      ["A9", "A."],
    ]);
  });

  const head = "session,hitter,input,exit_velocity_mph,launch_angle_deg\n";
  const rows = (session: string, hitter: string): string =>
    Array.from({ length: 3 }, (_, i) => `${session},${hitter},tee,${80 + i},1${i}\n`).join("");

  it("stand so where a command lists hitters, and where it names the nearest", () =>
    inFolder({ "swings.csv": head + asMet.map((name) => rows("a", name)).join("") }, async (dir) => {
      for (const command of ["gap", "progress"]) {
        const { out } = await run(command, "--library", dir, "--json");
        const { hitters } = JSON.parse(out) as { hitters: { hitter: string }[] };
        expect(
          hitters.map(({ hitter }) => hitter),
          command,
        ).toEqual(counted);
      }
      for (const command of ["gap", "progress", "report"]) {
        const more = command === "report" ? ["-o", join(dir, "out")] : [];
        const { err } = await run(command, "--library", dir, "--hitter", "Hitter", ...more);
        expect(err, command).toMatch(/nearest are "Hitter 1", "Hitter 2", "Hitter 3"/);
      }
    }));

  it("order sessions without a day, whether a library keeps them or a folder of files has them", () =>
    inFolder({}, async (dir) => {
      const { mkdir, writeFile } = await import("node:fs/promises");
      const days = ["Day 1", "Day 2", "Day 9", "Day 10", "Day 11"];
      const [kept, files] = [join(dir, "kept"), join(dir, "files")];
      await Promise.all([mkdir(kept), mkdir(files)]);
      await writeFile(
        join(dir, "all.csv"),
        head +
          days
            .toReversed()
            .map((day) => rows(day, "Ana"))
            .join(""),
      );
      await addFile(kept, join(dir, "all.csv"));
      for (const day of days) await writeFile(join(files, `${day}.csv`), head + rows(day, "Ana"));
      for (const library of [kept, files]) {
        const { swings, sessions } = await openLibrary(library);
        expect(sessionsInOrder(swings, sessions).map(({ session }) => session)).toEqual(days);
      }
    }));
});
