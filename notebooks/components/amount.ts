/** One number that a reader types: a box in the reader's unit, whose value, in the address too, is in the table's. */
import { unitLabel } from "../../src/swing/limits.ts";
import { convert, type UnitName } from "../../src/units/index.ts";
import { shownNumber, shownUnit, type UnitSystem } from "../../src/units/system.ts";
import { held, hold } from "./choice.ts";
import { typed } from "./typed.ts";

/** What a box asks for. */
export interface AmountAsked {
  /** Its name in the address. */
  readonly key: string;
  readonly title: string;
  readonly unit?: UnitName | undefined;
  /** What stands in it until the reader writes; empty when not given. */
  readonly first?: string | undefined;
  /** What it shows while it is empty. */
  readonly whenEmpty?: string | undefined;
  /** The ends of a slider beside it. */
  readonly slider?: readonly [number, number] | undefined;
}

/** A box, and for some a slider that moves it. An empty box is null, words are NaN. */
export class Amount {
  readonly element: HTMLLabelElement;
  readonly asked: AmountAsked;
  private readonly input: HTMLInputElement;
  private readonly system: UnitSystem;
  /** The text the box was given, and what that was in the table's unit: what is not changed is not rounded. */
  private begun: { readonly shown: string; readonly kept: string };

  constructor(parent: HTMLElement, asked: AmountAsked, system: UnitSystem) {
    this.asked = asked;
    this.system = system;
    this.element = parent.appendChild(document.createElement("label"));
    this.element.className = "amount";
    const label = asked.unit === undefined ? "" : unitLabel(shownUnit(asked.unit, system));
    this.element.appendChild(document.createElement("span")).textContent =
      label === "" ? asked.title : `${asked.title},${label}`.replace(",°", ", °");
    this.input = this.element.appendChild(document.createElement("input"));
    this.input.inputMode = "decimal";
    this.input.autocomplete = "off";
    this.input.placeholder = this.shown(asked.whenEmpty ?? "", 0);
    this.begun = { kept: "", shown: "" };
    this.put(held().get(asked.key) ?? asked.first ?? "");
    if (asked.slider !== undefined) this.slide(asked.slider);
  }

  /** Puts a text in the table's unit into the box. */
  put(kept: string): void {
    this.begun = { kept, shown: this.shown(kept, this.asked.unit === "ft" ? 2 : 1) };
    this.input.value = this.begun.shown;
  }

  /** A number of the table's unit in the reader's, rounded; any other text as it stands. */
  private shown(text: string, digits: number): string {
    const { unit } = this.asked;
    const value = typed(text);
    if (value === null || Number.isNaN(value) || unit === undefined || shownUnit(unit, this.system) === unit)
      return text;
    return String(Number(shownNumber(value, unit, this.system).toFixed(digits)));
  }

  private slide(range: readonly [number, number]): void {
    const slider = this.element.appendChild(document.createElement("input"));
    slider.type = "range";
    const [min, max] = range.map((end) => this.shown(String(end), 0));
    [slider.min, slider.max, slider.step] = [min!, max!, "1"];
    slider.setAttribute("aria-label", `${this.asked.title}, slider`);
    slider.value = this.input.value;
    slider.addEventListener("input", () => (this.input.value = slider.value));
    this.input.addEventListener("input", () => (slider.value = this.input.value));
  }

  /** What stands in the box, as the table has it. */
  get text(): string {
    const { unit } = this.asked;
    const text = this.input.value.trim();
    if (text === this.begun.shown) return this.begun.kept;
    const value = typed(text);
    if (value === null || Number.isNaN(value) || unit === undefined || shownUnit(unit, this.system) === unit)
      return text;
    // Far finer than anyone types, and without the last digits that a conversion makes up.
    return String(Number(convert(value, shownUnit(unit, this.system), unit).toFixed(4)));
  }

  /** Keeps what stands in the box in the address. */
  keep(): void {
    hold(this.asked.key, this.text);
  }

  get value(): number | null {
    return typed(this.text);
  }
}
