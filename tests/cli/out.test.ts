/** What every command says goes through here: nothing that stands in a file, a name or a path acts on a terminal. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { folded } from "../../src/cli/fold.ts";
import { terminal } from "../../src/cli/out.ts";
import { tableText } from "../../src/cli/table.ts";

/** Clears the screen, turns the direction of reading, and rings. */
const hostile = "Ana\u001b[2J\u202eB\u0007";
const harmless = "Ana\ufffd[2J\ufffdB\ufffd";

describe("out", () => {
  const written = { out: "", err: "" };
  beforeEach(() => {
    written.out = written.err = "";
    vi.spyOn(process.stdout, "write").mockImplementation((piece) => ((written.out += String(piece)), true));
    vi.spyOn(process.stderr, "write").mockImplementation((piece) => ((written.err += String(piece)), true));
  });
  afterEach(() => void vi.restoreAllMocks());

  it("guards what it prints and what it tells, line by line", () => {
    const out = terminal();
    out.print(`a ${hostile}\nb`);
    out.tell(hostile);
    expect(written).toEqual({ out: `a ${harmless}\nb\n`, err: `${harmless}\n` });
  });

  it("prints JSON that says the same to a machine and harms no terminal", () => {
    terminal().json({ hitter: hostile });
    expect(written.out).not.toMatch(/[\u001b\u202e\u0007]/);
    expect(JSON.parse(written.out)).toEqual({ hitter: hostile });
  });

  it("ends a text with one newline, whether it had one or not", () => {
    const out = terminal();
    out.print("a");
    out.print("b\n");
    out.print("");
    expect(written.out).toBe("a\nb\n");
  });

  it("folds sentences on a terminal, and not where a program reads", () => {
    const text = `${"word ".repeat(60)}end`;
    const tty = process.stdout.isTTY;
    try {
      process.stdout.isTTY = true;
      terminal().print(text);
      const lines = written.out.trimEnd().split("\n");
      expect(lines.length).toBeGreaterThan(3);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
      expect(lines.join("\n").replace(/\n {2}/g, " ")).toBe(text);
      written.out = "";
      process.stdout.isTTY = false;
      terminal().print(text);
      expect(written.out).toBe(`${text}\n`);
    } finally {
      process.stdout.isTTY = tty;
    }
  });

  it("lets an exit status rise, and never fall", () => {
    const out = terminal();
    expect(out.status).toBe(0);
    out.end(2);
    out.end(1);
    expect(out.status).toBe(2);
  });
});

describe("folding", () => {
  it("keeps every word, a line's own indent and a table's lines", () => {
    expect(folded("  a bb ccc", 7)).toBe("  a bb\n    ccc");
    expect(folded("Ana    93 mph and more", 10)).toBe("Ana    93 mph and more");
    expect(folded("short\n\nlonger than it", 9)).toBe("short\n\nlonger\n  than it");
  });

  it("counts two columns for a wide letter, and leaves a word whole that is wider than the width", () => {
    expect(folded("日本 日本", 8)).toBe("日本\n  日本");
    expect(folded("日本 日本", 9)).toBe("日本 日本");
    expect(folded("incomprehensible", 5)).toBe("incomprehensible");
  });
});

describe("a table", () => {
  it("sets numbers to the right and lets a shorter row's last cell run on", () => {
    const rows = [
      ["Ana", "9", "1.5"],
      ["Bo", "101", "a sentence that is longer"],
      ["Cy", "none at all"],
    ];
    expect(tableText(rows.slice(0, 2), { head: ["who", "n", "mean"], right: [1] })).toBe(
      "who    n  mean\nAna    9  1.5\nBo   101  a sentence that is longer\n",
    );
    expect(tableText(rows, { right: [1] })).toBe(
      "Ana    9  1.5\nBo   101  a sentence that is longer\nCy   none at all\n",
    );
  });

  it("keeps columns straight under wide, joined and hostile letters", () => {
    const lines = tableText([
      ["日本", "1"],
      ["é", "2"],
      ["e\u0301", "3"],
      ["A\nB", "4"],
    ]).split("\n");
    expect(lines).toEqual(["日本  1", "é     2", "e\u0301     3", "A\ufffdB   4", ""]);
  });
});
