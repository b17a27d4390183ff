/**
 * The package as others get it: packed, installed from its tarball, and used in a project of plain Node, in one of
 * TypeScript and in one of Vite, each with nothing else in it. The three stand in one folder, which is installed
 * into once: an installation takes longer than all that is done with it.
 */
import { execFile } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { JSDOM } from "jsdom";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { launchChromium } from "../browser/chromium.ts";
import { serveStatic } from "../browser/static.ts";
import { drawing } from "../browser/svg.ts";
import { root } from "../house/files.ts";
import { answers } from "./analyst.ts";

const packed = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as {
  readonly name: string;
  readonly exports: Readonly<Record<string, unknown>>;
  readonly dependencies: Readonly<Record<string, string>>;
};
/** Every room that the package names, as it is imported. */
const rooms = Object.entries(packed.exports)
  .filter(([, target]) => typeof target === "object")
  .map(([name]) => name.replace(/^\./, packed.name));
/** Those that read and write files. */
const onDisk = [`${packed.name}/library`];

vi.setConfig({ testTimeout: 240_000, hookTimeout: 600_000 });

const folder = mkdtempSync(join(tmpdir(), "batted-package-"));
const inProject = (path: string): string => join(folder, "project", path);
let listed: readonly string[] = [];

const started = promisify(execFile);

/** Runs a program and gives what it printed; what it printed in the error when it fails. */
async function run(cwd: string, file: string, args: readonly string[]): Promise<string> {
  // What npm tells the scripts of this project is not for another one.
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !/^(npm_|INIT_CWD)/.test(name)),
  );
  env["npm_config_cache"] = process.env["npm_config_cache"];
  env["npm_config_registry"] = process.env["npm_config_registry"];
  const kept = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== undefined));
  try {
    return (await started(file, args, { cwd, env: kept, maxBuffer: 1e8 })).stdout;
  } catch (error) {
    const { stdout, stderr } = error as { stdout: string; stderr: string };
    throw new Error(`${file} ${args.join(" ")}\n${stdout}\n${stderr}`, { cause: error });
  }
}

const node = (path: string, ...args: readonly string[]): Promise<string> =>
  run(inProject("."), process.execPath, [path, ...args]);

function write(path: string, text: string): void {
  mkdirSync(join(inProject(path), ".."), { recursive: true });
  writeFileSync(inProject(path), text);
}

const json = (path: string, value: unknown): void => write(path, JSON.stringify(value));

/** The analyst's file as it stands in another project. */
const analyst = readFileSync(join(root, "tests/package/analyst.ts"), "utf8").replace(
  /"\.\.\/\.\.\/src\/(?:(\w+)\/)?index\.ts"/g,
  (_, room?: string) => JSON.stringify(room === undefined ? packed.name : `${packed.name}/${room}`),
);

/** A file that imports every room of a list and calls it by its name. */
const imports = (names: readonly string[]): string =>
  `${names.map((name, i) => `import * as room${i} from ${JSON.stringify(name)};`).join("\n")}
export const rooms = { ${names.map((name, i) => `${JSON.stringify(name)}: room${i}`).join(", ")} };\n`;

const runs = `import { JSDOM } from "jsdom";
import { answers } from "./analyst.js";
process.stdout.write(JSON.stringify(answers(new JSDOM().window.document)));\n`;

const wanted = answers(new JSDOM().window.document);

beforeAll(async () => {
  const args = ["pack", "--json", "--loglevel", "error", "--pack-destination", folder];
  const said = await run(root, "npm", args);
  const described: unknown = JSON.parse(said.slice(said.search(/^[[{]/m)));
  const [{ filename, files }] = Object.values(described as object) as [
    { filename: string; files: { path: string }[] },
  ];
  listed = files.map(({ path }) => path);
  json("package.json", { name: "project", private: true });
  const install = ["install", "--prefer-offline", "--no-audit", "--no-fund", "--loglevel", "error"];
  await run(inProject("."), "npm", [
    ...install,
    join(folder, filename),
    `jsdom@${packed.dependencies["jsdom"]}`,
  ]);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the tarball", () => {
  it("has what the commands and pages need, and nothing of the tests or of what makes the demo", () => {
    const own = listed.filter((path) => !path.startsWith("node_modules/"));
    for (const path of [
      "README.md",
      "dist/src/index.js",
      "dist/src/index.d.ts",
      "dist/src/cli/main.js",
      "dist/data/levels.json",
      "dist/data/balls.json",
      "dist/data/playing-fields.json",
      "dist/data/thresholds.json",
      "dist/data/datapackage.json",
      "dist/data/maps/metric.json",
      "dist/notebooks/index.html",
      "dist/notebooks/page/template.html",
      "dist/built/site.json",
      "dist/built/page.json",
    ])
      expect(own).toContain(path);
    expect(
      own.filter((path) => /tests?\/|demo|\.test\.|golden|DEVELOPERS|(?<!\.d)\.ts$|\.mjs$/.test(path)),
    ).toEqual([]);
  });

  it("names only files that it has, a room's types beside its code", () => {
    const targets = Object.values(packed.exports).flatMap((target) =>
      typeof target === "object" ? Object.values(target as Record<string, string>) : [target as string],
    );
    const named = targets.filter((target) => !target.includes("*")).map((target) => target.replace("./", ""));
    expect(rooms.length).toBeGreaterThan(10);
    expect(named.filter((path) => !listed.includes(path))).toEqual([]);
  });
});

describe("in a project of plain Node", () => {
  it("gap, carry and chart are what they are from the sources", async () => {
    json("node/package.json", { type: "module" });
    write(
      "node/analyst.js",
      ts.transpileModule(analyst, {
        compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
      }).outputText,
    );
    write("node/run.js", runs);
    expect(JSON.parse(await node("node/run.js"))).toEqual(wanted);
    expect(wanted.gap).toMatchObject({ n: [24, 24] });
    expect(wanted.carry_ft).toBeGreaterThan(390);
    expect(wanted.chart).toMatch(/^<svg/);
  });

  it("every room has in it what its sources export", async () => {
    write("node/rooms.js", imports(rooms));
    write(
      "node/names.js",
      `import { rooms } from "./rooms.js";
process.stdout.write(JSON.stringify(Object.entries(rooms).map(([name, room]) => [name, Object.keys(room)])));\n`,
    );
    const found = JSON.parse(await node("node/names.js")) as [string, string[]][];
    for (const [name, names] of found) {
      const file = join(root, "src", name.slice(packed.name.length), "index.ts");
      const sources = (await import(file)) as object;
      expect(names, name).toEqual(Object.keys(sources).sort());
      expect(names.length, name).toBeGreaterThan(0);
    }
  });

  it("its program reads, adds, computes and writes pages and reports", async () => {
    cpSync(join(root, "data/demo"), inProject("demo"), {
      recursive: true,
      filter: (path) => !path.endsWith(".ts"),
    });
    const batted = (...args: string[]): Promise<string> => node("node_modules/.bin/batted", ...args);
    expect(await batted("carry", "--exit-velocity", "100", "--launch-angle", "28", "--bats", "R")).toMatch(
      /^Carry \d+ ft/,
    );
    for (const command of [["gap"], ["report", "-o", "out"], ["notebooks"]])
      await expect(batted(...command)).rejects.toThrow("Say with --library which folder the swings are in");
    expect(await batted("report", "--library", "demo", "--hitter", "Ada K.", "-o", "reports")).toContain(
      "Ada K.",
    );
    expect(await batted("build", "--library", "demo", "-o", "site")).toMatch(/^\d+ pages/);
  });

  it("its pages come along built: nothing is made again", async () => {
    const built = `../node_modules/${packed.name}/dist/notebooks/built.js`;
    write(
      "node/kept.js",
      `import { keptBuild } from ${JSON.stringify(built)};
const make = () => { throw new Error("made again"); };
const names = async (name) => (await keptBuild(name, make)).map(({ file }) => file);
process.stdout.write(JSON.stringify([await names("site"), await names("page")]));\n`,
    );
    const [site, page] = JSON.parse(await node("node/kept.js")) as [string[], string[]];
    expect(site).toContain("index.html");
    expect(site.filter((file) => file.endsWith(".html")).length).toBeGreaterThan(10);
    expect(page).toEqual(["spray-chart.html"]);
  });

  it("the README's example for an analyst runs as it stands there", async () => {
    const [, example] = /```js\n([\s\S]*?batted-ball-notebooks[\s\S]*?)```/.exec(
      readFileSync(join(root, "README.md"), "utf8"),
    )!;
    write("node/readme.mjs", example!.replace("my-folder", inProject("demo")));
    const said = await run(inProject("node"), process.execPath, ["readme.mjs"]);
    expect(said.split("\n").length).toBeGreaterThan(2);
    expect(readFileSync(inProject("node/spray.svg"), "utf8")).toMatch(/^<svg[\s\S]*<\/svg>\n?$/);
    expect(example!.split("\n").filter((line) => line !== "").length).toBeLessThanOrEqual(20);
  });
});

describe("in a project of TypeScript", () => {
  it("strict nodenext accepts the types of every room, those of packages too, and what it compiles runs", async () => {
    json("typescript/package.json", { type: "module" });
    json("typescript/tsconfig.json", {
      compilerOptions: {
        module: "nodenext",
        target: "es2022",
        strict: true,
        skipLibCheck: false,
        outDir: "out",
      },
    });
    write("typescript/analyst.ts", analyst);
    write("typescript/rooms.ts", imports(rooms));
    write("typescript/out/run.js", runs);
    await node(join(root, "node_modules/typescript/bin/tsc"), "-p", "typescript");
    expect(JSON.parse(await node("typescript/out/run.js"))).toEqual(wanted);
    // That the compiler looks at all: an exit velocity is no text.
    write("typescript/analyst.ts", analyst.replace("exit_velocity_mph: 100", `exit_velocity_mph: "100"`));
    await expect(node(join(root, "node_modules/typescript/bin/tsc"), "-p", "typescript")).rejects.toThrow(
      "TS2322",
    );
  });
});

describe("in a project of Vite", () => {
  it("every room but the disk's is built for a browser, and gives the same there", async () => {
    write("vite/index.html", `<!doctype html><script type="module" src="/main.ts"></script>`);
    write("vite/analyst.ts", analyst);
    write("vite/rooms.ts", imports(rooms.filter((name) => !onDisk.includes(name))));
    write(
      "vite/main.ts",
      `import { answers } from "./analyst.ts";
import { rooms } from "./rooms.ts";
const names = Object.values(rooms).flatMap((room) => Object.keys(room));
Object.assign(globalThis, { answered: { ...answers(document), names: names.length } });\n`,
    );
    const vite = inProject("node_modules/vite/bin/vite.js");
    const said = await node(vite, "build", "vite", "--minify", "false");
    expect(said).not.toMatch(/externalized for browser/);
    const server = await serveStatic(inProject("vite/dist"), "/");
    const { browser } = await launchChromium();
    try {
      const page = await browser.newPage();
      const errors: string[] = [];
      page.on("pageerror", ({ message }) => errors.push(message));
      await page.goto(`${server.address}index.html`);
      await page
        .waitForFunction("globalThis.answered !== undefined", undefined, { timeout: 20_000 })
        .catch(() => {});
      expect(errors).toEqual([]);
      const found = (await page.evaluate("globalThis.answered")) as typeof wanted & { names: number };
      expect(found.gap).toEqual(wanted.gap);
      expect(found.carry_ft).toBeCloseTo(wanted.carry_ft!, 9);
      expect(drawing(found.chart)).toEqual(drawing(wanted.chart));
      expect(found.names).toBeGreaterThan(200);
    } finally {
      await browser.close();
      await server.close();
    }
  });
});
