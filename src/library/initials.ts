/** Initials in place of names, for reports that leave the house: hitters may be children. */
import { byName } from "../swing/byName.ts";
import type { Library } from "./library.ts";

/**
 * Initials for each name, different for different names: those that share them are counted, in the names' order.
 * @example [...initialsOf(["Ana Rivera", "Al Ross", "Bo"]).values()] // ["A. R. 2", "A. R.", "B."]
 */
export function initialsOf(names: Iterable<string>): Map<string, string> {
  const all = [...new Set(names)];
  const bare = (name: string): string => {
    const words = name.normalize("NFC").match(/[\p{L}\p{N}][\p{L}\p{N}\p{M}]*/gu) ?? [];
    return words.length === 0 ? "?" : words.map((word) => `${Array.from(word)[0]!.toUpperCase()}.`).join(" ");
  };
  const counts = new Map<string, number>();
  const found = new Map<string, string>();
  for (const name of [...all].sort(byName)) {
    const short = bare(name);
    const n = (counts.get(short) ?? 0) + 1;
    counts.set(short, n);
    found.set(name, n === 1 ? short : `${short} ${n}`);
  }
  return new Map(all.map((name) => [name, found.get(name)!]));
}

/**
 * A library whose hitters and pitchers have initials, wherever their names stand in it: in the swings, the lists, the
 * notes, and the names of sessions and files. Rows stay in their order.
 * @param keep names that stay as they are
 */
export function withInitials<L extends Omit<Library, "dir" | "names" | "fields">>(
  library: L,
  keep: ReadonlySet<string> = new Set(),
): L {
  const names = [
    ...library.hitters.map((h) => h.hitter),
    ...library.swings.flatMap((s) => (s.pitcher === null ? [s.hitter] : [s.hitter, s.pitcher])),
  ];
  const initials = new Map(
    [...initialsOf(names)].map(([name, short]) => [name, keep.has(name) ? name : short]),
  );
  const key = (text: string): string =>
    text
      .toLowerCase()
      .replace(/[\s._-]+/g, " ")
      .trim();
  const byKey = new Map([...initials].map(([name, short]) => [key(name), short]));
  // The longest first: a name may begin with another.
  const patterns = [...byKey.keys()]
    .filter((name) => name !== "")
    .sort((a, b) => b.length - a.length)
    .map((name) =>
      name
        .split(" ")
        .map((word) => word.replace(/[*+?^${}()|[\]\\/]/g, "\\$&"))
        .join("[\\s._-]+"),
    );
  const anyName =
    patterns.length === 0
      ? null
      : new RegExp(`(?<![\\p{L}\\p{N}])(?:${patterns.join("|")})(?![\\p{L}\\p{N}])`, "giu");
  const shorten = <T extends string | null>(text: T): T =>
    text === null || anyName === null
      ? text
      : (text.replace(anyName, (name) => byKey.get(key(name)) ?? "…") as T);
  const remembered = new Map<string, string>();
  const again = (text: string | null): string | null => {
    if (text === null) return null;
    const known = remembered.get(text) ?? shorten(text);
    remembered.set(text, known);
    return known;
  };
  return {
    ...library,
    swings: library.swings.map((swing) => ({
      ...swing,
      hitter: initials.get(swing.hitter)!,
      pitcher: swing.pitcher === null ? null : initials.get(swing.pitcher)!,
      session: again(swing.session),
      drill: again(swing.drill),
      note: again(swing.note),
    })),
    sessions: library.sessions.map((session) => ({
      ...session,
      session: shorten(session.session),
      place: shorten(session.place),
      turned_back_why: shorten(session.turned_back_why),
    })),
    hitters: library.hitters.map((hitter) => ({ ...hitter, hitter: initials.get(hitter.hitter)! })),
    targets: library.targets.map((target) => ({ ...target, drill: shorten(target.drill) })),
    files: library.files.map((file) => ({ ...file, file: shorten(file.file) })),
    problems: library.problems.map((problem) => ({
      ...problem,
      file: shorten(problem.file),
      value: shorten(problem.value),
      reason: shorten(problem.reason),
    })),
  };
}
