/** A placement that a reader types, or takes from a session's log: as numbers, or as tapes, a level and a sight give it. */
import type { Placement, Stand } from "../../src/field/tracker.ts";
import { errorBudget, type Budget } from "../../src/setup/budget.ts";
import { noPlace, placementFrom, type TapedStand } from "../../src/setup/measured.ts";
import { sessionFields, type Field, type Session } from "../../src/swing/fields.ts";
import type { UnitName } from "../../src/units/index.ts";
import { shownNumber, type UnitSystem } from "../../src/units/system.ts";
import { Amount, type AmountAsked } from "./amount.ts";
import { held, hold } from "./choice.ts";
import { typed } from "./typed.ts";

/** So long nothing may change before the page follows, ms. */
const settle_ms = 120;

/** A box of this form: its limits, and in which of the two ways of knowing it is shown. */
interface Box extends AmountAsked {
  readonly unit: UnitName;
  readonly min: number;
  readonly max: number;
  readonly way: "both" | "numbers" | "measured";
}

/** A box for a field of sessions.csv, with that field's limits. */
function ofField(key: string, name: string, title: string, way: Box["way"], first = ""): Box {
  const field = (sessionFields as readonly Field[]).find((f) => f.name === name)!;
  return { key, title, unit: field.unit!, first, min: field.min!, max: field.max!, way };
}

const tape = (key: string, title: string, first = ""): Box => ({
  key,
  title,
  unit: "ft",
  first,
  min: 1,
  max: 300,
  way: "measured",
});

const rise = (key: string, title: string, most = 24): Box => ({
  key,
  title,
  unit: "in",
  first: "0",
  min: -most,
  max: most,
  way: "measured",
});

const groups: readonly { readonly title: string; readonly boxes: readonly Box[] }[] = [
  {
    title: "Where it stands, from the plate's rear point",
    boxes: [
      ofField(
        "distance",
        "tracker_distance_ft",
        "Distance along the line to the rubber (− behind)",
        "numbers",
      ),
      ofField("offset", "tracker_offset_in", "Off that line (+ first base)", "numbers", "0"),
      tape("tape1", "Tape to first base's corner"),
      tape("tape3", "Tape to third base's corner"),
      tape("marks", "From the plate's point to those corners", "90"),
    ],
  },
  {
    title: "Where it was told that it stands",
    boxes: [
      { ...ofField("told", "tracker_distance_ft", "Along the line", "both"), whenEmpty: "as it stands" },
      { ...ofField("toldOffset", "tracker_offset_in", "Off the line", "both", "0"), whenEmpty: "0" },
    ],
  },
  {
    title: "How it is turned",
    boxes: [
      ofField("yaw", "tracker_yaw_deg", "Turn (+ right field)", "numbers", "0"),
      ofField("tilt", "tracker_tilt_deg", "Tilt (+ pitcher's end down)", "numbers", "0"),
      ofField("roll", "tracker_roll_deg", "Lean (+ first base)", "numbers", "0"),
      rise("sight", "A sight through it, off the rubber's middle (+ first base)", 240),
      rise("rise", "A foot of level along the line: catcher's end higher by"),
      rise("lean", "A foot of level across it: third base end higher by"),
    ],
  },
];

const boxes: readonly Box[] = groups.flatMap((group) => group.boxes);

/** What the form says: the budget, or why there is none. */
export interface SetupGiven {
  readonly budget: Budget | null;
  readonly taped: TapedStand | null;
  readonly trouble: string | null;
}

/** A form whose value a notebook's `view` follows. */
export type SetupForm = HTMLElement & {
  readonly value: SetupGiven;
  /** Offers the sessions whose log says where the tracker stood; the latest is taken while nothing is typed. */
  offer(sessions: readonly Session[]): void;
};

const levelLength_in = 12;

/** How a reader knows the placement. */
export interface SetupKnown {
  readonly way: "numbers" | "measured";
  /** Whether the tracker takes its scale from the distance it was told. */
  readonly scaled: boolean;
  /** Whether two tapes meet beyond the corners, seen from the plate. */
  readonly beyond?: boolean;
  readonly units?: UnitSystem;
}

/** The budget of what was typed, in the tables' units; a sentence where a box can't be used. */
export function setupGiven(
  text: (key: string) => string,
  { way, scaled, beyond = false, units = "us" }: SetupKnown,
): SetupGiven {
  const values = new Map<string, number>();
  for (const { key, title, unit, first = "", min, max, way: own } of boxes) {
    if (own !== "both" && own !== way) continue;
    const value = typed(text(key)) ?? typed(first);
    if (value === null) continue;
    if (!Number.isFinite(value)) return none(`“${text(key)}” is no number: ${title}.`);
    const shown = (v: number): string =>
      String(Number(shownNumber(v, unit, units).toFixed(1))).replace("-", "−");
    if (value < min || value > max)
      return none(`${shown(value)} is outside ${shown(min)} to ${shown(max)}: ${title}.`);
    values.set(key, value);
  }
  const at = (key: string): number => values.get(key)!;
  try {
    let placement: Placement;
    let taped: TapedStand | null = null;
    if (way === "numbers") {
      if (!values.has("distance")) return none(noPlace);
      placement = {
        distance_ft: at("distance"),
        offset_in: at("offset"),
        yaw_deg: at("yaw"),
        tilt_deg: at("tilt"),
        roll_deg: at("roll"),
      };
    } else {
      if (!values.has("tape1") || !values.has("tape3")) return none(noPlace);
      ({ placement, taped } = placementFrom({
        tapes: { toFirst_ft: at("tape1"), toThird_ft: at("tape3"), mark_ft: at("marks"), beyond },
        tilt: { rise_in: at("rise"), over_in: levelLength_in },
        roll: { rise_in: at("lean"), over_in: levelLength_in },
        farSight_in: at("sight"),
      }));
    }
    const believed: Stand = {
      distance_ft: values.get("told") ?? placement.distance_ft,
      offset_in: at("toldOffset"),
    };
    return { budget: errorBudget(placement, { believed, scaled, units }), taped, trouble: null };
  } catch (error) {
    return none(error instanceof Error ? error.message : String(error));
  }
}

const none = (trouble: string): SetupGiven => ({ budget: null, taped: null, trouble });

function select(
  parent: HTMLElement,
  key: string | null,
  label: string,
  options: readonly (readonly [string, string])[],
) {
  const element = parent.appendChild(document.createElement("label"));
  element.className = "amount";
  element.appendChild(document.createElement("span")).textContent = label;
  const list = element.appendChild(document.createElement("select"));
  for (const [value, words] of options) list.add(new Option(words, value));
  const kept = key === null ? null : held().get(key);
  if (kept !== null && options.some(([value]) => value === kept)) list.value = kept;
  return list;
}

/** What a session's log puts into the boxes: it was told where it stands. */
function fromLog(session: Session): Readonly<Record<string, string>> {
  const text = (value: number | null): string => String(value ?? 0);
  return {
    distance: text(session.tracker_distance_ft),
    offset: text(session.tracker_offset_in),
    told: text(session.tracker_distance_ft),
    toldOffset: text(session.tracker_offset_in),
    yaw: text(session.tracker_yaw_deg),
    tilt: text(session.tracker_tilt_deg),
    roll: text(session.tracker_roll_deg),
  };
}

/** Makes the form, its boxes in a reader's units. */
export function setupForm(units: UnitSystem = "us"): SetupForm {
  const form = document.createElement("form");
  form.className = "setup-form";
  form.addEventListener("submit", (event) => event.preventDefault());
  const top = form.appendChild(document.createElement("fieldset"));
  top.appendChild(document.createElement("legend")).textContent = "What you know";
  const log = select(top, null, "From the log of", [["", "no session: what is typed here"]]);
  log.disabled = true;
  const way = select(top, "way", "The placement", [
    ["numbers", "as numbers"],
    ["measured", "by tapes, level and sight"],
  ]);
  const side = select(top, "tapesMeet", "The tapes meet", [
    ["before", "on the plate's side of the corners"],
    ["beyond", "beyond the corners"],
  ]);
  const kind = select(top, "scale", "Its scale", [
    ["distance", "from the distance it was told"],
    ["direct", "it measures speed itself"],
  ]);
  const amounts = new Map<string, Amount>();
  for (const group of groups) {
    const set = form.appendChild(document.createElement("fieldset"));
    set.appendChild(document.createElement("legend")).textContent = group.title;
    for (const box of group.boxes) amounts.set(box.key, new Amount(set, box, units));
  }
  const wayNow = (): "numbers" | "measured" => (way.value === "measured" ? "measured" : "numbers");
  const show = (): void => {
    for (const box of boxes)
      amounts.get(box.key)!.element.hidden = box.way !== "both" && box.way !== wayNow();
    side.parentElement!.hidden = wayNow() !== "measured";
  };
  const holder = document.createElement("div");
  holder.className = "wide";
  holder.append(form);
  let waiting = 0;
  const follow = (): void => {
    show();
    hold("way", way.value);
    hold("tapesMeet", side.value);
    hold("scale", kind.value);
    for (const amount of amounts.values()) amount.keep();
    clearTimeout(waiting);
    waiting = window.setTimeout(() => holder.dispatchEvent(new Event("input")), settle_ms);
  };
  let logged: readonly Session[] = [];
  const take = (name: string): void => {
    const session = logged.find((one) => one.session === name);
    if (session === undefined) return;
    way.value = "numbers";
    for (const [key, text] of Object.entries(fromLog(session))) amounts.get(key)!.put(text);
  };
  form.addEventListener("input", (event) => {
    event.stopPropagation();
    if (event.target === log) take(log.value);
    else if (event.target !== kind) log.value = "";
    follow();
  });
  show();
  const offer = (sessions: readonly Session[]): void => {
    logged = sessions
      .filter((one) => one.tracker_distance_ft !== null && one.session !== null)
      .toSorted((a, b) => (b.date ?? "").localeCompare(a.date ?? ""));
    if (logged.length === 0) return;
    log.replaceChildren(log.options[0]!, ...logged.map((one) => new Option(one.session!, one.session!)));
    log.disabled = false;
    // Nothing given yet: the last session's place is the likeliest question.
    if (["distance", "tape1", "tape3"].some((key) => amounts.get(key)!.text !== "")) return;
    log.value = logged[0]!.session!;
    take(log.value);
    follow();
  };
  return Object.defineProperties(holder, {
    offer: { value: offer },
    value: {
      get: () =>
        setupGiven((key) => amounts.get(key)?.text ?? "", {
          way: wayNow(),
          scaled: kind.value !== "direct",
          beyond: side.value === "beyond",
          units,
        }),
    },
  }) as unknown as SetupForm;
}
