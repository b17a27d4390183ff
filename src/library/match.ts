/** Which swing of a library a row is: the same again, a newer value of it, or one of its own. */
import { swingFields, type Swing } from "../swing/fields.ts";
import { fingerprint } from "../swing/identity.ts";
import type { PackedRows } from "./packed-rows.ts";
import type { StoredSwing } from "./parquet.ts";

const contentFields = swingFields.filter((field) => field.name !== "swing_id");
const numbers = swingFields.filter((field) => field.type === "number").map((field) => field.name);

/** A swing's fingerprint, whatever its id. */
export const printOf = (swing: Swing): string => fingerprint(swing, swingFields, "swing_id");

/** Whether two swings say the same, their ids aside. */
export function sameContent(a: Swing, b: Swing): boolean {
  return contentFields.every(({ name }) => a[name] === b[name]);
}

/** Whether a swing's id is one made from its content, and not given. */
export function hasMadeId(swing: Swing): boolean {
  return (
    swing.swing_id !== null && /^[0-9a-f]{16}$/.test(swing.swing_id) && printOf(swing) === swing.swing_id
  );
}

/** The fields in which two swings differ. */
export function differences(a: Swing, b: Swing): (keyof Swing)[] {
  return contentFields.filter(({ name }) => a[name] !== b[name]).map(({ name }) => name);
}

/**
 * Whether at least half of what is measured in both is the same in both; where nothing is, whether hitter and outcome
 * are. A correction leaves most of a swing as it was.
 */
function mostlySame(a: Swing, b: Swing): boolean {
  let both = 0;
  let same = 0;
  for (const name of numbers) {
    if (a[name] === null || b[name] === null) continue;
    both++;
    if (a[name] === b[name]) same++;
  }
  return both === 0 ? a.hitter === b.hitter && a.outcome === b.outcome : same * 2 >= both;
}

/** Whether two rows of one id can be one swing: hit at the same time, or mostly the same. */
function couldBeOne(a: Swing, b: Swing): boolean {
  return (a.time !== null && a.time === b.time) || mostlySame(a, b);
}

/** Session, hitter and second of a swing; null where the time is less exact. Nobody hits two balls in a second. */
function momentOf(swing: Swing): string | null {
  if (swing.time === null || !/T\d\d:\d\d:\d\d/.test(swing.time)) return null;
  return `${swing.session ?? ""}\u001f${swing.hitter}\u001f${swing.time}`;
}

/** The swings of a library that rows are held against, each given to one row at most, and named by its place. */
export class Matcher {
  private readonly stored: PackedRows<StoredSwing>;
  /** By the row of the same file. */
  private readonly byRow = new Map<number, number>();
  private readonly byId = new Map<string, number>();
  // Made when they are first asked for: most files have no row that needs them.
  private byPrint: Map<string, number> | null = null;
  private byMoment: Map<string, number[]> | null = null;
  private readonly claimed: Uint8Array;

  /** @param source the file that the rows to come are from */
  constructor(stored: PackedRows<StoredSwing>, source: string) {
    this.stored = stored;
    this.claimed = new Uint8Array(stored.length);
    for (let at = 0; at < stored.length; at++) {
      const row = stored.value(at, "source_row");
      if (row !== null && stored.value(at, "source") === source) this.byRow.set(row, at);
      this.byId.set(stored.value(at, "swing_id")!, at);
    }
  }

  get size(): number {
    return this.byId.size;
  }

  /** The place of the swing with a row's id, its content, or its place in the same file. */
  certain(row: StoredSwing): number | "clash" | null {
    const known = this.byId.get(row.swing_id!);
    if (known !== undefined) {
      if (this.claimed[known]) return null;
      if (this.isSame(known, row)) return this.claim(known);
    }
    const sameRow = row.source_row === null ? undefined : this.byRow.get(row.source_row);
    if (sameRow !== undefined && !this.claimed[sameRow]) return this.claim(sameRow);
    if (known !== undefined) return couldBeOne(this.stored.at(known), row) ? this.claim(known) : "clash";
    // A name that was given and one that was made may mean the same swing; two that were given don't.
    const alike = hasMadeId(row) ? this.prints().get(row.swing_id!) : this.byId.get(printOf(row));
    return alike === undefined || this.claimed[alike] ? null : this.claim(alike);
  }

  /** The place of the swing of the row's moment, when it is the only one left there and mostly the same. */
  likely(row: StoredSwing): number | null {
    const moment = momentOf(row);
    if (moment === null) return null;
    const [only, ...more] = (this.moments().get(moment) ?? []).filter((at) => !this.claimed[at]);
    if (only === undefined || more.length > 0) return null;
    const swing = this.stored.at(only);
    // Two ids that were both given are two swings.
    if (!mostlySame(swing, row) || (!hasMadeId(swing) && !hasMadeId(row))) return null;
    return this.claim(only);
  }

  private isSame(at: number, row: StoredSwing): boolean {
    return contentFields.every(({ name }) => this.stored.value(at, name) === row[name]);
  }

  private prints(): Map<string, number> {
    if (this.byPrint !== null) return this.byPrint;
    this.byPrint = new Map();
    for (let at = 0; at < this.stored.length; at++) {
      const swing = this.stored.at(at);
      const print = printOf(swing);
      if (print !== swing.swing_id) this.byPrint.set(print, at);
    }
    return this.byPrint;
  }

  private moments(): Map<string, number[]> {
    if (this.byMoment !== null) return this.byMoment;
    this.byMoment = new Map();
    for (let at = 0; at < this.stored.length; at++) {
      const moment = this.claimed[at] ? null : momentOf(this.stored.at(at));
      if (moment === null) continue;
      const there = this.byMoment.get(moment);
      if (there === undefined) this.byMoment.set(moment, [at]);
      else there.push(at);
    }
    return this.byMoment;
  }

  private claim(at: number): number {
    this.claimed[at] = 1;
    return at;
  }
}

/** The old values of a library's swings, so that a row that brings one again is told. */
export class OldValues {
  private readonly named = new Set<string>();
  private readonly ofGiven = new Set<string>();
  private readonly ofMade = new Set<string>();

  constructor(history: Iterable<Swing>) {
    for (const swing of history) {
      const print = printOf(swing);
      this.named.add(`${swing.swing_id} ${print}`);
      (hasMadeId(swing) ? this.ofMade : this.ofGiven).add(print);
    }
  }

  has(row: Swing): boolean {
    if (this.named.size === 0) return false;
    const print = printOf(row);
    // As in matching: a name that was made may mean a swing whose name was given, but no given one another.
    return (
      this.named.has(`${row.swing_id} ${print}`) || (hasMadeId(row) ? this.ofGiven : this.ofMade).has(print)
    );
  }
}
