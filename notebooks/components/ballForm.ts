/** A ball that a reader tries: launch, spin, ball, field, air and wind, each kept in the address. */
import type { BallGiven } from "../../src/contact/oneBall.ts";
import { defaultField, playingFields } from "../../src/field/fields.ts";
import { balls } from "../../src/flight/ball.ts";
import { sessionFields, swingFields, type Field } from "../../src/swing/fields.ts";
import { unitLabel } from "../../src/swing/limits.ts";
import { convert } from "../../src/units/index.ts";
import { shownNumber, shownUnit, type UnitSystem } from "../../src/units/system.ts";
import { held, hold } from "./choice.ts";
import { typed } from "./typed.ts";

/** So long nothing may change before the page follows, ms. */
const settle_ms = 120;

/** What is known of a spin. */
const spinKinds = [
  { value: "none", text: "nothing", fields: [] },
  { value: "rate", text: "rate", fields: ["spin_rpm"] },
  { value: "axis", text: "rate and axis", fields: ["spin_rpm", "spin_axis_deg"] },
  { value: "parts", text: "backspin and sidespin", fields: ["backspin_rpm", "sidespin_rpm"] },
] as const;

const all: readonly Field[] = [...swingFields, ...sessionFields];
const fieldNamed = (name: string): Field => all.find((field) => field.name === name)!;

/** What stands in a box until the reader writes in it; the others are empty, which is unknown. */
const atFirst: Readonly<Record<string, string>> = {
  exit_velocity_mph: "100",
  launch_angle_deg: "28",
  spray_angle_deg: "-10",
  spin_rpm: "2500",
  spin_axis_deg: "10",
  backspin_rpm: "2500",
  sidespin_rpm: "0",
};

/** What an empty box means. */
const whenEmpty: Readonly<Record<string, string>> = {
  spray_angle_deg: "unknown",
  temperature_f: "70",
  pressure_inhg: "from altitude",
  altitude_ft: "sea level",
  humidity_pct: "50",
  wind_mph: "0",
  wind_toward_deg: "out 0, right 90",
  contact_height_ft: "3",
};

/** These have a slider too, over the part of their limits that hitters use. */
const sliders: Readonly<Record<string, readonly [number, number]>> = {
  exit_velocity_mph: [40, 120],
  launch_angle_deg: [-20, 70],
  spray_angle_deg: [-50, 50],
};

function make<K extends keyof HTMLElementTagNameMap>(
  parent: HTMLElement,
  tag: K,
  text = "",
): HTMLElementTagNameMap[K] {
  const element = parent.appendChild(document.createElement(tag));
  if (text !== "") element.textContent = text;
  return element;
}

/**
 * One number: a box, and for some a slider that moves it. An empty box is null, words are NaN. The box is in the
 * reader's unit; its value, and what the address keeps, in the table's.
 */
class Amount {
  readonly element: HTMLLabelElement;
  private readonly input: HTMLInputElement;
  readonly field: Field;

  private readonly system: UnitSystem;
  /** The text the box began with, and what that was in the table's unit: what is not changed is not rounded. */
  private readonly begun: { readonly shown: string; readonly kept: string };

  constructor(parent: HTMLElement, name: string, system: UnitSystem) {
    this.field = fieldNamed(name);
    this.system = system;
    this.element = make(parent, "label");
    this.element.className = "amount";
    const label = this.field.unit === undefined ? "" : unitLabel(shownUnit(this.field.unit, system));
    make(this.element, "span", `${this.field.title},${label}`.replace(",°", ", °"));
    this.input = make(this.element, "input");
    this.input.inputMode = "decimal";
    this.input.autocomplete = "off";
    this.input.placeholder = this.shown(whenEmpty[name] ?? "", 0);
    const kept = held().get(name) ?? atFirst[name] ?? "";
    this.begun = { kept, shown: this.shown(kept, 1) };
    this.input.value = this.begun.shown;
    const range = sliders[name];
    if (range !== undefined) this.slide(range);
  }

  /** A number of the table's unit in the reader's, rounded; any other text as it stands. */
  private shown(text: string, digits: number): string {
    const { unit } = this.field;
    const value = typed(text);
    if (value === null || Number.isNaN(value) || unit === undefined || shownUnit(unit, this.system) === unit)
      return text;
    return String(Number(shownNumber(value, unit, this.system).toFixed(digits)));
  }

  private slide(range: readonly [number, number]): void {
    const slider = make(this.element, "input");
    slider.type = "range";
    const [min, max] = range.map((end) => this.shown(String(end), 0));
    [slider.min, slider.max, slider.step] = [min!, max!, "1"];
    slider.setAttribute("aria-label", `${this.field.title}, slider`);
    slider.value = this.input.value;
    slider.addEventListener("input", () => (this.input.value = slider.value));
    this.input.addEventListener("input", () => (slider.value = this.input.value));
  }

  /** What stands in the box, as the table has it. */
  private get text(): string {
    const { unit } = this.field;
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
    hold(this.field.name, this.text);
  }

  get value(): number | null {
    return typed(this.text);
  }
}

function listed(
  parent: HTMLElement,
  key: string,
  label: string,
  options: readonly (readonly [string, string])[],
) {
  const element = make(parent, "label");
  element.className = "amount";
  make(element, "span", label);
  const select = make(element, "select");
  for (const [value, text] of options) select.add(new Option(text, value));
  const kept = held().get(key);
  if (kept !== null && options.some(([value]) => value === kept)) select.value = kept;
  return select;
}

function group(parent: HTMLElement, title: string): HTMLFieldSetElement {
  const set = make(parent, "fieldset");
  make(set, "legend", title);
  return set;
}

/** The form: its value is what a ball is computed from, in the tables' fields. */
export type BallForm = HTMLElement & { readonly value: BallGiven };

/** Makes the form, its boxes in a reader's units. */
export function ballForm(system: UnitSystem): BallForm {
  const form = document.createElement("form");
  form.className = "ball-form";
  form.addEventListener("submit", (event) => event.preventDefault());
  const amounts = new Map<string, Amount>();
  const amount = (parent: HTMLElement, name: string): void => {
    amounts.set(name, new Amount(parent, name, system));
  };
  const launch = group(form, "Launch");
  for (const name of ["exit_velocity_mph", "launch_angle_deg", "spray_angle_deg"]) amount(launch, name);
  const bats = listed(launch, "bats", "Batter's side", [
    ["R", "right-handed"],
    ["L", "left-handed"],
    ["", "unknown"],
  ]);
  const spin = group(form, "Spin");
  const kind = listed(
    spin,
    "spin",
    "What was measured",
    spinKinds.map(({ value, text }) => [value, text] as const),
  );
  for (const name of ["spin_rpm", "spin_axis_deg", "backspin_rpm", "sidespin_rpm"]) amount(spin, name);
  const place = group(form, "Ball and field");
  const ball = listed(
    place,
    "ball",
    "Ball",
    balls.map(({ name, title }) => [name, title] as const),
  );
  const field = listed(
    place,
    "field",
    "Field",
    playingFields.map(({ name, title }) => [name, `${name}: ${title}`] as const),
  );
  if (held().get("field") === null) field.value = defaultField.name;
  const air = group(form, "Air and wind");
  for (const name of [
    "temperature_f",
    "altitude_ft",
    "pressure_inhg",
    "humidity_pct",
    "wind_mph",
    "wind_toward_deg",
  ]) {
    amount(air, name);
  }
  const known = (): readonly string[] => spinKinds.find(({ value }) => value === kind.value)!.fields;
  const show = (): void => {
    for (const name of ["spin_rpm", "spin_axis_deg", "backspin_rpm", "sidespin_rpm"])
      amounts.get(name)!.element.hidden = !known().includes(name);
  };
  const number = (name: string): number | null => amounts.get(name)!.value;
  const spun = (name: string): number | null => (known().includes(name) ? number(name) : null);
  const read = (): BallGiven => ({
    exit_velocity_mph: number("exit_velocity_mph"),
    launch_angle_deg: number("launch_angle_deg"),
    spray_angle_deg: number("spray_angle_deg"),
    bats: bats.value === "" ? null : (bats.value as "L" | "R"),
    spin_rpm: spun("spin_rpm"),
    spin_axis_deg: spun("spin_axis_deg"),
    backspin_rpm: spun("backspin_rpm"),
    sidespin_rpm: spun("sidespin_rpm"),
    contact_side_ft: null,
    contact_depth_ft: null,
    contact_height_ft: null,
    ball: ball.value,
    field: field.value,
    temperature_f: number("temperature_f"),
    altitude_ft: number("altitude_ft"),
    pressure_inhg: number("pressure_inhg"),
    humidity_pct: number("humidity_pct"),
    wind_mph: number("wind_mph"),
    wind_toward_deg: number("wind_toward_deg"),
  });
  const holder = document.createElement("div");
  holder.append(form);
  let waiting = 0;
  form.addEventListener("input", (event) => {
    event.stopPropagation();
    show();
    for (const one of amounts.values()) one.keep();
    hold("bats", bats.value);
    hold("spin", kind.value);
    hold("ball", ball.value);
    hold("field", field.value);
    // A slider on its way tells of every step: the page follows where it rests.
    clearTimeout(waiting);
    waiting = window.setTimeout(() => holder.dispatchEvent(new Event("input")), settle_ms);
  });
  show();
  return Object.defineProperty(holder, "value", { get: read }) as unknown as BallForm;
}
