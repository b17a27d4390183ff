/** Which unit a column is in: what is said of it first, then what the range of its values tells. */
import { convert, dimension, unitNames, type UnitName } from "../units/index.ts";
import {
  ask,
  examples,
  given,
  isNeededField,
  leastCertainty,
  numberOf,
  numbersOf,
  sure,
  takenFor,
  type Col,
  type Guessing,
  type Taken,
} from "./guessing.ts";
import { unitBehind } from "./measure.ts";
import type { Sample } from "./read.ts";
import type { Field } from "../swing/fields.ts";
import { unitLabel } from "../swing/limits.ts";
import {
  angleUnit,
  carryUnit,
  exitVelocityUnit,
  heightUnit,
  speedUnit,
  spinUnit,
  type Told,
} from "./tells.ts";

const metric: readonly UnitName[] = ["km/h", "m/s", "cm", "m"];
const imperial: readonly UnitName[] = ["mph", "ft", "in", "ft/s"];

/** The unit that cells, a row of units or the heading say. */
function unitSaid(field: Field, col: Col, sample: Sample): Told<UnitName> | null {
  if (field.unit === undefined) return null;
  const fits = (unit: UnitName | null): unit is UnitName =>
    unit !== null && dimension(unit) === dimension(field.unit!);
  const behind = col.cells.map((cell) => unitBehind(cell)?.unit ?? null);
  const [first] = behind.filter((unit) => unit !== null);
  if (
    first !== undefined &&
    fits(first) &&
    behind.filter((unit) => unit === first).length >= col.cells.length * 0.9
  )
    return { is: first, certainty: sure, reason: `its cells say ${first}` };
  const under = sample.units?.[col.at] ?? null;
  if (fits(under)) return { is: under, certainty: sure, reason: `the row of units says ${under}` };
  const named = col.parts.units.filter(fits);
  // "In" is a word too.
  const unit = named.find((name) => name !== "in") ?? named[0];
  return unit === undefined ? null : { is: unit, certainty: sure, reason: `its heading says ${unit}` };
}

const named = (unit: UnitName): string => unitLabel(unit).trim() || unit;
/** What is known when a unit is guessed from values. */
interface Around {
  readonly mark: "." | ",";
  readonly system: "metric" | "imperial" | null;
  readonly fastest_mph: number | null;
  /** By field, units that are settled. */
  readonly done: Map<string, UnitName>;
}

/** Fewer values than this are too few to be wrong about. */
const fewValues = 5;

/** Gives each column of numbers its unit, or asks for it. */
export function guessUnits(guessing: Guessing, numeric: readonly Taken[], mark: "." | ","): void {
  const { taken, sample, options, isEnglish } = guessing;
  const said = new Map(taken.map((t) => [t, unitSaid(t.field, t.col, sample)]));
  const around: Around = {
    mark,
    system: systemOf(
      [...said.values()].flatMap((unit) => unit?.is ?? []),
      isEnglish,
    ),
    fastest_mph: options.fastest_mph ?? null,
    done: new Map(),
  };
  for (const t of numeric) {
    if (t.field.unit === undefined) continue;
    guessUnit(guessing, t, t.field.unit, said.get(t) ?? null, around);
    if (t.unit !== null && !t.isOpen) around.done.set(t.field.name, t.unit);
  }
}

/** The system whose units the sheet names; where it names none, another language is metric. */
function systemOf(stated: readonly UnitName[], isEnglish: boolean): "metric" | "imperial" | null {
  const [hasMetric, hasImperial] = [metric, imperial].map((list) =>
    stated.some((unit) => list.includes(unit)),
  );
  if (hasMetric !== hasImperial) return hasMetric ? "metric" : "imperial";
  return !hasMetric && !isEnglish ? "metric" : null;
}

function guessUnit(
  guessing: Guessing,
  t: Taken,
  own: UnitName,
  said: Told<UnitName> | null,
  around: Around,
): void {
  const { col } = t;
  const answered = given(guessing, `unit:${col.heading}`) as UnitName | undefined;
  if (answered !== undefined && unitNames.includes(answered) && dimension(answered) === dimension(own)) {
    t.unit = answered;
    t.reasons.push(`${answered}, as you say`);
    return;
  }
  if (col.own !== null && said === null) {
    t.unit = own;
    return;
  }
  const values = numbersOf(col, around.mark);
  const isEnough = values.length >= fewValues;
  const unit = said ?? unitTold(guessing, t, values, around);
  if (unit === null) {
    // With hardly a value there is nothing to be wrong about.
    if (isEnough) t.certainty = Math.min(t.certainty, 0.55);
    t.unit = isEnough ? null : own;
  } else {
    t.unit = unit.is;
    t.certainty = Math.min(t.certainty, unit.certainty);
    t.reasons.push(unit.reason);
  }
  if (unit === null ? isEnough : unit.certainty < leastCertainty) askUnit(guessing, t, own);
}

function askUnit(guessing: Guessing, t: Taken, own: UnitName): void {
  t.isOpen = true;
  ask(guessing, {
    id: `unit:${t.col.heading}`,
    kind: "unit",
    heading: t.col.heading,
    text: `In which unit is "${t.col.heading}"${examples(t.col)}?`,
    options: unitNames
      .filter((name) => dimension(name) === dimension(own) && name !== "share")
      .map((name) => ({ key: name, text: named(name) })),
    likely: t.unit,
    isNeeded: isNeededField(t.field),
  });
}

/** What the range of a column's values tells of its unit. */
function unitTold(guessing: Guessing, t: Taken, values: number[], around: Around): Told<UnitName> | null {
  const { field } = t;
  const ball = around.done.get("exit_velocity_mph") ?? null;
  switch (field.name) {
    case "exit_velocity_mph":
      return exitVelocityUnit(values, around);
    case "pitch_speed_mph":
      return speedUnit(values, { low: 15, high: 105 }, ball);
    case "bat_speed_mph":
      return speedUnit(values, { low: 28, high: 95 }, ball);
    case "contact_height_ft":
      return heightUnit(values);
    case "contact_side_ft":
    case "contact_depth_ft": {
      const height = around.done.get("contact_height_ft");
      return height === undefined ? null : { is: height, certainty: 0.85, reason: "as the contact height" };
    }
    case "tracker_carry_ft":
      return ball === null ? null : carryTold(guessing, t, ball, around);
    default:
      if (field.unit === "deg") return angleUnit(values);
      if (field.unit === "rpm") return spinUnit(values);
      return null;
  }
}

/** A carry's unit by how far the same balls can have flown. */
function carryTold(
  guessing: Guessing,
  t: Taken,
  ball: UnitName,
  { mark, done }: Around,
): Told<UnitName> | null {
  const speed = takenFor(guessing, "exit_velocity_mph");
  const launch = takenFor(guessing, "launch_angle_deg");
  if (speed === undefined || launch === undefined) return null;
  const angle = done.get("launch_angle_deg") ?? "deg";
  const balls = guessing.body.flatMap((row) => {
    const [v, a, d] = [speed, launch, t].map(({ col }) => numberOf((row[col.at] ?? "").trim(), mark));
    if (v == null || a == null || d == null) return [];
    return [{ speed_mph: convert(v, ball, "mph"), launch_deg: convert(a, angle, "deg"), value: d }];
  });
  return carryUnit(balls);
}
