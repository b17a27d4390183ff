/** What was read, and what could not be. */
import { trustBadge } from "../../src/charts/trustBadge.ts";
import { inputs } from "../../src/swing/fields.ts";
import { trustAnswer } from "../../src/views/sentences/opening.ts";
import { sessionsInOrder } from "../../src/views/sessions.ts";
import { counted, listed } from "../../src/swing/words.ts";
import { shortName } from "../../src/views/words.ts";
import type { PageLibrary } from "./library.ts";
import { opening } from "./opening.ts";
import { pageList } from "./pageList.ts";
import { box, nothing, table } from "./show.ts";

const number = (n: number): string => n.toLocaleString("en");

/** The library in one screen: whether it can be trusted, how much there is, and who did what last. */
export function libraryOpening(library: PageLibrary): HTMLElement {
  const { swings, trust } = library;
  const sound = trust.filter(({ verdict }) => verdict === "sound").length;
  const byInput = inputs
    .map((input) => [swings.filter((row) => row.input === input).length, input] as const)
    .filter(([n]) => n > 0)
    .map(([n, input]) => `${number(n)} ${input}`);
  const hitters = new Set(swings.map((row) => row.hitter));
  const element = opening({
    answer: trustAnswer(sound, trust.length),
    figures: [
      { name: "Swings", value: number(swings.length), doubt: byInput.join(", ") },
      {
        name: "Hitters",
        value: number(hitters.size),
        doubt: `${library.hitters.length} described in hitters.csv`,
      },
      {
        name: "Refused rows",
        value: number(library.refused),
        doubt: counted(library.warnings, "warning", "warnings", number),
      },
    ],
    more: pageList(),
    picture: latest(library),
  });
  element.classList.add("loaded");
  return element;
}

/** So many of the last sessions stand on the first screen. */
const lastSessions = 9;

/** The last sessions: when, who, how much of what, and whether it can be believed. */
function latest(library: PageLibrary): HTMLElement {
  const trust = new Map(library.trust.map((one) => [one.session, one]));
  const last = sessionsInOrder(library.swings, library.sessions).reverse().slice(0, lastSessions);
  if (last.length === 0) return nothing("No swing of this library names a session.");
  const rows = last.map(({ session, date, rows: own }) => {
    const names = [...new Set(own.map(({ hitter }) => shortName(hitter)))];
    const who =
      names.length > 3 ? `${names.slice(0, 2).join(", ")} and ${names.length - 2} more` : listed(names);
    const work = inputs
      .map((input) => [own.filter((row) => row.input === input).length, input] as const)
      .filter(([n]) => n > 0)
      .map(([n, input]) => `${number(n)} ${input}`);
    return { cells: [date ?? session, who, work.join(", ")], badge: trust.get(session) };
  });
  const shown = table(
    ["Last sessions", "Who", "Swings", "Trust"],
    rows.map(({ cells }) => [...cells, ""]),
  );
  shown.classList.add("recent", "sessions");
  rows.forEach(({ badge }, i) => {
    if (badge !== undefined)
      shown.querySelectorAll("tbody tr")[i]?.lastElementChild?.append(trustBadge(badge));
  });
  return shown;
}

/** The library file by file. */
export function loaded(library: PageLibrary): HTMLElement {
  const { files } = library;
  if (files.length === 0) return nothing("The library's folder holds no tables yet.");
  return table(
    ["File", "Rows", "Refused"],
    files.map(({ file, rows, refused }) => [file, number(rows), number(refused)]),
  );
}

/** Which files could not be read: what stands in them is in no figure. */
function unreadBox(unread: readonly string[]): HTMLElement {
  const list = document.createElement("ul");
  for (const sentence of unread) list.appendChild(document.createElement("li")).textContent = sentence;
  return box("trouble", "Not everything could be read, and the figures are without it:", list);
}

function paragraph(text: string): HTMLElement {
  const element = document.createElement("p");
  element.textContent = text;
  return element;
}

/** At most so many sentences stand over a page's figures; the start page has them all. */
const toldAtMost = 5;

/**
 * What a reader must know before any figure: that the library can't be opened, that files or rows are missing, or that what
 * sessions.csv or hitters.csv say can't be used.
 * @param elsewhere whether refused rows are named on another page
 */
export function loadingTrouble(
  { trouble, unread, refused, swings, tables, files }: PageLibrary,
  elsewhere = true,
): HTMLElement {
  if (trouble !== null) return box("trouble", trouble);
  if (unread.length > 0) return unreadBox(unread);
  if (files.length === 0 && swings.length === 0) return nothing("The library's folder holds no tables yet.");
  if (swings.length === 0) return nothing("The library holds no swings yet.");
  const told = tables.slice(0, toldAtMost);
  if (refused > 0 && elsewhere)
    told.push(
      refused === 1
        ? "1 refused row is in no figure here: Start names it."
        : `${number(refused)} refused rows are in no figure here: Start names them.`,
    );
  return box("warned", ...told.map(paragraph));
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
