/** Many rows in little memory: numbers as numbers, not as objects, and a text that comes again held once. */
import type { Field } from "../swing/fields.ts";

/** Rows in a block. */
const blockRows = 4096;
/** Different texts remembered; a column of names has fewer, and one of notes would only fill the memory. */
const mostTexts = 1 << 16;
/** A shorter text is never a window on the text of the file it came from. */
const longestCopied = 12;

/** Some of the rows, as they can be sent to another thread: `of` the same fields unpacks them. */
export interface Block {
  /** Row by row, NaN for unknown; room for a whole block, whatever the count. */
  readonly numbers: Float64Array<ArrayBuffer>;
  readonly others: unknown[];
}

/** Rows of one table, added one by one and given back in order, each time as new objects. */
export class PackedRows<Row extends object> implements Iterable<Row> {
  private readonly numbers: readonly string[];
  private readonly others: readonly string[];
  private readonly numberPlaces: ReadonlyMap<string, number>;
  private readonly otherPlaces: ReadonlyMap<string, number>;
  private readonly blank: Row;
  private blocks: Block[] = [];
  private readonly texts = new Map<string, string>();
  private count = 0;

  constructor(fields: readonly Field[]) {
    this.numbers = fields.filter((f) => f.type === "number").map((f) => f.name);
    this.others = fields.filter((f) => f.type !== "number").map((f) => f.name);
    this.numberPlaces = new Map(this.numbers.map((name, k) => [name, k]));
    this.otherPlaces = new Map(this.others.map((name, k) => [name, k]));
    this.blank = Object.fromEntries(fields.map((f) => [f.name, null])) as unknown as Row;
  }

  get length(): number {
    return this.count;
  }

  push(row: Row): void {
    const values = row as Readonly<Record<string, unknown>>;
    const { numbers, others } = this;
    const at = this.count++ % blockRows;
    if (at === 0) this.blocks.push({ numbers: new Float64Array(blockRows * numbers.length), others: [] });
    const block = this.blocks.at(-1)!;
    for (let k = 0; k < numbers.length; k++) {
      block.numbers[at * numbers.length + k] = (values[numbers[k]!] as number | null) ?? NaN;
    }
    for (const name of others) {
      const value = values[name];
      block.others.push(typeof value === "string" ? this.own(value) : value);
    }
  }

  /** The row of a place from 0 on, as a new object. */
  at(i: number): Row {
    const { numbers, others } = this;
    const block = this.blocks[Math.floor(i / blockRows)]!;
    const at = i % blockRows;
    const row = { ...this.blank } as Record<string, unknown>;
    for (let k = 0; k < numbers.length; k++) {
      const value = block.numbers[at * numbers.length + k]!;
      if (!Number.isNaN(value)) row[numbers[k]!] = value;
    }
    for (let k = 0; k < others.length; k++) row[others[k]!] = block.others[at * others.length + k];
    return row as Row;
  }

  /** One value of the row of a place from 0 on. */
  value<Name extends string & keyof Row>(i: number, name: Name): Row[Name] {
    const block = this.blocks[Math.floor(i / blockRows)]!;
    const at = i % blockRows;
    const k = this.numberPlaces.get(name);
    if (k === undefined)
      return block.others[at * this.others.length + this.otherPlaces.get(name)!] as Row[Name];
    const value = block.numbers[at * this.numbers.length + k]!;
    return (Number.isNaN(value) ? null : value) as Row[Name];
  }

  /** Takes all rows out, block by block, so that a block's memory is free once it is done with. */
  *drain(): Generator<Block> {
    const blocks = this.blocks.reverse();
    this.blocks = [];
    this.count = 0;
    for (let block = blocks.pop(); block !== undefined; block = blocks.pop()) yield block;
  }

  /** Adds a block that `drain` gave, of the same fields. Only after whole blocks, or to no rows at all. */
  add(block: Block): void {
    if (this.count % blockRows !== 0) throw new RangeError("a block goes after whole blocks only");
    this.blocks.push(block);
    this.count += block.others.length / this.others.length;
  }

  *[Symbol.iterator](): Generator<Row> {
    for (let i = 0; i < this.count; i++) yield this.at(i);
  }

  /** The text, by itself: a cell may be a window on its whole file, and would keep all of it. */
  private own(text: string): string {
    const known = this.texts.get(text);
    if (known !== undefined) return known;
    const copy = text.length > longestCopied ? Buffer.from(text).toString() : text;
    if (this.texts.size < mostTexts) this.texts.set(copy, copy);
    return copy;
  }
}
