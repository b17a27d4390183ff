/**
 * The library as it grows: the live server tells of new rows through the channel that it holds to every page, and the
 * cells that use the library run again. Nothing is loaded anew, and the page stays where it is. A built page has no
 * such channel, and one library.
 */
import { libraryOpened } from "./frame.ts";
import { openLibrary, type PageLibrary } from "./library.ts";

/** The server's word for a library that changed. */
export const libraryChanged = "batted:library-changed";

interface Channel {
  on(event: string, told: (payload: unknown) => void | Promise<void>): void;
}

const channel = (import.meta as { hot?: Channel }).hot;

/** How long a page must keep its height before it has settled, ms, and how long it may take at most. */
const settled = { still_ms: 400, most_ms: 4000 } as const;

/** Between two questions whether the server is back, ms. */
const askEvery_ms = 1000;

const keptPlace = "batted place";

/**
 * Holds a page at a place while its cells are made anew: what they leave empty for a moment would let it jump. Ends
 * when the page is still, or when the reader moves it.
 */
function holdPlace(top: number): void {
  const main = document.querySelector("main");
  if (main === null || top <= 0) return;
  main.style.minHeight = `${Math.max(main.offsetHeight, top + innerHeight)}px`;
  const began = performance.now();
  let height = document.documentElement.scrollHeight;
  let still = began;
  let ended = false;
  const moves = ["wheel", "touchstart", "keydown", "pointerdown"] as const;
  const end = (): void => {
    ended = true;
    main.style.minHeight = "";
    for (const move of moves) removeEventListener(move, end);
  };
  for (const move of moves) addEventListener(move, end, { passive: true });
  const step = (now: number): void => {
    if (ended) return;
    if (scrollY !== top) scrollTo({ top, behavior: "instant" });
    const tall = [...main.children].reduce((sum, child) => sum + (child as HTMLElement).offsetHeight, 0);
    if (tall !== height) [height, still] = [tall, now];
    if (now - still > settled.still_ms || now - began > settled.most_ms) return end();
    requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
}

/** Says that the server is gone, and when the figures are from. */
function sayGone(): void {
  const at = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  const said = document.createElement("p");
  said.className = "gone";
  said.setAttribute("role", "status");
  said.textContent = `The program that serves these pages has ended: what stands here is as of ${at}, and new swings don't arrive. Start it again as before; this page then goes on by itself.`;
  document.body.append(said);
}

/** Waits until the server answers again. */
async function back(): Promise<void> {
  for (;;) {
    await new Promise((done) => setTimeout(done, askEvery_ms));
    const answered = await fetch("library.json", { method: "HEAD", cache: "no-store" }).then(
      (response) => response.ok,
      () => false,
    );
    if (answered) return;
  }
}

let changes = 0;
let told = (): void => {};
channel?.on(libraryChanged, () => {
  changes++;
  told();
});
// Until this ends, the channel's own way of coming back, which the pages' policy forbids, is not tried.
channel?.on("vite:ws:disconnect", async () => {
  sayGone();
  await back();
  sessionStorage.setItem(keptPlace, String(scrollY));
  location.reload();
});

/** The library of a built page, and again each time the reader keeps more in this browser. */
async function* builtVersions(): AsyncGenerator<PageLibrary> {
  const { ownChanged, withOwn } = await import("./own.ts");
  let changed = (): void => {};
  let told = new Promise<void>((done) => (changed = done));
  addEventListener(ownChanged, () => changed());
  const built = await openLibrary();
  libraryOpened(built.name);
  for (;;) {
    yield await withOwn(built);
    await told;
    told = new Promise<void>((done) => (changed = done));
    holdPlace(scrollY);
  }
}

/** The library, and again each time it changes. */
async function* versions(): AsyncGenerator<PageLibrary> {
  if (channel === undefined) return yield* builtVersions();
  let seen = changes;
  const first = await openLibrary();
  libraryOpened(first.name);
  yield first;
  const place = sessionStorage.getItem(keptPlace);
  sessionStorage.removeItem(keptPlace);
  if (place !== null) holdPlace(Number(place));
  for (;;) {
    if (seen === changes) await new Promise<void>((done) => (told = done));
    seen = changes;
    const library = await openLibrary();
    holdPlace(scrollY);
    yield library;
  }
}

/**
 * The library as a cell names it. To the runtime it is a generator, and it hands each version to the cells that use
 * it, which run again; to them it is a library.
 */
export const liveLibrary = versions as unknown as () => PageLibrary;
