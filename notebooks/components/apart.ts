/**
 * Work that takes long, done beside the page: the page stays alive and says what is being worked out, and a newer question
 * of the same kind ends an older one. A small library's work is done in the page itself, which is there sooner.
 */
import { sending, type SentLibrary } from "./apartRows.ts";
import { make } from "./bringSay.ts";
import { fetchedBytes, fileOf, whenFetched, type PageLibrary } from "./library.ts";
import { inSlices } from "./meanwhile.ts";

/** What can be asked for: a pure function of a library, its answer plain values alone, since it travels. */
export type Work<Args extends readonly unknown[], Answer> = {
  /** Its name, as the thread beside the page knows it. */
  readonly name: string;
  /** What is worked out, after "Working out". */
  readonly what: string;
  /** Whose question it is: each has one at a time. The work's name when not given. */
  readonly slot?: string;
  /** Whether it waits until nothing else is wanted, and makes room for what is: its steps have to keep what they found. */
  readonly isIdle?: boolean;
} & (
  | { readonly run: (library: PageLibrary, ...args: Args) => Answer }
  /** Done step by step: between two of them the page is alive where it does the work itself, and a newer question is heard. */
  | { readonly steps: (library: PageLibrary, ...args: Args) => Generator<void, Answer> }
);

/** A cell's own way to put an element in its place. */
export type Display = (element: HTMLElement) => unknown;

/** A word to the thread beside the page. */
export type Asked =
  | { readonly kind: "file"; readonly file: ArrayBuffer }
  | { readonly kind: "library"; readonly library: SentLibrary }
  | { readonly kind: "work"; readonly n: number; readonly name: string; readonly args: readonly unknown[] }
  /** The work is not wanted any more. */
  | { readonly kind: "drop"; readonly n: number };

/** A word from it, about the work of that number. */
export type Told =
  | { readonly kind: "done"; readonly n: number; readonly answer: unknown }
  | { readonly kind: "failed"; readonly n: number; readonly message: string };

/** With so many swings work takes longer than a tenth of a second, and the page sends it elsewhere. */
const many = 4000;

/** So much of a library's file is a swing's, about, bytes: where a thread has little to do, it isn't begun. */
const bytesOfSwing = 180;

/** What takes less isn't told of, ms. */
const silent_ms = 150;

interface Waiting {
  readonly n: number;
  readonly library: PageLibrary;
  readonly key: string;
  readonly args: readonly unknown[];
  readonly work: Work<readonly unknown[], unknown>;
  readonly done: (answer: unknown) => void;
  readonly failed: (error: unknown) => void;
}

const slotOf = ({ slot, name }: Pick<Work<readonly never[], unknown>, "slot" | "name">): string =>
  slot ?? name;

/** Answers that were given or are on their way, by library and question. */
const kept = new WeakMap<PageLibrary, Map<string, Promise<unknown>>>();
let queue: Waiting[] = [];
let running: Waiting | null = null;
let thread: Worker | null = null;
/** What the thread has: a library, or the file that it is read from. */
let sent: PageLibrary | ArrayBuffer | null = null;
/** The latest library packed for the journey: a thread that was ended gets it again. */
let packing: {
  readonly of: PageLibrary;
  readonly ready: Promise<{ readonly value: SentLibrary } | null>;
} | null = null;
/** Whether this browser lets a page have a thread. */
let able = typeof Worker !== "undefined";

/** The latest question of each slot, by its number. */
const latest = new Map<string, number>();
let asked = 0;

/** Whether a library's work is done beside the page. */
export const isApart = (library: PageLibrary): boolean => able && library.swings.length >= many;

/**
 * Has something worked out. A slot has one question at a time: when it asks anew, an older one that has no answer yet is
 * dropped, and its cell with it.
 * @param display the cell's own: while the work goes on, the cell says so in its place
 * @throws what the work throws
 */
export async function apart<Args extends readonly unknown[], Answer>(
  display: Display,
  work: Work<Args, Answer>,
  library: PageLibrary,
  ...args: Args
): Promise<Answer> {
  const answers = kept.get(library) ?? new Map<string, Promise<unknown>>();
  kept.set(library, answers);
  const key = JSON.stringify([work.name, ...args]);
  let answer = answers.get(key) as Promise<Answer> | undefined;
  if (answer === undefined) {
    answer = ask(work, library, args, key);
    answers.set(key, answer);
    // What failed is asked for again.
    answer.catch(() => answers.delete(key));
  }
  const ended = saying(display, work.what);
  try {
    return await answer;
  } finally {
    ended();
  }
}

/** Says in the cell's place what is worked out, if it takes a while. */
function saying(display: Display, what: string): () => void {
  const line = make("p", { class: "working", role: "status" }, `Working out ${what}…`);
  const timer = setTimeout(() => {
    try {
      display(line);
    } catch {
      // A newer choice has the cell's place.
    }
  }, silent_ms);
  return () => {
    clearTimeout(timer);
    line.remove();
  };
}

function ask<Args extends readonly unknown[], Answer>(
  work: Work<Args, Answer>,
  library: PageLibrary,
  args: Args,
  key: string,
): Promise<Answer> {
  return new Promise((done, failed) => {
    const one = { n: ++asked, library, key, args, work, done, failed } as unknown as Waiting;
    const isOld = (old: Waiting): boolean => old.library !== library || slotOf(old.work) === slotOf(work);
    for (const old of queue.filter(isOld)) forget(old);
    queue = queue.filter((old) => !isOld(old));
    if (running !== null && isOld(running)) drop(running);
    latest.set(slotOf(work), one.n);
    if (!isApart(library)) return void inPage(one);
    if (running?.work.isIdle === true) {
      const again = { ...running, n: ++asked };
      stop(running);
      latest.set(slotOf(again.work), again.n);
      queue.push(again);
    }
    queue.push(one);
    queue.sort((a, b) => Number(a.work.isIdle === true) - Number(b.work.isIdle === true));
    void next();
  });
}

/** It has no answer, and gets none: who asks again is answered anew. */
const forget = ({ library, key }: Waiting): void => void kept.get(library)?.delete(key);

/** Stops what the thread does: by a word, where it listens between steps; else the thread ends. */
function drop(one: Waiting): void {
  forget(one);
  stop(one);
}

function stop(one: Waiting): void {
  if (!("steps" in one.work)) return end();
  running = null;
  thread?.postMessage({ kind: "drop", n: one.n } satisfies Asked);
}

/** Does in the page what is wanted of it. */
async function inPage(one: Waiting): Promise<void> {
  const { work, library, args } = one;
  try {
    if ("run" in work) return one.done(work.run(library, ...args));
    const steps = work.steps(library, ...args);
    const answer = await inSlices(steps, () => latest.get(slotOf(work)) === one.n);
    if (answer === null) forget(one);
    else one.done(answer.value);
  } catch (error) {
    one.failed(error);
  }
}

/** Ends the thread with what it does. */
function end(): void {
  thread?.terminate();
  thread = null;
  sent = null;
  running = null;
}

async function next(): Promise<void> {
  if (running !== null) return;
  const one = queue.shift();
  if (one === undefined) return;
  running = one;
  await send(one.library, () => running === one);
  // Meanwhile a newer question may have ended this one.
  if (running !== one) return;
  begin().postMessage({ kind: "work", n: one.n, name: one.work.name, args: one.args } satisfies Asked);
}

/** Gives the thread a library, if it is still wanted when it is packed. */
async function send(library: PageLibrary, isWanted: () => boolean): Promise<void> {
  const file = fileOf(library);
  if (file !== undefined) return sendFile(file);
  if (sent === library) return;
  packing = packing?.of === library ? packing : { of: library, ready: inSlices(sending(library)) };
  const ready = (await packing.ready)!.value;
  if (!isWanted()) return;
  begin().postMessage({ kind: "library", library: ready } satisfies Asked);
  sent = library;
}

/** A file is read in the thread while the page reads it, too. */
function sendFile(file: ArrayBuffer): void {
  if (sent === file) return;
  begin().postMessage({ kind: "file", file } satisfies Asked);
  sent = file;
}

const isMany = (bytes: number): boolean => able && bytes >= many * bytesOfSwing;
// The thread begins while the page's code is still coming, and reads the library beside the page.
if (isMany(fetchedBytes() ?? 0)) begin();
whenFetched((file) => {
  if (running === null && isMany(file.byteLength)) sendFile(file);
});

function begin(): Worker {
  if (thread !== null) return thread;
  const begun = new Worker(new URL("./apartWorker.ts", import.meta.url), { type: "module" });
  begun.addEventListener("message", ({ data }: MessageEvent<Told>) => {
    // A word about what was dropped meanwhile is for nobody.
    if (thread !== begun || running?.n !== data.n) return;
    const one = running;
    running = null;
    if (data.kind === "done") one.done(data.answer);
    else one.failed(new Error(data.message));
    void next();
  });
  // A page opened as a file, or a policy of the place that serves it: then the page does its work itself.
  begun.addEventListener("error", () => {
    if (thread !== begun) return;
    able = false;
    const left = [...(running === null ? [] : [running]), ...queue];
    queue = [];
    end();
    for (const one of left) void inPage(one);
  });
  thread = begun;
  return begun;
}
