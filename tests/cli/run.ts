/** Runs a command line in this process, and says what it wrote and how it ended. */
import { PassThrough } from "node:stream";
import { main } from "../../src/cli/main.ts";

export interface Run {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

async function watched(args: readonly string[], onError: (text: string) => void): Promise<Run> {
  const written = { out: "", err: "" };
  const streams = [
    ["out", process.stdout],
    ["err", process.stderr],
  ] as const;
  const before = streams.map(([, stream]) => stream.write);
  for (const [name, stream] of streams) {
    stream.write = (piece: string | Uint8Array): boolean => {
      const text = typeof piece === "string" ? piece : Buffer.from(piece).toString();
      written[name] += text;
      if (name === "err") onError(text);
      return true;
    };
  }
  try {
    const status = await main(args);
    return { status, ...written };
  } finally {
    streams.forEach(([, stream], i) => (stream.write = before[i]!));
  }
}

export const run = (...args: string[]): Promise<Run> => watched(args, () => {});

/** Runs with other values of some properties, and puts back what was there. */
async function having<T>(
  changes: readonly (readonly [object, string, unknown])[],
  work: () => Promise<T>,
): Promise<T> {
  const before = changes.map(([of, name]) => Object.getOwnPropertyDescriptor(of, name));
  for (const [of, name, value] of changes) Object.defineProperty(of, name, { value, configurable: true });
  try {
    return await work();
  } finally {
    changes.forEach(([of, name], i) => {
      if (before[i] === undefined) Reflect.deleteProperty(of, name);
      else Object.defineProperty(of, name, before[i]);
    });
  }
}

/**
 * Runs a command line as at a terminal, where each question meets the next of the answers: keys that are
 * typed, or null for the end of the input, as after the last answer.
 * @returns also the questions that were asked
 */
export async function runAtTerminal(
  answers: readonly (string | null)[],
  ...args: string[]
): Promise<Run & { readonly questions: readonly string[] }> {
  const keys = Object.assign(new PassThrough(), { isTTY: true });
  const questions: string[] = [];
  const meet = (text: string): void => {
    const question = /(\S.*)(?: \[y\/N\]|\n(?: {2}\d+ .*\n)+\[1-\d+\]) $/.exec(text)?.[1];
    if (question === undefined) return;
    const answer = answers[questions.push(question) - 1] ?? null;
    setImmediate(() => (answer === null ? keys.end() : keys.write(answer)));
  };
  const terminal = [
    [process, "stdin", keys],
    [process.stderr, "isTTY", true],
  ] as const;
  return having(terminal, async () => ({ ...(await watched(args, meet)), questions }));
}
