/** A line on the terminal that says how far something long has come; silent for a second, and where no one looks. */

export interface Progress {
  /** How much is done, of the total where that is known. */
  at(done: number, total: number | null): void;
  /** Takes the line away. */
  done(): void;
}

/**
 * Progress of one piece of work, on stderr.
 * @param label what is being done, such as "Reading swings.csv"
 */
export function progress(label: string, stream: NodeJS.WriteStream = process.stderr): Progress {
  const start = performance.now();
  let last = start;
  let shown = false;
  return {
    at(done, total) {
      const now = performance.now();
      if (!stream.isTTY || now - start < 1000 || now - last < 100) return;
      last = now;
      shown = true;
      const much = total === null || total === 0 ? String(done) : `${Math.floor((100 * done) / total)} %`;
      stream.write(`\r\x1b[K${label.slice(0, 60)}: ${much}`);
    },
    done() {
      if (shown) stream.write("\r\x1b[K");
    },
  };
}
