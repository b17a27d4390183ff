/**
 * How a command ends when it can't do what was asked: one plain sentence on stderr and an exit status,
 * 1 when the data has problems, 2 when the call is wrong, 70 (sysexits' EX_SOFTWARE) when the program is, and 130, as
 * shells have it, when someone stopped it with Ctrl+C.
 */
import { CommanderError } from "commander";
import { isSystemError, systemReason } from "../library/disk.ts";
import { printable } from "../swing/problems.ts";
import { capital } from "../swing/words.ts";

/** What a command throws to end with a plain sentence. */
export class Fault extends Error {
  override readonly name = "Fault";
  /** The exit status: 1, the data has problems; 2, the call is wrong. */
  readonly status: 1 | 2;

  constructor(message: string, status: 1 | 2) {
    super(message);
    this.status = status;
  }
}

/** What ends a command at whose question Ctrl+C was typed. */
export class Stopped extends Error {
  override readonly name = "Stopped";
}

/** What to say, and the exit status, for anything thrown. An empty text: nothing is left to say. */
export interface Ending {
  readonly text: string;
  readonly status: number;
}

/** A file that can't be used says itself whether the call or the data is at fault (src/reading/read.ts). */
interface WithFault extends Error {
  readonly fault: "data" | "call";
}

/** One line that ends as a sentence does, and moves no terminal's cursor. A file's name keeps its capitals. */
function sentence(text: string): string {
  const line = printable(text.replace(/\s+/g, " ").trim());
  return /[.!?)]$/.test(line) ? line : `${line}.`;
}

/**
 * The sentence and the exit status for whatever a command threw.
 * @example endingOf(new Fault("Row 3 has no hitter.", 1)).status // 1
 */
export function endingOf(error: unknown): Ending {
  if (error instanceof Fault) return { text: sentence(error.message), status: error.status };
  if (error instanceof Stopped) return { text: "Stopped.", status: 130 };
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return { text: "", status: 0 };
    // The help has been printed already.
    if (error.code === "commander.help") return { text: "", status: 2 };
    return { text: sentence(capital(error.message.replace(/^error: /, ""))), status: 2 };
  }
  if (error instanceof Error && "fault" in error) {
    return { text: sentence(error.message), status: (error as WithFault).fault === "data" ? 1 : 2 };
  }
  if (isSystemError(error)) {
    if (error.code === "EPIPE") return { text: "", status: 0 };
    const port = "port" in error ? `port ${String(error.port)}` : null;
    // Of an open file the system tells no name, and the name of its own call says nothing to anybody.
    const what = [error.path, port].find((name) => name) ?? "A file that was asked for can't be used";
    return { text: sentence(`${what}: ${systemReason(error)}`), status: 2 };
  }
  const message = error instanceof Error ? error.message : String(error);
  return { text: sentence(`The program itself failed, which is a bug: ${message}`), status: 70 };
}
