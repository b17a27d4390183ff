/** What is kept in this browser, said on the page, with the ways to take it out whole and to wipe it. */
import { button, make, number } from "./bringSay.ts";
import { counted } from "../../src/swing/words.ts";

const kept = (n: number, one: string): string => counted(n, one, `${one}s`, number);

/** Draws what is kept into an element, anew each time something was kept or wiped. */
export function ownBox(): HTMLElement {
  const box = make("div", { class: "own" });
  const said = make("p", { class: "quiet", role: "status" });
  let asked = false;
  const draw = async (): Promise<void> => {
    const { ownRows, wipeOwn, zipOf } = await import("./own.ts");
    const own = await ownRows().catch(() => null);
    if (own === null) {
      box.replaceChildren(
        make(
          "p",
          { class: "trouble" },
          "This browser keeps nothing for this page, so that nothing can be added here: a private window, or its settings, say so.",
        ),
      );
      return;
    }
    const { swings, sessions, hitters, targets, names, fields, files } = own;
    const isEmpty = [swings, sessions, hitters, targets, names, fields, files].every(
      (rows) => rows.length === 0,
    );
    const where =
      "No program serves these pages, so what you add stays in this browser, on this machine: it is here on your next visit, on every page, and nobody else sees it.";
    if (isEmpty) {
      asked = false;
      box.replaceChildren(make("p", { class: "quiet" }, where), said);
      return;
    }
    const holds = `Kept here: ${kept(swings.length, "swing")} from ${kept(files.length, "file")}. Whoever clears this browser’s data clears them, too: save them.`;
    const save = button("own save", "Save everything", () => {
      const link = make("a", { download: "swings.zip" });
      link.href = URL.createObjectURL(
        new Blob([zipOf(own) as Uint8Array<ArrayBuffer>], { type: "application/zip" }),
      );
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
      said.textContent = "Saved as one zip: the tables as CSV, the maps, and the files as they were brought.";
    });
    const wipe = button(
      "own wipe",
      asked ? `Yes, wipe ${kept(swings.length, "swing")}` : "Wipe this browser’s rows",
      () => {
        if (!asked) {
          asked = true;
          void draw().then(() => box.querySelector<HTMLElement>('[data-key="own wipe"]')?.focus());
          return;
        }
        asked = false;
        wipeOwn().then(
          () => {
            said.textContent = "Wiped: this browser holds no rows of this site any more.";
          },
          () => {
            said.textContent = "Nothing was wiped: the browser did not let go of it.";
          },
        );
      },
    );
    const parts: Node[] = [make("p", { class: "quiet" }, `${where} ${holds}`), save, wipe];
    if (asked)
      parts.push(
        button("own keep", "Keep them", () => {
          asked = false;
          void draw();
        }),
      );
    box.replaceChildren(...parts, said);
  };
  void import("./own.ts").then(({ ownChanged }) => {
    addEventListener(ownChanged, () => void draw());
    return draw();
  });
  return box;
}
