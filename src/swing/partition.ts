/**
 * The folder of a session in a library: `session=…`, the naming of partitions that Hive began and every engine
 * that reads partitioned Parquet understands. The name is percent-encoded (RFC 3986) so far that it can't leave
 * its folder, and that two sessions never share a folder on a disk that takes capitals and small letters for the
 * same; decoding gives the session's name back, letter by letter. A person is told the name, not how it is encoded.
 */

/** What stands before the name. */
const prefix = "session=";
/** Hive's own word for a row without a value. No session is encoded so: its capitals would be escaped. */
const nameless = "__HIVE_DEFAULT_PARTITION__";
/** Bytes that the common file systems allow in a name. */
const longestName = 255;
const utf8 = new TextEncoder();

/** Letters with no capitals of their own (as in Chinese or Arabic) stay as they are: they can't clash. */
const plain = /[a-z0-9._\-\p{Lo}]/u;

function encoded(name: string): string {
  let text = "";
  for (const letter of name.normalize("NFC")) {
    if (plain.test(letter)) text += letter;
    else
      for (const byte of utf8.encode(letter)) text += `%${byte.toString(16).toUpperCase().padStart(2, "0")}`;
  }
  // Some systems drop a point at a name's end.
  return text.replace(/\.$/, "%2E");
}

/**
 * The folder's name for a session; null for swings without one.
 * @example partitionName("May 5, tee") // "session=%4Day%205%2C%20tee"
 */
export function partitionName(session: string | null): string {
  return prefix + (session === null ? nameless : encoded(session));
}

/**
 * The session of a folder's name; undefined for a folder that is no partition.
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
  if (utf8.encode(partitionName(session)).length > longestName) return "is too long for the name of a folder";
  return null;
}

/**
 * The session that a file or folder of a library belongs to, by its path; undefined outside the sessions' folders.
 * @example sessionOfPath("swings/session=%4Day%205/swings.parquet") // "May 5"
 * @example sessionOfPath("hitters.csv") // undefined
 */
export function sessionOfPath(path: string): string | null | undefined {
  const folders = path.split(/[/\\]/);
  const at = folders.findLastIndex((name, i) => name.startsWith(prefix) && folders[i - 1] === "swings");
  return at === -1 ? undefined : sessionOfPartition(folders[at]!);
}
