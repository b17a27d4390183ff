/** The commands that serve and build the notebooks, as a person calls them. */
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { pages } from "../../notebooks/pages.ts";
import { root } from "../house/files.ts";
import { run } from "./run.ts";

const scratch = mkdtempSync(join(tmpdir(), "batted-notebooks-"));
const library = join(scratch, "library");
mkdirSync(library);
writeFileSync(
  join(library, "swings.csv"),
  "hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg\nAda Q.,R,tee,82,14,-8\nAda Q.,R,tee,fast,14,-8\n",
);

afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe("batted build", () => {
  const site = join(scratch, "site");

  it("writes every page and the library, and says so", async () => {
    const { status, out, err } = await run("build", "--library", library, "-o", site, "--json");
    expect({ status, err }).toEqual({ status: 0, err: "" });
    const { files } = JSON.parse(out) as { files: { file: string; bytes: number }[] };
    for (const { file } of pages) expect(readFileSync(join(site, file), "utf8")).toContain("<main");
    for (const { file, bytes } of files) expect(readFileSync(join(site, file)).length, file).toBe(bytes);
    const held = JSON.parse(readFileSync(join(site, "library.json"), "utf8")) as Record<string, unknown>;
    expect(held).toMatchObject({ swings: { n: 1 }, refused: 1, trouble: null });
    expect(held["problems"]).toEqual([expect.stringContaining("row 3")]);
  });

  it("replaces an earlier build, and never writes among other things", async () => {
    writeFileSync(join(site, "assets", "old-module.js"), "");
    writeFileSync(join(site, "robots.txt"), "kept");
    expect((await run("build", "--library", library, "-o", site)).status).toBe(0);
    expect(existsSync(join(site, "assets", "old-module.js"))).toBe(false);
    expect(readFileSync(join(site, "robots.txt"), "utf8")).toBe("kept");
    const { status, err } = await run("build", "--library", library, "-o", library);
    expect(status).toBe(2);
    expect(err).toContain("choose a new folder");
  });

  it("ends with one sentence when the call is wrong", async () => {
    const missing = await run("build", "--library", join(scratch, "none"), "-o", join(scratch, "other"));
    expect(missing).toMatchObject({ status: 2, out: "" });
    expect(missing.err).toMatch(/none does not exist\.\n$/);
    expect((await run("build", "--library", library)).status).toBe(2);
  });
});

describe("batted notebooks", () => {
  it("ends with one sentence when the call is wrong", async () => {
    expect((await run("notebooks", "--port", "eighty")).err).toContain("whole number");
    expect((await run("notebooks", "--port", "70000")).status).toBe(2);
    expect((await run("notebooks", "--library", join(scratch, "none", "below"))).err).toMatch(
      /does not exist\.\n$/,
    );
  });

  it.each([
    [join(scratch, "a new one"), "The folder is new"],
    ["data/demo", "The demo is only read"],
  ])("says of %s what it is, and lets pages write to no demo", async (folder, said) => {
    const args = ["--import", "tsx", "src/cli/main.ts", "notebooks", "--library", folder];
    const child = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
    try {
      const line = await new Promise<string>((done) =>
        child.stdout.once("data", (d: Buffer) => done(String(d))),
      );
      expect(line).toContain(said);
      const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(line)![0];
      const page = await (await fetch(`${address}bring-a-file.html`)).text();
      const token = /<meta name="([\w-]*token[\w-]*)" content="([^"]*)"/.exec(page);
      expect(token?.[2] === "").toBe(folder === "data/demo");
      expect(existsSync(resolve(root, folder))).toBe(true);
    } finally {
      child.kill("SIGTERM");
    }
  });

  it("prints an address of this machine, serves there, and ends when told to", async () => {
    const args = ["--import", "tsx", "src/cli/main.ts", "notebooks", "--library", library];
    const child = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
    const ended = new Promise<number | null>((done) => child.once("exit", done));
    try {
      const line = await new Promise<string>((done) =>
        child.stdout.once("data", (d: Buffer) => done(String(d))),
      );
      const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(line)?.[0];
      expect(line).toContain(library);
      expect(await (await fetch(address!)).text()).toContain("Batted-ball notebooks");
    } finally {
      child.kill("SIGTERM");
    }
    expect(await ended).toBe(0);
  });
});
