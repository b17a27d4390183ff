/** One sheet of a page, printed by itself. */
import { box } from "./show.ts";

/** A button that prints one sheet, and waits where the sheet isn't whole yet. */
export interface PrintAlone extends HTMLElement {
  /** Has it wait, and says why beside it; null once there is something to print. */
  wait(why: string | null): void;
}

/**
 * A button that prints one sheet and leaves the rest of the page out.
 * @param sheet the name that the sheet's parts carry in `data-sheet`: see page.css
 * @param why it can't be printed yet, in a sentence
 */
export function printAlone(text: string, sheet: string, why: string | null = null): PrintAlone {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "download";
  button.textContent = text;
  button.addEventListener("click", () => {
    document.body.dataset["alone"] = sheet;
    for (const part of document.querySelectorAll("main > *"))
      part.classList.toggle("left-out", part.querySelector(`[data-sheet~="${sheet}"]`) === null);
    window.addEventListener(
      "afterprint",
      () => {
        delete document.body.dataset["alone"];
        for (const part of document.querySelectorAll("main > .left-out")) part.classList.remove("left-out");
      },
      { once: true },
    );
    window.print();
  });
  const note = document.createElement("span");
  note.className = "why";
  const element = Object.assign(box("print-alone", button, note), {
    wait(why: string | null): void {
      button.disabled = why !== null;
      note.textContent = why;
      note.hidden = why === null;
    },
  });
  element.wait(why);
  return element;
}

/** What a sheet that is printed by itself has beside the page: the page's own foot says it, and is left out there. */
export function onPaper<Part extends HTMLElement>(part: Part): Part {
  part.classList.add("paper-only");
  return part;
}

/** Marks an element as part of a sheet that is printed by itself. */
export function ofSheet<Part extends HTMLElement>(sheet: string, part: Part): Part {
  part.dataset["sheet"] = sheet;
  return part;
}
