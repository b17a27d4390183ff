/** A file's rows as they are read for a library, before anything is held against what it keeps. */
import { stat } from "node:fs/promises";
import { basename } from "node:path";
import { scanFile } from "./files.ts";
import { Judge } from "../reading/check.ts";
import { swingFields, type NameRow, type Swing } from "../swing/fields.ts";
import { hitterMeant } from "../reading/namesakes.ts";
import { type ColumnMap } from "../reading/maps.ts";
import { printOf } from "./match.ts";
import { PackedRows } from "./packed-rows.ts";
import { storedFields, type StoredSwing } from "./parquet.ts";
import { partitionProblem } from "../swing/partition.ts";
import { type Problem, type RefusedRow } from "../swing/problems.ts";
import { type Summary } from "../reading/read.ts";
import { type Waiting } from "./refused.ts";
import { append } from "../swing/lists.ts";

/** How a file is read. */
export interface ReadingOptions {
  readonly map?: ColumnMap | null;
  /** Values, by field, for rows that don't tell theirs. */
  readonly fill?: Readonly<Record<string, string>>;
  /** What the fastest of the library's hitters reaches, by their levels: values far over it put the unit in doubt. */
  readonly fastest_mph?: number | null;
  /** Told what puts whole columns in doubt before anything is taken; throws to leave the file. */
  readonly approve?: (doubts: readonly Problem[]) => Promise<void>;
  /** Told how far the reading has come. */
  readonly onProgress?: (done: number, total: number | null) => void;
}

/** What was read of a file, before anything is held against the library. */
export interface Incoming {
  readonly name: string;
  readonly rows: PackedRows<StoredSwing>;
  readonly sessions: ReadonlySet<string | null>;
  /** Rows that couldn't be read, with their cells as they stand. */
  readonly refused: RefusedRow[];
  /** Rows that could be read, and can't be taken: their cells are those of `ownHeader`. */
  readonly held: RefusedRow[];
  readonly problems: Problem[];
  readonly summary: Summary;
  readonly source: string;
}

/** Characters of a file's SHA-256 that each of its swings keeps. */
const sourceLength = 16;

/** The heading row of what the kit writes itself. */
export const ownHeader = swingFields.map((field) => field.name);

/** A swing with its hitter's name as it is meant; an id that we made follows what is in the row. */
function renamed(swing: Swing, meant: (name: string) => string): Swing {
  const hitter = meant(swing.hitter);
  if (hitter === swing.hitter) return swing;
  const now = { ...swing, hitter };
  return swing.swing_id !== null && swing.swing_id === printOf(swing)
    ? { ...now, swing_id: printOf(now) }
    : now;
}

/** A row that was read and can't be taken, in the kit's own form. */
export function hold(
  file: string,
  swing: StoredSwing,
  field: "swing_id" | "session",
  reason: string,
): RefusedRow {
  const row = swing.source_row!;
  return {
    row,
    cells: ownHeader.map((name) => String(swing[name] ?? "")),
    session: field === "session" ? null : swing.session,
    problems: [{ kind: "refused", file, row, field, value: swing[field], reason }],
  };
}

/** Reads a file whole: what can be taken, what can't, and what is in doubt. */
export async function readIncoming(
  path: string,
  options: ReadingOptions,
  spelled: ReadonlySet<string>,
  waiting: Waiting,
  answered: readonly NameRow[],
): Promise<Incoming> {
  const name = basename(path);
  const meant = hitterMeant(answered);
  const size = await stat(path).then(
    (info) => info.size,
    () => null,
  );
  const rows = new PackedRows<StoredSwing>(storedFields);
  const sessions = new Set<string | null>();
  const refused: RefusedRow[] = [];
  const held: RefusedRow[] = [];
  const problems: Problem[] = [];
  const judge = new Judge("swings", path, {
    mapped: (options.map ?? null) !== null,
    fastest_mph: options.fastest_mph ?? null,
    known: { spelled, answered },
  });
  const scan = scanFile("swings", path, {
    ...(waiting.isEmpty ? {} : { onTaken: (cells, header) => waiting.take(cells, header) }),
    ...(options.map === undefined ? {} : { map: options.map }),
    ...(options.fill === undefined ? {} : { fill: options.fill }),
  });
  let step = await scan.next();
  for (; step.done !== true; step = await scan.next()) {
    const batch = step.value;
    batch.rows.forEach((given, i) => {
      const row = renamed(given, meant);
      judge.row(row, batch.numbers[i]!);
      const swing = { ...row, source: null, source_row: batch.numbers[i]! };
      const reason = row.session === null ? null : partitionProblem(row.session);
      if (reason !== null) held.push(hold(path, swing, "session", reason));
      else {
        rows.push(swing);
        sessions.add(swing.session);
      }
    });
    for (const row of batch.refused) {
      judge.refused(row);
      refused.push(row);
    }
    append(problems, batch.copies.slice(0, 10 - Math.min(10, problems.length)));
    options.onProgress?.(batch.bytes, size);
  }
  const summary = step.value;
  const doubts = judge.doubts();
  if (doubts.length > 0) await options.approve?.(doubts);
  const source = summary.sha256.slice(0, sourceLength);
  const all = [...summary.problems, ...problems, ...doubts, ...judge.namesakes()];
  return { name, rows, sessions, refused, held, problems: all, summary, source };
}
