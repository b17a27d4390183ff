/** Cells in a language that isn't here (SQL, Python, R, Node): each says so in its place, and nothing is started for it. */
import type { Cell, Notebook } from "@observablehq/notebook-kit";

const names: Partial<Record<Cell["mode"], string>> = { sql: "SQL", python: "Python", r: "R", node: "Node" };

/**
 * What stands in such a cell's place.
 * @example absentCellSentence("SQL") // "SQL cells aren't here: nothing but this page's own scripts runs with it. The rows are in “library.swings”, and Arquero’s verbs (aq) filter, group and join them."
 */
export const absentCellSentence = (language: string): string =>
  `${language} cells aren't here: nothing but this page's own scripts runs with it. The rows are in “library.swings”, and Arquero’s verbs (aq) filter, group and join them.`;

/** A notebook whose cells in other languages say that they can't run. */
export function withoutAbsentCells(notebook: Notebook): Notebook {
  const cells = notebook.cells.map((cell) => {
    const language = names[cell.mode];
    if (language === undefined) return cell;
    const said = JSON.stringify(absentCellSentence(language));
    const value = `display(Object.assign(document.createElement("p"), {className: "nothing", textContent: ${said}}))`;
    return { id: cell.id, mode: "js" as const, pinned: false, hidden: false, value };
  });
  return { ...notebook, cells };
}
