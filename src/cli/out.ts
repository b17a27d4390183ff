/**
 * What a command says, and how it ends. It is all that a command can reach of the terminal, so that whatever stands in a
 * file, a name or a path can't move a cursor, turn the direction of reading or pass for something the program said.
 */
import { printableLines } from "../swing/problems.ts";
import { folded } from "./fold.ts";
import { jsonText } from "./json.ts";
import { progress, type Progress } from "./howFar.ts";

/** 0: done; 1: the data has problems; 2: the call is wrong. */
export type Status = 0 | 1 | 2;

export interface Out {
  /** Prints lines of the answer: one or more, the last newline not needed; folded to a terminal, tables apart. */
  print(text: string): void;
  /** Prints the answer for a machine. */
  json(value: unknown, indent?: number): void;
  /** Says lines beside the answer, on stderr. */
  tell(text: string): void;
  /** A line on stderr that says how far something long has come. */
  progress(label: string): Progress;
  /** Whether someone is there who sees a question and can answer it. */
  readonly canAsk: boolean;
  /** Asks a question of yes or no. */
  yes(question: string): Promise<boolean>;
  /** Asks which of several; the place of the answer, null for none of them. */
  choose(question: string, options: readonly string[]): Promise<number | null>;
  /** Sets the exit status, which never falls. */
  end(status: Status): void;
  /** The exit status so far. */
  readonly status: Status;
}

/** A terminal wider than this is not filled: long lines are hard to read. */
const widest = 100;

const ended = (text: string): string => (text === "" || text.endsWith("\n") ? text : `${text}\n`);

/** The process's own streams. */
export function terminal(): Out {
  let status: Status = 0;
  const { stdout, stderr } = process;
  return {
    print(text) {
      const lines = ended(printableLines(text));
      stdout.write(stdout.isTTY ? folded(lines, Math.min(stdout.columns || 80, widest)) : lines);
    },
    json(value, indent) {
      stdout.write(`${jsonText(value, indent)}\n`);
    },
    tell(text) {
      stderr.write(ended(printableLines(text)));
    },
    progress: (label) => progress(label, stderr),
    get canAsk() {
      return process.stdin.isTTY === true && stderr.isTTY === true;
    },
    async yes(question) {
      const { yes } = await import("./ask.ts");
      return yes(question);
    },
    async choose(question, options) {
      const { choose } = await import("./ask.ts");
      return choose(printableLines(question), options.map(printableLines));
    },
    end(to) {
      if (to > status) status = to;
    },
    get status() {
      return status;
    },
  };
}
