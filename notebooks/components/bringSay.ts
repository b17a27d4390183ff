/** Words and parts that the page "Bring a file" is made of. */
import type { Cause } from "../../src/reading/causes.ts";
import { swingFields, type Field } from "../../src/swing/fields.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { quoted } from "../../src/swing/problems.ts";
import { dimension, unitNames, type UnitName } from "../../src/units/index.ts";
import { capital, counted } from "../../src/swing/words.ts";

type Part = Node | string | null;

/** An element with its attributes, its listeners (`onclick`) and what is in it. */
export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  given: Readonly<Record<string, unknown>> = {},
  ...parts: readonly Part[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value as EventListener);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...parts.filter((part) => part !== null));
  return element;
}

/** One possible answer. */
export interface Pick {
  readonly value: string;
  readonly text: string;
}

/** A list to choose from, with a name for those who don't see what stands beside it. */
export function list(
  key: string,
  label: string,
  options: readonly Pick[],
  value: string,
  chosen: (value: string) => void,
): HTMLElement {
  const select = make("select", { "aria-label": label, "data-key": key });
  for (const option of options) select.add(new Option(option.text, option.value));
  select.value = value;
  select.addEventListener("change", () => chosen(select.value));
  return make("span", { class: "choice" }, select);
}

export const button = (key: string, text: string, pressed: () => void, main = false): HTMLButtonElement =>
  make("button", { type: "button", "data-key": key, class: main ? "main" : null, onclick: pressed }, text);

export const number = (n: number): string => n.toLocaleString("en");
export const rowsOf = (n: number): string => counted(n, "row", "rows", number);

export const fieldNamed = (name: string | null): Field | null =>
  (swingFields as readonly Field[]).find((field) => field.name === name) ?? null;

/** The fields that a column can be, by their titles. */
export const fieldPicks: readonly Pick[] = [
  { value: "", text: "left out" },
  ...swingFields
    .filter(({ name }) => name !== "turned_back")
    .map(({ name, title }) => ({ value: name, text: title })),
];

/** The units that a field's column can be in. */
export const unitPicks = (own: UnitName): Pick[] =>
  unitNames
    .filter((unit) => dimension(unit) === dimension(own))
    .map((unit) => ({ value: unit, text: unitLabel(unit).trim() }));

/** How sure a guess is, in words. */
export function sureness(certainty: number, least: number): string {
  const percent = `${Math.round(100 * certainty)} %`;
  return certainty >= 0.95
    ? `sure, ${percent}`
    : certainty >= least
      ? `likely, ${percent}`
      : `unsure, ${percent}`;
}

/** A cause as a sentence without the file: how many rows, and what is wrong with them. */
export function causeSaid({ field, value, reason, rows, examples }: Cause): string {
  const title = field === null ? "" : (fieldNamed(field)?.title ?? field);
  const cell =
    value !== null && value !== ""
      ? ` ${quoted(value)}`
      : examples.length > 0
        ? ` (${examples.map(quoted).join(", ")}, …)`
        : "";
  return `${rowsOf(rows.length)}: ${capital(`${title}${cell} ${reason}`.trim())}.`;
}
