/** A group's page: its lines in an order, its table, and who needs what next. The computing is in src/season. */
import type { GroupColumn, GroupSpan } from "../../src/season/group.ts";
import type { HitterNeed, Needs } from "../../src/season/needs.ts";
import { byName } from "../../src/swing/byName.ts";
import { inputs } from "../../src/swing/fields.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import {
  columnOrder,
  groupAnswer,
  needsNote,
  needWords,
  noNeedWords,
} from "../../src/views/sentences/needs.ts";
import { counted } from "../../src/swing/words.ts";
import { rangeWords, valueWords } from "../../src/views/words.ts";
import type { GroupLine, GroupPanel } from "../../src/charts/groupPanels.ts";
import type { Option } from "./choice.ts";
import { held } from "./choice.ts";
import type { Opening } from "./opening.ts";
import { shared } from "./say.ts";
import type { Sheet } from "./sheet.ts";
import { box, unbroken } from "./show.ts";

const bySwings = "swings";
const byNeed = "need";

/** What the lines may stand in the order of. */
export const sortOptions = ({ columns }: GroupSpan): Option[] => [
  { value: "name", text: "By name" },
  { value: bySwings, text: "Most swings first" },
  { value: byNeed, text: "Clear needs first" },
  ...columns.map(({ name, title }) => ({
    value: name,
    text: `By ${title[0]!.toLowerCase()}${title.slice(1)}`,
  })),
];

/**
 * The places of the hitters in an order. By a figure only those stand above others who clearly differ, all pairs looked
 * at together; the rest keep to the order of their names.
 */
export function orderOf(group: GroupSpan, needs: Needs | null, sort: string): number[] {
  const { rows, columns } = group;
  const column = columns.find(({ name }) => name === sort);
  const all = ({ swings }: GroupSpan["rows"][number]): number => swings.tee + swings.flip + swings.live;
  const rank = (i: number): number => {
    if (column !== undefined) return -(column.cells[i]!.ahead ?? -Infinity);
    if (sort === bySwings) return -all(rows[i]!);
    if (sort === byNeed) return needOf(needs, rows[i]!.hitter)?.need ? 0 : 1;
    return 0;
  };
  return rows
    .map((_, i) => i)
    .sort((a, b) => {
      const [one, other] = [rank(a), rank(b)];
      return one === other ? byName(rows[a]!.hitter, rows[b]!.hitter) : one - other;
    });
}

const needOf = (needs: Needs | null, hitter: string): HitterNeed | undefined =>
  needs?.hitters.find((one) => one.hitter === hitter);

/** The lines and panels of the picture, in an order. */
export function panelsOf(
  { rows, columns }: GroupSpan,
  order: readonly number[],
): { lines: GroupLine[]; panels: GroupPanel[] } {
  return {
    lines: order.map((i) => {
      const { hitter, swings } = rows[i]!;
      return { hitter, did: counted(swings.tee + swings.flip + swings.live, "swing") };
    }),
    panels: columns.map(({ title, unit, cells, mean }) => ({
      title,
      unit,
      cells: order.map((i) => cells[i]!),
      mean,
    })),
  };
}

/** Where a hitter's own report is; what else was chosen goes along. */
function reportHref(hitter: string): string {
  const choices = held();
  choices.set("hitter", hitter);
  for (const key of ["sort", "session", "drill"]) choices.delete(key);
  return `./drill-report.html#${choices}`;
}

function reportLink(hitter: string): HTMLElement {
  const link = document.createElement("a");
  link.href = reportHref(hitter);
  link.textContent = hitter;
  return link;
}

/** The first screen: who did what, and for how many something is clear. */
export function groupSaid(
  { rows, active, swings, met }: GroupSpan,
  needs: Needs | null,
): Omit<Opening, "picture"> {
  const clear = needs === null ? null : needs.hitters.filter(({ need }) => need !== null).length;
  const work = inputs
    .map((input) => [rows.reduce((sum, row) => sum + row.swings[input], 0), input] as const)
    .filter(([n]) => n > 0)
    .map(([n, input]) => `${n} ${input}`);
  return {
    answer: groupAnswer({ active, hitters: rows.length, swings, clear }),
    figures: [
      { name: "Swings", value: String(swings), doubt: work.join(", ") || "none" },
      ...(met.n > 0 ? [shared("Target met", met)] : []),
      ...(needs === null
        ? []
        : [
            {
              name: "A clear thing to work on",
              value: `${clear} of ${rows.length}`,
              doubt: `hitters; ${counted(needs.lines, "line")} looked at`,
            },
          ]),
    ],
  };
}

/** Who needs what next: those with something clear first, each name leading to the hitter's report. */
export function needsList(
  needs: Needs | null,
  span: Parameters<typeof needsNote>[1],
  system: UnitSystem,
): HTMLElement {
  if (needs === null) return box("needs-list", paragraph("Who needs what next is being worked out …"));
  const list = document.createElement("ul");
  list.className = "needs";
  const clear = needs.hitters.filter(({ need }) => need !== null);
  for (const { hitter, need, also } of clear) {
    const item = list.appendChild(document.createElement("li"));
    const more = document.createElement("span");
    more.className = "also";
    more.textContent = also.map((one) => ` ${needWords(one, system)}.`).join("");
    item.append(reportLink(hitter), `: ${needWords(need!, system)}.`, more);
  }
  const rest = needs.hitters.filter(({ need }) => need === null);
  const without = paragraph("");
  if (rest.length > 0)
    without.append(clear.length === 0 ? "Nothing is clear for anybody: " : "Nothing clear: ");
  rest.forEach((one, i) =>
    without.append(...(i === 0 ? [] : [", "]), reportLink(one.hitter), ` (${one.swings})`),
  );
  if (rest.length > 0) without.append(", swings looked at in brackets.");
  return box(
    "needs-list",
    ...(clear.length > 0 ? [list] : []),
    ...(rest.length > 0 ? [without] : []),
    paragraph(needsNote(needs.lines, span)),
  );
}

/** Why the group's sheet can't be printed yet. */
export const sheetWaits = "Who needs what next is being worked out: then it can be printed.";

function paragraph(text: string): HTMLElement {
  const element = document.createElement("p");
  element.className = "rests";
  element.append(...unbroken(text));
  return element;
}

/** What no order may be read into, a sentence a column. */
export const columnNotes = ({ columns }: GroupSpan): string[] =>
  columns.flatMap(({ title, pairs }) => columnOrder(title, pairs) ?? []);

/** The group as a table, with every figure, to take away. */
export function groupSheet(
  group: GroupSpan,
  needs: Needs | null,
  order: readonly number[],
  system: UnitSystem,
): Sheet {
  const { rows, columns } = group;
  const digits = ({ unit }: GroupColumn): number => (unit === "share" ? 0 : 1);
  const need = (hitter: string): string => {
    const found = needOf(needs, hitter);
    if (found === undefined) return "";
    return found.need === null ? noNeedWords(found) : needWords(found.need, system);
  };
  return {
    file: "group",
    head: ["Hitter", "Sessions", "Last", "Tee", "Flip", "Live", ...columns.map(({ title }) => title), "Next"],
    rows: order.map((i) => {
      const { hitter, sessions, last, swings } = rows[i]!;
      return [
        hitter,
        String(sessions),
        last ?? "none",
        ...inputs.map((input) => String(swings[input])),
        ...columns.map((column) => {
          const { count, shown } = column.cells[i]!;
          return shown === null
            ? count
            : `${count}; ${valueWords(shown.value, column.unit, system, digits(column))} (${rangeWords(shown.low, shown.high, column.unit, system, digits(column))})`;
        }),
        need(hitter),
      ];
    }),
    records: order.map((i) => {
      const { hitter, level, sessions, last, swings } = rows[i]!;
      return {
        hitter,
        level,
        sessions,
        last,
        ...swings,
        ...Object.fromEntries(
          columns.flatMap(({ name, cells }) => {
            const { own, shown } = cells[i]!;
            return [
              [name, own],
              [`${name}_pooled`, shown?.value ?? null],
              [`${name}_low`, shown?.low ?? null],
              [`${name}_high`, shown?.high ?? null],
            ];
          }),
        ),
        next: need(hitter),
      };
    }),
  };
}

/** The table with each hitter's name leading to the hitter's report. */
export function linked(table: HTMLElement): HTMLElement {
  for (const row of table.querySelectorAll("tbody tr")) {
    const cell = row.querySelector("td");
    if (cell !== null) cell.replaceChildren(reportLink(cell.textContent ?? ""));
  }
  return table;
}
