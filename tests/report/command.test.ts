/** `report` as it is called: what it writes, where, and what it says when the call is wrong. */
import { execFile } from "node:child_process";
import { mkdir, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));
let dir: string;
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), "report-"));
});
afterAll(() => rm(dir, { recursive: true, force: true }));

function run(...args: string[]): Promise<{ status: number; out: string; err: string }> {
  return new Promise((done) =>
    execFile(
      process.execPath,
      ["--import", "tsx", "src/cli/main.ts", "report", ...args],
      { cwd: root },
      (error, out, err) => done({ status: error === null ? 0 : Number(error.code), out, err }),
    ),
  );
}

async function library(name: string, hitters: readonly string[]): Promise<string> {
  const folder = join(dir, name);
  await mkdir(folder, { recursive: true });
  const rows = hitters.flatMap((hitter) =>
    Array.from({ length: 6 }, (_, i) => `"${hitter.replaceAll('"', '""')}",tee,day,${70 + i},${5 + i},${i}`),
  );
  await writeFile(
    join(folder, "swings.csv"),
    ["hitter,input,session,exit_velocity_mph,launch_angle_deg,spray_angle_deg", ...rows].join("\n"),
  );
  return folder;
}

describe("report", { timeout: 120_000 }, () => {
  it("writes each chart as SVG and PNG where they are asked for", { timeout: 120_000 }, async () => {
    const from = await library("charted", ["Ada"]);
    const to = join(dir, "charted-out");
    const { status, err } = await run("--library", from, "-o", to, "--charts");
    expect([status, err]).toEqual([0, ""]);
    const files = (await readdir(join(to, "report-ada"))).sort();
    expect(files).toContain("01-bucket-strip.png");
    expect(files.filter((name) => name.endsWith("-spray-chart.svg"))).toHaveLength(1);
    expect(files.filter((name) => name.endsWith(".svg")).length).toBeGreaterThan(2);
    const named = (ending: string): string[] =>
      files.filter((name) => name.endsWith(ending)).map((name) => name.slice(0, -4));
    expect(named(".png")).toEqual(named(".svg"));
    for (const name of files) {
      const bytes = await readFile(join(to, "report-ada", name));
      if (name.endsWith(".svg")) expect(bytes.toString()).not.toContain("var(");
      else expect(bytes.subarray(1, 4).toString()).toBe("PNG");
    }
  });

  it("writes a file a hitter and a page that leads to them, and lists them for machines", async () => {
    const hostile = ["../../x", "'=1+1", "<img onerror>", "CON", "Ada", "ADA"];
    // In a folder of its own: nothing else may stand beside what is written.
    const from = await library("apart/hostile", hostile);
    const to = join(dir, "apart", "out", "deep");
    const { status, out, err } = await run("--library", from, "-o", to, "--json");
    expect(err).toBe("");
    expect(status).toBe(0);
    const listed = (JSON.parse(out) as { files: { file: string; hitter: string | null }[] }).files;
    expect(listed.map((f) => f.hitter)).toEqual([
      "../../x",
      "=1+1",
      "<img onerror>",
      "CON",
      "Ada",
      "ADA",
      null,
    ]);
    expect(new Set(listed.map((f) => f.file.toLowerCase())).size).toBe(7);
    expect((await readdir(to)).sort()).toEqual(listed.map((f) => f.file).sort());
    expect((await readdir(join(dir, "apart"))).sort()).toEqual(["hostile", "out"]);
    const index = await readFile(join(to, "index.html"), "utf8");
    for (const { file } of listed.slice(0, -1)) expect(index).toContain(`href="${encodeURIComponent(file)}"`);
    expect(index).not.toContain("<img");
  });

  it("writes one hitter's alone, whatever the capitals", async () => {
    const from = await library("one", ["Ada K.", "Ben T."]);
    const to = join(dir, "single");
    expect((await run("--library", from, "-o", to, "--hitter", "ada k", "--units", "metric")).status).toBe(0);
    expect((await readdir(to)).sort()).toEqual(["index.html", "report-ada-k.html"]);
    expect(await readFile(join(to, "report-ada-k.html"), "utf8")).toContain("km/h");
  });

  it("names near matches for a hitter there is not, and writes nothing", async () => {
    const from = await library("near", ["Ada K.", "Ben T.", "Zoë"]);
    const to = join(dir, "nothing");
    const { status, out, err } = await run("--library", from, "-o", to, "--hitter", "Adda K");
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err).toBe('There is no hitter named "Adda K" in the library; the nearest is "Ada K.".\n');
    await expect(readdir(to)).rejects.toThrow();
    const session = await run("--library", from, "-o", to, "--session", "dya");
    expect(session).toMatchObject({ status: 2, out: "" });
    expect(session.err).toContain('There is no session named "dya"');
  });

  it("says on stderr how many rows were refused, and leaves flagged rows out when asked, with their count", async () => {
    const folder = join(dir, "flagged");
    await mkdir(folder);
    const rows = Array.from({ length: 12 }, (_, i) => `Ada K.,tee,day,in_play,${70 + i},${5 + i},${i}`);
    // In play and behind the plate: no ball does both. The last row's speed is no number.
    const odd = ["Ada K.,tee,day,in_play,80,12,170", "Ada K.,tee,day,in_play,fast,12,0"];
    const head = "hitter,input,session,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg";
    await writeFile(join(folder, "swings.csv"), [head, ...rows, ...odd].join("\n"));
    const read = async (...more: string[]): Promise<string> => {
      const to = join(dir, `flagged-out${more.join("")}`);
      const { status, err } = await run("--library", folder, "-o", to, ...more);
      expect({ status, err }).toEqual({
        status: 0,
        err: "1 row was refused and is in no figure; “check” names it.\n",
      });
      return (await readFile(join(to, "report-ada-k.html"), "utf8")).replace(/\s+/g, " ");
    };
    const whole = await read();
    expect(whole).toContain("<b>13 rows</b>");
    expect(whole).toContain("1 flagged row: ringed in the charts, and in the figures.");
    expect(whole).toContain("no placement and no calibration is logged");
    const less = await read("--without-flagged");
    expect(less).toContain("<b>12 rows</b>");
    expect(less).toContain("1 flagged row left out of every figure, as asked.");
    expect(less).not.toContain("flagged (ringed)");
  });

  it("writes all or nothing", async () => {
    const from = await library("whole", ["Ada", "Ben"]);
    const to = join(dir, "whole-out");
    await mkdir(join(to, "report-ben.html"), { recursive: true });
    const { status, err } = await run("--library", from, "-o", to);
    expect(status).toBe(2);
    expect(err).toMatch(/report-ben\.html is a folder/);
    expect(await readdir(to)).toEqual(["report-ben.html"]);
  });

  it("says what it needs", async () => {
    const { status, err } = await run("--library", "data/demo");
    expect(status).toBe(2);
    expect(err).toContain("--output");
    expect((await run("--library", join(dir, "nowhere"), "-o", dir)).status).toBe(2);
  });

  it("writes a pitcher's sheet, held against the other pitchers, and names near matches for one there is not", async () => {
    const folder = join(dir, "rounds");
    await mkdir(folder);
    const rows = ["Ada", "Ben"].flatMap((hitter) =>
      ["Tam <b>O.", "Jory"].flatMap((pitcher) =>
        Array.from({ length: 30 }, (_, i) => {
          const live = `${hitter},live,day ${i % 3},${pitcher},fastball,${60 + i / 10}`;
          return i % 5 === 0 ? `${live},miss,,,` : `${live},in_play,${70 + (i % 9)},${5 + i},${i}`;
        }),
      ),
    );
    const head =
      "hitter,input,session,pitcher,pitch_type,pitch_speed_mph,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg";
    await writeFile(join(folder, "swings.csv"), [head, ...rows].join("\n"));
    const to = join(dir, "rounds-out");
    const sheet = (...more: string[]) => run("--library", folder, "-o", to, ...more);
    expect(await sheet("--pitcher-sheet", "tam <b>o")).toMatchObject({ status: 0, err: "" });
    const files = await readdir(to);
    expect(files).toHaveLength(1);
    const text = (await readFile(join(to, files[0]!), "utf8")).replace(/\s+/g, " ");
    expect(text).toContain("Tam &lt;b&gt;O.");
    expect(text).not.toContain("Jory");
    expect(text).toContain("60 pitches in 3 sessions, 60 swings.");
    // Of 30 swings of each hitter 6 are missed.
    expect(text.match(/6 of 30/g)).toHaveLength(2);
    expect(text).toContain("12 of 60");
    expect(text).toContain("says nothing of how the pitcher is");
    expect(text).toContain("nothing here is medical advice");
    const near = await sheet("--pitcher-sheet", "Jori");
    expect(near).toMatchObject({ status: 2, out: "" });
    expect(near.err).toMatch(/no pitcher named "Jori" in the library; the nearest is "Jory"/);
    for (const other of ["--hitter=Ada", "--session=day 1", "--pitcher=Jory"]) {
      const both = await sheet("--pitcher-sheet", "Jory", other);
      expect(both).toMatchObject({ status: 2, out: "" });
      expect(both.err).toContain("leave out --hitter, --session and --pitcher");
    }
    expect(await readdir(to)).toEqual(files);
  });

  it("takes no file's name for the folder", async () => {
    const from = await library("for a file", ["Ada"]);
    const { status, err } = await run("--library", from, "-o", join(dir, "ada.html"));
    expect(status).toBe(2);
    expect(err).toMatch(/ada\.html" is a file's name: reports go into a folder, one file a hitter\.\n$/);
    expect(await readdir(dir)).not.toContain("ada.html");
  });
});
