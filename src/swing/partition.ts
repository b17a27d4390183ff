/**
 * The folder of a session in a library: `session=…`, the naming of partitions that Hive began and every engine
 * that reads partitioned Parquet understands. It reads as the session does: letters, figures and what is common
 * between them stand as they are, and all that a disk, an engine or an eye could take for something else is
 * percent-encoded (RFC 3986). Decoding gives the session's name back, letter by letter.
 */

/** What stands before the name. */
const prefix = "session=";
/** Hive's own word for a row without a value. */
const nameless = "__HIVE_DEFAULT_PARTITION__";
/** Bytes that the common file systems allow in a name. */
const longestName = 255;
const utf8 = new TextEncoder();

/** What stands as it is. Of what shows nothing on a screen, nothing does. */
const plain = /^(?!\p{Default_Ignorable_Code_Point})[\p{L}\p{N}\p{Pd} ._,()&']$/u;
/** A mark stays with its letter: with anything else before it, a disk that composes letters would join the two. */
const mark = /^(?!\p{Default_Ignorable_Code_Point})\p{M}$/u;
const letterOrMark = /^[\p{L}\p{M}]$/u;

/** @param more how many letters at the start are encoded too */
function encoded(name: string, more: number): string {
  const letters = [...name.normalize("NFC")];
  let text = "";
  let joins = false;
  letters.forEach((letter, i) => {
    // Some systems drop a point or a blank at a name's end.
    const isEnd = i === letters.length - 1 && /[ .]/.test(letter);
    const stays = mark.test(letter) ? joins : plain.test(letter) && more-- <= 0 && !isEnd;
    joins = stays && letterOrMark.test(letter);
    if (stays) text += letter;
    else
      for (const byte of utf8.encode(letter)) text += `%${byte.toString(16).toUpperCase().padStart(2, "0")}`;
  });
  return text;
}

/**
 * A name as disks may see it: some ignore case, some hold letters composed and some apart. By capitals, too: ß is SS
 * there. Two files whose names are alike in it could be one.
 * @example asDisksSee("Weiß") // "weiss"
 */
export const asDisksSee = (name: string): string => name.normalize("NFKD").toUpperCase().toLowerCase();

const isTooLong = (folder: string): boolean => utf8.encode(folder).length > longestName;

/**
 * The folder's name for a session; null for swings without one.
 * @param taken folders that others have, as disks see them: what could be one of them has its first letters encoded,
 *   as many as it takes
 * @throws RangeError when that is too long for the name of a folder
 * @example partitionName("May 5, tee") // "session=May 5, tee"
 * @example partitionName("may 5", new Set(["session=may 5"])) // "session=%6Day 5"
 */
export function partitionName(session: string | null, taken: ReadonlySet<string> = new Set()): string {
  if (session === null) return prefix + nameless;
  // As many names as there are figures after "%": one of them is free, and all encoded no other session has it.
  for (let more = 0; ; more++) {
    const folder = prefix + encoded(session, more);
    if (more > 0 && isTooLong(folder))
      throw new RangeError(
        "is too long for the name of a folder, and differs from another's in capitals alone",
      );
    const seen = asDisksSee(folder);
    if (seen !== asDisksSee(prefix + nameless) && (!taken.has(seen) || more > session.length)) return folder;
  }
}

/**
 * The session of a folder's name; undefined for a folder that is no partition.
 * @example sessionOfPartition("session=May 5, tee") // "May 5, tee"
 * @example sessionOfPartition("session=%4Day%205%2C%20tee") // "May 5, tee"
 */
export function sessionOfPartition(folder: string): string | null | undefined {
  if (!folder.startsWith(prefix)) return undefined;
  const name = folder.slice(prefix.length);
  if (name === nameless) return null;
  try {
    return decodeURIComponent(name).normalize("NFC");
  } catch {
    return undefined;
  }
}

/**
 * Why a session can have no folder of its own; null when it can.
 * @example partitionProblem("May 5") // null
 */
export function partitionProblem(session: string): string | null {
  if (/\p{Cs}/u.test(session)) return "holds half a letter, which no file can be named by";
  if (isTooLong(prefix + encoded(session, 0))) return "is too long for the name of a folder";
  return null;
}

/**
 * The session that a file or folder of a library belongs to, by its path; undefined outside the sessions' folders.
 * @example sessionOfPath("swings/session=May 5/swings.parquet") // "May 5"
 * @example sessionOfPath("hitters.csv") // undefined
 */
export function sessionOfPath(path: string): string | null | undefined {
  const folders = path.split(/[/\\]/);
  const at = folders.findLastIndex((name, i) => name.startsWith(prefix) && folders[i - 1] === "swings");
  return at === -1 ? undefined : sessionOfPartition(folders[at]!);
}
