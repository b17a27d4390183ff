/** Invented swings, and invented layouts to write them in: what a guess is tried on, with its truth beside. */
import { randomLcg, randomNormal } from "d3";
import { enrich } from "../../../src/contact/enrich.ts";
import type { Swing } from "../../../src/swing/fields.ts";
import { swingOf } from "../../../src/swing/unknown.ts";
import { convert, type UnitName } from "../../../src/units/index.ts";

/** A swing, and what a sheet may say beside it. */
export interface Ball extends Swing {
  readonly at: number;
}

type FieldName = keyof Swing;

/** One column of a layout: how it is headed and written, and what it truly is. */
export interface Column {
  readonly heading: string;
  /** What it truly is; null where it is nothing that the kit keeps. */
  readonly field: FieldName | null;
  readonly unit?: UnitName;
  /** Which of a signed column's ends counts as positive. */
  readonly toward?: string;
  readonly write: (ball: Ball) => string;
  /** What stands for each of the field's words. */
  readonly words?: Readonly<Record<string, string>>;
}

export interface LayoutSpec {
  readonly name: string;
  readonly columns: readonly Column[];
  readonly delimiter?: string;
  readonly decimal?: "." | ",";
  readonly above?: readonly string[];
  readonly units?: readonly string[];
  readonly below?: (balls: readonly Ball[]) => readonly string[];
  readonly dates?: string;
  /** What every row has, where no column says so. */
  readonly all?: Readonly<Partial<Record<FieldName, string>>>;
  readonly rows?: number;
  /** Exit velocity of these hitters, mph. */
  readonly speed?: number;
  readonly names?: readonly string[];
  /** The seed of the swings. */
  readonly seed: number;
  /** The inputs that stand in it. */
  readonly inputs?: readonly ("tee" | "flip" | "live")[];
}

const usual = ["Ana Rivera", "Bo Lindqvist", "Chen Wei", "Dara Okafor", "Emil Novak", "Fay Marsh"];

/** Swings of a few hitters, half of them left-handed: ground balls are pulled, as they are. */
export function ballsOf(spec: LayoutSpec): Ball[] {
  const source = randomLcg(spec.seed / 1000);
  const normal = randomNormal.source(source)();
  const names = spec.names ?? usual;
  const inputs = spec.inputs ?? (["tee", "flip", "live"] as const);
  const rows = spec.rows ?? 72;
  const balls = Array.from({ length: rows }, (_, at): Ball => {
    const hitter = names[Math.floor((at / rows) * names.length)]!;
    const bats = names.indexOf(hitter) % 2 === 0 ? "R" : "L";
    const pull = bats === "R" ? -1 : 1;
    const input = inputs[Math.floor(at / 4) % inputs.length]!;
    const launch = Math.max(-60, Math.min(75, 13 + 17 * normal()));
    const spray = pull * (launch < 10 ? 14 : 4) + 17 * normal();
    const speed = Math.max(25, (spec.speed ?? 79) + (spec.speed ?? 79) * 0.1 * normal());
    const day = 2 + Math.floor((at / rows) * 3);
    const clock = `${17 + (Math.floor(at / 4) % 2)}`;
    const minute = String((at * 7) % 60).padStart(2, "0");
    const missed = input === "live" && source() < 0.12;
    const foul = Math.abs(spray) > 45;
    return {
      ...swingOf({ hitter, input }),
      at,
      swing_id: `b7f${(at * 7919 + spec.seed).toString(16).padStart(6, "0")}`,
      bats,
      session: `May ${day}`,
      time: `2026-05-0${day}T${clock}:${minute}:${String((at * 13) % 60).padStart(2, "0")}`,
      drill: ["middle", "away", "high"][at % 3]!,
      outcome: missed ? "miss" : foul ? "foul" : "in_play",
      exit_velocity_mph: missed ? null : speed,
      launch_angle_deg: missed ? null : launch,
      spray_angle_deg: missed ? null : spray,
      backspin_rpm: missed
        ? null
        : Math.max(-2500, Math.min(4500, -763 + 120 * launch - 21 * spray * pull + 350 * normal())),
      sidespin_rpm: missed
        ? null
        : Math.max(-4500, Math.min(4500, -849 * pull + 94 * spray + 350 * normal())),
      pitch_speed_mph: input === "tee" ? null : input === "flip" ? 28 + 2 * normal() : 62 + 4 * normal(),
      pitcher: input === "live" ? "Gil Soto" : null,
      contact_side_ft: missed ? null : 0.4 * normal(),
      contact_depth_ft: missed ? null : 1.9 + 0.5 * normal(),
      contact_height_ft: missed ? null : 2.6 + 0.4 * normal(),
      bat_speed_mph: (spec.speed ?? 79) * 0.8 + 3 * normal(),
      attack_angle_deg: 9 + 4 * normal(),
    };
  });
  for (const ball of balls) {
    const { backspin_rpm: back, sidespin_rpm: side } = ball;
    if (back !== null && side !== null) ball.spin_rpm = Math.hypot(back, side);
  }
  const flown = enrich({ swings: balls, sessions: [], hitters: [] });
  balls.forEach((ball, i) => (ball.tracker_carry_ft = flown[i]!.carry_ft));
  return balls;
}

/** Text that stands as it is, or in quotation marks where it has to. */
const cell = (text: string, delimiter: string): string =>
  text.includes(delimiter) || text.includes('"') ? `"${text.replaceAll('"', '""')}"` : text;

/** The CSV of a layout. */
export function csvOf(spec: LayoutSpec, balls: readonly Ball[]): string {
  const { delimiter = ",", decimal = "." } = spec;
  const line = (cells: readonly string[]): string =>
    cells.map((text) => cell(text, delimiter)).join(delimiter);
  const rows = balls.map((ball) =>
    line(
      spec.columns.map(({ write, field }) => {
        const text = write(ball);
        return decimal === "," && field !== "time" ? text.replace(/(?<=\d)\.(?=\d)/, ",") : text;
      }),
    ),
  );
  const lines = [
    ...(spec.above ?? []),
    line(spec.columns.map(({ heading }) => heading)),
    ...(spec.units === undefined ? [] : [line(spec.units)]),
    ...rows,
    ...(spec.below?.(balls) ?? []),
  ];
  return `${lines.join("\n")}\n`;
}

const own: Partial<Record<FieldName, UnitName>> = {
  exit_velocity_mph: "mph",
  pitch_speed_mph: "mph",
  bat_speed_mph: "mph",
  launch_angle_deg: "deg",
  spray_angle_deg: "deg",
  attack_angle_deg: "deg",
  backspin_rpm: "rpm",
  sidespin_rpm: "rpm",
  spin_rpm: "rpm",
  contact_side_ft: "ft",
  contact_depth_ft: "ft",
  contact_height_ft: "ft",
  tracker_carry_ft: "ft",
};

interface Written {
  readonly unit?: UnitName;
  readonly digits?: number;
  /** Positive toward left field. */
  readonly left?: boolean;
  /** Counted from the left line. */
  readonly fromLine?: boolean;
  readonly none?: string;
  readonly behind?: string;
  readonly thousands?: string;
}

/** A column of numbers. */
export function number(heading: string, field: FieldName, how: Written = {}): Column {
  const { unit = own[field]!, digits = 1, left = false, fromLine = false, none = "", behind = "" } = how;
  return {
    heading,
    field,
    unit,
    toward: fromLine ? "line" : left ? "left" : "right",
    write: (ball) => {
      const value = ball[field] as number | null;
      if (value === null) return none;
      const turned = (fromLine ? value + 45 : left ? -value : value) || 0;
      const text = (convert(turned, own[field]!, unit) + 0).toFixed(digits);
      return (
        (how.thousands === undefined ? text : text.replace(/(\d)(?=(\d{3})+$)/, `$1${how.thousands}`)) +
        behind
      );
    },
  };
}

/** A column of words, each in the layout's own. */
export function words(
  heading: string,
  field: FieldName,
  mine: Readonly<Record<string, string | readonly string[]>>,
  none = "",
): Column {
  const meanings: Record<string, string> = {};
  for (const [word, theirs] of Object.entries(mine))
    for (const text of [theirs].flat()) meanings[text] = word;
  return {
    heading,
    field,
    words: meanings,
    write: (ball) => {
      const theirs = mine[String(ball[field])];
      return theirs === undefined
        ? none
        : typeof theirs === "string"
          ? theirs
          : theirs[ball.at % theirs.length]!;
    },
  };
}

/** A column of text as it stands. */
export const text = (heading: string, field: FieldName, none = ""): Column => ({
  heading,
  field,
  write: (ball) => String(ball[field] ?? none),
});

/** A name as a list has it: the family's first. */
export const familyFirst = (heading: string): Column => ({
  heading,
  field: "hitter",
  write: ({ hitter }) => hitter.split(" ").reverse().join(", "),
});

/** One part of the hitter's name. */
export const part = (heading: string, which: 0 | 1): Column => ({
  heading,
  field: "hitter",
  write: ({ hitter }) => hitter.split(" ")[which]!,
});

/** The day and the clock, in any order. */
export const when = (heading: string, form: string): Column => ({
  heading,
  field: "time",
  write: ({ time }) => {
    const [, year, month, day, hour, minute, second] = /(\d+)-(\d+)-(\d+)T(\d+):(\d+):(\d+)/.exec(time!)!;
    const half = String(((Number(hour) + 11) % 12) + 1).padStart(2, "0");
    const parts: Record<string, string> = {
      YYYY: year!,
      MM: month!,
      DD: day!,
      HH: hour!,
      hh: half,
      mm: minute!,
      ss: second!,
      A: Number(hour) < 12 ? "AM" : "PM",
    };
    return form.replace(/YYYY|MM|DD|HH|hh|mm|ss|A/g, (token) => parts[token]!);
  },
});

/** A column of no use. */
export const other = (heading: string, write: (ball: Ball) => string): Column => ({
  heading,
  field: null,
  write,
});
