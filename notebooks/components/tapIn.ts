/**
 * Balls tapped in where no tracker writes a file: speed, angle, lane and how it was hit, by one thumb or the keyboard. Each is
 * kept as any other row. The form stays while rows come; only whom it is for follows the page.
 */
import {
  saysSomething,
  seenKinds,
  tappedLanes,
  tappedRow,
  type Seen,
  type Tapped,
} from "../../src/contact/tapped.ts";
import { inputs, type Input } from "../../src/swing/fields.ts";
import { capital } from "../../src/swing/words.ts";
import { convert, type UnitName } from "../../src/units/index.ts";
import { shownUnit, type UnitSystem } from "../../src/units/system.ts";
import type { Round } from "../../src/views/round.ts";
import { Amount, type AmountAsked } from "./amount.ts";
import { NotKept, storeHere } from "./bringStore.ts";
import { button, make } from "./bringSay.ts";
import type { PageLibrary } from "./library.ts";
import { every } from "./pick.ts";

/** Ids of tapped balls begin so. */
const idStart = "hand-";

/** Whom the next ball is of. */
export interface Following {
  readonly library: PageLibrary;
  readonly round: Round | null;
  readonly hitter: string;
  readonly drill: string;
  readonly units: UnitSystem;
}

type Lane = (typeof tappedLanes)[number];

const inputWords: Readonly<Record<Input, string>> = { tee: "Tee", flip: "Flip", live: "Live" };

/** Buttons of which one or none is pressed. */
class Pads<Value extends string> {
  readonly element: HTMLElement;
  private chosen: Value | null = null;

  constructor(label: string, values: readonly Value[], text: (value: Value) => string, className: string) {
    this.element = make("div", { role: "group", "aria-label": label, class: `pads ${className}` });
    for (const value of values) {
      const pad = button(value, text(value), () => this.put(this.chosen === value ? null : value));
      pad.setAttribute("aria-pressed", "false");
      this.element.append(pad);
    }
  }

  get value(): Value | null {
    return this.chosen;
  }

  put(value: Value | null): void {
    this.chosen = value;
    for (const pad of this.element.querySelectorAll<HTMLElement>("button"))
      pad.setAttribute("aria-pressed", String(pad.dataset["key"] === value));
  }
}

/** A number with a slider, and a button at each side for one more or one less. */
function dial(
  parent: HTMLElement,
  asked: AmountAsked & { readonly unit: UnitName },
  units: UnitSystem,
): Amount {
  const place = parent.appendChild(make("div", { class: "dial" }));
  const amount = new Amount(place, asked, units);
  const box = amount.element.querySelector("input")!;
  const one = convert(1, shownUnit(asked.unit, units), asked.unit);
  const [low, high] = asked.slider!;
  const by = (step: number): void => {
    const now = amount.value;
    // The first touch of an empty box begins in the middle.
    const next = now === null || Number.isNaN(now) ? (low + high) / 2 : now + step * one;
    amount.put(String(Number(Math.max(low, Math.min(high, next)).toFixed(4))));
    box.dispatchEvent(new Event("input", { bubbles: true }));
  };
  place.prepend(
    make("button", { type: "button", "aria-label": `${asked.title}, less`, onclick: () => by(-1) }, "−"),
  );
  place.append(
    make("button", { type: "button", "aria-label": `${asked.title}, more`, onclick: () => by(1) }, "+"),
  );
  return amount;
}

const two = (n: number): string => String(n).padStart(2, "0");

/** The device's own date and time, ISO 8601. */
function now(): { readonly date: string; readonly time: string } {
  const at = new Date();
  const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return { date, time: `${date}T${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}` };
}

/** An id that no other ball has. */
function newId(time: string): string {
  const random = [...crypto.getRandomValues(new Uint8Array(5))].map((byte) =>
    byte.toString(16).padStart(2, "0"),
  );
  return `${idStart}${time.replace(/\D/g, "")}-${random.join("")}`;
}

/** The form; `follow` tells it what the page shows. */
export class TapIn {
  readonly element = make("form", { class: "tap-in", "aria-label": "Tap in a ball" });
  private readonly store = storeHere();
  private readonly who = make("p", { class: "tap-who" });
  private readonly name = make("input", {
    "aria-label": "Hitter",
    placeholder: "Hitter’s name",
    autocomplete: "off",
    maxlength: 80,
  });
  private readonly said = make("p", { class: "tap-said", role: "status" });
  private readonly input = new Pads<Input>("How the ball came", inputs, (value) => inputWords[value], "few");
  private readonly lane = new Pads<Lane>("Where it went", tappedLanes, capital, "lanes");
  private readonly seen = new Pads<Seen>("How it was hit", seenKinds, capital, "seen");
  private readonly keepIt = button("keep", "Keep this ball", () => {}, true);
  private readonly back = button("back", "Undo the last", () => void this.takeBack());
  private speed!: Amount;
  private angle!: Amount;
  private following: Following | null = null;
  private inputTouched = false;
  /** The ball that is being kept: told again after a failure, it has the same id and stands once. */
  private pending: { readonly said: string; readonly row: Record<string, string> } | null = null;
  private readonly kept: string[] = [];
  private readonly gone = new Set<string>();
  private isBusy = false;

  constructor() {
    this.keepIt.type = "submit";
    this.element.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.keep();
    });
    this.input.element.addEventListener("click", () => (this.inputTouched = true));
    if (this.store === null)
      this.element.append(
        make("p", { class: "trouble" }, "These pages are only read here: balls can’t be tapped in."),
      );
  }

  /** What the page shows now. */
  follow(following: Following): HTMLElement {
    const before = this.following;
    this.following = following;
    if (this.store === null) return this.element;
    if (before?.units !== following.units) this.draw(following.units);
    const hitter = this.hitter();
    const drill = this.drill();
    this.name.hidden = hitter !== "" && following.hitter === hitter;
    if (!this.name.hidden && document.activeElement !== this.name && this.name.value === "")
      this.name.placeholder = hitter === "" ? "Hitter’s name" : `${hitter}, or another name`;
    this.who.textContent = this.name.hidden
      ? [hitter, drill].filter((text) => text !== null).join(" · ")
      : (drill ?? "");
    if (!this.inputTouched) this.input.put(following.round?.last.input ?? "tee");
    this.back.disabled = this.lastId() === null;
    return this.element;
  }

  private draw(units: UnitSystem): void {
    const dials = make("div", { class: "dials" });
    this.speed = dial(
      dials,
      { key: "tapped-speed", title: "Speed", unit: "mph", slider: [30, 120], whenEmpty: "" },
      units,
    );
    this.angle = dial(
      dials,
      { key: "tapped-angle", title: "Angle", unit: "deg", slider: [-45, 75], whenEmpty: "" },
      units,
    );
    this.element.replaceChildren(
      make("div", { class: "tap-top" }, this.who, this.name, this.input.element),
      dials,
      this.lane.element,
      this.seen.element,
      make("div", { class: "tap-end" }, this.keepIt, this.back),
      this.said,
    );
  }

  /** Whose ball it is: the name written, the hitter chosen, else whoever hit last. */
  private hitter(): string {
    const written = this.name.value.trim();
    const { hitter, round } = this.following!;
    return hitter !== every ? hitter : written !== "" ? written : (round?.hitter ?? "");
  }

  /** The drill chosen, else the one that this hitter is at. */
  private drill(): string | null {
    const { drill, round } = this.following!;
    return drill !== every ? drill : round?.hitter === this.hitter() ? round.drill : null;
  }

  private tapped(): Tapped | string {
    const hitter = this.hitter();
    if (hitter === "") return "Whose ball is it? Write the hitter’s name.";
    const { library } = this.following!;
    const listed = library.hitters.find((one) => one.hitter === hitter)?.bats;
    const before = library.swings.findLast((row) => row.hitter === hitter && row.bats !== null)?.bats;
    const [speed, angle] = [this.speed.value, this.angle.value];
    if (Number.isNaN(speed) || Number.isNaN(angle)) return "Speed and angle are numbers.";
    const round = (value: number | null): number | null =>
      value === null ? null : Math.round(value * 10) / 10;
    return {
      hitter,
      bats: listed === "L" || listed === "R" ? listed : (before ?? null),
      input: this.input.value ?? "tee",
      drill: this.drill(),
      exit_velocity_mph: round(speed),
      launch_angle_deg: round(angle),
      lane: this.lane.value,
      seen: this.seen.value,
    };
  }

  private say(text: string, isTrouble = false): void {
    this.said.textContent = text;
    this.said.classList.toggle("trouble", isTrouble);
  }

  private async keep(): Promise<void> {
    if (this.store === null || this.isBusy || this.following === null) return;
    const tapped = this.tapped();
    if (typeof tapped === "string") {
      this.say(tapped, true);
      if (!this.name.hidden && this.hitter() === "") this.name.focus();
      return;
    }
    if (!saysSomething(tapped)) return this.say("Nothing is tapped in yet.", true);
    const { library } = this.following;
    const saidOf = JSON.stringify(tapped);
    const { date, time } = now();
    const name = `${date} by hand`;
    const session = library.sessions.find(({ session }) => session === name) ?? { session: name };
    if (this.pending?.said !== saidOf)
      this.pending = { said: saidOf, row: tappedRow(tapped, { id: newId(time), time, session }) };
    const { row } = this.pending;
    this.isBusy = true;
    try {
      // Where sessions are listed, one that isn't would be called unknown.
      if (library.sessions.length > 0 && !("date" in session))
        await this.store.put("sessions", [{ session: name, date }], library);
      await this.store.keep(row);
      this.pending = null;
      this.kept.push(row["swing_id"]!);
      this.speed.put("");
      this.angle.put("");
      this.lane.put(null);
      this.seen.put(null);
      const counts =
        row["outcome"] === "" ? " It counts in no figure: speed and angle were not both measured." : "";
      this.say(`Kept: ${tapped.hitter}’s ball.${counts}`);
    } catch (error) {
      this.say(error instanceof NotKept ? error.message : "Nothing was kept.", true);
    } finally {
      this.isBusy = false;
      this.back.disabled = this.lastId() === null;
    }
  }

  /** The last tapped ball that is still there: of this visit, or of today as the library has it. */
  private lastId(): string | null {
    const mine = this.kept.at(-1);
    if (mine !== undefined) return mine;
    const today = `${now().date} by hand`;
    const rows = (this.following?.library.swings ?? []).filter(
      ({ swing_id, session }) =>
        session === today && swing_id?.startsWith(idStart) && !this.gone.has(swing_id),
    );
    return rows.sort((a, b) => (a.time ?? "").localeCompare(b.time ?? "")).at(-1)?.swing_id ?? null;
  }

  private async takeBack(): Promise<void> {
    const id = this.lastId();
    if (this.store === null || id === null || this.isBusy) return;
    this.isBusy = true;
    try {
      await this.store.takeBack(id);
      this.gone.add(id);
      if (this.kept.at(-1) === id) this.kept.pop();
      this.say("The last ball was taken back.");
    } catch (error) {
      this.say(error instanceof NotKept ? error.message : "Nothing was taken back.", true);
    } finally {
      this.isBusy = false;
      this.back.disabled = this.lastId() === null;
    }
  }
}
