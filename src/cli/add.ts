/** `batted add`: takes swings into a library, once each, and never loses what it refuses. */
import { setFlagsFromString } from "node:v8";
import { Option, type Command } from "commander";
import type { Added } from "../library/add.ts";
import type { Guess, Question } from "../reading/guess.ts";
import type { ColumnMap } from "../reading/maps.ts";
import type { Problem } from "../swing/problems.ts";
import type { NameRow } from "../swing/fields.ts";
import { append } from "../swing/lists.ts";
import type { Sample } from "../reading/read.ts";
import { Fault } from "./errors.ts";
import { jsonText } from "./json.ts";
import type { Out, Status } from "./out.ts";
import { trialOf, trialWords, type Trial } from "./mapTrial.ts";

interface Options {
  readonly library: string;
  readonly map?: string;
  readonly session?: string;
  readonly encoding?: string;
  readonly fill?: Record<string, string>;
  readonly guess?: true;
  readonly answer?: Record<string, string>;
  readonly name?: readonly NameRow[];
  readonly anyway?: true;
  readonly bringBack?: true;
  readonly json?: true;
}

/** How long another writer is waited for, ms. */
const patience = 10_000;

export function register(program: Command, out: Out): void {
  program
    .command("add")
    .description("add swings to a library, once each; what is refused is kept beside its session")
    .argument("<csv...>", "files of swings, or corrected files of refused rows from the library itself")
    .requiredOption("--library <dir>", "the library's folder; made when absent")
    .option("--map <file>", "a column map (JSON) for files with other headings, units or words")
    .option("--session <id>", "the session of rows that name none")
    .addOption(
      new Option(
        "--fill <field=value>",
        "the value of a field in rows that have none; may be given again",
      ).argParser(withFill),
    )
    .option("--encoding <name>", "how the text is encoded, where it is no Unicode: windows-1252")
    .option("--guess", "use the column map that is guessed for unknown headings without asking")
    .addOption(
      new Option(
        "--answer <question=answer>",
        "an answer to what a guess asks, as it is named there; may be given again",
      ).argParser(withAnswer),
    )
    .addOption(
      new Option(
        "--name <spelled=hitter>",
        "whose a name is, or the same name again where it is a hitter's own; kept in names.csv",
      ).argParser(withName),
    )
    .option("--anyway", "take values that look wrong as they are")
    .option("--bring-back", "let values that were corrected since be the newest again")
    .option("--json", "print what became of each file as JSON")
    .addHelpText(
      "after",
      "\nEach file is added whole or not at all; birth dates and contacts never.\n" +
        "Exit status: 0 all rows are taken; 1 rows are refused, or a file can't be used\nor looks wrong; 2 the call is wrong.",
    )
    .action((files: string[], options: Options) => run(out, files, options));
}

function withFill(text: string, before: Record<string, string> = {}): Record<string, string> {
  const [, field, value] = /^([a-z_]+)=(.+)$/.exec(text) ?? [];
  if (field === undefined)
    throw new Fault(`--fill takes a field and its value, like input=tee, not "${text}"`, 2);
  return { ...before, [field]: value! };
}

function withName(text: string, before: readonly NameRow[] = []): NameRow[] {
  const at = text.indexOf("=");
  const [spelled, hitter] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || spelled === "" || hitter === "")
    throw new Fault(`--name takes a name and whose it is, like "owen blake=Owen Blake", not "${text}"`, 2);
  return [...before, { spelled, hitter }];
}

function withAnswer(text: string, before: Record<string, string> = {}): Record<string, string> {
  const at = text.lastIndexOf("=");
  if (at < 1)
    throw new Fault(`--answer takes a question and its answer, like unit:Speed=km/h, not "${text}"`, 2);
  return { ...before, [text.slice(0, at)]: text.slice(at + 1) };
}

/**
 * How much the heap may grow over what is in use before it is cleared, %. Left alone V8 lets it grow fourfold: a million
 * swings then took 1.7 GB instead of 1, and no less time.
 */
const heapGrowth = 100;

async function run(out: Out, files: string[], options: Options): Promise<void> {
  setFlagsFromString(`--heap-growing-percent=${heapGrowth}`);
  const { addFiles } = await import("../library/add.ts");
  const { cellReader, Refusal } = await import("../reading/cells.ts");
  const { swingFields } = await import("../swing/fields.ts");
  const { endingOf } = await import("./errors.ts");
  const fill = { ...(options.session === undefined ? {} : { session: options.session }), ...options.fill };
  for (const [name, value] of Object.entries(fill)) {
    const field = swingFields.find((f) => f.name === name);
    if (field === undefined) throw new Fault(`--fill ${name}: swings have no such field`, 2);
    const found = cellReader(field)(value);
    if (found instanceof Refusal) throw new Fault(`${name} "${value}" ${found.reason}`, 2);
  }
  const { isEncoding, mostRefused } = await import("../reading/maps.ts");
  const { readColumnMap } = await import("../library/files.ts");
  if (options.encoding !== undefined && !isEncoding(options.encoding))
    throw new Fault(`--encoding ${options.encoding}: there is no such encoding`, 2);
  const given =
    options.map === undefined ? null : { ...(await readColumnMap(options.map)), ...encodedAs(options) };
  const fastest = await fastestOf(out, options.library);
  const names: NameRow[] = [...(options.name ?? [])];
  const results: (Added | { file: string; problem: string })[] = [];
  for (const file of files) {
    try {
      const chosen = await mapFor(out, file, given, fill, fastest, options);
      const bar = out.progress(`Adding ${file}`);
      let added: Added;
      const askNames = async (groups: readonly (readonly string[])[]): Promise<readonly NameRow[]> => {
        bar.done();
        const answers = await namesAsked(out, groups);
        append(names, answers);
        return answers;
      };
      try {
        [added] = (await addFiles(options.library, [file], {
          ...(chosen.map === null ? {} : { map: chosen.map }),
          fill,
          patience,
          names,
          ...(out.canAsk ? { askNames } : {}),
          fastest_mph: fastest,
          bringBack: options.bringBack === true,
          approve: (doubts) => {
            bar.done();
            return approve(out, file, doubts, options);
          },
          onProgress: (done, total) => bar.at(done, total),
        })) as [Added];
      } finally {
        bar.done();
      }
      results.push(added);
      if (names.length > 0) await keepNames(options.library, names);
      if (options.json !== true) await tell(out, added, options.library);
      if (chosen.isNew && !mostRefused(added)) await keepGuess(out, options.library, chosen.map!, options);
      if (added.refused > 0) out.end(1);
    } catch (error) {
      const { text, status } = endingOf(error);
      if (status > 2) throw error;
      out.tell(text);
      results.push({ file, problem: text });
      out.end(status as Status);
    }
  }
  if (options.json === true) out.json({ files: results });
}

/** The exit velocity that the fastest hitter of a library reaches by the hitters' levels; null where any is unknown. */
async function fastestOf(out: Out, dir: string): Promise<number | null> {
  const { openCompanions } = await import("../library/library.ts");
  const { UnusableFile } = await import("../swing/problems.ts");
  const { fastestOf: fastestOfHitters } = await import("../contact/levels.ts");
  const { unreadOf } = await import("./unread.ts");
  const { hitters, problems } = await openCompanions(dir).catch((error: unknown) => {
    if (error instanceof UnusableFile && error.fault === "call" && /does not exist/.test(error.reason))
      return { hitters: [], problems: [] };
    throw error;
  });
  const unread = unreadOf({ problems });
  for (const sentence of unread) out.tell(sentence);
  if (unread.length > 0) out.end(1);
  return fastestOfHitters(hitters);
}

/** Asks of names nearly alike whether they are one hitter's; what is not answered is asked again another time. */
async function namesAsked(out: Out, groups: readonly (readonly string[])[]): Promise<NameRow[]> {
  const { answersFor } = await import("../reading/namesakes.ts");
  const { quoted } = await import("../swing/problems.ts");
  const answers: NameRow[] = [];
  for (const group of groups) {
    const at = await out.choose(`One hitter, or several? ${group.map(quoted).join(" and ")}`, [
      ...group.map((name) => `one: ${name}`),
      "different hitters",
    ]);
    if (at !== null) append(answers, answersFor(group, group[at] ?? null));
  }
  return answers;
}

/** Keeps answers about names beside the swings. */
async function keepNames(dir: string, names: readonly NameRow[]): Promise<void> {
  const { putRows } = await import("../library/rows.ts");
  await putRows(dir, "names", [...new Map(names.map((row) => [row.spelled, { ...row }])).values()], patience);
}

interface Chosen {
  readonly map: ColumnMap | null;
  /** Whether it was guessed, and should be kept for next time. */
  readonly isNew: boolean;
}

/** The map a file is read with: the one given, one of the library's that fits, none, or a guess that was agreed to. */
async function mapFor(
  out: Out,
  file: string,
  given: ColumnMap | null,
  fill: Readonly<Record<string, string>>,
  fastest: number | null,
  options: Options,
): Promise<Chosen> {
  if (given !== null) return { map: given, isNew: false };
  const { readSample } = await import("../library/files.ts");
  const { guessLayout, headingsKnown } = await import("../reading/guess.ts");
  const { fitsHeadings, isOwnSheet, refuseBeside } = await import("../reading/maps.ts");
  const { isMended } = await import("../reading/layout.ts");
  const { libraryMaps } = await import("../library/maps.ts");
  const maps = await libraryMaps(options.library);
  const fits = (map: ColumnMap, sample: Sample): boolean => fitsHeadings(map, sample.header);
  let sample: Sample;
  try {
    sample = await readSample(file, headingsKnown, options.encoding);
  } catch (error) {
    // It may be text in an encoding that one of the library's maps names.
    for (const map of maps) {
      if (map.encoding === undefined || options.encoding !== undefined) continue;
      const read = await readSample(file, headingsKnown, map.encoding).catch(() => null);
      if (read !== null && fits(map, read)) return { map, isNew: false };
    }
    throw error;
  }
  if (isMended(sample.header)) return { map: null, isNew: false };
  // Letters that make sense as Unicode are not read as anything else.
  const isUnicode = [sample.header, ...sample.rows].flat().some((cell) => /[^\0-\x7f]/.test(cell));
  const map = maps.find((known) => fits(known, sample));
  if (map !== undefined) {
    const { encoding, ...rest } = map;
    const own = encoding === undefined || isUnicode ? {} : { encoding };
    return { map: { ...rest, ...own, ...encodedAs(options) }, isNew: false };
  }
  if (isOwnSheet([...sample.header, ...Object.keys(fill)]))
    return {
      map: options.encoding === undefined ? null : { columns: {}, ...encodedAs(options) },
      isNew: false,
    };
  refuseBeside(file, sample.header);
  const found = await answered(
    out,
    guessLayout(sample, {
      fastest_mph: fastest,
      filled: Object.keys(fill),
      ...(options.answer === undefined ? {} : { answers: options.answer }),
    }),
    options,
  );
  const guess = { ...found, map: { ...encodedAs(options), ...found.map } };
  const isOpen = guess.missing.length > 0 || neededOf(guess).length > 0;
  const trial = isOpen ? null : await trialOf(file, guess.map, fill);
  await agree(out, file, sample, guess, trial, options);
  return { map: guess.map, isNew: true };
}

/** What has to be answered before a sheet can be read, words aside: rows with one that isn't known are refused. */
const neededOf = ({ questions }: Guess): Question[] =>
  questions.filter(({ isNeeded, kind }) => isNeeded && kind !== "word" && kind !== "all");

/** A guess with what someone at the terminal answers. */
async function answered(out: Out, guess: Guess, options: Options): Promise<Guess> {
  if (!out.canAsk || options.guess === true) return guess;
  const { answer } = await import("../reading/guess.ts");
  const asked = new Set<string>();
  for (;;) {
    const next = guess.questions.find(({ id, options: choices }) => choices.length > 0 && !asked.has(id));
    if (next === undefined) return guess;
    asked.add(next.id);
    const at = await out.choose(
      next.text,
      next.options.map(({ text }) => text),
    );
    if (at !== null) guess = answer(guess, { [next.id]: next.options[at]!.key });
  }
}

/** What is left out because nobody answered, a line for each, with how to answer. */
function openWords(guess: Guess): string {
  return guess.questions
    .filter(({ kind }) => kind !== "all")
    .map(({ id, text, options: choices }) => {
      const keys = choices.map(({ key }) => key).filter((key) => key !== "");
      return `${text} Pass --answer "${id}=${keys[0] ?? "ANSWER"}"${keys.length > 1 ? ` (or ${keys.slice(1).join(", ")})` : ""}.\n`;
    })
    .join("");
}

const encodedAs = ({ encoding }: Options): Pick<ColumnMap, "encoding"> =>
  encoding === undefined ? {} : { encoding };

/** Keeps a guessed map in the library, and says where. */
async function keepGuess(out: Out, dir: string, map: ColumnMap, options: Options): Promise<void> {
  const { join } = await import("node:path");
  const { keepMap } = await import("../library/maps.ts");
  const name = await keepMap(dir, map, patience);
  if (options.json !== true) out.print(`The column map is kept as ${join(dir, name)} for next time.`);
}

/** Shows a guessed map; goes on only when it was agreed to. */
async function agree(
  out: Out,
  file: string,
  sample: Sample,
  guess: Guess,
  trial: Trial | null,
  options: Options,
): Promise<void> {
  const { guessTable } = await import("./guess-table.ts");
  const { mostRefused } = await import("../reading/maps.ts");
  const { swingFields } = await import("../swing/fields.ts");
  const { printable } = await import("../swing/problems.ts");
  const name = printable(file);
  const table = guessTable(sample, guess);
  const asMap = `As a column map:\n${jsonText(guess.map)}\n\n`;
  if (guess.missing.length > 0) {
    const passes = guess.missing.map((field) => {
      const words: readonly string[] =
        (swingFields.find((f) => f.name === field) as { words?: readonly string[] }).words ?? [];
      if (words.length > 0) return `--fill ${field}=${words[0]} (or ${words.slice(1).join(", ")})`;
      return field === "hitter" ? '--fill hitter="THE NAME"' : null;
    });
    const fills = passes.filter((pass) => pass !== null);
    out.tell(`${table}\n${asMap}`);
    throw new Fault(
      `${name} was not added: no column seems to hold ${guess.missing.join(" or ")}; pass ` +
        `${[...fills, "--map FILE with a column map that names it"].join(", or ")}`,
      2,
    );
  }
  const needed = neededOf(guess);
  if (needed.length > 0) {
    out.tell(`${table}\n${openWords(guess)}\n`);
    throw new Fault(`${name} was not added: ${needed[0]!.text} See --answer above`, 2);
  }
  const fares = trial === null ? "" : trialWords(trial);
  if (trial !== null && mostRefused(trial)) {
    out.tell(`${name} has headings of its own. A guess at what they mean:\n\n${table}\n${asMap}`);
    throw new Fault(
      `${name} was not added: the guess is no good. ${fares} Pass --map FILE with a column map that puts it right`,
      1,
    );
  }
  const open = openWords(guess);
  const shown = [table, fares === "" ? "" : `${fares}\n`, open].filter((part) => part !== "").join("\n");
  if (options.guess === true) {
    if (options.json !== true) out.tell(`${name} is read so:\n\n${shown}\n`);
    return;
  }
  if (out.canAsk) {
    out.tell(`${name} has headings of its own. A guess at what they mean:\n\n${shown}\n`);
    if (await out.yes("Is that right?")) return;
    out.tell(`\n${asMap}`);
    throw new Fault(`${name} was not added: put the column map right, and pass it with --map FILE`, 2);
  }
  out.tell(`${name} has headings of its own. A guess at what they mean:\n\n${shown}\n${asMap}`);
  throw new Fault(
    `${name} was not added: pass --guess to read it as shown, or --map FILE with a column map that puts it right`,
    2,
  );
}

/** Names what makes whole columns doubtful; goes on only when that was agreed to. */
async function approve(out: Out, file: string, doubts: readonly Problem[], options: Options): Promise<void> {
  const { printable, problemSentence } = await import("../swing/problems.ts");
  if (options.anyway === true) return;
  out.tell(doubts.map(problemSentence).join("\n"));
  if (out.canAsk && (await out.yes("Take the values as they are?"))) return;
  throw new Fault(
    `${printable(file)} was not added: pass --map FILE with a column map that puts it right, or --anyway to take it as it is`,
    1,
  );
}

/** At most so many causes are told one by one; the refused rows' own file has them all. */
const toldAtMost = 20;

async function tell(out: Out, added: Added, library: string): Promise<void> {
  const { join } = await import("node:path");
  const { untimedSentence, byCause, causeSentence, settling } = await import("../reading/causes.ts");
  const { refusedWait } = await import("../swing/problems.ts");
  const { counted } = await import("../swing/words.ts");
  const causes = byCause(added.problems);
  const lines = causes.slice(0, toldAtMost).map(causeSentence);
  const more = causes.length - lines.length;
  if (more > 0) lines.push(`And ${more} more.`);
  const settled = settling(causes);
  if (settled !== "") lines.push(settled);
  if (added.late !== null) lines.push(added.late);
  if (lines.length > 0) out.tell(lines.join("\n"));
  const count = (n: number, what: string): string[] => (n === 0 ? [] : [`${n} ${what}`]);
  const parts = [
    `${added.new} new`,
    ...count(added.corrected, "corrected"),
    ...count(added.copies - added.untimed, "there already"),
    ...(added.untimed > 0 ? [counted(added.untimed, "copy", "copies")] : []),
    ...count(added.older, "older than what is there and left out"),
    ...count(added.refused, "refused"),
  ];
  const text = [`${added.file}: ${counted(added.read, "row")}, ${parts.join(", ")}.`];
  if (added.untimed > 0) text.push(untimedSentence(added.untimed));
  if (added.sessions.length > 0) {
    const names = added.sessions.slice(0, 6).map((session) => session ?? "without a session");
    const rest = added.sessions.length - names.length;
    text.push(`Sessions: ${names.join(", ")}${rest > 0 ? ` and ${rest} more` : ""}.`);
  }
  for (const folder of added.refusedIn) {
    text.push(`${refusedWait(join(library, folder))}: correct them there, and add that file.`);
  }
  if (added.sessions.includes(null)) {
    text.push("Swings without a session have no air or field of their own: --session NAME names theirs.");
  }
  if (added.older > 0) text.push("Pass --bring-back if the older values are the right ones.");
  out.print(text.join("\n"));
}
