/** Asking whoever sits at the terminal. */
import { createInterface } from "node:readline/promises";
import { Stopped } from "./errors.ts";

/**
 * Asks a question of yes or no on stderr. Anything but a yes is a no, the end of the input too.
 * @throws Stopped at Ctrl+C
 */
export async function yes(question: string): Promise<boolean> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  let stopped = false;
  // A question whose input ends is never answered, and one at which Ctrl+D is typed fails.
  const ended = new Promise<null>((resolve) => void lines.once("close", () => resolve(null)));
  lines.once("SIGINT", () => {
    stopped = true;
    lines.close();
  });
  try {
    const answer = await Promise.race([lines.question(`${question} [y/N] `).catch(() => null), ended]);
    if (answer === null) process.stderr.write("\n");
    if (stopped) throw new Stopped();
    return answer !== null && /^\s*y(es)?\s*$/i.test(answer);
  } finally {
    lines.close();
  }
}
