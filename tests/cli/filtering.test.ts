/** One filter for every command that reads swings: the same options, one meaning, and a sentence for what isn't there. */
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { GapReport } from "../../src/cli/gapReport.ts";
import type { ProgressReport } from "../../src/cli/progress.ts";
import { run } from "./run.ts";

const demo = ["--library", fileURLToPath(new URL("../../data/demo", import.meta.url))];
const commands = [["report", "-o", "nowhere"], ["gap"], ["drift"], ["build", "-o", "nowhere"], ["progress"]];
const refused = "8 rows were refused and are in no figure; “check” names them.\n";

let dir: string;
beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), "filtering-"));
});
afterAll(() => rm(dir, { recursive: true }));

describe.each(commands.map((words) => ({ name: words[0]!, words })))("batted $name", ({ words }) => {
  it("tells of every option, and refuses what no swing has in a sentence", { timeout: 60_000 }, async () => {
    const { out } = await run(words[0]!, "--help");
    for (const option of ["drill", "dates", "since", "until", "pitch-type", "pitch-speed", "pitcher"])
      expect(out).toMatch(new RegExp(`^ +--${option} `, "m"));
    const { status, out: printed, err } = await run(...words, ...demo, "--pitch-type", "fastbal");
    expect({ status, printed, err: err.replace(refused, "") }).toEqual({
      status: 2,
      printed: "",
      err: `No swing has the pitch type “fastbal”; there are fastball, curveball, changeup and slider.\n`,
    });
    expect(await run(...words, ...demo, "--dates", "month")).toMatchObject({
      status: 2,
      err: expect.stringContaining(
        "--dates: dates are week, four-weeks, or a first and a last day",
      ) as string,
    });
  });
});

describe("a call", { timeout: 60_000 }, () => {
  it.each([
    [["--pitch-speed", "110-120"], "No swing has the pitch speed 110-120 mph; there are 70-80, 60-70, "],
    [["--pitcher", "Jory C."], "No swing has the pitcher “Jory C.”; there are Jory B., "],
    [["--drill", "At-bat"], "No swing has the drill “At-bat”; there are At-bats, "],
    [["--pitch-speed", "80-70"], "--pitch-speed: of pitch speeds the lower comes first"],
    [["--dates", "week", "--since", "2025-03-03"], "--dates says which days by itself"],
    [["--since", "2025-02-30"], '--since takes a day like 2025-03-03, not "2025-02-30".'],
    [["--dates", "2020-01-01/2020-02-01"], "swings: from 2020-01-01 to 2020-02-01."],
  ])("of %j is refused in a sentence", async (options, sentence) => {
    const { status, out, err } = await run("gap", ...demo, "--hitter", "Cal R.", ...options);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain(sentence);
    expect(err.replace(refused, "").trimEnd().split("\n")).toHaveLength(1);
  });
});

describe("what is left", { timeout: 120_000 }, () => {
  it("is narrowed where something was pitched, with the ceiling of all swings", async () => {
    const gap = async (...options: string[]): Promise<GapReport> =>
      JSON.parse((await run("gap", ...demo, "--hitter", "Cal R.", "--json", ...options)).out) as GapReport;
    const [all, fast] = [await gap(), await gap("--pitch-type", "Fastball", "--pitch-speed", "70-80")];
    expect(fast.scope).toEqual({
      drill: null,
      pitch_type: "fastball",
      pitch_speed_mph: { low: 70, high: 80 },
      pitcher: null,
      since: null,
      until: null,
    });
    const [before, after] = [all, fast].map(({ hitters }) => hitters[0]!.swings);
    expect(after!.from).toBe(before!.from);
    expect(after!.to).toBeGreaterThan(0);
    expect(after!.to).toBeLessThan(before!.to);
    // A ball's power kept is against one ceiling, whatever is asked for: the tee's is what it was.
    const kept = (report: GapReport): unknown =>
      report.table.find(({ input, measure }) => input === "tee" && measure === "power_kept");
    expect(kept(fast)).toEqual(kept(all));
  });

  it("has its named days counted from the library's last, as its two days have", async () => {
    const progress = async (...options: string[]): Promise<ProgressReport> =>
      JSON.parse(
        (await run("progress", ...demo, "--hitter", "Gil P.", "--json", ...options)).out,
      ) as ProgressReport;
    const [named, dated] = [
      await progress("--dates", "four-weeks"),
      await progress("--since", "2025-03-17", "--until", "2025-04-13"),
    ];
    expect(named).toEqual(dated);
    const all = await progress();
    const swings = ({ hitters }: ProgressReport): number => hitters.reduce((sum, h) => sum + h.swings, 0);
    expect(swings(named)).toBeGreaterThan(0);
    expect(swings(named)).toBeLessThan(swings(all));
    const thrown = await progress("--pitcher", "coach wyn");
    expect(new Set(thrown.hitters.flatMap((h) => h.lines.map(({ input }) => input)))).toEqual(
      new Set(["live"]),
    );
  });

  it("stands on a report's face, in its foot, and without a name where names are initials", async () => {
    const asked = ["--hitter", "Gil P.", "--pitcher", "Jory B.", "--size", "page"];
    const { status, err } = await run("report", ...demo, ...asked, "--initials", "-o", join(dir, "reports"));
    expect([status, err]).toEqual([0, refused]);
    const [file] = (await readdir(join(dir, "reports"))).filter((name) => name !== "index.html");
    const page = join(dir, "reports", file!);
    const text = await readFile(page, "utf8");
    expect(text).toMatch(/Only thrown by J\. B\. A hitter’s ceiling/);
    expect(text).not.toContain("Jory");
    const again = await run("report", ...demo, "--again", page, "--json");
    expect(JSON.parse(again.out)).toMatchObject({ same: true });
  });

  it("of drift is what is told of, not what it is compared with", async () => {
    const drift = async (...options: string[]) =>
      JSON.parse((await run("drift", ...demo, "--json", ...options)).out) as {
        sessions: { session: string }[];
      };
    const [all, week] = [await drift(), await drift("--dates", "week")];
    expect(week.sessions.map(({ session }) => session)).toEqual(["2025-04-07 youth tee", "2025-04-08 tee"]);
    expect(all.sessions).toEqual(expect.arrayContaining(week.sessions));
  });
});
