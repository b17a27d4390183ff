/** Work that a page does while nobody asks it anything, so that the next answer is there at once. */

const waiting: (() => void)[] = [];

/**
 * Lets the page show what it has before the next cell computes: one cell a turn, in the order they asked. The answer
 * at the head of a page never waits for the tables at its foot.
 */
export function afterPaint(): Promise<void> {
  return new Promise((done) => {
    waiting.push(done);
    if (waiting.length > 1) return;
    const next = (): void => {
      waiting.shift()?.();
      // A turn later, when that cell is done, so that a press of a key comes between.
      if (waiting.length > 0) setTimeout(next);
    };
    // Without a screen there are no frames: a hidden page goes on all the same.
    if (document.hidden) setTimeout(next);
    else requestAnimationFrame(() => setTimeout(next));
  });
}

/** At most so long in one go, ms: a press of a key never waits longer for it. */
const slice = 12;
let latest = 0;

/**
 * Does steps one by one when the page is idle. What is asked for later comes first: an earlier list that isn't done
 * is left where it is.
 */
export function meanwhile(steps: Iterator<void>): void {
  const mine = ++latest;
  const soon =
    typeof requestIdleCallback === "function"
      ? (work: () => void) => void requestIdleCallback(work)
      : (work: () => void) => void setTimeout(work, 30);
  const go = (): void => {
    if (mine !== latest) return;
    const until = performance.now() + slice;
    do if (steps.next().done === true) return;
    while (performance.now() < until);
    soon(go);
  };
  soon(go);
}
