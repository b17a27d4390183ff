/**
 * Work that takes long, done beside the page: the page stays alive and says what is being worked out, and a newer question
 * of the same kind ends an older one. A small library's work is done in the page itself, which is there sooner.
 */
import { sending, type SentLibrary } from "./apartRows.ts";
import { make } from "./bringSay.ts";
import { fetchedBytes, fileOf, whenFetched, type PageLibrary } from "./library.ts";

/** What can be asked for: a pure function of a library, its answer plain values alone, since it travels. */
export interface Work<Args extends readonly unknown[], Answer> {
  /** Its name, as the thread beside the page knows it. */
  readonly name: string;
  /** What is worked out, after "Working out". */
  readonly what: string;
  readonly run: (library: PageLibrary, ...args: Args) => Answer;
}

/** A word to the thread beside the page. */
export type Asked =
  | { readonly kind: "file"; readonly file: ArrayBuffer }
  | { readonly kind: "library"; readonly library: SentLibrary }
  | { readonly kind: "work"; readonly name: string; readonly args: readonly unknown[] };

/** A word from it. */
export type Told =
  { readonly kind: "done"; readonly answer: unknown } | { readonly kind: "failed"; readonly message: string };

/** With so many swings work takes longer than a tenth of a second, and the page sends it elsewhere. */
const many = 4000;

/** A swing takes at least so much of a library's file, bytes. */
const bytesOfSwing = 150;

/** What takes less isn't told of, ms. */
const silent_ms = 150;

/** A library is packed for its journey so long in one go, ms: a press of a key never waits longer for it. */
const slice_ms = 12;

interface Waiting {
  readonly library: PageLibrary;
  readonly name: string;
  readonly key: string;
  readonly args: readonly unknown[];
  readonly work: Work<readonly never[], unknown>;
  readonly done: (answer: unknown) => void;
  readonly failed: (error: unknown) => void;
}

/** Answers that were given or are on their way, by library and question. */
const kept = new WeakMap<PageLibrary, Map<string, Promise<unknown>>>();
let queue: Waiting[] = [];
let running: Waiting | null = null;
let thread: Worker | null = null;
/** What the thread has: a library, or the file that it is read from. */
let sent: PageLibrary | ArrayBuffer | null = null;
/** The latest library packed for the journey: a thread that was ended gets it again. */
let packing: { readonly of: PageLibrary; readonly ready: Promise<SentLibrary> } | null = null;
/** Whether this browser lets a page have a thread. */
let able = typeof Worker !== "undefined";

/**
 * Has something worked out. The question that a cell asks is its only one of that kind: when it asks anew, an older one
 * that has no answer yet is dropped, and its cell with it.
 * @param display the cell's own: while the work goes on, the cell says so in its place
 * @throws what the work throws
 */
export async function apart<Args extends readonly unknown[], Answer>(
  display: (element: HTMLElement) => unknown,
  work: Work<Args, Answer>,
  library: PageLibrary,
  ...args: Args
): Promise<Answer> {
  const answers = kept.get(library) ?? new Map<string, Promise<unknown>>();
  kept.set(library, answers);
  const key = JSON.stringify([work.name, ...args]);
  let answer = answers.get(key) as Promise<Answer> | undefined;
  if (answer === undefined) {
    answer = able && library.swings.length >= many ? ask(work, library, args, key) : now(work, library, args);
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

/** Done in the page. */
async function now<Args extends readonly unknown[], Answer>(
  work: Work<Args, Answer>,
  library: PageLibrary,
  args: Args,
): Promise<Answer> {
  return work.run(library, ...args);
}

/** Says in the cell's place what is worked out, if it takes a while; the page keeps its height meanwhile. */
function saying(display: (element: HTMLElement) => unknown, what: string): () => void {
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
  const isOld = (one: Waiting): boolean => one.library !== library || one.name === work.name;
  for (const old of queue.filter(isOld)) kept.get(old.library)?.delete(old.key);
  queue = queue.filter((one) => !isOld(one));
  if (running !== null && isOld(running)) {
    kept.get(running.library)?.delete(running.key);
    end();
  }
  return new Promise((done, failed) => {
    queue.push({
      library,
      name: work.name,
      key,
      args,
      work: work as unknown as Waiting["work"],
      done: done as Waiting["done"],
      failed,
    });
    void next();
  });
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
  begin().postMessage({ kind: "work", name: one.name, args: one.args } satisfies Asked);
}

/** Gives the thread a library, if it is still wanted when it is packed. */
async function send(library: PageLibrary, isWanted: () => boolean): Promise<void> {
  const file = fileOf(library);
  if (file !== undefined) return sendFile(file);
  if (sent === library) return;
  packing = packing?.of === library ? packing : { of: library, ready: pack(library) };
  const ready = await packing.ready;
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
    if (thread !== begun || running === null) return;
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
    for (const one of left)
      void now(one.work, one.library, one.args as readonly never[]).then(one.done, one.failed);
  });
  thread = begun;
  return begun;
}

/** Packs a library between presses of a key. */
async function pack(library: PageLibrary): Promise<SentLibrary> {
  const steps = sending(library);
  for (let until = performance.now() + slice_ms; ;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    if (performance.now() < until) continue;
    await new Promise<void>((done) => setTimeout(done));
    until = performance.now() + slice_ms;
  }
}
