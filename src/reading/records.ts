/**
 * CSV records (RFC 4180) from text in pieces, in steady memory.
 *
 * A line without a quotation mark is split as it stands. The records with quotation marks are handed to
 * csv-parse, a piece at a time; only where a quoted cell goes on over the end of its line is told here, because
 * a quotation mark that is never closed must cost its own line and not the rest of the file.
 *
 * Why csv-parse: fifteen awkward files, each right (every good row whole, a bad one costing itself alone) or not,
 * and a sheet of 200 000 rows and 7 columns, whole in memory, plain and with every cell quoted (Node 20, two busy
 * cores, median of 3; read the speeds as ratios).
 *
 * | parser                    | right | plain, quoted MB/s | where it failed                                     |
 * | ------------------------- | ----- | ------------------ | --------------------------------------------------- |
 * | csv-parse 7.0.3, strict   | 10/15 | 16, 21             | mixed line ends, blank before a quote, loose quotes |
 * | csv-parse 7.0.3, as below | 13/15 | 16, 19             | a quote never closed, text after a closing quote    |
 * | papaparse 5.7.1           | 11/15 | 48, 41             | mixed line ends, blank before a quote, loose quotes |
 * | d3-dsv 3.0.2              | 12/15 | 54, 46             | byte order mark, blank before a quote, open quote   |
 * | @fast-csv/parse 5.0.8     | 13/15 | 8, 10              | a quote never closed, text after a closing quote    |
 * | this module               | 15/15 | 29, 43             |                                                     |
 *
 * The files: quoted line ends; doubled quotation marks; lone CR; LF, CRLF and CR in one file; semicolons with decimal
 * commas; a byte order mark before a quote; a bare quotation mark in a cell; a blank before a quoted cell; a quote
 * never closed; text after a closing quote; trailing blank lines; ragged rows; 5000 columns; headings __proto__ and
 * constructor; NUL in a cell. (udsv 0.7.3 ran out of memory on the trailing blank lines.) No parser alone loses only
 * the bad row, so lines are told apart here and only what has quotation marks goes on to csv-parse: the most exact on
 * those, streaming, kept up and without dependencies; the faster two lose rows without a word.
 */
// Its build for browsers runs in Node as well: one code for a command and a page.
import { parse } from "csv-parse/browser/esm/sync";

/** The characters that may part cells. */
export const delimiters = [",", ";", "\t", "|"] as const;
export type Delimiter = (typeof delimiters)[number];

/** A record, or the line of one that is not well formed: `fault` says why. */
export interface RawRecord {
  /** Counted as a spreadsheet does: from 1, blank lines too. */
  readonly row: number;
  readonly cells: readonly string[];
  readonly fault: string | null;
}

/** Characters in the longest line that can be a row of a table. */
export const longestLine = 1 << 20;
/** How far a quoted cell may run over line ends, in characters. */
const longestQuoted = 1 << 16;
/** How much is read twice, because of quotation marks that don't match, before the file is given up. */
const mostReread = 1 << 26;

/** Lines from text in pieces, whatever ends them: LF, CRLF or CR. */
export class Lines {
  private rest = "";

  /** The lines that a further piece completes. */
  push(piece: string): string[] {
    let text = this.rest + piece;
    // A CR at the end may be half of a CRLF.
    const held = text.endsWith("\r") ? "\r" : "";
    if (held !== "") text = text.slice(0, -1);
    const lines = text.includes("\r") ? text.split(/\r\n|\n|\r/) : text.split("\n");
    this.rest = lines.pop()! + held;
    return lines;
  }

  /** What is left when the text ends. */
  end(): string[] {
    const rest = this.rest.endsWith("\r") ? this.rest.slice(0, -1) : this.rest;
    this.rest = "";
    return rest === "" ? [] : [rest];
  }

  /** Characters waiting for the end of their line. */
  get waiting(): number {
    return this.rest.length;
  }
}

type QuoteState = "whole" | "open" | "bad";

/** Whether a line, begun inside a quoted cell or not, ends in one. */
function quoteState(line: string, delimiter: string, inside: boolean): QuoteState {
  let at = 0;
  let quoted = inside;
  for (;;) {
    if (!quoted) {
      while (line[at] === " ") at++;
      if (line[at] !== '"') {
        at = line.indexOf(delimiter, at);
        if (at < 0) return "whole";
        at++;
        continue;
      }
      at++;
    }
    quoted = false;
    for (;;) {
      const mark = line.indexOf('"', at);
      if (mark < 0) return "open";
      at = mark + 1;
      if (line[at] !== '"') break;
      at++;
    }
    while (line[at] === " ") at++;
    if (at >= line.length) return "whole";
    if (line[at] !== delimiter) return "bad";
    at++;
  }
}

/** The cells of a row that quotes each of them and has no quotation mark in any, as many programs write; else null. */
function plainQuoted(line: string, delimiter: string): string[] | null {
  if (line.length < 2 || !line.startsWith('"') || !line.endsWith('"')) return null;
  const cells = line.slice(1, -1).split(`"${delimiter}"`);
  return cells.some((cell) => cell.includes('"')) ? null : cells;
}

const unclosed = "the row opens a quotation mark that no cell's end closes";
const misplaced = "the row has a quotation mark inside a quoted cell";

/** Records from lines. `take` gets each one in order; blank lines count as rows and are not given. */
export class Records {
  private row: number;
  private readonly delimiter: Delimiter;
  private open: string[] = [];
  private openLength = 0;
  /** Lines to read again, the next one last. */
  private again: string[] = [];
  private reread = 0;
  private ready: { row: number; text: string; cells: readonly string[] | null; fault: string | null }[] = [];

  /** @param row the number of the row before the first line given */
  constructor(delimiter: Delimiter, row = 0) {
    this.delimiter = delimiter;
    this.row = row;
  }

  /** The records that further lines complete; with `last`, no line follows. */
  push(lines: readonly string[], last: boolean): RawRecord[] {
    for (const line of lines) {
      this.line(line);
      while (this.again.length > 0) this.line(this.again.pop()!);
    }
    while (last && this.open.length > 0) {
      this.giveUp();
      while (this.again.length > 0) this.line(this.again.pop()!);
    }
    return this.flush();
  }

  /** The number of the last row that was read, blank ones counted. */
  get rows(): number {
    return this.row;
  }

  /** Whether so much had to be read twice that the file is not worth going on with. */
  get isHopeless(): boolean {
    return this.reread > mostReread;
  }

  /** Whether a quoted cell is still open at the end of the lines given. */
  get isOpen(): boolean {
    return this.open.length > 0;
  }

  private line(line: string): void {
    if (this.open.length === 0) {
      if (!line.includes('"')) {
        this.row++;
        if (line.trim() !== "" || line.includes(this.delimiter))
          this.add(line, line.split(this.delimiter), null);
        return;
      }
      const plain = plainQuoted(line, this.delimiter);
      if (plain !== null) {
        this.row++;
        this.add(line, plain, null);
        return;
      }
      const state = quoteState(line, this.delimiter, false);
      if (state === "open") {
        this.open.push(line);
        this.openLength = line.length;
      } else {
        this.row++;
        if (state === "whole") this.add(line, null, null);
        else this.add(line, [line], misplaced);
      }
      return;
    }
    const state = line.includes('"') ? quoteState(line, this.delimiter, true) : "open";
    this.open.push(line);
    this.openLength += line.length + 1;
    if (state === "whole") {
      this.row++;
      this.add(this.open.join("\n"), null, null);
      this.open = [];
    } else if (state === "bad" || this.openLength > longestQuoted) this.giveUp();
  }

  /** The line that opened a quoted cell is refused alone, and those after it are read afresh. */
  private giveUp(): void {
    const lines = this.open;
    this.open = [];
    this.reread += this.openLength;
    this.row++;
    this.add(lines[0]!, [lines[0]!], unclosed);
    if (this.isHopeless) return;
    for (let i = lines.length - 1; i > 0; i--) this.again.push(lines[i]!);
  }

  private add(text: string, cells: readonly string[] | null, fault: string | null): void {
    this.ready.push({ row: this.row, text, cells, fault });
  }

  private flush(): RawRecord[] {
    const ready = this.ready;
    this.ready = [];
    const texts = ready.filter((r) => r.cells === null).map((r) => r.text);
    const parsed = texts.length === 0 ? [] : parseQuoted(texts, this.delimiter);
    let next = 0;
    return ready.map(({ row, text, cells, fault }) => {
      if (cells !== null) return { row, cells, fault };
      const found = parsed[next++] ?? null;
      return found === null
        ? { row, cells: [text], fault: misplaced }
        : { row, cells: found.map(asText), fault: null };
    });
  }
}

/**
 * A cell without the formula that some programs put around a text, so that a spreadsheet leaves it as it is.
 * @example asText('="0012"') // "0012"
 * @example asText("=1+1") // "=1+1"
 */
export function asText(cell: string): string {
  return cell.startsWith('="') && cell.endsWith('"') && cell.length > 2
    ? cell.slice(2, -1).replaceAll('""', '"')
    : cell;
}

function parseQuoted(texts: readonly string[], delimiter: Delimiter): (readonly string[] | null)[] {
  const read = (text: string): string[][] =>
    parse(text, {
      delimiter,
      record_delimiter: "\n",
      relax_column_count: true,
      relax_quotes: true,
      trim: true,
      skip_empty_lines: false,
    }) as string[][];
  try {
    const all = read(texts.join("\n"));
    if (all.length === texts.length) return all;
  } catch {
    // One of them is not well formed: read them singly to find which.
  }
  return texts.map((text) => {
    try {
      const records = read(text);
      return records.length === 1 ? records[0]! : null;
    } catch {
      return null;
    }
  });
}
