/** Runs a command line in this process, and says what it wrote and how it ended. */
import { main } from "../../src/cli/main.ts";

export interface Run {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

export async function run(...args: string[]): Promise<Run> {
  const written = { out: "", err: "" };
  const streams = [
    ["out", process.stdout],
    ["err", process.stderr],
  ] as const;
  const before = streams.map(([, stream]) => stream.write);
  for (const [name, stream] of streams) {
    stream.write = (text: string | Uint8Array): boolean => {
      written[name] += typeof text === "string" ? text : Buffer.from(text).toString();
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
