/**
 * Decoding in a thread of its own, which is ended when it takes too long: one flipped bit of a Parquet file can send a
 * decoder round in circles, and the process with it.
 */
import { Worker } from "node:worker_threads";
import type { Group } from "./decode.ts";
import type { Answer, Order } from "./decode-worker.ts";

/** How long a file may take to be decoded, ms: far longer than a whole one does on a slow machine. */
const least = 10_000;
const perByte = 1 / 500;

/** What a damaged file may ask of the memory, MB; a million swings take a third of it. */
const mostMemory = 2048;

let idle: Worker | null = null;
let queue: Promise<unknown> = Promise.resolve();

/**
 * Decodes columns of a file that no sum vouches for.
 * @param patience how long it may take, ms
 * @throws what the decoder threw, and when it takes longer
 */
export function decodeApart(
  bytes: Uint8Array,
  columns: readonly string[],
  patience = least + bytes.length * perByte,
): Promise<readonly Group[]> {
  // One at a time: another's work is none of a file's own time.
  const next = queue.then(() => decodeNow({ bytes, columns }, patience));
  queue = next.catch(() => {});
  return next;
}

async function decodeNow(order: Order, patience: number): Promise<readonly Group[]> {
  const worker = idle ?? (await started());
  idle = null;
  // As long as it works the process has to wait for it, and no longer.
  worker.ref();
  worker.postMessage(order);
  const answer = await answerOf(worker, patience).catch((error: unknown) => {
    void worker.terminate();
    throw error;
  });
  if (answer === "ready") throw new Error("it was not decoded");
  worker.unref();
  idle = worker;
  if ("failed" in answer) throw new Error(answer.failed);
  return answer.groups;
}

async function started(): Promise<Worker> {
  const worker = new Worker(new URL("./decode-worker.mjs", import.meta.url), {
    // The worker's file registers what it needs to read TypeScript itself.
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: mostMemory },
  });
  await answerOf(worker, null);
  return worker;
}

/** The next thing that a worker says; an error when it ends first, or says nothing for too long. */
function answerOf(worker: Worker, patience: number | null): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const timer =
      patience === null
        ? null
        : setTimeout(() => end(() => reject(new Error("its decoding comes to no end"))), patience);
    const end = (settle: () => void): void => {
      if (timer !== null) clearTimeout(timer);
      worker.off("message", said).off("error", failed).off("exit", gone);
      settle();
    };
    const said = (answer: Answer): void => end(() => resolve(answer));
    const failed = (error: Error): void => end(() => reject(error));
    const gone = (): void => end(() => reject(new Error("its decoding broke off")));
    worker.on("message", said).on("error", failed).on("exit", gone);
  });
}
