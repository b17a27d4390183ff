/** How a guess fares on a layout, cell by cell, before anything is answered and after one and two questions. */
import { Refusal } from "../../../src/reading/cells.ts";
import { answer, guessLayout, headingsKnown, type Guess, type Question } from "../../../src/reading/guess.ts";
import { layoutOf } from "../../../src/reading/layout.ts";
import { sampleOf, type Sample } from "../../../src/reading/read.ts";
import { textFrom } from "../../../src/reading/text.ts";
import { swingFields, type Field } from "../../../src/swing/fields.ts";
import { tables } from "../../../src/swing/tables.ts";
import { ballsOf, csvOf, type Ball, type LayoutSpec } from "./make.ts";

/** Cells that are read as they were meant, as something else, and not at all. */
export interface Count {
  right: number;
  wrong: number;
  open: number;
}

export interface Faring {
  readonly name: string;
  /** With no question answered, with one and with two. */
  readonly after: readonly [Count, Count, Count];
  readonly questions: readonly string[];
  /** The first cells that are wrong, for whoever looks. */
  readonly wrong: readonly string[];
  /** Fields of which cells are open after two questions. */
  readonly open: readonly string[];
}

const swings = tables.find((table) => table.name === "swings")!;

/** How far a value may be off and still be the one that was written: rounding in any unit, and no other unit. */
function within(field: Field): number {
  if (field.unit === "mph") return 0.4;
  if (field.unit === "deg") return 0.6;
  if (field.unit === "rpm") return 1;
  return field.name === "tracker_carry_ft" ? 2 : 0.05;
}

/** What a cell was meant to say. */
function meant(field: Field, ball: Ball, spec: LayoutSpec): string | number | null {
  const value = (ball as unknown as Readonly<Record<string, string | number | null>>)[field.name] ?? null;
  if (field.name !== "time" || value === null) return value;
  const column = spec.dates ?? "YYYY-MM-DDTHH:mm:ss";
  const length = column.includes("ss") ? 19 : column.includes("mm") ? 16 : 10;
  return String(value).slice(0, length);
}

function counted(
  guess: Guess,
  sample: Sample,
  spec: LayoutSpec,
  balls: readonly Ball[],
  notes: { wrong: string[]; open: Set<string> },
): Count {
  const records = sample.rows.map((cells, i) => ({ row: i + 2, cells, fault: null }));
  const layout = layoutOf("layout", sample.header, records, sample.delimiter, swings, guess.map, {
    filled: swings.fields.map(({ name }) => name),
    units: sample.units ?? null,
  });
  const truths = new Set<string>([
    ...spec.columns.flatMap(({ field }) => field ?? []),
    ...Object.keys(spec.all ?? {}),
  ]);
  const count: Count = { right: 0, wrong: 0, open: 0 };
  for (const field of swingFields as readonly Field[]) {
    const column = layout.columns.find((c) => c.field.name === field.name);
    const always = layout.always[field.name] ?? null;
    if (column === undefined && always === null && !truths.has(field.name)) continue;
    balls.forEach((ball, i) => {
      const cells = sample.rows[i]!;
      const text =
        column?.at
          .map((at) => cells[at]!.trim())
          .filter((cell) => cell !== "")
          .join(" ") ?? "";
      const read = column === undefined ? always : column.read(text);
      const value = read instanceof Refusal ? null : read;
      const truth = truths.has(field.name) ? meant(field, ball, spec) : null;
      const day =
        typeof value === "string" && field.name === "time" ? value.slice(0, String(truth).length) : value;
      const isRight =
        truth === null || day === null
          ? truth === day && !(read instanceof Refusal)
          : typeof truth === "number"
            ? Math.abs(truth - (day as number)) <= within(field)
            : truth === day;
      if (isRight) count.right++;
      else if (value === null) {
        count.open++;
        notes.open.add(field.name);
      } else {
        count.wrong++;
        if (notes.wrong.length < 5)
          notes.wrong.push(`${field.name}: ${JSON.stringify(text)} read as ${value}, meant ${truth}`);
      }
    });
  }
  return count;
}

/** What someone who knows the sheet would answer. */
function known({ id, kind, heading }: Question, spec: LayoutSpec): string {
  const column = spec.columns.find((c) => c.heading === heading);
  switch (kind) {
    case "field":
      return column?.field ?? "";
    case "unit":
      return column?.unit ?? "";
    case "sign":
      return column?.field === "contact_depth_ft"
        ? "rear"
        : column?.field === "launch_angle_deg"
          ? "up"
          : (column?.toward ?? "");
    case "word": {
      const word = id.slice(`word:${heading}:`.length);
      return (
        Object.entries(column?.words ?? {}).find(([text]) => text.trim().toLowerCase() === word)?.[1] ?? ""
      );
    }
    case "column":
      return spec.columns.find((c) => c.field === id.slice("column:".length))?.heading ?? "";
    case "all":
      return spec.all?.[id.slice("all:".length) as keyof typeof spec.all] ?? "";
    case "dates":
      return spec.dates ?? "";
    case "decimal":
      return spec.decimal ?? ".";
  }
}

/** A layout's sheet as a sample, and the swings that it was written from. */
export async function sheetOf(spec: LayoutSpec): Promise<{ sample: Sample; balls: Ball[]; csv: string }> {
  const balls = ballsOf(spec);
  const csv = csvOf(spec, balls);
  const sample = await sampleOf(textFrom("layout.csv", [new TextEncoder().encode(csv)]), headingsKnown);
  return { sample, balls, csv };
}

export async function fareOf(spec: LayoutSpec): Promise<Faring> {
  const { sample, balls } = await sheetOf(spec);
  const asked: string[] = [];
  const after: Count[] = [];
  const wrong: string[] = [];
  let open = new Set<string>();
  let guess = guessLayout(sample);
  const first = guess.questions.length;
  for (let n = 0; n < 3; n++) {
    open = new Set();
    after.push(counted(guess, sample, spec, balls, { wrong, open }));
    const [next] = guess.questions;
    if (next === undefined || n === 2) continue;
    asked.push(next.text);
    guess = answer(guess, { [next.id]: known(next, spec) });
  }
  const more = guess.questions.length;
  return {
    name: spec.name,
    after: after as unknown as Faring["after"],
    questions: [...asked, ...(more > 0 ? [`(${more} more of ${first})`] : [])],
    wrong,
    open: [...open],
  };
}

/** The cells of all layouts together, % right before and after questions, and the number wrong. */
export function totalOf(farings: readonly Faring[]): {
  cells: number;
  layouts: number;
  rightPct: readonly number[];
  wrong: readonly number[];
  whole: readonly number[];
} {
  const sums = [0, 1, 2].map((n) =>
    farings.reduce(
      (sum, { after }) => ({
        right: sum.right + after[n]!.right,
        wrong: sum.wrong + after[n]!.wrong,
        open: sum.open + after[n]!.open,
      }),
      { right: 0, wrong: 0, open: 0 },
    ),
  );
  const cells = sums.map(({ right, wrong, open }) => right + wrong + open);
  return {
    cells: cells[0]!,
    layouts: farings.length,
    rightPct: sums.map(({ right }, n) => (100 * right) / cells[n]!),
    wrong: sums.map(({ wrong }) => wrong),
    whole: [0, 1, 2].map((n) => farings.filter(({ after }) => after[n]!.wrong + after[n]!.open === 0).length),
  };
}
