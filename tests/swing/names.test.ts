/** Names of fields, balls and levels that no table holds. */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { libraryFile } from "../../notebooks/plugins/library-file.ts";
import { playingFields } from "../../src/field/fields.ts";
import { balls } from "../../src/flight/ball.ts";
import { levels } from "../../src/contact/levels.ts";
import { companionProblems, openLibrary } from "../../src/library/library.ts";
import { columnMapProblems } from "../../src/reading/maps.ts";
import { ballNames, fieldNames, levelNames, nearestFirst } from "../../src/swing/names.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { run } from "../cli/run.ts";
import { inFolder, readFrom } from "../reading/support.ts";

const swings =
  "hitter,session,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg,bats\n" +
  Array.from(
    { length: 20 },
    (_, i) => `Ana,${i % 2 ? "a" : "b"},${i < 10 ? "tee" : "live"},7${i % 10},12,0,R\n`,
  ).join("");
const sessions = "session,field,ball\na,60-90,baseball\nb,60/90,sofball\nc,60/90,Softball\n";
const hitters = "hitter,bats,level\nAna,R,highschool\n";
const field = 'row 2: field "60-90" is not in the field table (60/90, 50/70, 46/60, softball 43/60).';
const ball = 'row 3: ball "sofball" is not in the ball table (softball, baseball, 11-inch softball).';
const level = 'row 2: level "highschool" is not in the level table (high school, softball high school';

describe("a name that a table doesn't hold", () => {
  it("refuses the session's row, with the names there are, near ones first", async () => {
    const { rows, problems } = await readFrom("sessions", sessions);
    expect(rows.map((s) => [s.session, s.ball])).toEqual([["c", "softball"]]);
    expect(problems.map(problemSentence)).toEqual([`a.csv, ${field}`, `a.csv, ${ball}`]);
  });

  it("is warned of where it is a level, and the hitter stays", async () => {
    const { rows, problems } = await readFrom("hitters", hitters);
    expect(rows).toHaveLength(1);
    expect(problems.map((p) => p.kind)).toEqual(["warning"]);
    expect(problemSentence(problems[0]!)).toContain(`a.csv, ${level}`);
    expect(problemSentence(problems[0]!)).toContain("; the hitter's ceiling has no level to lean on.");
    expect((await readFrom("hitters", "hitter,level\nAna,High  School\n")).problems).toEqual([]);
  });

  it("is told by every command that reads sessions, of a library and of files", async () => {
    await inFolder(
      { "swings.csv": swings, "sessions.csv": sessions, "hitters.csv": hitters },
      async (dir) => {
        const at = (name: string): string => join(dir, name);
        const out = await mkdtemp(join(tmpdir(), "named-"));
        const beside = ["--sessions", at("sessions.csv"), "--hitters", at("hitters.csv")];
        const calls = [
          ["check", at("sessions.csv"), at("hitters.csv")],
          ["check", "--library", dir],
          ["gap", "--library", dir],
          ["gap", at("swings.csv"), ...beside],
          ["drift", "--library", dir],
          ["drift", at("swings.csv"), ...beside],
          ["enrich", at("swings.csv"), ...beside, "-o", join(out, "enriched.csv")],
          ["report", "--library", dir, "-o", join(out, "reports")],
        ];
        for (const call of calls) {
          const { status, out: said, err } = await run(...call);
          const text = `${said}${err}`.replace(/\s+/g, " ");
          expect(text, call.join(" ")).toContain(`sessions.csv, ${field}`);
          expect(text, call.join(" ")).toContain(`sessions.csv, ${ball}`);
          expect(text, call.join(" ")).toContain(`hitters.csv, ${level}`);
          expect(status, call.join(" ")).toBe(1);
        }
        await rm(out, { recursive: true });
      },
    );
  });

  it("is told on every page", async () => {
    await inFolder(
      { "swings.csv": swings, "sessions.csv": sessions, "hitters.csv": hitters },
      async (dir) => {
        const library = await openLibrary(dir);
        expect(companionProblems(library)).toHaveLength(3);
        const { tables } = libraryFile(library);
        expect(tables.slice(0, 2)).toEqual([`sessions.csv, ${field}`, `sessions.csv, ${ball}`]);
        expect(tables[2]).toContain(`hitters.csv, ${level}`);
      },
    );
  });

  it("is refused in a column map too", () => {
    const map = (to: string): unknown => ({
      table: "sessions",
      columns: { Session: "session", Park: { field: "field", words: { north: to } } },
    });
    expect(columnMapProblems(map("60/90"))).toEqual([]);
    expect(columnMapProblems(map("north"))[0]).toContain("is not in the field table (");
  });
});

describe("the tables' names", () => {
  it("are those that fields, balls and levels are found by, and the README lists them", () => {
    expect(fieldNames.names).toEqual(playingFields.map((f) => f.name));
    expect(ballNames.names).toEqual(balls.map((b) => b.name));
    expect(levelNames.names).toEqual(levels.map((l) => l.name));
    const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    for (const name of [...fieldNames.names, ...ballNames.names, ...levelNames.names])
      expect(readme).toContain(`\`${name}\``);
  });

  it("come nearest first", () => {
    expect(nearestFirst("collage", levelNames.names)[0]).toBe("college");
    expect(nearestFirst("soft ball", ballNames.names)[0]).toBe("softball");
  });
});
