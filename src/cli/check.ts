/** `batted check`: reads and judges files, and names each refused row with its reason. */
import type { Command } from "commander";
import type { ColumnSummary, Known } from "../reading/check.ts";
import type { Problem } from "../swing/problems.ts";
import type { ColumnMap } from "../reading/maps.ts";
import type { ReadOptions } from "../reading/read.ts";
import type { Out, Status } from "./out.ts";
import { append } from "../swing/lists.ts";

interface Options {
  readonly map?: string;
  readonly library?: string;
  readonly json?: true;
}

/** What is said of one file. */
export interface FileVerdict {
  readonly file: string;
  readonly table: string;
  readonly sha256: string;
  readonly read: number;
  readonly taken: number;
  readonly refused: number;
  readonly duplicates: number;
  /** Whether its headings are its own, and were guessed as `add` guesses them. */
  readonly guessed: boolean;
  readonly columns: readonly ColumnSummary[];
  readonly problems: readonly Problem[];
}

export function register(program: Command, out: Out): void {
  program
    .command("check")
    .description("read and judge files of swings, sessions, hitters, targets, names or fields")
    .argument("[csv...]", "the files; each one's table is told from its headings. Or a library's folder")
    .option("--map <file>", "a column map (JSON) for files with other headings, units or words")
    .option("--library <dir>", "a library: whose lists should know the names; without files, itself")
    .option("--json", "print the verdicts as JSON")
    .addHelpText(
      "after",
      "\nExit status: 0 all rows are taken; 1 rows are refused, or a file can't be used;\n2 the call is wrong.",
    )
    .action(async (files: string[], options: Options) => {
      const folder = await libraryAlone(files, options);
      out.end(
        folder === null
          ? await check(out, files, options)
          : await checkLibrary(out, folder, options.json === true),
      );
    });
}

/** The library that is to be judged itself; null when files are. */
async function libraryAlone(files: readonly string[], { library }: Options): Promise<string | null> {
  if (files.length === 0) return library ?? null;
  const { stat } = await import("node:fs/promises");
  const only = files.length === 1 && library === undefined ? files[0]! : null;
  return only !== null && (await stat(only).catch(() => null))?.isDirectory() === true ? only : null;
}

async function knownNames(out: Out, dir: string | undefined): Promise<Known> {
  if (dir === undefined) return {};
  const { hittersSpelled, openCompanions } = await import("../library/library.ts");
  const { unreadOf } = await import("./unread.ts");
  const { sessions, hitters, names, problems } = await openCompanions(dir);
  const unread = unreadOf({ problems });
  for (const sentence of unread) out.tell(sentence);
  if (unread.length > 0) out.end(1);
  return {
    spelled: await hittersSpelled(dir),
    answered: names,
    ...(sessions.length === 0 ? {} : { sessions: new Set(sessions.map((s) => s.session)) }),
    ...(hitters.length === 0 ? {} : { hitters: new Set(hitters.map((h) => h.hitter)) }),
  };
}

/** Copies of rows are told one by one up to here, and then counted. */
const toldSingly = 10;

/** What is said of one session of a library. */
interface SessionVerdict {
  readonly session: string | null;
  readonly swings: number;
  /** Old values, oldest first, with what took their place. */
  readonly corrections: readonly {
    readonly swing_id: string | null;
    readonly hitter: string;
    readonly replaced_at: string;
    readonly moved_to: string | null;
    readonly changes: readonly { readonly field: string; readonly from: unknown; readonly to: unknown }[];
  }[];
  readonly refused_waiting: number;
}

/** Corrections of one session are told one by one up to here, and then counted. */
const correctionsTold = 10;

/** Judges a library: its files, and each session's corrections and refused rows. Returns the exit status. */
async function checkLibrary(out: Out, dir: string, json: boolean): Promise<Status> {
  const { openLibrary } = await import("../library/library.ts");
  const { sessionStories } = await import("../library/stories.ts");
  const { problemSentence, quoted } = await import("../swing/problems.ts");
  const { counted } = await import("../swing/words.ts");
  const { damageIn } = await import("../library/damage.ts");
  const library = await openLibrary(dir);
  const sessions: SessionVerdict[] = await sessionStories(dir, library.swings);
  const told = new Set(library.problems.map(problemSentence));
  const damage = (await damageIn(dir)).filter((problem) => !told.has(problemSentence(problem)));
  const problems = [...library.problems, ...damage];
  const refused = problems.some((problem) => problem.kind === "refused");
  const waiting = sessions.reduce((sum, session) => sum + session.refused_waiting, 0);
  if (json) {
    out.json({ files: library.files, sessions, problems });
    return refused || waiting > 0 ? 1 : 0;
  }
  const hitters = new Set(library.swings.map((swing) => swing.hitter)).size;
  out.print(
    `${dir}: ${counted(library.swings.length, "swing")} of ${counted(hitters, "hitter")} in ` +
      `${counted(new Set(library.swings.map((s) => s.session)).size, "session")}.`,
  );
  for (const { session, corrections } of sessions) {
    const name = session === null ? "Swings without a session" : session;
    if (corrections.length > 0) {
      out.print(
        `\n${name}: ${counted(corrections.length, "value was", "values were")} replaced by newer ones.`,
      );
      for (const c of corrections.slice(0, correctionsTold)) {
        const what = c.changes
          .map(({ field, from, to }) => `${field} ${show(from)} → ${show(to)}`)
          .join(", ");
        const moved = c.moved_to === null ? "" : ` (now in ${c.moved_to})`;
        out.print(
          `  ${c.replaced_at.slice(0, 10)} ${c.hitter}, ${quoted(c.swing_id ?? "")}${moved}: ${what}`,
        );
      }
      if (corrections.length > correctionsTold)
        out.print(`  And ${corrections.length - correctionsTold} more.`);
    }
  }
  if (problems.length > 0) out.print("\nProblems:");
  for (const problem of problems) out.print(problemSentence(problem));
  return refused || waiting > 0 ? 1 : 0;
}

const show = (value: unknown): string => (value === null ? "unknown" : String(value));

/** Judges files one after the other; a row that stands in an earlier one is a copy. Returns the exit status. */
async function check(out: Out, files: readonly string[], options: Options): Promise<Status> {
  const { Seen, UnusableFile } = await import("../reading/read.ts");
  const { readColumnMap } = await import("../library/files.ts");
  const { endingOf } = await import("./errors.ts");
  const map = options.map === undefined ? null : await readColumnMap(options.map);
  const known = await knownNames(out, options.library);
  const seen = new Seen();
  const json = options.json === true;
  const verdicts: (FileVerdict | { file: string; problem: string })[] = [];
  let status: Status = 0;
  for (const [i, file] of files.entries()) {
    if (i > 0 && !json) out.print("\n");
    try {
      const verdict = await judgeOrGuess(out, file, { map, seen }, known, json);
      verdicts.push(verdict);
      if (verdict.refused > 0 && status === 0) status = 1;
    } catch (error) {
      if (!(error instanceof UnusableFile)) throw error;
      const ending = endingOf(error);
      out.tell(ending.text);
      verdicts.push({ file, problem: ending.text });
      if (ending.status > status) status = ending.status as Status;
    }
  }
  if (json) out.json({ files: verdicts });
  return status;
}

/** One file's verdict; a file that only a guess at its headings makes readable is judged as `add` would read it. */
async function judgeOrGuess(
  out: Out,
  file: string,
  reading: ReadOptions,
  known: Known,
  json: boolean,
): Promise<FileVerdict> {
  const { UnusableFile } = await import("../reading/read.ts");
  try {
    return await judge(out, file, reading, known, json);
  } catch (error) {
    const guessed = error instanceof UnusableFile && !reading.map ? await guessOf(file) : null;
    if (guessed === null) throw error;
    if (!json) out.print(guessed.words);
    return { ...(await judge(out, file, { ...reading, map: guessed.map }, known, json)), guessed: true };
  }
}

/** What `add` would guess of a file's headings, and that in words; null when they leave out what a swing needs. */
async function guessOf(file: string): Promise<{ map: ColumnMap; words: string } | null> {
  const { UnusableFile } = await import("../reading/read.ts");
  const { readSample } = await import("../library/files.ts");
  const { guessLayout, headingsKnown } = await import("../reading/guess.ts");
  const { headingKey } = await import("../reading/maps.ts");
  const { guessTable } = await import("./guess-table.ts");
  const { printable } = await import("../swing/problems.ts");
  try {
    const sample = await readSample(file, headingsKnown);
    const guess = guessLayout(sample);
    const open = guess.questions.filter(({ isNeeded, kind }) => isNeeded && kind !== "word");
    // With the kit's own headings there is nothing to guess: something else is wrong.
    const foreign = guess.columns.some(
      ({ heading, field }) => field !== null && headingKey(heading) !== field,
    );
    if (guess.missing.length > 0 || open.length > 0 || !foreign) return null;
    const { trialOf } = await import("./mapTrial.ts");
    const { mostRefused } = await import("../reading/maps.ts");
    const how = mostRefused(await trialOf(file, guess.map))
      ? "A guess at what they mean, which `add` would not use as most rows are refused"
      : "Judged as `add` would read it";
    const words = `${printable(file)} has headings of its own. ${how}:\n\n${guessTable(sample, guess)}\n`;
    return { map: guess.map, words };
  } catch (error) {
    if (error instanceof UnusableFile) return null;
    throw error;
  }
}

/** One file's verdict: what is refused and odd stands once for each cause, with its rows. */
async function judge(
  out: Out,
  file: string,
  reading: ReadOptions,
  known: Known,
  json: boolean,
): Promise<FileVerdict> {
  const { stat } = await import("node:fs/promises");
  const { scanAny } = await import("../library/files.ts");
  const { Judge } = await import("../reading/check.ts");
  const { untimedIn, untimedSentence, byCause, Causes, causeSentence, settling } =
    await import("../reading/causes.ts");
  const { counted } = await import("../swing/words.ts");
  const { columnTable } = await import("./column-table.ts");
  const print = (text: string): void => {
    if (!json) out.print(text);
  };
  const size = await stat(file).then(
    (info) => info.size,
    () => null,
  );
  const bar = out.progress(`Reading ${file}`);
  const refusals: Problem[] = [];
  const causes = new Causes();
  const copies: Problem[] = [];
  const strangeNames: Problem[] = [];
  let refused = 0;
  let gathered: InstanceType<typeof Judge> | null = null;
  const scan = scanAny(file, reading);
  let step = await scan.next();
  try {
    for (; step.done !== true; step = await scan.next()) {
      const { table, rows, numbers, refused: kept, copies: again, warnings: odd, bytes } = step.value;
      const judge = (gathered ??= new Judge(table, file, { known, mapped: Boolean(reading.map) }));
      rows.forEach((row, i) => judge.row(row, numbers[i]!));
      for (const row of kept) {
        refused++;
        judge.refused(row);
        for (const problem of row.problems) {
          if (json) refusals.push(problem);
          else causes.add(problem);
        }
      }
      append(copies, again.slice(0, toldSingly - copies.length));
      append(strangeNames, odd);
      bar.at(bytes, size);
    }
  } finally {
    bar.done();
  }
  const { table, sha256, read, duplicates, untimed, problems } = step.value;
  const warnings = [...problems, ...copies, ...strangeNames, ...gathered!.warnings()];
  if (duplicates > copies.length) {
    const n = duplicates - copies.length;
    const reason = `${counted(n, "more row is an exact copy", "more rows are exact copies")}, counted once`;
    warnings.push({ kind: "warning", file, row: null, field: null, value: null, reason });
  }
  const columns = gathered!.summaries();
  const taken = gathered!.rows;
  const parts = [`${taken} taken`];
  if (refused > 0) parts.push(`${refused} refused`);
  if (duplicates > 0) parts.push(counted(duplicates, "copy", "copies"));
  if (refused > 0) {
    const told = causes.list();
    print(["Refused:", ...told.map(causeSentence), settling(told)].filter((line) => line !== "").join("\n"));
    print("\n");
  }
  print(`${file} (${table}): ${counted(read, "row")}, ${parts.join(", ")}.\n\n`);
  if (untimed.size > 0) print(`${untimedSentence(untimedIn(untimed))}\n\n`);
  print(columnTable(columns));
  if (warnings.length > 0) print("\nWarnings:");
  for (const cause of byCause(warnings)) print(causeSentence(cause));
  return {
    file,
    table,
    sha256,
    read,
    taken,
    refused,
    duplicates,
    guessed: false,
    columns,
    problems: [...warnings, ...refusals],
  };
}
