/** What was read, and what could not be. */
import { inputs } from "../../src/swing/fields.ts";
import type { PageLibrary } from "./library.ts";
import { box, facts, nothing, table } from "./show.ts";

const number = (n: number): string => n.toLocaleString("en");

/** The library in figures, and file by file. */
export function loaded(library: PageLibrary): HTMLElement {
  const { swings, files } = library;
  if (library.trouble !== null) return box("trouble", library.trouble);
  if (library.unread.length > 0 && files.length === 0) return unreadBox(library.unread);
  if (files.length === 0) return nothing("The library's folder holds no tables yet.");
  const hitters = new Set(swings.map((row) => row.hitter));
  const sessions = new Set(swings.flatMap((row) => (row.session === null ? [] : [row.session])));
  const byInput = inputs.map(
    (input) => `${number(swings.filter((row) => row.input === input).length)} ${input}`,
  );
  const known = library.sessions.filter(({ session }) => sessions.has(session)).length;
  return box(
    "loaded",
    ...(library.unread.length > 0 ? [unreadBox(library.unread)] : []),
    facts([
      { name: "Swings", value: number(swings.length), doubt: byInput.join(", ") },
      {
        name: "Hitters",
        value: number(hitters.size),
        doubt: `${library.hitters.length} described in hitters.csv`,
      },
      { name: "Sessions", value: number(sessions.size), doubt: `${known} of them described in sessions.csv` },
      {
        name: "Refused rows",
        value: number(library.refused),
        doubt: `${number(library.warnings)} warning${library.warnings === 1 ? "" : "s"}`,
      },
    ]),
    table(
      ["File", "Rows", "Refused"],
      files.map(({ file, rows, refused }) => [file, number(rows), number(refused)]),
    ),
  );
}

/** Which files could not be read: what stands in them is in no figure. */
function unreadBox(unread: readonly string[]): HTMLElement {
  const list = document.createElement("ul");
  for (const sentence of unread) list.appendChild(document.createElement("li")).textContent = sentence;
  return box("trouble", "Not everything could be read, and the figures are without it:", list);
}

/** At most so many sentences stand over a page's figures; the start page has them all. */
const toldAtMost = 5;

/**
 * What a reader must know before any figure: that the library can't be opened, that files or rows are missing, or that what
 * sessions.csv or hitters.csv say can't be used.
 */
export function loadingTrouble({ trouble, unread, refused, swings, tables }: PageLibrary): HTMLElement {
  if (trouble !== null) return box("trouble", trouble);
  if (unread.length > 0) return unreadBox(unread);
  if (swings.length === 0) return nothing("The library holds no swings yet.");
  const told = tables.slice(0, toldAtMost);
  if (refused > 0)
    told.push(
      refused === 1
        ? "1 row was refused and is in no figure here: the start page names it."
        : `${number(refused)} rows were refused and are in no figure here: the start page names them.`,
    );
  return box("quiet", ...told.map((sentence) => box("quiet", sentence)));
}

/** Every refused row and warning as a sentence, folded away; nothing when there are none. */
export function openingProblems({ problems, refused, warnings }: PageLibrary): HTMLElement {
  if (problems.length === 0) return box("quiet");
  const details = document.createElement("details");
  details.appendChild(document.createElement("summary")).textContent = "What was refused or looked odd";
  const list = details.appendChild(document.createElement("ul"));
  for (const sentence of problems) list.appendChild(document.createElement("li")).textContent = sentence;
  const untold = refused + warnings - problems.length;
  if (untold > 0) {
    details.appendChild(document.createElement("p")).textContent =
      `And ${number(untold)} more: the command “check” names them all.`;
  }
  return details;
}
