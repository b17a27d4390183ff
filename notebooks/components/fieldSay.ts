/** A page of balls on a field: what to choose, what is said, its table. The computing is in src/defence. */
import { usualCircumstances } from "../../src/contact/whatIf.ts";
import { onFieldSteps, type FieldTotal, type OnField } from "../../src/defence/onField.ts";
import { findField } from "../../src/field/fields.ts";
import { fieldNames, type EnrichedSwing } from "../../src/swing/fields.ts";
import { fieldAnswer } from "../../src/views/sentences/field.ts";
import { choose, type ChoiceElement } from "./choice.ts";
import { afterPaint } from "./meanwhile.ts";
import type { Opening } from "./opening.ts";
import { figured, spanOf } from "./say.ts";
import type { Sheet } from "./sheet.ts";

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

/** Which air. */
export const chooseAir = (): ChoiceElement =>
  choose({
    key: "air",
    label: "Air",
    options: airs.map(({ name }, i) => ({ value: name, text: i === 0 ? "Usual air, 70 °F" : name })),
  });

/** The balls on the field: null first, so that the page shows what it has, then worked out a few balls at a time. */
export async function* flownOn(
  balls: readonly EnrichedSwing[],
  field: string,
  airName: string,
): AsyncGenerator<OnField | null> {
  yield null;
  const air = airs.find(({ name }) => name === airName)?.air ?? {};
  const steps = onFieldSteps(balls, { field, air });
  for (;;) {
    await afterPaint();
    const step = steps.next();
    if (step.done === true) return yield step.value;
  }
}

const tenth = (value: number): string => value.toFixed(1);

/** The first screen. */
export function fieldSaid(hitter: string, { total }: OnField): Omit<Opening, "picture"> {
  const { n, over, caught, fielded, down, safe, share } = total;
  return {
    answer: fieldAnswer(hitter, total),
    figures:
      n === 0
        ? []
        : [
            {
              name: "In or over, estimate",
              value: tenth(safe.value),
              doubt: `of ${n}, 95% by chance: ${tenth(safe.low)} to ${tenth(safe.high)}`,
              ...spanOf(safe.value / n, safe.low / n, safe.high / n, "share"),
            },
            figured("The same on any day", share, "share"),
            {
              name: "Over, down, caught, fielded",
              value: tenth(over),
              doubt: `over the fence; ${tenth(down)} down, ${tenth(caught)} caught, ${tenth(fielded)} out on the ground`,
            },
          ],
  };
}

const range = ({ low, high }: FieldTotal["safe"]): string => `${tenth(low)} to ${tenth(high)}`;

/** Session by session, as sums of chances. */
export function fieldSheet({ bySession, total }: OnField): Sheet {
  const lines = [...bySession, ...(bySession.length > 1 ? [{ session: "All together", ...total }] : [])];
  return {
    file: "on-a-field",
    head: ["Session", "Fair balls", "Over", "Down", "Caught", "Fielded", "In or over", "95% by chance"],
    rows: lines.map((line) => [
      line.session ?? "not named",
      String(line.n),
      ...[line.over, line.down, line.caught, line.fielded, line.safe.value].map(tenth),
      range(line.safe),
    ]),
    records: lines.map(({ session, n, over, down, caught, fielded, safe }) => ({
      session,
      n,
      over,
      down,
      caught,
      fielded,
      in_or_over: safe.value,
      low: safe.low,
      high: safe.high,
    })),
  };
}
