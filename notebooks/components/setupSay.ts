/** A setup's sentences and tables, as elements. */
import simulated from "../../data/drift-simulation.json" with { type: "json" };
import { trustBadge } from "../../src/charts/trustBadge.ts";
import { flagsOf, flagWords, isDoubtful } from "../../src/contact/flags.ts";
import type { Budget } from "../../src/setup/budget.ts";
import {
  checklist,
  checklistTitle,
  limitsUnknown,
  logFields,
  logWords,
  setupCautions,
  trialBalls,
} from "../../src/setup/checklist.ts";
import type { Drift } from "../../src/setup/drift.ts";
import { lengthWords, placeWords } from "../../src/setup/lengths.ts";
import { tolerances, toleranceTable } from "../../src/setup/tolerances.ts";
import type { Trust } from "../../src/setup/trust.ts";
import { biasWords, causeWords, measureWords, offWords, verdictSentence } from "../../src/setup/words.ts";
import { share } from "../../src/stats/share.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { swingFields, type EnrichedSwing, type Field, type Session } from "../../src/swing/fields.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import { nothingOdd, tapesSentence } from "../../src/views/sentences/setup.ts";
import { doubtfulSentence } from "../../src/views/sentences/readings.ts";
import { lastAnswer } from "../../src/views/sentences/opening.ts";
import { signedNumber } from "../../src/swing/words.ts";
import { rangeWords } from "../../src/views/words.ts";
import type { Opening } from "./opening.ts";
import { shared } from "./say.ts";
import type { SetupGiven } from "./setupForm.ts";
import { box, nothing, table, unbroken, type Shown } from "./show.ts";

function paragraph(text: string, className = ""): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/** Whether the last session can be believed, why, and how many of all can. */
export function trustSaid(
  trust: ReadonlyMap<string, Trust>,
  rows: readonly EnrichedSwing[],
  sessions: readonly Session[],
): Omit<Opening, "picture"> {
  const order = sessionLists(rows, sessions).map(({ session, date }) => ({
    date,
    ...trust.get(session)!,
  }));
  const last = order.at(-1) ?? null;
  const sound = order.filter(({ verdict }) => verdict === "sound").length;
  const read = rows.filter((r) => r.exit_velocity_mph !== null);
  const doubtful = read.filter(isDoubtful).length;
  const spread = share(doubtful, read.length);
  return {
    answer: lastAnswer(last),
    told: last === null ? [] : [[`${last.session}:`, ...last.reasons].join(" ")],
    figures:
      order.length === 0
        ? []
        : [
            {
              name: "Sessions that are sound",
              value: `${sound} of ${order.length}`,
              doubt: `${order.filter(({ compared }) => compared).length} compared with others`,
            },
            shared("Readings in doubt", spread),
          ],
  };
}

/** The verdict, what looks like a slip, and what to move; or why there is no budget. */
export function setupTold({ budget, taped, trouble }: SetupGiven): HTMLElement {
  if (budget === null) return box("trouble", trouble ?? "The placement can't be used.");
  const { units, placement, believed } = budget;
  const moves = budget.causes.filter((c) => c.advice !== null);
  const list = document.createElement("ul");
  for (const { cause, off, verdict, advice } of moves)
    list.appendChild(document.createElement("li")).textContent =
      `${causeWords[cause]} ${offWords(cause, off, units)}, ${verdict}: ${advice}`;
  const doubts = budget.doubts.map((doubt) => paragraph(doubt, "care"));
  const tapes =
    taped === null
      ? []
      : [
          paragraph(
            tapesSentence(
              lengthWords(tolerances.tape_error_in, units),
              lengthWords(taped.distanceDoubt_ft * 12, units),
              lengthWords(taped.offsetDoubt_in, units),
            ),
            "quiet",
          ),
        ];
  return box(
    "told",
    paragraph(verdictSentence(budget), "verdict headline"),
    paragraph(
      `It stands ${placeWords(placement, units)}. It was told: ${placeWords(believed, units)}.`,
      "quiet",
    ),
    ...doubts,
    ...tapes,
    ...(moves.length > 0 ? [list] : []),
  );
}

/** Measure by measure on the three typical balls: what reads how much off, and what to do. */
export function budgetTable(budget: Budget): HTMLElement {
  return table(
    ["Measure", "Verdict", ...budget.balls.map(({ ball }) => ball.name.replace(/^an? /, ""))],
    budget.measures.map(({ measure, verdict }) => [
      measureWords[measure].name,
      verdict,
      ...budget.balls.map(({ biases }) => biasWords(measure, biases[measure], budget.units)),
    ]),
  );
}

/**
 * The five looks for a tracker that was told where it is to stand, the log to fill in, the cautions, and a button that
 * prints them alone, on one page.
 */
export function checklistShown({ budget }: Pick<SetupGiven, "budget">, units: UnitSystem): HTMLElement {
  const stand = budget?.believed ?? null;
  const ticks = (items: readonly string[]): HTMLElement => {
    const element = document.createElement("ul");
    for (const item of items) element.appendChild(document.createElement("li")).textContent = item;
    return element;
  };
  const list = document.createElement("ol");
  for (const { title, items } of checklist(stand, units)) {
    const look = list.appendChild(document.createElement("li"));
    look.appendChild(document.createElement("b")).textContent = title;
    look.append(ticks(items));
  }
  const trial = document.createElement("section");
  trial.appendChild(document.createElement("b")).textContent = "Then five balls that don't count";
  trial.append(ticks(trialBalls(units)));
  const log = document.createElement("div");
  log.className = "log";
  for (const [, name] of logFields) log.appendChild(document.createElement("div")).textContent = name;
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Print the checklist";
  button.addEventListener("click", () => {
    document.body.classList.add("checklist-alone");
    window.addEventListener("afterprint", () => document.body.classList.remove("checklist-alone"), {
      once: true,
    });
    window.print();
  });
  return box(
    "checklist",
    paragraph(checklistTitle, "title"),
    ...(stand === null ? [nothing(limitsUnknown)] : []),
    list,
    trial,
    paragraph(logWords, "quiet"),
    log,
    paragraph(setupCautions.join(" "), "care"),
    button,
  );
}

/** Every session's badge with the reasons behind it, latest first; sessions in order are folded away. */
export function trustTable(
  trust: ReadonlyMap<string, Trust>,
  rows: readonly EnrichedSwing[],
  sessions: readonly Session[],
): HTMLElement {
  const order = sessionLists(rows, sessions).reverse();
  if (order.length === 0) return nothing(nothingOdd.noSession);
  const listed = (names: readonly string[]): HTMLElement => {
    const element = document.createElement("table");
    element.className = "trust";
    const head = element.createTHead().insertRow();
    for (const name of ["Session", "Trust", "Why"]) {
      const cell = head.appendChild(document.createElement("th"));
      cell.scope = "col";
      cell.textContent = name;
    }
    const body = element.createTBody();
    for (const name of names) {
      const one = trust.get(name)!;
      const line = body.insertRow();
      line.insertCell().append(...unbroken(name));
      line.insertCell().append(trustBadge(one));
      line.insertCell().append(...unbroken(one.reasons.join(" ") || nothingOdd.noReason));
    }
    // On a phone its rows are laid out as blocks, and a browser would take it for no table then.
    const roles = { tr: "row", th: "columnheader", td: "cell", tbody: "rowgroup", thead: "rowgroup" };
    element.setAttribute("role", "table");
    for (const [tag, role] of Object.entries(roles))
      for (const part of element.getElementsByTagName(tag)) part.setAttribute("role", role);
    const frame = box("scroll", element);
    frame.tabIndex = 0;
    frame.setAttribute("role", "group");
    frame.setAttribute("aria-label", "Trust in each session");
    return frame;
  };
  const names = order.map(({ session }) => session);
  const odd = names.filter((n) => trust.get(n)!.verdict !== "sound");
  const even = names.filter((n) => trust.get(n)!.verdict === "sound");
  const parts: Shown[] = [odd.length === 0 ? paragraph(nothingOdd.noDoubt) : listed(odd)];
  if (even.length > 0) {
    const details = document.createElement("details");
    details.appendChild(document.createElement("summary")).textContent =
      `${even.length} ${even.length === 1 ? "session that is" : "sessions that are"} sound`;
    details.append(listed(even));
    parts.push(details);
  }
  return box("trusted", ...parts);
}

/** What the comparison can't say, and what one hitter alone did. */
export function driftSaid({ limits, changes }: Drift): HTMLElement {
  const parts: Shown[] = limits === null ? [] : [nothing(limits)];
  if (changes.length > 0)
    parts.push(
      paragraph("One hitter's own changes, which the others of the session don't share:"),
      table(
        ["Hitter", "Session", "Measure", "Change", "n"],
        changes.map(({ hitter, session, measure, value, n }) => {
          const { title, unit } = (swingFields as readonly Field[]).find((f) => f.name === measure)!;
          const text = `${signedNumber(value, 1)}${unit === "deg" ? "°" : ` ${unit ?? ""}`}`;
          return [hitter, session, title, text, String(n)];
        }),
      ),
    );
  else if (limits === null) parts.push(paragraph(nothingOdd.noHitter, "quiet"));
  return box("drift", ...parts);
}

/** The readings in doubt, by kind. */
export function doubtTable(rows: readonly EnrichedSwing[]): HTMLElement {
  const read = rows.filter((r) => r.exit_velocity_mph !== null);
  const counts = new Map<string, number>();
  for (const row of read)
    for (const flag of flagsOf(row))
      if (isDoubtful({ flags: flag })) counts.set(flag, (counts.get(flag) ?? 0) + 1);
  const told = doubtfulSentence(read.filter(isDoubtful).length, read.length);
  if (counts.size === 0) return nothing(told);
  return box(
    "doubts",
    paragraph(told),
    table(
      ["Flag", "n", "What it means"],
      [...counts]
        .sort(([, a], [, b]) => b - a)
        .map(([flag, n]) => [
          flag.replaceAll("_", " "),
          String(n),
          (flagWords as Record<string, string>)[flag] ?? "unknown",
        ]),
    ),
  );
}

/** How often the comparison is wrong, on libraries of which it is known. */
export function simulationTable(): HTMLElement {
  const of = (count: number, n: number): string => {
    const { low, high } = share(count, n);
    return `${count} of ${n} (${low === null || high === null ? "no interval" : rangeWords(low, high, "share", "us")})`;
  };
  return table(
    ["What was done", "Hitters", "Sessions", "False alarms", "Missed", "Error"],
    simulated.map(({ what, hitters, sessions, libraries, false_alarms, missed, error_deg }) => [
      what,
      String(hitters),
      String(sessions),
      of(false_alarms, libraries),
      error_deg === null ? "none to miss" : of(missed, libraries),
      error_deg === null ? "none" : `${error_deg.toFixed(1)}°`,
    ]),
  );
}

/** The table of tolerances. */
export function tolerancesShown(): HTMLElement {
  const details = document.createElement("details");
  details.appendChild(document.createElement("summary")).textContent = "What is tolerable, and why";
  details.append(
    table(
      ["Limit", "Value", "Why", "Source"],
      Object.entries(toleranceTable).map(([name, { value, unit, reason, source }]) => [
        name.replaceAll("_", " "),
        `${value} ${unit === "deg" ? "°" : unit}`,
        reason,
        source,
      ]),
    ),
  );
  return box("tolerances", details);
}
