/** The swings a command works on: a library's, or those of CSV files with the tables that go with them. */
import type { Command } from "commander";
import type { Hitter, Session, Swing } from "../swing/fields.ts";
import type { Library } from "../library/library.ts";
import { Fault } from "./errors.ts";
import { libraryMeant } from "./library.ts";
import { fieldsOption, knowFieldsOf } from "./ownFields.ts";
import type { Out } from "./out.ts";

/** What the options of a call name. */
export interface SourceOptions {
  readonly library?: string | undefined;
  readonly sessions?: string | undefined;
  readonly hitters?: string | undefined;
  readonly fields?: string | undefined;
  readonly thresholds?: string | undefined;
}

/** What a call names. */
export interface SourceCall extends SourceOptions {
  readonly files: readonly string[];
}

/**
 * Gives a command the arguments that `readSource` reads.
 * @param tables what the command takes of the two tables that can go with CSV files
 */
export const withSource = (
  command: Command,
  tables: { readonly sessions: string; readonly hitters: string },
): Command =>
  command
    .argument("[csv...]", "files of swings; without any, a library")
    .option("--library <dir>", "the library's folder (default: data/demo)")
    .option("--sessions <csv>", `with CSV files: the sessions' ${tables.sessions}`)
    .option("--hitters <csv>", `with CSV files: the hitters' ${tables.hitters}`)
    .option(fieldsOption[0], `with CSV files: ${fieldsOption[1]}`)
    .option(
      "--thresholds <json>",
      "with CSV files: your own figures in place of some of data/thresholds.json",
    );

/** What it found. */
export interface Source {
  /** The library's folder, or the files. */
  readonly name: string;
  readonly swings: readonly Swing[];
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
  readonly thresholds: unknown;
  /** Rows and files that are in no figure. */
  readonly refused: number;
}

/**
 * Reads the swings that a call names, the demo's when it names none. Refused rows of CSV files are told on
 * stderr and set the exit status; a library's were told when they were added.
 * @throws Fault when there are no swings, or a library and files are both named
 */
export async function readSource(out: Out, call: SourceCall): Promise<Source> {
  const source = call.files.length === 0 ? await fromLibrary(out, call) : await fromFiles(out, call);
  if (source.swings.length === 0) throw new Fault(`${source.name} holds no swings.`, 1);
  return source;
}

async function fromLibrary(out: Out, call: SourceCall): Promise<Source> {
  const beside = (["sessions", "hitters", "fields", "thresholds"] as const).find(
    (name) => call[name] !== undefined,
  );
  if (beside !== undefined)
    throw new Fault(`--${beside} goes with CSV files; a library has its own ${beside}.`, 2);
  const { openLibrary } = await import("../library/library.ts");
  const library = await openLibrary(libraryMeant(call.library));
  const refused = await tellOfLibrary(out, library);
  return { ...library, name: library.dir, refused };
}

/**
 * Tells on stderr what of a library can't be read, and what its tables hold that can't be used, sentence by sentence,
 * and how many rows are in no figure. A refused row of those tables sets the exit status; refused swings did so when they were added.
 * @returns how many rows are in no figure
 */
export async function tellOfLibrary(out: Out, library: Library): Promise<number> {
  const { companionProblems } = await import("../library/library.ts");
  const { problemSentence } = await import("../swing/problems.ts");
  const { tellUnread, unreadOf } = await import("./unread.ts");
  tellUnread(out, unreadOf(library));
  const told = companionProblems(library);
  for (const problem of told) out.tell(problemSentence(problem));
  if (told.some(({ kind }) => kind === "refused")) out.end(1);
  const refused = library.files.reduce((sum, file) => sum + file.refused, 0);
  if (refused > 0)
    out.tell(
      refused === 1
        ? "1 row was refused and is in no figure; “check” names it."
        : `${refused} rows were refused and are in no figure; “check” names them.`,
    );
  return refused;
}

async function fromFiles(out: Out, call: SourceCall): Promise<Source> {
  if (call.library !== undefined) throw new Fault("Give a library or CSV files, not both.", 2);
  const { collect, Seen } = await import("../reading/read.ts");
  const { readHitters, readSessions, scanFile } = await import("../library/files.ts");
  const { problemSentence } = await import("../swing/problems.ts");
  const { readJson } = await import("../library/disk.ts");
  const seen = new Seen();
  const swings: Swing[] = [];
  let refused = 0;
  const tell = (problems: readonly Parameters<typeof problemSentence>[0][]): void => {
    for (const problem of problems) out.tell(problemSentence(problem));
  };
  for (const file of call.files) {
    const reading = await collect(scanFile("swings", file, { seen }));
    for (const row of reading.rows) swings.push(row);
    refused += reading.refused.length;
    tell(reading.problems);
  }
  const fields = await knowFieldsOf(call.fields);
  const sessions = call.sessions === undefined ? null : await readSessions(call.sessions);
  const hitters = call.hitters === undefined ? null : await readHitters(call.hitters);
  for (const table of [fields, sessions, hitters]) {
    if (table === null) continue;
    refused += table.refused.length;
    tell(table.problems);
  }
  if (refused > 0) out.end(1);
  return {
    name: call.files.join(", "),
    swings,
    sessions: sessions?.rows ?? [],
    hitters: hitters?.rows ?? [],
    thresholds: call.thresholds === undefined ? null : await readJson(call.thresholds),
    refused,
  };
}
