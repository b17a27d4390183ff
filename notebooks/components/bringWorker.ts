/** Reads a file beside the page, so that the page stays alive. */
import { readWhole, troubleOf, type ReadCall, type Word } from "./bringRead.ts";

const say = (word: Word): void => postMessage(word);
/** Between two words about how far it is, ms. */
const every_ms = 80;

addEventListener("message", ({ data }: MessageEvent<{ call: ReadCall; wanted: boolean }>) => {
  let last = 0;
  const progress = (bytes: number): void => {
    const now = performance.now();
    if (now - last < every_ms) return;
    last = now;
    say({ kind: "progress", bytes });
  };
  readWhole(data.call, progress, data.wanted).then(
    (outcome) => say({ kind: "done", outcome }),
    (error: unknown) => say({ kind: "trouble", trouble: troubleOf(error) }),
  );
});
