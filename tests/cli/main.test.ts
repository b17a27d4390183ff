import { Command, CommanderError } from "commander";
import { describe, expect, it } from "vitest";
import { endingOf, Fault } from "../../src/cli/errors.ts";
import { buildProgram, commands } from "../../src/cli/main.ts";
import { libraryMeant } from "../../src/cli/library.ts";
import { terminal } from "../../src/cli/out.ts";
import { UnusableFile } from "../../src/swing/problems.ts";
import { run } from "./run.ts";

describe("every command", () => {
  const names = Object.keys(commands);

  it("is there", () => expect(names).toEqual(expect.arrayContaining(["check", "fields"])));

  it.each(names)("%s has --help and --json, and a description", async (name) => {
    const program = await buildProgram(terminal(), name);
    const command = program.commands.find((c) => c.name() === name);
    expect(command?.description()).toMatch(/\w+ \w+/);
    expect(command?.options.map((o) => o.long)).toContain("--json");
    const { status, out, err } = await run(name, "--help");
    expect([status, err]).toEqual([0, ""]);
    expect(out).toContain(`batted ${name}`);
    expect(out).toContain("--json");
    for (const line of out.split("\n")) expect(line.length, line).toBeLessThanOrEqual(80);
  });

  it.each(names)("%s ends with 2 and one sentence when an option doesn't exist", async (name) => {
    const { status, out, err } = await run(name, "--no-such-option");
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(/^[^\n]+[.)]\n$/);
    expect(err).not.toMatch(/^error|\bat \w+ \(/);
  });
});

describe("the program", () => {
  it("shows its commands", async () => {
    const { status, out } = await run("--help");
    expect(status).toBe(0);
    for (const name of Object.keys(commands)) expect(out).toMatch(new RegExp(`^  ${name}\\b`, "m"));
  });

  it("ends with 2 and its help when called with nothing", async () => {
    const { status, out, err } = await run();
    expect([status, out]).toEqual([2, ""]);
    expect(err).toContain("Usage: batted");
  });

  it("ends with 2 for a command it doesn't have, such as one of an object's own names", async () => {
    for (const name of ["chek", "constructor", "__proto__"]) {
      const { status, err } = await run(name);
      expect(status).toBe(2);
      expect(err).toMatch(/^Unknown command '[^\n]+\n$/);
    }
    expect((await run("chek")).err).toContain("check");
  });

  it.each([
    [["gap", "--library", ""], "--library is given with nothing after it."],
    [["build", "-o", "site", "--library", ""], "--library is given with nothing after it."],
    [["enrich", "data/demo/swings.csv", "-o", ""], "--output is given with nothing after it."],
    [["check", ""], "An empty name is given to “check”, where a file's or a folder's is wanted."],
    [
      ["add", "", "--library", "x"],
      "An empty name is given to “add”, where a file's or a folder's is wanted.",
    ],
  ])("takes no empty name for the folder it runs in: %j", async (args, sentence) => {
    expect(await run(...args)).toEqual({ status: 2, out: "", err: `${sentence}\n` });
  });

  it.each([
    [["gap", "data/demo/swings.csv", "--thresholds", "data"]],
    [["enrich", "data/demo/swings.csv", "-o", "/tmp/none.csv", "--thresholds", "data"]],
    [["add", "data/demo/swings.csv", "--library", "/tmp/none", "--map", "data"]],
  ])("names the folder that is given for a file: %j", async (args) => {
    const { status, err } = await run(...args);
    expect(err.split("\n").at(-2)).toBe("data is a folder, not a file.");
    expect(status).toBe(2);
  });

  it("says what to give where no library is named and the demo isn't there", () => {
    expect(libraryMeant(undefined)).toBe("data/demo");
    expect(libraryMeant("mine", "no/demo")).toBe("mine");
    expect(() => libraryMeant(undefined, "no/demo")).toThrow(
      new Fault("Say with --library which folder the swings are in: no/demo isn't here.", 2),
    );
  });

  it("leaves the process's own exit code alone", async () => {
    const before = process.exitCode;
    await run("check", "/no/such.csv");
    expect(process.exitCode).toBe(before);
  });
});

describe("an ending", () => {
  it.each([
    [new Fault("row 3 has no hitter", 1), "row 3 has no hitter.", 1],
    [new Fault("there is no port 99999.", 2), "there is no port 99999.", 2],
    [new UnusableFile("a.csv", "is empty"), "a.csv is empty.", 1],
    [new UnusableFile("a.csv", "does not exist", "call"), "a.csv does not exist.", 2],
    [new CommanderError(1, "commander.x", "error: option\n(try it)"), "Option (try it)", 2],
    [new CommanderError(0, "commander.helpDisplayed", "help"), "", 0],
    [
      Object.assign(new Error("x"), { code: "ENOSPC", syscall: "write", path: "out.csv" }),
      "out.csv: the disk is full.",
      2,
    ],
    [
      Object.assign(new Error("x"), { code: "EADDRINUSE", syscall: "listen", port: 80 }),
      "port 80: the port is in use.",
      2,
    ],
    [
      Object.assign(new Error("x"), { code: "EISDIR", syscall: "read" }),
      "A file that was asked for can't be used: it is a folder.",
      2,
    ],
    [
      Object.assign(new Error("x"), { code: "EROFS", syscall: "open", path: "out.csv" }),
      "out.csv: the disk can only be read.",
      2,
    ],
    [Object.assign(new Error("x"), { code: "EPIPE", syscall: "write" }), "", 0],
    [new TypeError("a is undefined"), "The program itself failed, which is a bug: a is undefined.", 70],
    ["text", "The program itself failed, which is a bug: text.", 70],
  ])("of %s is one sentence and a status", (error, text, status) => {
    expect(endingOf(error)).toEqual({ text, status });
  });

  it("of a command that throws anything is one sentence", async () => {
    const register = (program: Command): void => {
      program.command("fail").action(() => {
        throw new Fault("no\nluck", 1);
      });
    };
    const program = new Command().exitOverride();
    register(program);
    const error = await program.parseAsync(["fail"], { from: "user" }).catch((e: unknown) => e);
    expect(endingOf(error)).toEqual({ text: "no luck.", status: 1 });
  });
});
