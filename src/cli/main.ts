#!/usr/bin/env node
/**
 * The program `batted`: from the sources `npx tsx src/cli/main.ts <command>`, and the package's bin when built.
 *
 * One command a file. Each exports `register(program, out)`, which only describes the command; what it needs to run is
 * imported inside its action, so that `--help` and a wrong call answer at once. A new command adds its line to
 * `commands` below. An action throws `Fault` (errors.ts) to end with a sentence, says its result through `out` (out.ts),
 * which is all it may reach of the terminal, and calls `out.end(1)` when it has said all there is to say about data
 * with problems.
 */
import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Command } from "commander";
import { endingOf, Fault } from "./errors.ts";
import { terminal, type Out } from "./out.ts";

interface CommandFile {
  register(program: Command, out: Out): void;
}

/** Every command, in the order the help shows them. */
export const commands: Readonly<Record<string, () => Promise<CommandFile>>> = {
  check: () => import("./check.ts"),
  add: () => import("./add.ts"),
  forget: () => import("./forget.ts"),
  enrich: () => import("./enrich.ts"),
  carry: () => import("./carry.ts"),
  fields: () => import("./fields.ts"),
  report: () => import("./report.ts"),
  gap: () => import("./gap.ts"),
  progress: () => import("./progress.ts"),
  trial: () => import("./trial.ts"),
  setup: () => import("./setup.ts"),
  drift: () => import("./drift.ts"),
  notebooks: () => import("./notebooks.ts"),
  build: () => import("./build.ts"),
};

/**
 * The program with the command named, or with all of them.
 * @param out what its commands say goes there
 */
export async function buildProgram(out: Out, only?: string): Promise<Command> {
  const program = new Command("batted")
    .description("Batted-ball notebooks: read, judge, compute and report a hitter's swings.")
    .helpCommand(false)
    .showSuggestionAfterError(true)
    .exitOverride()
    // The sentence is written once, at the end, in our own form.
    .configureOutput({
      outputError: () => {},
      writeOut: (text) => out.print(text),
      writeErr: (text) => out.tell(text),
    })
    .hook("preAction", (_, command) => refuseEmpty(command));
  const wanted = only !== undefined && Object.hasOwn(commands, only) ? [only] : Object.keys(commands);
  for (const name of wanted) (await commands[name]!()).register(program, out);
  return program;
}

/** An empty name would mean the folder that the command is run in: a script's unset variable, and never meant. */
function refuseEmpty(command: Command): void {
  const given = Object.values(command.opts<Record<string, unknown>>());
  const empty = command.options.find((option) => command.getOptionValue(option.attributeName()) === "");
  if (empty !== undefined) throw new Fault(`${empty.long ?? empty.flags} is given with nothing after it.`, 2);
  if (command.args.includes("") || given.some((value) => Array.isArray(value) && value.includes("")))
    throw new Fault(
      `An empty name is given to “${command.name()}”, where a file's or a folder's is wanted.`,
      2,
    );
}

/**
 * Runs one command line, without the program's own name.
 * @returns the exit status: 0 done, 1 the data has problems, 2 the call is wrong.
 */
export async function main(args: readonly string[]): Promise<number> {
  const out = terminal();
  try {
    const program = await buildProgram(out, args[0]);
    await program.parseAsync([...args], { from: "user" });
    return out.status;
  } catch (error) {
    const { text, status } = endingOf(error);
    if (text !== "") out.tell(text);
    if (status === 70 && error instanceof Error && process.env["BATTED_TRACE"]) out.tell(error.stack ?? "");
    return status;
  }
}

/** Runs the process's own command line: the exit status is set, and a reader that hangs up is no error. */
export async function runProcess(): Promise<void> {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EPIPE") process.exit(0);
      throw error;
    });
  }
  process.exitCode = await main(process.argv.slice(2));
}

const started = process.argv[1];
if (started !== undefined && fileURLToPath(import.meta.url) === realpathSync(started)) await runProcess();
