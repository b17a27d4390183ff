/** One sheet of a page, printed by itself. */

/**
 * A button that prints one sheet and leaves the rest of the page out.
 * @param sheet the name that the sheet's parts carry in `data-sheet`: see page.css
 */
export function printAlone(text: string, sheet: string): HTMLElement {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "download print";
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
  return button;
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
