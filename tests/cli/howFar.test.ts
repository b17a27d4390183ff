import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { progress } from "../../src/cli/howFar.ts";

const controls = /[\u0000-\u001f\u007f-\u009f]/;

/** What one line of a terminal shows after what was written to it: enough of ECMA-48 for one line. */
function screen(written: string): string {
  let line: string[] = [];
  let at = 0;
  for (const [piece] of written.matchAll(/\u001b\[\d*[A-Za-z]|\u001b[78]|[\s\S]/gu)) {
    const erase = /^\u001b\[(\d*)K$/.exec(piece)?.[1];
    if (erase === "2") line = [];
    else if (erase !== undefined) line = line.slice(0, at);
    else if (piece === "\r" || piece === "\u001b[1G") at = 0;
    else if (piece !== "\u001b7" && piece !== "\u001b8") {
      expect(piece).not.toMatch(controls);
      line[at++] = piece;
    }
  }
  return line.join("");
}

interface Call {
  readonly tenths: number;
  readonly label?: string;
  readonly isTTY?: boolean;
  readonly columns?: number;
  readonly total?: number | null;
}

/** What a terminal, or what is none, is sent and shows after so many tenths of a second, and at the end. */
function watch({ tenths, label = "Reading a.csv", isTTY = true, columns = 80, total = 200 }: Call) {
  let sent = "";
  const stream = { isTTY, columns, write: (t: string) => ((sent += t), true) };
  const bar = progress(label, stream as unknown as NodeJS.WriteStream);
  for (let i = 1; i <= tenths; i++) {
    vi.advanceTimersByTime(100);
    bar.at(i * 5, total);
  }
  const shown = screen(sent);
  bar.done();
  const left = screen(sent);
  const length = sent.length;
  bar.at(200, total);
  vi.advanceTimersByTime(5000);
  return { sent, shown, left, after: sent.length - length };
}

describe("progress", () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ["performance", "Date", "setTimeout", "clearTimeout"] }));
  afterEach(() => void vi.useRealTimers());

  it("says nothing for a second", () => expect(watch({ tenths: 9 }).sent).toBe(""));
  it("says nothing where no one looks", () => expect(watch({ tenths: 50, isTTY: false }).sent).toBe(""));
  it("then tells how far it is, takes its line away, and is gone", () => {
    const { shown, left, after } = watch({ tenths: 21 });
    expect(shown).toMatch(/^Reading a\.csv: ██████████░{10} 5[02] %$/);
    expect([left, after]).toEqual(["", 0]);
  });
  it("counts where no total is known", () => {
    expect(watch({ tenths: 2000, total: null }).shown).toMatch(/^Reading a\.csv: (9,99\d|10,000)$/);
    expect(watch({ tenths: 30, total: 0 }).shown).toMatch(/: 1\d\d$/);
  });
  it("goes on over its total without a word", () =>
    expect(watch({ tenths: 80 }).shown).toMatch(/█{20} 100 %$/));
  it("lets no file's name write more than its own line, and none of the terminal's commands", () => {
    const names = ["\u001b[2J\u009b1A\r\n{bar}{value}$&", "a".repeat(300), "球".repeat(100), "👩‍👩‍👧".repeat(50)];
    for (const name of names) {
      for (const columns of [20, 40, 80, 200]) {
        const { shown } = watch({ tenths: 21, label: `Adding ${name}`, columns });
        const wide = [...shown].reduce(
          (n, c) => n + (c.codePointAt(0)! > 0x10ff && !"…█░".includes(c) ? 2 : 1),
          0,
        );
        expect(wide).toBeLessThanOrEqual(columns);
        if (columns > 30) expect(shown).toMatch(/^Adding .* 5[02] %$/u);
      }
    }
    expect(watch({ tenths: 21, label: names[0]! }).shown).toContain("{bar}{value}$&");
  });
  it("takes away nothing where nothing was shown", () => {
    let sent = "";
    const stream = { isTTY: true, columns: 80, write: (t: string) => ((sent += t), true) };
    progress("Reading", stream as unknown as NodeJS.WriteStream).done();
    expect(sent).toBe("");
  });
});
