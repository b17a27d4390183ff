/** How long a page takes to answer a changed choice: its head, and all of it. */
import type { Page } from "playwright-core";

/** Milliseconds from the change: to the answer at the head, and to the frame that shows the last thing that changed. */
export interface Answer {
  readonly head: number;
  readonly whole: number;
  /** The longest task meanwhile; 0 where none took 50 ms. */
  readonly task: number;
  /** The calibration loop, just before, in the same page. */
  readonly loop: number;
}

/** Lets nothing be computed ahead: what is asked for is then asked for the first time. Before the page is opened. */
export async function nothingAhead(page: Page): Promise<void> {
  // What compiles a script that isn't a test names its functions in a way that the page doesn't know.
  await page.addInitScript("window.requestIdleCallback = () => 0; window.__name = (f) => f;");
}

/** The values a choice offers beside the one that holds, once the page has it: on a busy machine that may take a while. */
export async function othersOf(page: Page, label: string): Promise<string[]> {
  const others = await page.waitForFunction(
    (label) => {
      const select = [...document.querySelectorAll("label.choice")]
        .find((choice) => choice.querySelector("span")?.textContent === label)
        ?.querySelector("select");
      return select && [...select.options].map((o) => o.value).filter((value) => value !== select.value);
    },
    label,
    { timeout: 40_000 },
  );
  return (await others.jsonValue())!;
}

/** Waits until nothing has changed for a while. */
export function stands(page: Page, quiet_ms = 600): Promise<void> {
  return page.evaluate(
    (quiet) =>
      new Promise<void>((done) => {
        let timer = setTimeout(end, quiet);
        const observer = new MutationObserver(() => {
          clearTimeout(timer);
          timer = setTimeout(end, quiet);
        });
        function end(): void {
          observer.disconnect();
          done();
        }
        observer.observe(document.querySelector("main")!, { childList: true, subtree: true });
      }),
    quiet_ms,
  );
}

/** Chooses, and measures until nothing changes any more. */
export function chosen(page: Page, label: string, value: string): Promise<Answer> {
  return page.evaluate(
    async ([label, value]) => {
      // Table look-ups and sums, as the bootstrap's are: 16 million of them.
      const begun = performance.now();
      const table = Float64Array.from({ length: 256 }, (_, i) => i / 7);
      let [sum, state] = [0, 1];
      for (let i = 0; i < 16e6; i++) {
        state = (Math.imul(state, 1664525) + 1013904223) | 0;
        sum += table[state >>> 24]!;
      }
      const loop = sum > 0 ? performance.now() - begun : NaN;

      const field = [...document.querySelectorAll("label.choice")]
        .find((choice) => choice.querySelector("span")?.textContent === label)!
        .querySelector("select")!;
      const headline = () => document.querySelector(".first .answer")?.textContent;
      const before = headline();
      let [head, whole] = [0, 0];
      // The loop's task ends here.
      await new Promise((done) => setTimeout(done, 60));
      const start = performance.now();
      let task = 0;
      const tasks = new PerformanceObserver((list) => {
        for (const { startTime, duration } of list.getEntries())
          if (startTime > start - 50) task = Math.max(task, duration);
      });
      tasks.observe({ type: "longtask" });
      const observer = new MutationObserver(() => {
        const now = performance.now() - start;
        if (head === 0 && headline() !== before && headline() !== undefined) head = now;
        whole = now;
        // The frame that shows it is drawn before the turn after.
        requestAnimationFrame(() => setTimeout(() => (whole = performance.now() - start)));
      });
      observer.observe(document.querySelector("main")!, { childList: true, subtree: true });
      field.value = value;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      let seen = -1;
      while (whole !== seen || whole === 0) {
        seen = whole;
        await new Promise((done) => setTimeout(done, 500));
      }
      observer.disconnect();
      tasks.disconnect();
      return { head, whole, task, loop };
    },
    [label, value] as const,
  );
}

/** The middle of some figures. */
export const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
