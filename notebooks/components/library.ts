/** The library in a page: `library.json`, beside the page, as rows. */
import { fromColumns } from "../../src/swing/columns.ts";
import {
  computedFields,
  swingFields,
  type EnrichedSwing,
  type Hitter,
  type Session,
  type Target,
} from "../../src/swing/fields.ts";

/** What `library.json` holds. */
export interface LibraryFile {
  /** The folder's name. */
  readonly name: string;
  readonly swings: ReturnType<typeof import("../../src/swing/columns.ts").toColumns>;
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
  readonly targets: readonly Target[];
  readonly thresholds: unknown;
  readonly files: readonly { file: string; rows: number; refused: number }[];
  readonly refused: number;
  readonly warnings: number;
  /** The first refused rows and warnings, a sentence each. */
  readonly problems: readonly string[];
  /** Why the library could not be opened, or null. */
  readonly trouble: string | null;
}

/** A library opened in a page: the file, with its swings as rows. */
export interface PageLibrary extends Omit<LibraryFile, "swings"> {
  readonly swings: readonly EnrichedSwing[];
}

const nothing: PageLibrary = {
  name: "",
  swings: [],
  sessions: [],
  hitters: [],
  targets: [],
  thresholds: null,
  files: [],
  refused: 0,
  warnings: 0,
  problems: [],
  trouble: null,
};

/** A library file as a page uses it. One that could not be opened has no rows, and says why. */
export function pageLibrary(file: LibraryFile | { trouble: string }): PageLibrary {
  if (!("swings" in file)) return { ...nothing, trouble: file.trouble };
  const swings = fromColumns(file.swings, [...swingFields, ...computedFields]) as EnrichedSwing[];
  return { ...file, swings };
}

/** Opens the library that the page was served or built with. */
export async function openLibrary(base: string = document.baseURI): Promise<PageLibrary> {
  const response = await fetch(new URL("library.json", base));
  try {
    return pageLibrary((await response.json()) as LibraryFile | { trouble: string });
  } catch {
    return { ...nothing, trouble: "The file library.json, which belongs beside this page, can't be read." };
  }
}
