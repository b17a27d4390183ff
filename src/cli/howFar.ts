/** A line on the terminal that says how far something long has come; silent for a second, and where no one looks. */
import { SingleBar } from "cli-progress";
import { printable } from "../swing/problems.ts";

export interface Progress {
  /** How much is done, of the total where that is known. */
  at(done: number, total: number | null): void;
  /** Takes the line away, for good. */
  done(): void;
}

/** Work that ends sooner than this shows nothing, ms. */
const patience = 1000;
const bar = { wide: 20, done: "█", left: "░" } as const;

/** Letters beyond these may take two columns. */
const lastNarrow = 0x10ff;

/** What stands in one line of a terminal: of a label, which may hold anything, as much as there is room for. */
function lineOf(label: string, tail: string, columns: number): string {
  const room = columns - tail.length - 2;
  let used = 0;
  let text = "";
  for (const letter of label) {
    used += letter.codePointAt(0)! > lastNarrow ? 2 : 1;
    if (used > room) return `${text}…${tail}`;
    text += letter;
  }
  return text + tail;
}

/**
 * Progress of one piece of work, on stderr.
 * @param label what is being done, such as "Reading swings.csv"
 */
export function progress(label: string, stream: NodeJS.WriteStream = process.stderr): Progress {
  const start = performance.now();
  const shown = printable(label);
  const line = new SingleBar({
    stream,
    clearOnComplete: true,
    // Wrapping that is switched off would stay off when the process is killed.
    linewrap: true,
    format: (_, { value, progress: share, maxWidth }, { total }: { total: number | null }) => {
      if (total === null || total === 0) return lineOf(shown, `: ${value.toLocaleString("en-US")}`, maxWidth);
      const done = Math.round(share * bar.wide);
      const drawn = bar.done.repeat(done) + bar.left.repeat(bar.wide - done);
      return lineOf(shown, `: ${drawn} ${Math.floor(share * 100)} %`, maxWidth);
    },
  });
  let state: "waiting" | "shown" | "done" = "waiting";
  return {
    at(done, total) {
      if (state === "waiting" && performance.now() - start >= patience) {
        state = "shown";
        line.start(total ?? 0, done, { total });
      } else if (state === "shown") {
        if (total !== null) line.setTotal(total);
        line.update(done, { total });
      }
    },
    done() {
      state = "done";
      line.stop();
    },
  };
}
