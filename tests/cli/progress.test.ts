import { describe, expect, it, vi } from "vitest";
import { progress } from "../../src/cli/progress.ts";

/** What is written to a terminal, or to no terminal, over so many tenths of a second. */
function written(tenths: number, isTTY: boolean): string {
  let text = "";
  const stream = { isTTY, write: (t: string) => ((text += t), true) } as unknown as NodeJS.WriteStream;
  let now = 0;
  const clock = vi.spyOn(performance, "now").mockImplementation(() => now);
  try {
    const bar = progress("Reading a.csv", stream);
    for (let i = 0; i < tenths; i++) {
      now += 100;
      bar.at(i, 200);
    }
    bar.done();
  } finally {
    clock.mockRestore();
  }
  return text;
}

describe("progress", () => {
  it("says nothing for a second", () => expect(written(9, true)).toBe(""));
  it("says nothing where no one looks", () => expect(written(50, false)).toBe(""));
  it("then tells how far it is, and takes its line away", () => {
    const text = written(21, true);
    expect(text).toContain("\rReading a.csv: 10 %".replace("\r", "\r\u001b[K"));
    expect(text.endsWith("\r\u001b[K")).toBe(true);
  });
});
