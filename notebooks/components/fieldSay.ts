/** A page of balls on a field: what to choose, what is said, its table. The computing is in src/defence. */
import { usualCircumstances } from "../../src/contact/whatIf.ts";
import type { FieldCount, Ground, OnField } from "../../src/defence/onField.ts";
import { findField } from "../../src/field/fields.ts";
import { fieldNames, type Session } from "../../src/swing/fields.ts";
import type { SessionAir } from "../../src/flight/air.ts";
import type { SwingFilter } from "../../src/views/filter.ts";
import { fieldAnswer } from "../../src/views/sentences/field.ts";
import { sessionLists } from "../../src/views/sessions.ts";
import { apart, isApart } from "./apart.ts";
import { choose, type ChoiceElement } from "./choice.ts";
import type { PageLibrary } from "./library.ts";
import type { Opening } from "./opening.ts";
import { figured, spanOf } from "./say.ts";
import type { Sheet } from "./sheet.ts";
import { flownAhead } from "./works/field.ts";

/** Which field; the one that the swings were hit on first asked for. */
export const chooseField = (here: string): ChoiceElement =>
  choose({
    key: "field",
    label: "Field",
    options: fieldNames.names.map((name) => ({ value: name, text: findField(name)?.title ?? name })),
    otherwise: here,
  });

/** Airs by name: those that keep the field. */
const airs = usualCircumstances({}).filter(({ field }) => field === undefined);

/** The air of that name; the usual one where there is none. */
export const airNamed = (name: string): SessionAir => airs.find((air) => air.name === name)?.air ?? {};

/** Which air. */
export const chooseAir = (): ChoiceElement =>
  choose({
    key: "air",
    label: "Air",
    options: airs.map(({ name }, i) => ({ value: name, text: i === 0 ? "Usual air, 70 °F" : name })),
  });

/** Has other hitters' balls flown beside a large library's page while nobody asks anything. */
export function flyAhead(library: PageLibrary, filter: SwingFilter, ground: Ground): void {
  if (isApart(library)) void apart(() => {}, flownAhead, library, { ...filter, hitter: null }, ground);
}

const tenth = (value: number): string => value.toFixed(1);

const range = ({ low, high }: FieldCount): string => `${tenth(low)} to ${tenth(high)}`;

const byChance = (n: number, count: FieldCount): string => `of ${n}, 95% by chance: ${range(count)}`;

/** The first screen. */
export function fieldSaid(hitter: string, { total }: OnField): Omit<Opening, "picture"> {
  const { n, over, safe, share } = total;
  return {
    answer: fieldAnswer(hitter, total),
    figures:
      n === 0
        ? []
        : [
            {
              name: "In or over, estimate",
              value: tenth(safe.value),
              doubt: byChance(n, safe),
              ...spanOf(safe.value / n, safe.low / n, safe.high / n, "share"),
            },
            figured("The same on any day", share, "share"),
            { name: "Over the fence, estimate", value: tenth(over.value), doubt: byChance(n, over) },
          ],
  };
}

/** What may come of a ball, as a column of the table and of what is saved. */
const kinds = [
  { of: "over", title: "Over", name: "over" },
  { of: "down", title: "Down", name: "down" },
  { of: "caught", title: "Caught", name: "caught" },
  { of: "fielded", title: "Fielded", name: "fielded" },
  { of: "safe", title: "In or over", name: "in_or_over" },
] as const;

/**
 * Session by session, latest first, as sums of chances, each with how far chance alone would move it, 95 %.
 * @param sessions the sessions table
 */
export function fieldSheet(
  { balls, bySession, total }: OnField,
  sessions: readonly Pick<Session, "session" | "date">[],
): Sheet {
  const order = sessionLists(balls, sessions).reverse();
  const totals = new Map(bySession.map((one) => [one.session, one]));
  // Balls without a session come after all others.
  const lines = [...order.map(({ session }) => session), null].flatMap((name) => totals.get(name) ?? []);
  if (lines.length > 1) lines.push({ session: "All together", ...total });
  return {
    file: "on-a-field",
    head: ["Session", "Fair balls", ...kinds.map(({ title }) => title)],
    rows: lines.map((line) => [
      line.session ?? "not named",
      String(line.n),
      ...kinds.map(({ of }) => `${tenth(line[of].value)} (${range(line[of])})`),
    ]),
    records: lines.map((line) => ({
      session: line.session,
      n: line.n,
      ...Object.fromEntries(
        kinds.flatMap(({ of, name }) => [
          [name, line[of].value],
          [`${name}_low`, line[of].low],
          [`${name}_high`, line[of].high],
        ]),
      ),
    })),
  };
}
