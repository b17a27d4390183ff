/** What of a library could not be read: every command that uses the library says so, and ends with 1. */
import type { Out } from "./out.ts";
import { isUnread, problemSentence, type Problem } from "../swing/problems.ts";

/** The files of a library that could not be read, a sentence each. */
export const unreadOf = ({ problems }: { readonly problems: readonly Problem[] }): string[] =>
  problems.filter(isUnread).map(problemSentence);

/** Says on stderr what could not be read, and sets the exit status. */
export function tellUnread(out: Out, sentences: readonly string[]): void {
  if (sentences.length === 0) return;
  out.tell(`${sentences.join("\n")}\nNothing of that is in what follows.`);
  out.end(1);
}
