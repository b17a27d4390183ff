/** What a command says goes through its `out`, which guards it: nothing else of a command reaches the terminal. */
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { describe, expect, it } from "vitest";
import { commands } from "../../src/cli/main.ts";
import { filesUnder } from "../house/files.ts";

/** `out` itself, what it is made of, and the process's own start. */
const allowed = ["out.ts", "ask.ts", "howFar.ts", "main.ts"];

/** Ways to a terminal, or to an exit status, past `out`. */
const past =
  /\bprocess\s*(\.|\[")\s*(stdout|stderr|exitCode|exit\b|emitWarning)|\}\s*=\s*process\b|\bconsole\b|["'](node:)?(process|console|tty)["']|\/dev\/(tty|std)|write(Sync)?\(\s*[12]\s*,/;

const files = filesUnder("src/cli", [".ts"]);
const codeOf = (file: string): string =>
  readFileSync(file, "utf8").replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, "");

describe("a command", () => {
  it.each([
    'process.stdout.write("a")',
    'process["stderr"].write("a")',
    "const { stdout } = process;",
    'console.log("a")',
    'import { stdout } from "node:process";',
    "process.exitCode = 1;",
    'writeSync(1, "a")',
  ])("would be found to reach past its out: %s", (line) => expect(line).toMatch(past));

  it("prints through its out alone", () => {
    const found = files.filter((file) => past.test(codeOf(file))).map((file) => basename(file));
    expect(found.filter((file) => !allowed.includes(file))).toEqual([]);
    // The rule sees what it is meant to see.
    expect(found).toEqual(expect.arrayContaining(["ask.ts", "main.ts", "out.ts"]));
  });

  it("is a file of its own name, and in the program's list", () => {
    const described = files.filter((file) => /export function register\b/.test(codeOf(file)));
    const found = described.map((file) => basename(file, ".ts"));
    expect(found.toSorted()).toEqual(Object.keys(commands).toSorted());
  });
});
