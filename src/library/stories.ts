/** What has become of each session's swings: the values that newer ones replaced, and the rows that wait refused. */
import { join } from "node:path";
import type { Swing } from "../swing/fields.ts";
import { isSystemError } from "./disk.ts";
import { differences } from "./match.ts";
import { UnusableFile } from "../swing/problems.ts";
import { refusedFile, Shelves } from "./shelves.ts";

/** An old value, and the newer one field by field. */
export interface Correction {
  readonly swing_id: string | null;
  readonly hitter: string;
  /** ISO 8601. */
  readonly replaced_at: string;
  /** The session the swing is in now, where that is another. */
  readonly moved_to: string | null;
  readonly changes: readonly { readonly field: string; readonly from: unknown; readonly to: unknown }[];
}

export interface SessionStory {
  readonly session: string | null;
  readonly swings: number;
  readonly corrections: readonly Correction[];
  readonly refused_waiting: number;
}

/** What can be read. What can't, whoever checks the library is told of beside the stories. */
async function readable<T>(work: () => Promise<T>, otherwise: T): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof UnusableFile || isSystemError(error)) return otherwise;
    throw error;
  }
}

/**
 * The story of each session of a library that has a folder of its own.
 * @param swings the library's swings as they are now
 */
export async function sessionStories(dir: string, swings: readonly Swing[]): Promise<SessionStory[]> {
  const shelves = await Shelves.open(dir);
  const counts = new Map<string | null, number>();
  const byId = new Map<string, Swing>();
  for (const swing of swings) {
    counts.set(swing.session, (counts.get(swing.session) ?? 0) + 1);
    byId.set(swing.swing_id!, swing);
  }
  const stories: SessionStory[] = [];
  for (const { session, folder } of await shelves.partitions()) {
    const history = await readable(() => shelves.history(folder), []);
    let waiting = 0;
    for (const name of await shelves.files(folder)) {
      if (!refusedFile.test(name)) continue;
      waiting += (await readable(() => shelves.refused(join(folder, name)), null))?.rows.length ?? 0;
    }
    const corrections = history.map((old, i): Correction => {
      // The value that followed: the next one in the history, or the one that is there now.
      const next =
        history.slice(i + 1).find((later) => later.swing_id === old.replaced_by) ?? byId.get(old.replaced_by);
      const changes =
        next === undefined
          ? []
          : differences(old, next).map((field) => ({ field, from: old[field], to: next[field] }));
      return {
        swing_id: old.swing_id,
        hitter: old.hitter,
        replaced_at: old.replaced_at,
        moved_to: old.replaced_in === session ? null : old.replaced_in,
        changes,
      };
    });
    stories.push({ session, swings: counts.get(session) ?? 0, corrections, refused_waiting: waiting });
  }
  return stories;
}
