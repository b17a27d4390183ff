/**
 * The library as the pages get it: one `library.json`, columns instead of rows, with the computed columns.
 * Reading and enriching happen here, in Node, once for each state of the folder.
 */
import { readdir, stat } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { enrich } from "../../src/contact/enrich.ts";
import { toColumns } from "../../src/swing/columns.ts";
import { withInitials } from "../../src/library/initials.ts";
import { trustBySession, type Trust } from "../../src/setup/trust.ts";
import { computedFields, swingFields, type EnrichedSwing } from "../../src/swing/fields.ts";
import { companionProblems, openLibrary, type Library } from "../../src/library/library.ts";
import { version } from "../../src/library/version.ts";
import { libraryMaps } from "../../src/library/maps.ts";
import type { ColumnMap } from "../../src/reading/maps.ts";
import { isUnread, problemSentence } from "../../src/swing/problems.ts";
import { shelvesStamp } from "../../src/library/shelves.ts";
import { rowsInScope, type SwingScope } from "../../src/views/filter.ts";
import { counted } from "../../src/swing/words.ts";
import { pack, type LibraryFile } from "../components/library.ts";

/** At most so many refused rows and warnings are told one by one; the counts are told whole. */
const toldAtMost = 200;

/** Which rows of a library pages are given. Ceilings, levels and trust are worked out from all of them before. */
export interface Part extends SwingScope {
  /** These hitters alone; whoever else is named somewhere beside their swings has initials. */
  readonly hitters?: ReadonlySet<string>;
  /** Whether they, too, have initials. */
  readonly initials?: boolean;
}

/**
 * A library as one value that JSON holds whole.
 * @param rows its swings with what is computed from them, for whoever makes several files of one library
 */
export function libraryFile(
  library: Library,
  part: Part = {},
  maps: readonly ColumnMap[] = [],
  rows: readonly EnrichedSwing[] = enrich(library),
): LibraryFile {
  const { hitters, initials = false } = part;
  const computed = { ...library, swings: [...rows] };
  const isRenamed = hitters !== undefined || initials;
  const renamed = isRenamed ? withInitials(computed, initials ? new Set() : hitters) : computed;
  const trust = [...trustBySession(renamed.swings, renamed.sessions).values()];
  const wanted =
    hitters === undefined
      ? renamed.swings
      : renamed.swings.filter((_, i) => hitters.has(library.swings[i]!.hitter));
  // Who threw is asked for by the name in the library.
  const thrown = library.swings.findIndex(({ pitcher }) => pitcher !== null && pitcher === part.pitcher);
  const pitcher = thrown < 0 ? (part.pitcher ?? null) : renamed.swings[thrown]!.pitcher;
  const shown = rowsInScope(wanted, renamed, { ...part, pitcher });
  // A map may give names to others: it goes where every name goes.
  // An answer about names may tell of others, as a map may.
  const answers = isRenamed ? [] : library.names;
  const file = { ...wholeFile(renamed, shown, trust, isRenamed ? [] : maps), names: answers };
  return hitters === undefined ? file : alone(file, shown);
}

function wholeFile(
  library: Library,
  rows: readonly EnrichedSwing[],
  trust: readonly Trust[],
  maps: readonly ColumnMap[],
): LibraryFile {
  return {
    name: basename(resolve(library.dir)),
    swings: columnsOf(rows),
    sessions: library.sessions,
    hitters: library.hitters,
    targets: library.targets,
    names: library.names,
    fields: library.fields,
    thresholds: library.thresholds,
    maps,
    files: library.files,
    refused: library.problems.filter((p) => p.kind === "refused").length,
    warnings: library.problems.filter((p) => p.kind === "warning").length,
    problems: library.problems.slice(0, toldAtMost).map(problemSentence),
    tables: companionProblems(library).slice(0, toldAtMost).map(problemSentence),
    unread: library.problems.filter(isUnread).map(problemSentence),
    unreadFiles: library.problems.filter(isUnread).map((problem) => problem.file),
    version,
    trust,
    trouble: null,
  };
}

/** A file with what belongs to the rows shown, and nothing of anybody else: what a hitter may be sent. */
function alone(file: LibraryFile, shown: readonly EnrichedSwing[]): LibraryFile {
  const of = (field: "session" | "hitter" | "drill"): ReadonlySet<string | null> =>
    new Set(shown.map((row) => row[field]));
  const [sessions, hitters, drills] = [of("session"), of("hitter"), of("drill")];
  // Of a refused row nobody knows whose it is.
  const refused =
    file.refused === 0
      ? []
      : [`${counted(file.refused, "row")} of the library could not be used, whoever hit them.`];
  return {
    ...file,
    sessions: file.sessions.filter(({ session }) => sessions.has(session)),
    hitters: file.hitters.filter(({ hitter }) => hitters.has(hitter)),
    targets: file.targets.filter(({ drill }) => drills.has(drill)),
    trust: file.trust.filter(({ session }) => sessions.has(session)),
    files: [],
    refused: 0,
    warnings: 0,
    problems: [],
    tables: refused,
  };
}

/** Digits behind the point that a computed figure keeps: a thousandth of a foot is finer than any of them is true. */
const digits = 4;

function columnsOf(rows: readonly EnrichedSwing[]): LibraryFile["swings"] {
  const { n, columns } = toColumns(rows, [...swingFields, ...computedFields]);
  const computed = new Set<string>(computedFields.map(({ name }) => name));
  const short = (value: unknown): unknown =>
    typeof value === "number" ? Number(value.toFixed(digits)) : value;
  const packed = Object.entries(columns).map(
    ([name, values]) => [name, pack(computed.has(name) ? values.map(short) : values)] as const,
  );
  return { n, columns: Object.fromEntries(packed) };
}

/** What is in the folder, by name, size and time of writing: while it stays the same, so does the library. */
async function stateOf(dir: string): Promise<string> {
  const names = (await readdir(dir)).filter((name) => /\.(csv|json)$/i.test(name)).sort();
  const states = names.map(async (name) => {
    const { size, mtimeMs } = await stat(join(dir, name));
    return `${name} ${size} ${mtimeMs}`;
  });
  return [...(await Promise.all(states)), await shelvesStamp(dir)].join("\n");
}

/** A library's text for the pages, made anew only when its folder has changed. */
export class LibrarySource {
  readonly dir: string;
  readonly #part: Part;
  #state: string | null = null;
  #file: Promise<{ text: string; unread: readonly string[] }> | null = null;

  /** @param part which rows pages are given: all unless told otherwise */
  constructor(dir: string, part: Part = {}) {
    this.dir = resolve(dir);
    this.#part = part;
  }

  /** Whether the folder differs from what the text was last made from. */
  async changed(): Promise<boolean> {
    return (await stateOf(this.dir).catch(() => "")) !== this.#state;
  }

  /** The JSON text. Rejects as openLibrary does, with one plain sentence. */
  async text(): Promise<string> {
    return (await this.#opened()).text;
  }

  /** What of the library could not be read, a sentence each. Rejects as `text` does. */
  async unread(): Promise<readonly string[]> {
    return (await this.#opened()).unread;
  }

  async #opened(): Promise<{ text: string; unread: readonly string[] }> {
    const state = await stateOf(this.dir).catch(() => "");
    if (this.#file === null || state !== this.#state) {
      this.#state = state;
      this.#file = openLibrary(this.dir).then(async (library) => {
        // A map that can't be read is among the library's own problems.
        const file = libraryFile(library, this.#part, await libraryMaps(this.dir).catch(() => []));
        return { text: JSON.stringify(file), unread: file.unread };
      });
    }
    return this.#file;
  }
}
