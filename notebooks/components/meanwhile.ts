/** Work that a page does while nobody asks it anything, so that the next answer is there at once. */

const waiting: (() => void)[] = [];

/**
 * Cells may compute for so long before the page is drawn again and a press of a key is heard, ms: drawing a long page
 * after every cell would cost more than the cells.
 */
const turn = 100;

/**
 * Lets the page show what it has before the next cells compute, in the order they asked. The answer at the head of a
 * page never waits for the tables at its foot.
 */
export function afterPaint(): Promise<void> {
  return new Promise((done) => {
    waiting.push(done);
    if (waiting.length > 1) return;
    const next = async (): Promise<void> => {
      const until = performance.now() + turn;
      do {
        waiting[0]?.();
        // The cell goes on in a moment of its own, before this one.
        await null;
        waiting.shift();
      } while (waiting.length > 0 && performance.now() < until);
      if (waiting.length > 0) setTimeout(() => void next());
    };
    // Without a screen there are no frames: a hidden page goes on all the same.
    const begin = (): void => void next();
    if (document.hidden) setTimeout(begin);
    else requestAnimationFrame(() => setTimeout(begin));
  });
}

/** At most so long in one go, ms: a press of a key never waits longer for it. */
const slice = 12;
let latest = 0;

/** Lets what else waits have its turn. A timer would do the same, but browsers make one that follows another wait 4 ms. */
function otherTurns(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
}

/**
 * Does steps one by one, with room for what else is to be heard.
 * @param slice_ms so long in one go
 * @returns what they come to; null where they aren't wanted any more
 */
export async function inSlices<T>(
  steps: Generator<void, T>,
  isWanted: () => boolean = () => true,
  slice_ms: number = slice,
): Promise<{ readonly value: T } | null> {
  for (let until = performance.now() + slice_ms; isWanted();) {
    const step = steps.next();
    if (step.done === true) return { value: step.value };
    if (performance.now() < until) continue;
    await otherTurns();
    until = performance.now() + slice_ms;
  }
  return null;
}

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
