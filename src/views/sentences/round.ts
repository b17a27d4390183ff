/** The last ball and its round, for someone who stands five metres away, or only listens. */
import { shownNumber, signAfter, type UnitSystem } from "../../units/system.ts";
import type { EnrichedSwing, Lane } from "../../swing/fields.ts";
import type { Round } from "../round.ts";
import { capital } from "../../swing/words.ts";
import { rangeNumbers, valueWords } from "../words.ts";

type Ball = Pick<
  EnrichedSwing,
  | "outcome"
  | "exit_velocity_mph"
  | "launch_angle_deg"
  | "category"
  | "lane"
  | "bucket"
  | "carry_ft"
  | "carry_low_ft"
  | "carry_high_ft"
>;

/** The last ball in large words. */
export interface BallLines {
  /** The figure that is read first, and its unit; null without an exit velocity. */
  readonly figure: { readonly value: string; readonly unit: string } | null;
  /** "18° up, line drive to right-center." */
  readonly where: string;
  /** "310 ft, 296 to 324. Flush." */
  readonly how: string;
}

const places: Readonly<Record<Lane, string>> = {
  "left line": "down the left line",
  "left-center": "to left-center",
  center: "to center",
  "right-center": "to right-center",
  "right line": "down the right line",
  foul: "foul",
};

const angle = (degrees: number): string => {
  const size = Math.round(Math.abs(degrees));
  return size === 0 ? "level" : `${size}° ${degrees < 0 ? "down" : "up"}`;
};

/**
 * A ball in the lines that a screen in the cage shows.
 * @example ballLines({ outcome: "miss", exit_velocity_mph: null, launch_angle_deg: null, category: null, lane: null, bucket: null, carry_ft: null, carry_low_ft: null, carry_high_ft: null }, "us").where // "A miss."
 */
export function ballLines(ball: Ball, system: UnitSystem): BallLines {
  const { exit_velocity_mph: speed, launch_angle_deg: launch, carry_ft: carry } = ball;
  const figure =
    speed === null
      ? null
      : {
          value: String(Math.round(shownNumber(speed, "mph", system))),
          unit: signAfter("mph", system).trim(),
        };
  const thing =
    ball.outcome === "miss"
      ? "a miss"
      : ball.outcome === "foul"
        ? "a foul ball"
        : ball.outcome === null
          ? "not measured"
          : [ball.category ?? "a ball", ball.lane === null ? "" : places[ball.lane]]
              .filter(Boolean)
              .join(" ");
  const where = [...(launch === null ? [] : [angle(launch)]), thing].join(", ");
  const { carry_low_ft: low, carry_high_ft: high } = ball;
  const far =
    carry === null
      ? []
      : [
          low === null || high === null
            ? valueWords(carry, "ft", system)
            : `${valueWords(carry, "ft", system)}, ${rangeNumbers(low, high, "ft", system)}`,
        ];
  const how = [...far, ...(ball.bucket === null ? [] : [capital(ball.bucket)])];
  return { figure, where: `${capital(where)}.`, how: how.map((text) => `${text}.`).join(" ") };
}

/**
 * A round's tally.
 * @example roundSentence({ met: 7, judged: 12, inARow: 3, by: "target" }) // "of 12 in the window, 3 in a row"
 * @example roundSentence({ met: 0, judged: 0, inARow: 0, by: "contact" }) // "no swing could be judged"
 */
export function roundSentence({
  judged,
  inARow,
  by,
}: Pick<Round, "met" | "judged" | "inARow" | "by">): string {
  if (judged === 0) return "no swing could be judged";
  const row = inARow > 1 ? `, ${inARow} in a row` : "";
  return `of ${judged} ${by === "target" ? "in the window" : "clean or flush"}${row}`;
}

const ones =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const tens = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

/**
 * A whole number as it is called out: 310 is "three ten".
 * @param n 0 to 999; another is given as digits
 * @example calledOut(310) // "three ten"
 * @example calledOut(305) // "three oh five"
 * @example calledOut(92) // "ninety-two"
 */
export function calledOut(n: number): string {
  if (!Number.isInteger(n) || n < 0 || n > 999) return String(n);
  if (n < 20) return ones[n]!;
  if (n < 100) return [tens[Math.floor(n / 10) - 2]!, ...(n % 10 === 0 ? [] : [ones[n % 10]!])].join("-");
  const rest = n % 100;
  const after = rest === 0 ? "hundred" : rest < 10 ? `oh ${ones[rest]!}` : calledOut(rest);
  return `${ones[Math.floor(n / 100)]!} ${after}`;
}

/**
 * A ball as a voice says it: speed, angle, what it was, how far.
 * @example spokenBall({ outcome: "miss", exit_velocity_mph: null, launch_angle_deg: null, category: null, lane: null, bucket: null, carry_ft: null, carry_low_ft: null, carry_high_ft: null }, "us") // "a miss"
 */
export function spokenBall(ball: Ball, system: UnitSystem): string {
  if (ball.outcome === "miss") return "a miss";
  if (ball.outcome === null) return "not measured";
  const shown = (value: number, unit: "mph" | "ft"): string =>
    calledOut(Math.round(shownNumber(value, unit, system)));
  const launch = ball.launch_angle_deg === null ? null : Math.round(ball.launch_angle_deg);
  return [
    ball.exit_velocity_mph === null ? null : shown(ball.exit_velocity_mph, "mph"),
    launch === null
      ? null
      : `${launch < 0 ? "minus " : ""}${calledOut(Math.abs(launch))} ${Math.abs(launch) === 1 ? "degree" : "degrees"}`,
    ball.outcome === "foul" ? "foul" : ball.category,
    // How far a ball rolls is no carry.
    ball.carry_ft === null || ball.outcome === "foul" || ball.category === "ground ball"
      ? null
      : shown(ball.carry_ft, "ft"),
  ]
    .filter((part) => part !== null)
    .join(", ");
}
