/**
 * Same in, same out: the same library, version and options give the same bytes, wherever and whenever: in another time
 * zone, under another locale, and on a disk that lists its files in another order.
 */
import { execFile } from "node:child_process";
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { sha256Of } from "../../src/swing/sha256.ts";
import { root } from "../house/files.ts";

vi.setConfig({ testTimeout: 240_000, hookTimeout: 240_000 });

const folder = mkdtempSync(join(tmpdir(), "batted-same-"));
const library = join(folder, "library");

/** Two settings of a machine that differ in all that a program may hear of its surroundings. */
interface Setting {
  readonly TZ: string;
  readonly LC_ALL: string;
  readonly turned: boolean;
  readonly BATTED_BUILT?: string;
}
const here: Setting = { TZ: "UTC", LC_ALL: "C", turned: false };
const there: Setting = { TZ: "Pacific/Kiritimati", LC_ALL: "tr_TR.UTF-8", turned: true };

/** Runs a script of the project; what it printed, with its exit status. */
async function run(
  setting: Setting,
  script: string,
  ...args: readonly string[]
): Promise<{ out: string; status: number }> {
  const { turned, ...told } = setting;
  const preload = turned ? ["--import", join(root, "tests/same/turned.mjs")] : [];
  const env = { ...process.env, ...told, LANG: told.LC_ALL, LANGUAGE: told.LC_ALL };
  try {
    const { stdout } = await promisify(execFile)(
      process.execPath,
      ["--import", "tsx", ...preload, join(root, script), ...args],
      { cwd: root, env, maxBuffer: 1e8 },
    );
    return { out: stdout, status: 0 };
  } catch (error) {
    const { stdout, stderr, code } = error as { stdout: string; stderr: string; code: number };
    if (code !== 1) throw new Error(stderr, { cause: error });
    return { out: stdout, status: code };
  }
}

const batted = (setting: Setting, ...args: readonly string[]) => run(setting, "src/cli/main.ts", ...args);

/** The sum of every file below a folder, by its path. */
function sumsOf(dir: string): Record<string, string> {
  const files = readdirSync(dir, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((path) => [path.slice(dir.length), sha256Of(readFileSync(path))]),
  );
}

const demo = (name: string): string => join(root, "data/demo", name);

beforeAll(() => {
  mkdirSync(library);
  for (const name of ["sessions.csv", "hitters.csv", "targets.csv"])
    copyFileSync(demo(name), join(library, name));
  const [head, ...rows] = readFileSync(demo("swings.csv"), "utf8").split("\n");
  const own = rows.filter((row) => /Ada K\.|Ben T\./.test(row));
  expect(own.length).toBeGreaterThan(600);
  // In the order of their names, in the other order, and one name that a locale sorts elsewhere.
  for (const [i, name] of ["b.csv", "a.csv", "İlk.csv", "I.csv"].entries())
    writeFileSync(join(library, name), [head, ...own.filter((_, k) => k % 4 === i), ""].join("\n"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("in another time zone, locale and order of files", () => {
  it("the settings reach a process", async () => {
    const script = join(folder, "told.mjs");
    writeFileSync(
      script,
      `import { readdir } from "node:fs/promises";
console.log(new Date(0).getDate(), (1.5).toLocaleString(), (await readdir(${JSON.stringify(library)})).join());`,
    );
    const told = async (setting: Setting) =>
      (
        await promisify(execFile)(
          process.execPath,
          [...(setting.turned ? ["--import", join(root, "tests/same/turned.mjs")] : []), script],
          { env: { ...process.env, TZ: setting.TZ, LC_ALL: setting.LC_ALL } },
        )
      ).stdout
        .trim()
        .split(" ");
    const [a, b] = [await told(here), await told(there)];
    expect(a.length).toBe(3);
    a.forEach((value, i) => expect(value).not.toBe(b[i]));
  });

  it("every chart is the same", async () => {
    const [a, b] = [await run(here, "tests/same/charts.ts"), await run(there, "tests/same/charts.ts")];
    expect(a.out.split("\n").length).toBeGreaterThan(15);
    expect(b.out).toBe(a.out);
  });

  it("enrich writes the same, and the same rows when its files are named in another order", async () => {
    const args = ["--sessions", demo("sessions.csv"), "--hitters", demo("hitters.csv")];
    const [a, b, c] = ["a.csv", "b.csv", "c.csv"].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    const files = ["a.csv", "b.csv", "I.csv"].map((name) => join(library, name));
    await batted(here, "enrich", ...files, "-o", a, ...args);
    await batted(there, "enrich", ...files, "-o", b, ...args);
    await batted(there, "enrich", ...files.toReversed(), "-o", c, ...args);
    const text = readFileSync(a, "utf8");
    expect(text.split("\n").length).toBeGreaterThan(400);
    expect(readFileSync(b, "utf8") === text).toBe(true);
    const sorted = (some: string): string[] => some.split("\n").sort();
    expect(sorted(readFileSync(c, "utf8"))).toEqual(sorted(text));
  });

  it("report and build write the same files, whatever build of the pages is kept", async () => {
    for (const command of ["report", "build"]) {
      const [a, b] = [join(folder, `${command}-here`), join(folder, `${command}-there`)];
      await batted(here, command, "--library", library, "-o", a);
      await batted({ ...there, BATTED_BUILT: "anew" }, command, "--library", library, "-o", b);
      expect(Object.keys(sumsOf(a)).length).toBeGreaterThan(2);
      expect(sumsOf(b)).toEqual(sumsOf(a));
    }
  });
});

describe("report --again", () => {
  const of = (name: string): string => join(folder, "again", name);
  const again = async (file: string, ...args: readonly string[]) => {
    const { out, status } = await batted(
      there,
      "report",
      "--again",
      file,
      "--library",
      library,
      "--json",
      ...args,
    );
    return { ...(JSON.parse(out) as { same: boolean; reasons: string[] }), status };
  };

  beforeAll(async () => {
    const call = ["--library", library, "--units", "metric", "--initials", "--without-flagged"];
    await batted(here, "report", ...call, "--hitter", "Ada K.", "-o", join(folder, "again"));
  });

  it("makes a report again as its foot says, the same to the byte, and writes it where it is told to", async () => {
    const file = of("report-a-k.html");
    expect(await again(file, "-o", join(folder, "remade"))).toEqual({
      file,
      same: true,
      reasons: [],
      status: 0,
    });
    expect(readFileSync(join(folder, "remade/report-a-k.html"), "utf8")).toBe(readFileSync(file, "utf8"));
  });

  it("says what has changed: the report, the version, the library", async () => {
    const text = readFileSync(of("report-a-k.html"), "utf8");
    writeFileSync(of("touched.html"), text.replace("</main>", "<p>+10 mph</p></main>"));
    expect(await again(of("touched.html"))).toMatchObject({
      same: false,
      reasons: ["version and library are what they were, so the report itself was changed"],
      status: 1,
    });
    writeFileSync(of("older.html"), text.replace(/(version&quot;:&quot;)[^&]+/, "$10.0.1"));
    expect((await again(of("older.html"))).reasons.join()).toMatch(/^it was made by version 0\.0\.1/);
    const sessions = join(library, "sessions.csv");
    const before = readFileSync(sessions, "utf8");
    writeFileSync(sessions, `${before.trimEnd()}\n2031-01-01 tee,2031-01-01\n`);
    const changed = await again(of("report-a-k.html"));
    writeFileSync(sessions, before);
    expect(changed.reasons).toEqual(changed.same ? [] : ["the library's files have changed since"]);
    expect(changed.same).toBe(false);
  });

  it("refuses a file that is no report, and a library without the hitter", async () => {
    const no = join(folder, "no.html");
    for (const text of [
      "<p>hello</p>",
      `<footer data-made="{&quot;hitter&quot;:1}">`,
      `<footer data-made="{">`,
    ]) {
      writeFileSync(no, text);
      await expect(batted(here, "report", "--again", no)).rejects.toThrow(
        "no report whose foot says how it was made",
      );
    }
    await expect(batted(here, "report", "--again", join(folder, "none.html"))).rejects.toThrow(
      "does not exist",
    );
    await expect(batted(here, "report", "--library", library)).rejects.toThrow("--output");
  });
});
