/** What the pages that write and the program that serves them tell each other. */
import type { AddedCounts } from "../../src/library/add.ts";
import type { ColumnMap } from "../../src/reading/maps.ts";
import type { NameRow } from "../../src/swing/fields.ts";

/** Where the page writes, beside itself. */
export const writeTo = {
  add: "bring/add",
  became: "bring/became",
  rows: "bring/rows",
  byHand: "bring/by-hand",
} as const;
/** The element of the page that holds its token, and the header that shows it. */
export const tokenName = "batted-token";
export const tokenHeader = "x-batted-token";

/** The largest file that is taken, bytes. */
export const mostBytes = 200 * 2 ** 20;

/** How a file is to be added: the first line of what is sent, before the file's bytes. */
export interface AddCall {
  readonly name: string;
  /** Null for a file in the kit's own form. */
  readonly map: ColumnMap | null;
  /** Values, by field, for rows that don't tell theirs. */
  readonly fill: Readonly<Record<string, string>>;
  /** What was answered about names nearly alike in it. */
  readonly names: readonly NameRow[];
  /** Whether values that look wrong are taken as they are. */
  readonly anyway: boolean;
  /** Whether the map is kept for the next file. */
  readonly keep: boolean;
}

/** A file that was sent, and when, ms since 1970. */
export interface Sent {
  readonly name: string;
  readonly at: number;
}

/** What became of a file that was sent: added whole, being added, or not added at all. */
export type BecameAnswer =
  | { readonly state: "under way" }
  | { readonly state: "nothing" }
  | {
      readonly state: "added";
      /** Null where they weren't kept. */
      readonly counts: Pick<AddedCounts, "read" | "new" | "corrected" | "refused"> | null;
    };

/** What became of a file. */
export interface AddAnswer extends AddedCounts {
  /** A sentence each. */
  readonly problems: readonly string[];
  /** The name of the file in which the map is kept, or null. */
  readonly map: string | null;
}
