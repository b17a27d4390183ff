/** A ball that a reader tries: launch, spin, ball, field, air and wind, each kept in the address. */
import type { BallGiven } from "../../src/contact/oneBall.ts";
import { defaultField, knownFields } from "../../src/field/fields.ts";
import { balls } from "../../src/flight/ball.ts";
import { sessionFields, swingFields, type Field } from "../../src/swing/fields.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { Amount } from "./amount.ts";
import { held, hold } from "./choice.ts";

/** So long nothing may change before the page follows, ms. */
const settle_ms = 120;

const airFields = [
  "temperature_f",
  "altitude_ft",
  "pressure_inhg",
  "humidity_pct",
  "wind_mph",
  "wind_toward_deg",
] as const;

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
    const { title, unit } = fieldNamed(name);
    const asked = { key: name, title, unit, first: atFirst[name], whenEmpty: whenEmpty[name] };
    amounts.set(name, new Amount(parent, { ...asked, slider: sliders[name] }, system));
  };
  const launch = group(form, "Launch");
  const more = make(form, "details");
  make(more, "summary", "Spin, ball, field, air and wind");
  const further = make(more, "div");
  further.className = "further";
  // What the address already says is in sight.
  more.open = ["spin", "ball", "field", ...airFields].some(
    (name) => (held().get(name) ?? "") !== "" && held().get(name) !== "none",
  );
  for (const name of ["exit_velocity_mph", "launch_angle_deg", "spray_angle_deg"]) amount(launch, name);
  const bats = listed(launch, "bats", "Batter's side", [
    ["R", "right-handed"],
    ["L", "left-handed"],
    ["", "unknown"],
  ]);
  const spin = group(further, "Spin");
  const kind = listed(
    spin,
    "spin",
    "What was measured",
    spinKinds.map(({ value, text }) => [value, text] as const),
  );
  for (const name of ["spin_rpm", "spin_axis_deg", "backspin_rpm", "sidespin_rpm"]) amount(spin, name);
  const place = group(further, "Ball and field");
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
    knownFields().map(({ name, title }) => [name, `${name}: ${title}`] as const),
  );
  if (held().get("field") === null) field.value = defaultField.name;
  const air = group(further, "Air and wind");
  for (const name of airFields) amount(air, name);
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
  holder.className = "asked";
  holder.dataset["key"] = "ball form";
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
