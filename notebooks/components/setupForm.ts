/** A placement that a reader types: as numbers, or as tapes, a level and a sight give it. Kept in the address. */
import type { Placement, Stand } from "../../src/field/tracker.ts";
import { usualStand } from "../../src/field/tracker.ts";
import { errorBudget, type Budget } from "../../src/setup/budget.ts";
import { placementFrom, type TapedStand } from "../../src/setup/measured.ts";
import { held, hold } from "./choice.ts";
import { typed } from "./typed.ts";

/** So long nothing may change before the page follows, ms. */
const settle_ms = 120;

/** One box: its key in the address, its name, what it holds at first and its limits. */
interface Amount {
  readonly key: string;
  readonly name: string;
  readonly first: string;
  readonly min: number;
  readonly max: number;
  /** Shown only in one of the two ways of knowing. */
  readonly way: "both" | "numbers" | "measured";
}

const angle = (key: string, name: string): Amount => ({
  key,
  name,
  first: "0",
  min: -45,
  max: 45,
  way: "numbers",
});

const groups: readonly { readonly title: string; readonly amounts: readonly Amount[] }[] = [
  {
    title: "Where it stands",
    amounts: [
      {
        key: "distance",
        name: "From the plate's front edge, ft",
        first: "17",
        min: 3,
        max: 80,
        way: "numbers",
      },
      {
        key: "offset",
        name: "Off the line, in (+ first base)",
        first: "0",
        min: -120,
        max: 120,
        way: "numbers",
      },
      {
        key: "tape1",
        name: "Tape to first base's corner, ft",
        first: "78.06",
        min: 1,
        max: 300,
        way: "measured",
      },
      {
        key: "tape3",
        name: "Tape to third base's corner, ft",
        first: "78.06",
        min: 1,
        max: 300,
        way: "measured",
      },
      {
        key: "marks",
        name: "Corners, ft from the plate's point",
        first: "90",
        min: 1,
        max: 300,
        way: "measured",
      },
      { key: "told", name: "Distance it was told, ft", first: "17", min: 3, max: 80, way: "both" },
    ],
  },
  {
    title: "How it is turned",
    amounts: [
      angle("yaw", "Turn, ° (+ right field)"),
      angle("tilt", "Tilt, ° (+ nose up)"),
      angle("roll", "Lean, ° (+ first base)"),
      {
        key: "sight",
        name: "Far sight off the rubber's middle, in (+ first base)",
        first: "0",
        min: -240,
        max: 240,
        way: "measured",
      },
      {
        key: "rise",
        name: "Level, 12 in along: end toward the plate higher by, in",
        first: "0",
        min: -24,
        max: 24,
        way: "measured",
      },
      {
        key: "lean",
        name: "Level, 12 in across: third base end higher by, in",
        first: "0",
        min: -24,
        max: 24,
        way: "measured",
      },
    ],
  },
];

/** What the form says: the budget, or why there is none. */
export interface SetupGiven {
  readonly budget: Budget | null;
  readonly taped: TapedStand | null;
  readonly trouble: string | null;
}

/** A form whose value a notebook's `view` follows. */
export type SetupForm = HTMLElement & { readonly value: SetupGiven };

const levelLength_in = 12;

/** The budget of what was typed; a sentence where a box can't be used. */
export function setupGiven(
  text: (key: string) => string,
  way: "numbers" | "measured",
  scaled: boolean,
): SetupGiven {
  const values = new Map<string, number>();
  for (const { key, name, first, min, max, way: own } of groups.flatMap((g) => g.amounts)) {
    if (own !== "both" && own !== way) continue;
    const value = typed(text(key)) ?? Number(first);
    if (!Number.isFinite(value)) return none(`“${text(key)}” is no number: ${name}.`);
    if (value < min || value > max) return none(`${value} is outside ${min} to ${max}: ${name}.`);
    values.set(key, value);
  }
  const at = (key: string): number => values.get(key)!;
  const believed: Stand = { distance_ft: at("told"), offset_in: usualStand.offset_in };
  try {
    let placement: Placement;
    let taped: TapedStand | null = null;
    if (way === "numbers")
      placement = {
        distance_ft: at("distance"),
        offset_in: at("offset"),
        yaw_deg: at("yaw"),
        tilt_deg: at("tilt"),
        roll_deg: at("roll"),
      };
    else
      ({ placement, taped } = placementFrom({
        tapes: { toFirst_ft: at("tape1"), toThird_ft: at("tape3"), mark_ft: at("marks") },
        tilt: { rise_in: at("rise"), over_in: levelLength_in },
        roll: { rise_in: at("lean"), over_in: levelLength_in },
        farSight_in: at("sight"),
      }));
    return { budget: errorBudget(placement, { believed, scaled }), taped, trouble: null };
  } catch (error) {
    return none(error instanceof Error ? error.message : String(error));
  }
}

const none = (trouble: string): SetupGiven => ({ budget: null, taped: null, trouble });

function select(
  parent: HTMLElement,
  key: string,
  label: string,
  options: readonly (readonly [string, string])[],
) {
  const element = parent.appendChild(document.createElement("label"));
  element.className = "amount";
  element.appendChild(document.createElement("span")).textContent = label;
  const list = element.appendChild(document.createElement("select"));
  for (const [value, words] of options) list.add(new Option(words, value));
  const kept = held().get(key);
  if (kept !== null && options.some(([value]) => value === kept)) list.value = kept;
  return list;
}

/** Makes the form. */
export function setupForm(): SetupForm {
  const form = document.createElement("form");
  form.className = "setup-form";
  form.addEventListener("submit", (event) => event.preventDefault());
  const top = form.appendChild(document.createElement("fieldset"));
  top.appendChild(document.createElement("legend")).textContent = "What you know";
  const way = select(top, "way", "The placement", [
    ["numbers", "as numbers"],
    ["measured", "by tapes, level and sight"],
  ]);
  const kind = select(top, "scale", "Its scale", [
    ["distance", "from the distance it was told"],
    ["direct", "it measures speed itself"],
  ]);
  const boxes = new Map<string, HTMLInputElement>();
  const labels: { amount: Amount; label: HTMLElement }[] = [];
  for (const { title, amounts } of groups) {
    const set = form.appendChild(document.createElement("fieldset"));
    set.appendChild(document.createElement("legend")).textContent = title;
    for (const amount of amounts) {
      const label = set.appendChild(document.createElement("label"));
      label.className = "amount";
      label.appendChild(document.createElement("span")).textContent = amount.name;
      const box = label.appendChild(document.createElement("input"));
      box.inputMode = "text";
      box.autocomplete = "off";
      box.placeholder = amount.first;
      box.value = held().get(amount.key) ?? amount.first;
      boxes.set(amount.key, box);
      labels.push({ amount, label });
    }
  }
  const wayNow = (): "numbers" | "measured" => (way.value === "measured" ? "measured" : "numbers");
  const show = (): void => {
    for (const { amount, label } of labels) label.hidden = amount.way !== "both" && amount.way !== wayNow();
  };
  const holder = document.createElement("div");
  holder.append(form);
  let waiting = 0;
  form.addEventListener("input", (event) => {
    event.stopPropagation();
    show();
    hold("way", way.value);
    hold("scale", kind.value);
    for (const [key, box] of boxes) hold(key, box.value.trim());
    clearTimeout(waiting);
    waiting = window.setTimeout(() => holder.dispatchEvent(new Event("input")), settle_ms);
  });
  show();
  return Object.defineProperty(holder, "value", {
    get: () => setupGiven((key) => boxes.get(key)?.value ?? "", wayNow(), kind.value !== "direct"),
  }) as unknown as SetupForm;
}
