/** Threads that enrich blocks of swings beside the one that reads and writes. */
import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { EnricherSource } from "../contact/enrich.ts";
import type { Block } from "../library/packed-rows.ts";
import type { OwnField } from "../swing/fields.ts";
import type { BlockText } from "./enrich-rows.ts";
import { Fault } from "./errors.ts";

/** What every worker has to know before its first block: an enricher's source, the ceilings found, own fields. */
export type Setup = Omit<EnricherSource, "swings"> &
  Required<Pick<EnricherSource, "ceilings">> & { readonly fields: readonly OwnField[] };

/** A smaller input, in bytes, is done before further threads have started. */
const worthThreads = 6_000_000;
const mostThreads = 8;

/** How many threads an input of that many bytes is worth on this machine: 1 is the caller's own, alone. */
export function threadsFor(bytes: number): number {
  return bytes < worthThreads ? 1 : Math.min(mostThreads, availableParallelism());
}

interface Waiting {
  done(text: BlockText): void;
  fail(error: Error): void;
}

/** One thread and the blocks it still owes, oldest first. */
interface Thread {
  readonly worker: Worker;
  readonly owed: Waiting[];
}

/** A pool of workers. Blocks go to the one that owes least; when one fails, everything that is owed fails with it. */
export class Pool {
  private readonly threads: Thread[];
  private failed: Error | null = null;

  constructor(count: number, file = new URL("./enrich-worker.mjs", import.meta.url)) {
    this.threads = Array.from({ length: count }, () => {
      // The worker's file registers what it needs to read TypeScript itself.
      const thread: Thread = { worker: new Worker(file, { execArgv: [] }), owed: [] };
      thread.worker.on("message", (text: BlockText) => thread.owed.shift()!.done(text));
      thread.worker.on("error", (error) => this.fail(error.message));
      thread.worker.on("exit", (code) => this.fail(`it ended with ${code}`));
      return thread;
    });
  }

  /** Tells every worker what its blocks are enriched by; before the first block. */
  setUp(setup: Setup): void {
    for (const { worker } of this.threads) worker.postMessage(setup);
  }

  /** A block's lines, when a worker has them. The block's numbers move to the worker. */
  private run(block: Block): Promise<BlockText> {
    if (this.failed !== null) return Promise.reject(this.failed);
    const thread = this.threads.reduce((a, b) => (b.owed.length < a.owed.length ? b : a));
    thread.worker.postMessage(block, [block.numbers.buffer]);
    return new Promise((done, fail) => thread.owed.push({ done, fail }));
  }

  /** The lines of each block, in the blocks' order, a few blocks ahead of the one asked for. */
  async *texts(blocks: Iterable<Block>): AsyncGenerator<BlockText> {
    const ahead: Promise<BlockText>[] = [];
    for (const block of blocks) {
      const text = this.run(block);
      // Told where it is waited for; until then a failure must not count as unheard.
      text.catch(() => {});
      ahead.push(text);
      if (ahead.length > 2 * this.threads.length) yield await ahead.shift()!;
    }
    for (const text of ahead) yield await text;
  }

  /** Ends every worker, whatever it is at. */
  async close(): Promise<void> {
    this.failed ??= new Error("the pool is closed");
    await Promise.all(this.threads.map(({ worker }) => worker.terminate()));
  }

  private fail(reason: string): void {
    if (this.failed !== null) return;
    this.failed = new Fault(
      `A thread that computes swings failed (${reason}), so the swings are not written; --threads 1 goes without further threads`,
      1,
    );
    for (const { owed } of this.threads) for (const waiting of owed.splice(0)) waiting.fail(this.failed);
  }
}
