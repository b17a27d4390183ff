/** Names nearly alike: asked about once, the answer kept in names.csv; and a facility's own fields, in fields.csv. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { fenceDistance, fieldFor, findField } from "../../src/field/fields.ts";
import { addFile } from "../../src/library/add.ts";
import { forgetHitter } from "../../src/library/forget.ts";
import { openLibrary } from "../../src/library/library.ts";
import { putRows } from "../../src/library/rows.ts";
import { answersFor } from "../../src/reading/namesakes.ts";
import { ft } from "../../src/units/index.ts";
import { run } from "../cli/run.ts";

let dir: string;
let library: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), "names-"));
  library = join(dir, "library");
});
afterEach(() => rm(dir, { recursive: true, force: true }));

const head = "hitter,input,session,exit_velocity_mph,launch_angle_deg,spray_angle_deg";
async function sheet(name: string, ...hitters: string[]): Promise<string> {
  const path = join(dir, name);
  await writeFile(
    path,
    [head, ...hitters.map((hitter, i) => `${hitter},tee,day,${70 + i},12,${i}`), ""].join("\n"),
  );
  return path;
}
const hitters = async (): Promise<string[]> =>
  [...new Set((await openLibrary(library)).swings.map(({ hitter }) => hitter))].sort();

describe("names nearly alike", () => {
  it("are one hitter's where somebody said so, in every file to come, and each row is there once", async () => {
    const asked: (readonly string[])[] = [];
    const first = await sheet("a.csv", "Owen Blake", "owen blake", "Lena Koch", "Lena Kock");
    const askNames = async (groups: readonly (readonly string[])[]) => {
      asked.push(...groups);
      return groups.flatMap((group) => answersFor(group, group.includes("Owen Blake") ? "Owen Blake" : null));
    };
    const answers = [
      { spelled: "owen blake", hitter: "Owen Blake" },
      { spelled: "Lena Koch", hitter: "Lena Koch" },
      { spelled: "Lena Kock", hitter: "Lena Kock" },
    ];
    await addFile(library, first, { askNames });
    expect(asked.map((group) => [...group].sort())).toEqual([
      ["Owen Blake", "owen blake"],
      ["Lena Koch", "Lena Kock"],
    ]);
    expect(await hitters()).toEqual(["Lena Koch", "Lena Kock", "Owen Blake"]);
    await putRows(library, "names", answers);
    expect(await readFile(join(library, "names.csv"), "utf8")).toContain("owen blake,Owen Blake");
    // Kept: nobody is asked again, and the same file brings nothing new.
    asked.length = 0;
    const again = await addFile(library, first, { askNames });
    expect({ asked, new: again.new, copies: again.copies }).toEqual({ asked: [], new: 0, copies: 4 });
    expect((await openLibrary(library)).problems).toEqual([]);
    // A third spelling is a question of its own.
    await addFile(library, await sheet("b.csv", "Lena Kogh"), { askNames });
    expect(asked).toHaveLength(1);
  });

  it("are told of, and taken as they are, where nobody is asked; a call may answer", async () => {
    const file = await sheet("a.csv", "Owen Blake", "owen blake");
    const plain = await run("add", file, "--library", library);
    expect(plain.err).toContain("may be the same as");
    expect(plain.err).toContain("names.csv");
    expect(await hitters()).toEqual(["Owen Blake", "owen blake"]);
    await rm(library, { recursive: true });
    const named = await run("add", file, "--library", library, "--name", "owen blake=Owen Blake");
    expect(named).toMatchObject({ status: 0, err: "" });
    expect(await hitters()).toEqual(["Owen Blake"]);
    // The answer counts for what comes later, too.
    await run("add", await sheet("b.csv", "owen blake", "owen blake", "owen blake"), "--library", library);
    expect(await hitters()).toEqual(["Owen Blake"]);
    expect((await run("add", file, "--library", library, "--name", "owen")).err).toContain("--name takes");
  });

  it("count in a library of CSV files as well, and are forgotten with the hitter", async () => {
    await addFile(library, await sheet("a.csv", "Owen Blake"));
    await writeFile(join(library, "more.csv"), `${head}\nOwen B,tee,day,80,10,0\n`);
    await writeFile(join(library, "names.csv"), "spelled,hitter\nOwen B,Owen Blake\nAda,Ada\n");
    expect(await hitters()).toEqual(["Owen Blake"]);
    expect((await openLibrary(library)).problems).toEqual([]);
    await forgetHitter(library, "Owen Blake");
    expect(await hitters()).toEqual([]);
    expect(await readFile(join(library, "names.csv"), "utf8")).toBe("spelled,hitter\r\nAda,Ada\r\n");
  });
});

describe("a facility's own field", () => {
  const park = {
    field: "Back Lot",
    base_path_ft: "60",
    pitching_ft: "46",
    dirt_radius_ft: "50",
    left_ft: "180",
    left_center_ft: "205",
    center_ft: "220",
    right_center_ft: "200",
    right_ft: "175",
    fence_ft: "6",
  };

  it("is known by its name in sessions.csv, and its bases and fence are used", async () => {
    await addFile(library, await sheet("a.csv", "Owen Blake", "Owen Blake"));
    await writeFile(join(library, "sessions.csv"), "session,field\nday,back lot\n");
    // Unknown, it is refused with the names there are.
    expect((await openLibrary(library)).problems[0]!.reason).toContain("is not in the field table");
    await putRows(library, "fields", [park]);
    const opened = await openLibrary(library);
    expect(opened.problems).toEqual([]);
    expect(opened.sessions[0]!.field).toBe("Back Lot");
    const field = findField("back lot")!;
    expect(field.basePath_ft).toBe(60);
    expect(fenceDistance(field, 0)! / ft).toBeCloseTo(220, 9);
    expect(fenceDistance(field, -Math.PI / 4)! / ft).toBeCloseTo(180, 9);
    // A ground ball's edge is that of its dirt: another field, another word for the same ball.
    expect(enrich(opened).map(({ category }) => category)).not.toContain(null);
    // A library without it doesn't know it.
    const other = join(dir, "other");
    await addFile(other, await sheet("b.csv", "Ada"));
    await openLibrary(other);
    expect(findField("back lot")).toBeNull();
    expect(fieldFor("back lot").name).toBe("60/90");
  });

  it("is refused where it can't be one", async () => {
    await addFile(library, await sheet("a.csv", "Ada"));
    const put = (change: object): Promise<unknown> => putRows(library, "fields", [{ ...park, ...change }]);
    await expect(put({ field: "60/90" })).rejects.toThrow(/field table itself/);
    await expect(put({ base_path_ft: "100", left_ft: "90" })).rejects.toThrow(/nearer than the bases/);
    await expect(put({ center_ft: "" })).rejects.toThrow(/center_ft/);
    await expect(put({ dirt_radius_ft: "20" })).rejects.toThrow(/too small/);
  });
});
