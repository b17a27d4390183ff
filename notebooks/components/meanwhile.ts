/** Work that a page does while nobody asks it anything, so that the next answer is there at once. */

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
