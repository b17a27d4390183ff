/** Which way a column counts: what its heading says is obeyed, else its values tell, else it is asked. */
import { convert, type UnitName } from "../units/index.ts";
import { wordKey } from "./cells.ts";
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
  type Choice,
  type Guessing,
  type Taken,
} from "./guessing.ts";
import type { Sign } from "./maps.ts";
import { quantile, spinSign, sprayCount } from "./tells.ts";
import type { PositiveEnd } from "./words.ts";

const signChoices: Readonly<Record<string, readonly Choice[]>> = {
  spray_angle_deg: [
    { key: "right", text: "positive goes toward right field, 0 to center" },
    { key: "left", text: "positive goes toward left field, 0 to center" },
    { key: "line", text: "0 is the left foul line and 90 the right one" },
    { key: "pull", text: "positive is the pull side, 0 to center" },
    { key: "opposite", text: "positive is the opposite field, 0 to center" },
  ],
  sidespin_rpm: [
    { key: "right", text: "positive curves toward right field" },
    { key: "left", text: "positive curves toward left field" },
  ],
  launch_angle_deg: [
    { key: "up", text: "positive goes up, 0 is level" },
    { key: "down", text: "positive goes down, 0 is level" },
    { key: "vertical", text: "0 is straight up" },
  ],
  spin_axis_deg: [
    { key: "back0right", text: "0 is pure backspin, 90 curves toward right field" },
    { key: "back0left", text: "0 is pure backspin, 90 curves toward left field" },
    { key: "back180right", text: "180 is pure backspin, 90 curves toward right field" },
    { key: "back180left", text: "180 is pure backspin, 90 curves toward left field" },
  ],
  contact_side_ft: [
    { key: "right", text: "positive is toward first base" },
    { key: "left", text: "positive is toward third base" },
  ],
  contact_depth_ft: [
    { key: "rear", text: "forward of the plate's rear point" },
    { key: "front", text: "forward of the plate's front edge" },
  ],
};

/** From the plate's rear point to its front edge, ft: 17 inches, by the rules of baseball and softball. */
const plateDepth_ft = 17 / 12;

/** What an answer to the question of signs does. */
export const signAnswers: Readonly<Record<string, { readonly sign: Sign; readonly offset: number }>> = {
  right: { sign: 1, offset: 0 },
  left: { sign: -1, offset: 0 },
  line: { sign: 1, offset: -45 },
  pull: { sign: "pull", offset: 0 },
  opposite: { sign: "opposite", offset: 0 },
  up: { sign: 1, offset: 0 },
  down: { sign: -1, offset: 0 },
  vertical: { sign: -1, offset: 90 },
  back0right: { sign: 1, offset: 0 },
  back0left: { sign: -1, offset: 0 },
  back180right: { sign: -1, offset: 180 },
  back180left: { sign: 1, offset: -180 },
  rear: { sign: 1, offset: 0 },
  front: { sign: 1, offset: plateDepth_ft },
};

const textOf = (choices: readonly Choice[], key: string): string =>
  choices.find((choice) => choice.key === key)?.text ?? key;

/** Gives each column that has signs its own, or asks for them. */
export function guessSigns(guessing: Guessing, mark: "." | ","): void {
  for (const t of guessing.taken) {
    const choices = signChoices[t.field.name];
    if (choices === undefined) continue;
    const answered = given(guessing, `sign:${t.col.heading}`);
    const { positive } = t.col.parts;
    if (answered !== undefined) {
      if (Object.hasOwn(signAnswers, answered))
        use(t, answered, 1, `${textOf(choices, answered)}, as you say`);
      else t.certainty = 0;
    } else if (t.col.own !== null) t.sign = 1;
    else if (positive !== null) signByHeading(guessing, t, choices, positive, mark);
    else signByValues(guessing, t, choices, mark);
  }
}

function use(t: Taken, key: string, certainty: number, reason: string): void {
  const { sign, offset } = signAnswers[key]!;
  t.sign = sign;
  t.offset = offset;
  t.certainty = Math.min(t.certainty, certainty);
  t.reasons.push(reason);
}

function signByHeading(
  guessing: Guessing,
  t: Taken,
  choices: readonly Choice[],
  positive: PositiveEnd,
  mark: "." | ",",
): void {
  const isPull = positive === "pull" || positive === "opposite";
  const sides = isPull ? sidesKnown(guessing, t, mark) : "all";
  if (!choices.some((choice) => choice.key === positive) || sides === "none") {
    t.certainty = 0;
    t.reasons = [
      sides === "none"
        ? "counted from the pull side, and no column says from which side the balls were hit"
        : "its heading names an end that it can't have",
    ];
  } else if (sides === "some") askSign(guessing, t, choices, positive);
  else use(t, positive, sure, `its heading says that ${textOf(choices, positive)}`);
}

/** Of how many of a column's rows it is known from which side the ball was hit. */
function sidesKnown(guessing: Guessing, t: Taken, mark: "." | ","): "all" | "some" | "none" {
  const hands = handsOf(guessing);
  const rows = guessing.body.filter((row) => numberOf((row[t.col.at] ?? "").trim(), mark) !== null);
  const known = rows.filter((row) => hands(row) !== null).length;
  const bats = takenFor(guessing, "bats");
  if (bats === undefined || known === 0) return "none";
  return known === rows.length && bats.certainty >= leastCertainty ? "all" : "some";
}

/** What values tell of a sign: the sign, nothing to ask, or what has to be asked, with the likeliest answer. */
type SignTold =
  | { readonly key: string; readonly certainty: number; readonly reason: string }
  | "plain"
  | { readonly likely: string | null };

function signByValues(guessing: Guessing, t: Taken, choices: readonly Choice[], mark: "." | ","): void {
  const values = numbersOf(t.col, mark);
  const told = values.length === 0 ? "plain" : signTold(guessing, t, values, mark);
  if (told === "plain") t.sign = 1;
  else if ("key" in told) use(t, told.key, told.certainty, told.reason);
  else askSign(guessing, t, choices, told.likely);
}

function signTold(guessing: Guessing, t: Taken, values: readonly number[], mark: "." | ","): SignTold {
  switch (t.field.name) {
    case "spray_angle_deg":
      return sprayTold(guessing, t, mark);
    case "launch_angle_deg": {
      const middle = convert(quantile(values, 0.5), t.unit ?? t.field.unit!, "deg");
      const spin = takenFor(guessing, "backspin_rpm");
      if (values.length < 10 || (middle > -12 && middle < 55) || spin !== undefined) return "plain";
      return { likely: middle >= 55 ? "vertical" : "down" };
    }
    case "sidespin_rpm":
      return sidespinTold(guessing, t, mark);
    default:
      return { likely: null };
  }
}

/** Another column's value in the same row, its own unit, sign and offset worked in. */
function valueBeside(
  row: readonly string[],
  other: Taken | undefined,
  unit: UnitName,
  mark: "." | ",",
): number | null {
  if (other === undefined) return null;
  const value = numberOf((row[other.col.at] ?? "").trim(), mark);
  return value === null
    ? null
    : convert(value, other.unit ?? other.field.unit!, unit) * (other.sign === -1 ? -1 : 1) + other.offset;
}

/** Right- and left-handed hitters' pull tells which way directions count. */
function sprayTold(guessing: Guessing, t: Taken, mark: "." | ","): SignTold {
  const hands = handsOf(guessing);
  const balls = guessing.body.flatMap((row) => {
    const value = numberOf((row[t.col.at] ?? "").trim(), mark);
    if (value === null) return [];
    const launch_deg = valueBeside(row, takenFor(guessing, "launch_angle_deg"), "deg", mark);
    return [{ bats: hands(row), launch_deg, value_deg: convert(value, t.unit ?? t.field.unit!, "deg") }];
  });
  const count = sprayCount(balls);
  if (count !== null && count.certainty >= leastCertainty)
    return { key: count.is, certainty: count.certainty, reason: count.reason };
  const middle = quantile(
    balls.map((ball) => ball.value_deg),
    0.5,
  );
  return { likely: middle > 28 ? "line" : null };
}

/** Balls curve toward the line they are hit to, so that sidespin goes with the direction, once that is settled. */
function sidespinTold(guessing: Guessing, t: Taken, mark: "." | ","): SignTold {
  const spray = takenFor(guessing, "spray_angle_deg");
  const isSettled = typeof spray?.sign === "number" && spray.certainty >= leastCertainty;
  const hands = handsOf(guessing);
  const groups = new Map<string, [number, number][]>();
  for (const row of isSettled ? guessing.body : []) {
    const spin = numberOf((row[t.col.at] ?? "").trim(), mark);
    const direction = valueBeside(row, spray, "deg", mark);
    if (spin === null || direction === null) continue;
    const hand = hands(row) ?? "?";
    groups.set(hand, [...(groups.get(hand) ?? []), [direction, spin]]);
  }
  // Each hand by itself: hands differ in both.
  const pairs = [...groups.values()].flatMap((group) => {
    const [x, y] = [0, 1].map((i) => group.reduce((sum, pair) => sum + pair[i]!, 0) / group.length);
    return group.map(([a, b]): [number, number] => [a - x!, b - y!]);
  });
  const turn = spinSign(pairs, "the direction, as it does when balls curve toward the line they are hit to");
  if (turn === null) return { likely: null };
  return { key: turn.is === 1 ? "right" : "left", certainty: turn.certainty, reason: turn.reason };
}

function askSign(guessing: Guessing, t: Taken, choices: readonly Choice[], likely: string | null): void {
  const { col, field } = t;
  // From the pull side only where it is known which that is.
  const isPull = ({ key }: Choice): boolean => typeof signAnswers[key]!.sign === "string";
  const offered =
    takenFor(guessing, "bats") === undefined ? choices.filter((choice) => !isPull(choice)) : choices;
  t.certainty = Math.min(t.certainty, 0.5);
  t.isOpen = true;
  ask(guessing, {
    id: `sign:${col.heading}`,
    kind: "sign",
    heading: col.heading,
    text:
      field.name === "contact_depth_ft"
        ? `From where is "${col.heading}" counted?`
        : field.name === "spin_axis_deg"
          ? `Where is the 0 of "${col.heading}"${examples(col)}, and which way does it turn?`
          : `Which way does "${col.heading}" count${examples(col)}?`,
    options: [...offered, { key: "", text: "leave this column out" }],
    likely,
    isNeeded: isNeededField(field),
  });
}

/** The side a row's ball was hit from. */
function handsOf(guessing: Guessing): (row: readonly string[]) => "L" | "R" | null {
  const bats = takenFor(guessing, "bats");
  return (row) => {
    const word = bats?.words.get(wordKey(row[bats.col.at] ?? ""))?.means;
    return word === "L" || word === "R" ? word : null;
  };
}
