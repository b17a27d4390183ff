/** The headings of a brought file: what each is taken for, and how the reader says otherwise. */
import type { Sample } from "../../src/reading/read.ts";
import { isPrivate } from "../../src/reading/layout.ts";
import { headingKey, type ColumnMap, type MappedColumn } from "../../src/reading/maps.ts";
import { dimension, isUnitName } from "../../src/units/index.ts";
import { fieldNamed, fieldPicks, list, make, unitPicks } from "./bringSay.ts";
import { signed, signPicks } from "./bringSigns.ts";
import { table } from "./show.ts";

/** One heading of a file. */
export interface Heading {
  readonly at: number;
  /** As it stands in the file, as it is shown, and as maps know it. */
  readonly name: string;
  readonly shown: string;
  readonly key: string;
  /** What it is taken for; null for what is left out. */
  readonly to: MappedColumn | null;
  /** Whether it is of what is never stored. */
  readonly isSecret: boolean;
}

/** Rows of the sheet that are shown, and cells of one column. */
const shownRows = 4;
const shownCells = 3;

/** What a map says of a column, in its long form. */
export const columnOf = (to: string | MappedColumn | null): MappedColumn | null =>
  typeof to === "string" ? { field: to } : to;

/** Every heading with what a map takes it for; a heading that the map doesn't have is its own field, or left out. */
export function headingsOf({ header }: Sample, map: ColumnMap | null): Heading[] {
  const mapped = new Map(
    Object.entries(map?.columns ?? {}).map(([name, to]) => [headingKey(name), columnOf(to)]),
  );
  return header.map((name, at) => {
    const key = headingKey(name);
    const own = fieldNamed(key);
    const to = mapped.has(key) ? mapped.get(key)! : own === null ? null : { field: own.name };
    const shown = name.trim() === "" ? `column ${at + 1}` : name;
    return { at, name, shown, key, to, isSecret: isPrivate(name) };
  });
}

/** A heading's line: its first cells, what it is taken for and why, and the lists to change that. */
export function headingLine(
  heading: Heading,
  { rows }: Sample,
  why: string,
  set: (next: MappedColumn | null) => void,
): HTMLElement {
  const cells = rows
    .map((row) => (row[heading.at] ?? "").trim())
    .filter((cell) => cell !== "")
    .slice(0, shownCells);
  return make(
    "li",
    { class: heading.to === null ? "out" : null },
    make("b", {}, heading.shown),
    make("span", { class: "cells" }, cells.join(", ")),
    make("span", { class: "taken" }, ...choicesOf(heading, set)),
    make("small", {}, why),
  );
}

/** The lists of a heading: its field; and for a field that has them, its unit and which way it counts. */
function choicesOf({ key, shown, to }: Heading, set: (next: MappedColumn | null) => void): HTMLElement[] {
  const field = fieldNamed(to?.field ?? null);
  const choices = [
    list(`${key} field`, `What ${shown} is`, fieldPicks, to?.field ?? "", (name) => {
      const next = fieldNamed(name);
      const unit = next?.unit;
      const same = to?.unit !== undefined && unit !== undefined && dimension(to.unit) === dimension(unit);
      set(next === null ? null : { field: next.name, ...(same ? { unit: to.unit! } : {}) });
    }),
  ];
  if (to === null || field === null) return choices;
  const units = field.unit === undefined ? [] : unitPicks(field.unit);
  if (units.length > 1)
    choices.push(
      list(`${key} unit`, `Unit of ${shown}`, units, to.unit ?? field.unit!, (unit) => {
        const { unit: _, ...rest } = to;
        set(unit === field.unit || !isUnitName(unit) ? rest : { ...rest, unit });
      }),
    );
  const signs = signPicks(field, to);
  if (signs !== null)
    choices.push(
      list(`${key} sign`, `Sign of ${shown}`, signs.picks, signs.now, (answer) => set(signed(to, answer))),
    );
  return choices;
}

/** What is to be known beside the single headings; empty where there is nothing. */
export function restSaid(headings: readonly Heading[], map: ColumnMap | null): string {
  const names = (those: readonly Heading[]): string => those.map(({ shown }) => shown).join(", ");
  const secret = headings.filter(({ isSecret }) => isSecret);
  const leftOut = headings.filter(({ isSecret, to }) => !isSecret && to === null);
  const { dates, decimal, missing = [] } = map ?? {};
  return [
    leftOut.length > 0 ? `Left out: ${names(leftOut)}.` : "",
    secret.length > 0 ? `Never stored, because hitters may be children: ${names(secret)}.` : "",
    dates === undefined ? "" : `Days are written ${dates}, as the rows show.`,
    decimal === "," ? "Decimals have a comma." : "",
    missing.length > 0 ? `These stand for nothing: ${missing.join(", ")}.` : "",
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

/** A file's first rows as they stand, to be opened. */
export function firstRows({ header, rows }: Sample): HTMLElement {
  const shown = rows.slice(0, shownRows).map((row) => header.map((_, i) => row[i] ?? ""));
  return make(
    "details",
    { "data-key": "rows" },
    make("summary", {}, "The first rows as they stand"),
    table(header, shown),
  );
}
