/** Enriched swings as lines of CSV, block by block: what the one thread does, and each worker. */
import type { Enricher } from "../contact/enrich.ts";
import { computedFields, swingFields, type EnrichedSwing, type Swing } from "../swing/fields.ts";
import { PackedRows, type Block } from "../library/packed-rows.ts";
import { csvRow } from "../library/write.ts";

/** How many swings had what. */
export interface Counts {
  swings: number;
  with_flight: number;
  readonly category: Record<string, number>;
  readonly bucket: Record<string, number>;
  readonly spin_source: Record<string, number>;
  readonly air_source: Record<string, number>;
  readonly flags: Record<string, number>;
}

/** The counts of no swings. */
export function noCounts(): Counts {
  return { swings: 0, with_flight: 0, category: {}, bucket: {}, spin_source: {}, air_source: {}, flags: {} };
}

function count(words: Record<string, number>, word: string | null, n = 1): void {
  if (word !== null) words[word] = (words[word] ?? 0) + n;
}

/** Adds the counts of further swings. */
export function addCounts(sum: Counts, more: Counts): void {
  sum.swings += more.swings;
  sum.with_flight += more.with_flight;
  for (const name of ["category", "bucket", "spin_source", "air_source", "flags"] as const) {
    for (const [word, n] of Object.entries(more[name])) count(sum[name], word, n);
  }
}

/** The columns written. */
export const enrichedFields = [...swingFields, ...computedFields];

/** Decimals written: finer than any tracker, and a third of the digits. */
const decimals = {
  carry_ft: 2,
  carry_low_ft: 2,
  carry_high_ft: 2,
  hang_s: 3,
  apex_ft: 2,
  bearing_deg: 3,
  power_kept: 4,
} as const satisfies Partial<Record<keyof EnrichedSwing, number>>;
const scales = Object.entries(decimals).map(([name, n]) => [name as keyof typeof decimals, 10 ** n] as const);

/** A block of swings, enriched, as lines of CSV. */
export interface BlockText {
  readonly text: string;
  readonly counts: Counts;
}

/** Enriches a block and writes it as lines of CSV. */
export function blockText(block: Block, enrich: Enricher["enrich"]): BlockText {
  const swings = new PackedRows<Swing>(swingFields);
  swings.add(block);
  const counts = noCounts();
  let text = "";
  for (const swing of swings) {
    const row = enrich(swing);
    for (const [name, scale] of scales) {
      const value = row[name];
      if (value !== null) row[name] = Math.round(value * scale) / scale;
    }
    counts.swings++;
    if (row.carry_ft !== null) counts.with_flight++;
    count(counts.category, row.category);
    count(counts.bucket, row.bucket);
    count(counts.spin_source, row.spin_source);
    count(counts.air_source, row.air_source);
    if (row.flags !== null) for (const flag of row.flags.split(";")) count(counts.flags, flag);
    text += csvRow(row, enrichedFields);
  }
  return { text, counts };
}
