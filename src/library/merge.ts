/** Which of a file's rows are new, which are newer values of swings that a library has, and which it has already. */
import type { RefusedRow } from "../swing/problems.ts";
import { hold, type Incoming } from "./incoming.ts";
import { hasMadeId, Matcher, OldValues, sameContent } from "./match.ts";
import type { StoredSwing } from "./parquet.ts";
import type { SessionsAtWork } from "./sessionWork.ts";

const clash =
  "is the id of another swing in the library: where ids count anew in every file, map their column to null";

/** What became of the rows that could be taken. */
export interface Merged {
  readonly counts: {
    readonly new: number;
    readonly corrected: number;
    readonly copies: number;
    readonly older: number;
  };
  /** Rows whose id is another swing's. */
  readonly held: readonly RefusedRow[];
}

/**
 * Gives each row its place in the sessions at work. Rows that are certainly a stored swing come first, so that a row
 * that is only likely one can't take its place.
 * @param path the file, as refusals name it
 * @param now when it happens, ISO 8601: the history keeps it
 */
export function mergeRows(
  path: string,
  incoming: Incoming,
  at: SessionsAtWork,
  now: string,
  bringBack: boolean,
): Merged {
  const merger = new Merger(incoming, at, now, bringBack);
  const { rows } = incoming;
  const matcher = new Matcher(at.stored, incoming.source);
  const held: RefusedRow[] = [];
  const undecided: number[] = [];
  for (let i = 0; i < rows.length; i++) {
    const row = rows.at(i);
    const place = matcher.size === 0 ? null : matcher.certain(row);
    if (matcher.size === 0) merger.take(row, i);
    else if (place === "clash") held.push(hold(path, row, "swing_id", clash));
    else if (place !== null) merger.meet(place, row);
    else undecided.push(i);
  }
  for (const i of undecided) {
    const row = rows.at(i);
    const place = matcher.likely(row);
    if (place !== null) merger.meet(place, row);
    else merger.take(row, i);
  }
  return { counts: merger.counts, held };
}

class Merger {
  readonly counts = { new: 0, corrected: 0, copies: 0, older: 0 };
  private readonly old: OldValues;
  private readonly incoming: Incoming;
  private readonly at: SessionsAtWork;
  private readonly now: string;
  private readonly bringBack: boolean;

  constructor(incoming: Incoming, at: SessionsAtWork, now: string, bringBack: boolean) {
    this.old = new OldValues(at.all().flatMap((work) => work.history));
    this.incoming = incoming;
    this.at = at;
    this.now = now;
    this.bringBack = bringBack;
  }

  private isOlder(row: StoredSwing): boolean {
    return !this.bringBack && this.old.has(row);
  }

  /** A row of a swing that isn't there. */
  take(row: StoredSwing, i: number): void {
    if (this.isOlder(row)) {
      this.counts.older++;
      return;
    }
    this.counts.new++;
    const work = this.at.of(row);
    work.fresh.push(i);
    work.changed = true;
  }

  /** A row of the swing that is stored at a place. */
  meet(place: number, row: StoredSwing): void {
    const before = this.at.stored.at(place);
    if (sameContent(before, row)) {
      this.counts.copies++;
      this.named(place, before, row);
    } else if (this.isOlder(row)) this.counts.older++;
    else {
      this.counts.corrected++;
      this.replace(place, before, row);
    }
  }

  /** A name that the tracker gave is worth more than one we made. */
  private named(place: number, before: StoredSwing, row: StoredSwing): void {
    if (!hasMadeId(before) || hasMadeId(row)) return;
    const work = this.at.of(before);
    work.newer.set(place, { ...before, swing_id: row.swing_id });
    work.changed = true;
  }

  /** The newer value takes the stored one's place, in its own session; the history keeps the old one. */
  private replace(place: number, before: StoredSwing, row: StoredSwing): void {
    const after = { ...row, source: this.incoming.source };
    if (!hasMadeId(before) && hasMadeId(row)) after.swing_id = before.swing_id;
    const from = this.at.of(before);
    const to = this.at.of(row);
    from.history.push({
      ...before,
      replaced_at: this.now,
      replaced_by: after.swing_id!,
      replaced_in: after.session,
    });
    if (from === to) from.newer.set(place, after);
    else {
      from.newer.set(place, null);
      to.moved.push(after);
    }
    from.changed = to.changed = true;
  }
}
