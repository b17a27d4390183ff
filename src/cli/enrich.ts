/** `batted enrich`: swings from CSV to CSV, with the computed columns. */
import { Option, type Command } from "commander";
import type { Enricher, EnricherSource as Source } from "../contact/enrich.ts";
import type { Swing } from "../swing/fields.ts";
import type { Problem } from "../swing/problems.ts";
import type { RefusedRow } from "../reading/read.ts";
import { Fault } from "./errors.ts";
import { fieldsOption, knowFieldsOf } from "./ownFields.ts";
import type { Block, PackedRows } from "../library/packed-rows.ts";
import type { Pool } from "./enrich-pool.ts";
import type { BlockText, Counts } from "./enrich-rows.ts";
import type { RefusedRows } from "./refused-table.ts";
import type { Out } from "./out.ts";
import { append } from "../swing/lists.ts";
import { counted } from "../swing/words.ts";

interface Options {
  readonly output: string;
  readonly sessions?: string;
  readonly hitters?: string;
  readonly fields?: string;
  readonly thresholds?: string;
  readonly ceiling?: Record<string, number>;
  readonly threads?: number;
  readonly json?: true;
}

export function register(program: Command, out: Out): void {
  program
    .command("enrich")
    .description("add flight, category, place and contact to swings, and write them all as one CSV")
    .argument("<csv...>", "files of swings")
    .requiredOption("-o, --output <file>", "the CSV to write; refused rows go beside it, to *.refused.csv")
    .option("--sessions <csv>", "the sessions' air, ball and field; without it the default air, a baseball")
    .option("--hitters <csv>", "the hitters' levels and sides; without it a ceiling needs more swings")
    .option(...fieldsOption)
    .option("--thresholds <json>", "your own figures in place of some of data/thresholds.json")
    .addOption(
      new Option(
        "--ceiling <hitter=mph>",
        "a fixed ceiling for one hitter, off a tee; may be given again",
      ).argParser(withCeiling),
    )
    .addOption(
      new Option(
        "--threads <n>",
        "how many threads compute; as the files and the machine are, when left out",
      ).argParser(threadCount),
    )
    .option("--json", "print the summary as JSON")
    .addHelpText(
      "after",
      "\nExit status: 0 all rows are taken; 1 rows are refused, or a file can't be used;\n2 the call is wrong.",
    )
    .action((files: string[], options: Options) => run(out, files, options));
}

function withCeiling(text: string, before: Record<string, number> = {}): Record<string, number> {
  const [, hitter, mph] = /^(.+)=\s*(\d+(?:\.\d+)?)\s*$/.exec(text) ?? [];
  const value = Number(mph);
  if (hitter === undefined || !(value >= 10 && value <= 150)) {
    throw new Fault(`--ceiling takes a hitter and 10 to 150 mph, like "Hitter A=95", not "${text}"`, 2);
  }
  return { ...before, [hitter.trim()]: value };
}

function threadCount(text: string): number {
  const count = Number(text);
  if (!(Number.isInteger(count) && count >= 1 && count <= 64)) {
    throw new Fault(`--threads takes a whole number from 1 to 64, not "${text}"`, 2);
  }
  return count;
}

async function run(out: Out, files: string[], options: Options): Promise<void> {
  const refusedFile = `${options.output.replace(/\.csv$/i, "")}.refused.csv`;
  await checkOutputs([options.output, refusedFile], files, options);
  // Threads start now, to be ready by when the files are read.
  const pool = await poolFor(files, options);
  try {
    await enrichFiles(out, files, options, refusedFile, pool);
  } finally {
    await pool?.close();
  }
}

async function poolFor(files: readonly string[], options: Options): Promise<Pool | null> {
  const { stat } = await import("node:fs/promises");
  const { Pool, threadsFor } = await import("./enrich-pool.ts");
  const sizes = await Promise.all(files.map(async (file) => (await stat(file).catch(() => null))?.size ?? 0));
  const threads = options.threads ?? threadsFor(sizes.reduce((sum, size) => sum + size, 0));
  return threads > 1 ? new Pool(threads) : null;
}

async function enrichFiles(
  out: Out,
  files: readonly string[],
  options: Options,
  refusedFile: string,
  pool: Pool | null,
): Promise<void> {
  const started = performance.now();
  const { enricher } = await import("../contact/enrich.ts");
  const { readHitters, readSessions } = await import("../library/files.ts");
  const { strangers } = await import("../library/library.ts");
  const { readJson } = await import("../library/disk.ts");
  const thresholds = options.thresholds === undefined ? null : await readJson(options.thresholds);
  const fields = await knowFieldsOf(options.fields);
  const sessions = options.sessions === undefined ? null : await readSessions(options.sessions);
  const hitters = options.hitters === undefined ? null : await readHitters(options.hitters);
  const { swings, refused, copies, untimed, problems: found } = await readAll(out, files);
  const source: Omit<Source, "swings"> = {
    sessions: sessions?.rows ?? [],
    sessionsGiven: sessions !== null,
    hitters: hitters?.rows ?? [],
    thresholds,
  };
  const { enrich, ceilings, neighbours } = enricher(
    { ...source, swings },
    options.ceiling === undefined ? {} : { ceilings: options.ceiling },
  );
  const problems = [
    ...(fields?.problems ?? []),
    ...(sessions?.problems ?? []),
    ...(hitters?.problems ?? []),
    ...found,
  ];
  append(problems, strangers(swings, source.sessions, source.hitters));
  const refusedCount = refused.reduce((sum, file) => sum + file.rows.length, 0);
  const { writeTogether } = await import("../library/write.ts");
  const counts = await writeTogether(async (put) => {
    if (refusedCount > 0) await put(refusedFile, (await import("./refused-table.ts")).refusedPieces(refused));
    pool?.setUp({ ...source, ceilings, neighbours, fields: fields?.rows ?? [] });
    return write(out, swings, enrich, pool, (pieces) => put(options.output, pieces));
  });
  await tell(out, problems, refusedCount > 0 ? refusedFile : null);
  const summary: Summary = {
    output: options.output,
    ...counts,
    refused: refusedCount,
    refused_file: refusedCount > 0 ? refusedFile : null,
    copies,
    untimed,
    sessions: options.sessions ?? null,
    hitters: options.hitters ?? null,
    fields: options.fields ?? null,
    thresholds: options.thresholds ?? null,
    beside_but_not_used: await besideButNotUsed(files, options),
    seconds: Math.round(performance.now() - started) / 1000,
  };
  if (options.json === true) out.json(summary, 0);
  else out.print(await summaryText(summary));
  if (problems.some((p) => p.kind === "refused")) out.end(1);
}

/** Said before anything is read: what can't be written, and what would be read and written over at once. */
async function checkOutputs(
  outputs: readonly string[],
  files: readonly string[],
  options: Options,
): Promise<void> {
  const { stat } = await import("node:fs/promises");
  const { dirname, resolve } = await import("node:path");
  const [output] = outputs as [string];
  const folder = await stat(dirname(output)).catch(() => null);
  if (folder === null || !folder.isDirectory()) throw new Fault(`There is no folder ${dirname(output)}`, 2);
  if ((await stat(output).catch(() => null))?.isDirectory()) throw new Fault(`${output} is a folder`, 2);
  const inputs = [...files, options.sessions, options.hitters, options.fields, options.thresholds];
  // One file may have two names: where a disk ignores case, or through a link.
  const place = async (path: string): Promise<string> => {
    const info = await stat(path, { bigint: true }).catch(() => null);
    return info === null || info.ino === 0n ? resolve(path) : `${info.dev} ${info.ino}`;
  };
  const read = new Set(
    await Promise.all(inputs.flatMap((input) => (input === undefined ? [] : place(input)))),
  );
  for (const out of outputs) {
    if (read.has(await place(out))) {
      throw new Fault(`${out} would be read and written over at once; give another --output`, 2);
    }
  }
}

interface Gathered {
  readonly swings: PackedRows<Swing>;
  readonly refused: readonly RefusedRows[];
  readonly problems: readonly Problem[];
  /** Rows that are exact copies of one taken. */
  readonly copies: number;
  /** Those of them without a time. */
  readonly untimed: number;
}

/** The files as one table: a swing that stands in two of them is told from its copy. */
async function readAll(out: Out, files: readonly string[]): Promise<Gathered> {
  const { stat } = await import("node:fs/promises");
  const { swingFields } = await import("../swing/fields.ts");
  const { untimedIn } = await import("../reading/causes.ts");
  const { Seen } = await import("../reading/read.ts");
  const { scanFile } = await import("../library/files.ts");
  const { PackedRows } = await import("../library/packed-rows.ts");
  const seen = new Seen();
  const swings = new PackedRows<Swing>(swingFields);
  const refused: RefusedRows[] = [];
  const problems: Problem[] = [];
  let copies = 0;
  let untimed = 0;
  for (const file of files) {
    const size = (await stat(file).catch(() => null))?.size ?? null;
    const bar = out.progress(`Reading ${file}`);
    const kept: RefusedRow[] = [];
    const own: Problem[] = [];
    try {
      const scan = scanFile("swings", file, { seen });
      let step = await scan.next();
      for (; step.done !== true; step = await scan.next()) {
        for (const swing of step.value.rows) swings.push(swing);
        for (const row of step.value.refused) {
          kept.push(row);
          append(own, row.problems);
        }
        append(own, step.value.copies);
        append(own, step.value.warnings);
        bar.at(step.value.bytes, size);
      }
      copies += step.value.duplicates;
      untimed += untimedIn(step.value.untimed);
      refused.push({ file, header: step.value.header, rows: kept });
      append(own, step.value.problems);
    } finally {
      bar.done();
    }
    append(
      problems,
      own.sort((a, b) => (a.row ?? 0) - (b.row ?? 0)),
    );
  }
  return { swings, refused, problems, copies, untimed };
}

/** Enriches and writes block by block, so that the table is never held twice. */
async function write(
  out: Out,
  swings: PackedRows<Swing>,
  enrich: Enricher["enrich"],
  pool: Pool | null,
  put: (pieces: AsyncIterable<string>) => Promise<void>,
): Promise<Counts> {
  const { addCounts, blockText, enrichedFields, noCounts } = await import("./enrich-rows.ts");
  const { csvHeader } = await import("../library/write.ts");
  const counts = noCounts();
  const all = swings.length;
  const bar = out.progress("Computing swings");
  async function* pieces(): AsyncGenerator<string> {
    yield csvHeader(enrichedFields);
    const blocks = swings.drain();
    const texts = pool === null ? here(blocks) : pool.texts(blocks);
    for await (const block of texts) {
      addCounts(counts, block.counts);
      bar.at(counts.swings, all);
      yield block.text;
    }
  }
  function* here(blocks: Iterable<Block>): Generator<BlockText> {
    for (const block of blocks) yield blockText(block, enrich);
  }
  try {
    await put(pieces());
  } finally {
    bar.done();
  }
  return counts;
}

/** At most so many problems are told one by one; the refused file has them all. */
const toldAtMost = 200;

async function tell(out: Out, problems: readonly Problem[], refusedFile: string | null): Promise<void> {
  const { problemSentence } = await import("../swing/problems.ts");
  const lines = problems.slice(0, toldAtMost).map(problemSentence);
  if (problems.length > toldAtMost) {
    const where = refusedFile === null ? "" : `; all refused rows are in ${refusedFile}`;
    lines.push(`And ${problems.length - toldAtMost} more${where}.`);
  }
  if (lines.length > 0) out.tell(lines.join("\n"));
}

/** Tables that lie beside the swings as in a library, and were not passed. */
async function besideButNotUsed(files: readonly string[], options: Options): Promise<string[]> {
  const { stat } = await import("node:fs/promises");
  const { dirname, join, resolve } = await import("node:path");
  const wanted = [
    ["sessions.csv", options.sessions],
    ["hitters.csv", options.hitters],
    ["fields.csv", options.fields],
    ["thresholds.json", options.thresholds],
  ] as const;
  const candidates = new Map<string, string>();
  for (const file of files) {
    for (const [name, passed] of wanted) {
      const path = join(dirname(file), name);
      if (passed === undefined || resolve(passed) !== resolve(path)) candidates.set(resolve(path), path);
    }
  }
  const there = await Promise.all(
    [...candidates.values()].map(async (path) =>
      (await stat(path).catch(() => null))?.isFile() === true ? [path] : [],
    ),
  );
  return there.flat();
}

interface Summary extends Counts {
  output: string;
  refused: number;
  refused_file: string | null;
  copies: number;
  untimed: number;
  sessions: string | null;
  hitters: string | null;
  fields: string | null;
  thresholds: string | null;
  beside_but_not_used: string[];
  seconds: number;
}

async function summaryText(summary: Summary): Promise<string> {
  const { flagWords } = await import("../contact/flags.ts");
  const { untimedSentence } = await import("../reading/causes.ts");
  const { defaultAir } = await import("../flight/air.ts");
  const list = (counts: Record<string, number>): string =>
    Object.entries(counts)
      .sort(([, a], [, b]) => b - a)
      .map(([word, n]) => `${word.replace("_", " ")} ${n}`)
      .join(", ") || "none";
  const air =
    summary.air_source["default"] === undefined ? "" : ` (default: ${defaultAir.assumed.join(", ")})`;
  const lines = [
    `${summary.output}: ${counted(summary.swings, "swing")}, ${summary.with_flight} with a flight.`,
    `Category: ${list(summary.category)}.`,
    `Contact bucket: ${list(summary.bucket)}.`,
    `Spin: ${list(summary.spin_source)}.`,
    `Air: ${list(summary.air_source)}${air}.`,
    ...Object.entries(summary.flags).map(
      ([flag, n]) => `${n} flagged ${flag}: ${flagWords[flag as keyof typeof flagWords]}.`,
    ),
  ];
  if (summary.untimed > 0) lines.push(untimedSentence(summary.untimed));
  const others = summary.copies - summary.untimed;
  if (others > 0) {
    const what = others === 1 ? "1 row is an exact copy" : `${others} rows are exact copies`;
    lines.push(`${what} of one taken, and not counted again.`);
  }
  if (summary.refused > 0) {
    const what =
      summary.refused === 1 ? "1 row was refused, and is" : `${summary.refused} rows were refused, and are`;
    lines.push(`${what} in ${summary.refused_file}.`);
  }
  for (const path of summary.beside_but_not_used) {
    const option = /(\w+)\.\w+$/.exec(path)![1]!;
    lines.push(`Not used: ${path}, which lies beside the swings; --${option} takes it in.`);
  }
  return `${lines.join("\n")}\n`;
}
