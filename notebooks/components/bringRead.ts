/** A file that a page was given, read: what it would become, and what is wrong with it. Runs beside the page, and in tests. */
import { hitterMeant, unanswered } from "../../src/reading/namesakes.ts";
import { untimedIn, byCause, type Cause } from "../../src/reading/causes.ts";
import { Judge } from "../../src/reading/check.ts";
import { headingsKnown } from "../../src/reading/guess.ts";
import { isMended } from "../../src/reading/layout.ts";
import { fitsHeadings, isOwnSheet, refuseBeside, type ColumnMap } from "../../src/reading/maps.ts";
import { mended } from "../../src/reading/mend.ts";
import { sampleOf, scanText, type RefusedRow, type Sample } from "../../src/reading/read.ts";
import type { Delimiter } from "../../src/reading/records.ts";
import { textFrom, type TextSource } from "../../src/reading/text.ts";
import { swingFields, type NameRow, type Swing } from "../../src/swing/fields.ts";
import { fingerprint } from "../../src/swing/identity.ts";
import { problemReason, UnusableFile, type Problem } from "../../src/swing/problems.ts";

/** A file as it was given. */
export interface Given {
  readonly name: string;
  readonly blob: Blob;
  /** How its text is encoded, where it is no Unicode. */
  readonly encoding?: string | undefined;
}

const pieceSize = 1 << 20;

async function* bytesOf(blob: Blob): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < blob.size; at += pieceSize)
    yield new Uint8Array(await blob.slice(at, at + pieceSize).arrayBuffer());
}

const textOf = ({ name, blob, encoding }: Given): TextSource =>
  textFrom(name, bytesOf(blob), { size: blob.size, ...(encoding === undefined ? {} : { encoding }) });

/** A file at first sight. */
export interface Sight {
  readonly sample: Sample;
  /** Whether its headings are the kit's own, so that it needs no map. */
  readonly isOwn: boolean;
  /** The map kept last for these headings; null when there is none. */
  readonly kept: ColumnMap | null;
}

/**
 * A file's headings and first rows, and whether a kept map fits them.
 * @throws UnusableFile when it is no table of text, or one that lies beside the swings: one plain sentence
 */
export async function lookAt(given: Given, maps: readonly ColumnMap[]): Promise<Sight> {
  const sample = await sampleOf(textOf(given), headingsKnown);
  const isRefused = isMended(sample.header);
  const isOwn = isRefused || isOwnSheet(sample.header);
  if (!isOwn) refuseBeside(given.name, sample.header);
  const kept = isRefused ? null : (maps.find((map) => fitsHeadings(map, sample.header)) ?? null);
  return { sample, isOwn, kept };
}

/** How a file is to be read. */
export interface ReadCall extends Given {
  readonly map: ColumnMap | null;
  readonly fill: Readonly<Record<string, string>>;
  /** Rows that were put right, as lines of the file, by their number. */
  readonly fixes: ReadonlyMap<number, string>;
  readonly delimiter: Delimiter;
  /** Hitters whose names stand in the library. */
  readonly known: readonly string[];
  /** Answers about names nearly alike. */
  readonly names: readonly NameRow[];
  /** What the fastest of them reaches, by their levels. */
  readonly fastest_mph: number | null;
}

/** A name and in how many rows it stands. */
export interface Counted {
  readonly name: string | null;
  readonly n: number;
}

/** What a file would become. `read` = taken + copies + refused. */
export interface Outcome {
  readonly read: number;
  readonly taken: number;
  readonly copies: number;
  /** Those of them that no time tells from their like. */
  readonly untimed: number;
  readonly refused: number;
  /** The first refused rows, with their cells. */
  readonly rows: readonly RefusedRow[];
  readonly header: readonly string[];
  readonly causes: readonly Cause[];
  /** What puts whole columns in doubt, a sentence each. */
  readonly doubts: readonly string[];
  /** Names that may be one hitter's, those of the library included. */
  readonly alike: readonly (readonly string[])[];
  readonly hitters: readonly Counted[];
  readonly sessions: readonly Counted[];
  readonly drills: readonly Counted[];
  /** The first day in each session, where rows tell it. */
  readonly days: readonly (readonly [string, string])[];
  /** The file as it is now, where rows were put right. */
  readonly mended: Blob | null;
  /** The swings, where they are asked for. */
  readonly swings: readonly Swing[] | null;
}

/** At most so many refused rows are shown one by one. */
const mostShown = 500;

/** The file with rows put right, as UTF-8 text. */
async function withFixes(call: ReadCall): Promise<Blob> {
  const pieces: string[] = [];
  for await (const piece of mended(textOf(call).pieces, call.delimiter, call.fixes)) pieces.push(piece);
  return new Blob(pieces, { type: "text/csv" });
}

/** The id of a swing under another name: one that we made follows what is in the row. */
function idOf(swing: Swing, hitter: string): string | null {
  const print = (row: Swing): string => fingerprint(row, swingFields, "swing_id");
  return swing.swing_id === print(swing) ? print({ ...swing, hitter }) : swing.swing_id;
}

const counted = (counts: ReadonlyMap<string | null, number>): Counted[] =>
  [...counts].map(([name, n]) => ({ name, n }));

const count = (counts: Map<string | null, number>, name: string | null): void =>
  void counts.set(name, (counts.get(name) ?? 0) + 1);

/**
 * Reads a whole file under a map, and keeps nothing of it but what there is to say.
 * @param onProgress told how many of the file's bytes have been read
 * @param wanted whether the swings themselves are wanted
 * @throws UnusableFile when nothing of it can be used: one plain sentence
 */
export async function readWhole(
  call: ReadCall,
  onProgress: (bytes: number) => void = () => {},
  wanted = false,
): Promise<Outcome> {
  const mendedBlob = call.fixes.size === 0 ? null : await withFixes(call);
  const given: Given = mendedBlob === null ? call : { name: call.name, blob: mendedBlob };
  let { map } = call;
  // Mended, it is Unicode.
  if (mendedBlob !== null && map?.encoding !== undefined) {
    const { encoding: _, ...rest } = map;
    map = rest;
  }
  const judge = new Judge("swings", call.name, { mapped: map !== null, fastest_mph: call.fastest_mph });
  const problems: Problem[] = [];
  const rows: RefusedRow[] = [];
  const counts = { taken: 0, refused: 0, copies: 0 };
  const [hitters, sessions, drills] = [0, 1, 2].map(() => new Map<string | null, number>());
  const days = new Map<string, string>();
  const swings: Swing[] = [];
  const meant = hitterMeant(call.names);
  const scan = scanText("swings", textOf(given), { map, fill: call.fill });
  let step = await scan.next();
  for (; step.done !== true; step = await scan.next()) {
    const batch = step.value;
    batch.rows.forEach((given, i) => {
      const hitter = meant(given.hitter);
      const row = hitter === given.hitter ? given : { ...given, hitter, swing_id: idOf(given, hitter) };
      judge.row(row, batch.numbers[i]!);
      count(hitters!, row.hitter);
      count(sessions!, row.session);
      if (row.drill !== null) count(drills!, row.drill);
      const day = row.time?.slice(0, 10) ?? null;
      if (row.session !== null && day !== null && day < (days.get(row.session) ?? "~"))
        days.set(row.session, day);
      if (wanted) swings.push(row);
    });
    for (const row of batch.refused) {
      judge.refused(row);
      for (const problem of row.problems) problems.push(problem);
      if (rows.length < mostShown) rows.push(row);
    }
    counts.taken += batch.rows.length;
    counts.refused += batch.refused.length;
    counts.copies += batch.copies.length;
    onProgress(batch.bytes);
  }
  const { read, header, untimed } = step.value;
  const own = [...hitters!.keys()].filter((name) => name !== null);
  return {
    ...counts,
    read,
    untimed: untimedIn(untimed),
    rows,
    header,
    causes: byCause(problems),
    doubts: judge.doubts().map(problemReason),
    alike: unanswered([...call.known, ...own], call.names, new Set(hitters!.keys())),
    hitters: counted(hitters!),
    sessions: counted(sessions!),
    drills: counted(drills!),
    days: [...days],
    mended: mendedBlob,
    swings: wanted ? swings : null,
  };
}

/** What the work beside the page says. */
export type Word =
  | { readonly kind: "progress"; readonly bytes: number }
  | { readonly kind: "done"; readonly outcome: Outcome }
  | { readonly kind: "trouble"; readonly trouble: string };

/** Why a file can't be used, without its name, whatever was thrown. */
export function troubleOf(error: unknown): string {
  if (error instanceof UnusableFile) return `${error.reason}.`;
  // Moved, changed or taken away while it was read: what the browser throws then.
  if (error instanceof DOMException)
    return "can't be read any more: it was moved or changed. Choose it again.";
  return "can't be read.";
}
