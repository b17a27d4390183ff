/** Asking whoever sits at the terminal. */
import { createInterface } from "node:readline/promises";
import { Stopped } from "./errors.ts";

/**
 * Asks for a line on stderr; null at the end of the input.
 * @throws Stopped at Ctrl+C
 */
async function lineFor(prompt: string): Promise<string | null> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  let stopped = false;
  // A question whose input ends is never answered, and one at which Ctrl+D is typed fails.
  const ended = new Promise<null>((resolve) => void lines.once("close", () => resolve(null)));
  lines.once("SIGINT", () => {
    stopped = true;
    lines.close();
  });
  try {
    const answer = await Promise.race([lines.question(prompt).catch(() => null), ended]);
    if (answer === null) process.stderr.write("\n");
    if (stopped) throw new Stopped();
    return answer;
  } finally {
    lines.close();
  }
}

/**
 * Asks a question of yes or no on stderr. Anything but a yes is a no, the end of the input too.
 * @throws Stopped at Ctrl+C
 */
export async function yes(question: string): Promise<boolean> {
  const answer = await lineFor(`${question} [y/N] `);
  return answer !== null && /^\s*y(es)?\s*$/i.test(answer);
}

/**
 * Asks which of several on stderr, by number.
 * @returns the place of the answer; null for anything but one of the numbers, the end of the input too
 * @throws Stopped at Ctrl+C
 */
export async function choose(question: string, options: readonly string[]): Promise<number | null> {
  const listed = options.map((text, i) => `  ${i + 1} ${text}\n`).join("");
  const answer = await lineFor(`${question}\n${listed}[1-${options.length}] `);
  const at = answer === null || !/^\s*\d+\s*$/.test(answer) ? NaN : Number(answer);
  return at >= 1 && at <= options.length ? at - 1 : null;
}
