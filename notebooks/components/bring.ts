/** The page "Bring a file": a place to drop files, and a card for each. */
import "../page/bring.css";
import { fastestOf } from "../../src/contact/levels.ts";
import { Card, type Beside } from "./bringCard.ts";
import { Needed } from "./bringForms.ts";
import { ownBox } from "./bringOwn.ts";
import { ReportsBox } from "./bringReports.ts";
import { make } from "./bringSay.ts";
import { storeHere } from "./bringStore.ts";
import { UnheardBox } from "./bringUnheard.ts";
import type { PageLibrary } from "./library.ts";
import type { UnitSystem } from "../../src/units/system.ts";

/** The page's body, which stays as it is while the library grows, and the way to tell it of the library. */
export interface Bringing {
  readonly element: HTMLElement;
  /** @returns what the library's swings still want beside them */
  follow(library: PageLibrary): HTMLElement;
  /** @returns the reports of the library's swings */
  reports(library: PageLibrary, units: UnitSystem): HTMLElement;
}

const besideOf = (library: PageLibrary): Beside => {
  const { maps, swings, hitters } = library;
  return {
    library,
    maps,
    hitters: [...new Set([...hitters.map(({ hitter }) => hitter), ...swings.map(({ hitter }) => hitter)])],
    fastest_mph: fastestOf(hitters),
  };
};

/** A place for files: chosen, dropped, or pasted from the keyboard's own dialog. */
export function bringAFile(): Bringing {
  const store = storeHere();
  const cards = new Set<Card>();
  const needed = new Needed(store);
  const reports = new ReportsBox();
  const unheard = new UnheardBox(store);
  const places = make("div", { class: "cards" });
  let beside: Beside | null = null;
  let waiting: File[] = [];
  const gone = (card: Card): void => {
    cards.delete(card);
    card.element.remove();
    input.focus();
  };
  const take = (files: Iterable<File>): void => {
    // Names and maps that the library has are wanted first.
    if (beside === null) {
      waiting.push(...files);
      return;
    }
    for (const file of files) {
      const card = new Card(file, store, beside, gone);
      cards.add(card);
      places.prepend(card.element);
    }
  };
  const input = make("input", {
    type: "file",
    multiple: true,
    accept: ".csv,.tsv,.txt,text/csv,text/plain",
    "data-key": "file",
  });
  input.addEventListener("change", () => {
    take(input.files ?? []);
    // The same file may be chosen again.
    input.value = "";
  });
  const drop = make(
    "label",
    { class: "drop" },
    make("b", {}, "Choose a file, or drop it here"),
    make("span", {}, "A CSV from your tracker or spreadsheet, or several. It stays on this machine."),
    input,
  );
  document.addEventListener("dragover", (event) => {
    event.preventDefault();
    drop.classList.add("over");
  });
  document.addEventListener("dragleave", () => drop.classList.remove("over"));
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    drop.classList.remove("over");
    take(event.dataTransfer?.files ?? []);
  });
  return {
    element: make(
      "div",
      { class: "bring wide" },
      drop,
      unheard.element,
      store?.isBrowser === true ? ownBox() : null,
      places,
    ),
    follow(library) {
      beside = besideOf(library);
      unheard.follow(library.name);
      for (const card of cards) card.follow(beside);
      const files = waiting;
      waiting = [];
      take(files);
      needed.follow(library);
      return needed.element;
    },
    reports(library, units) {
      reports.follow(library, units);
      return reports.element;
    },
  };
}
