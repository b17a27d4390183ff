/** The sheet before a session: five looks, the balls that don't count, the log, and the cautions that go with it. */
import type { Stand } from "../field/tracker.ts";
import type { UnitSystem } from "../units/system.ts";
import { lengthWords, placeWords, slopeWords } from "./lengths.ts";
import type { Tolerances } from "./tolerances.ts";
import { tolerances } from "./tolerances.ts";
import { fineLimits } from "./words.ts";

/** One look: where to, and what to tick. */
export interface Look {
  readonly title: string;
  readonly items: readonly string[];
}

/** What the sheet is called. */
export const checklistTitle = "Five looks before the first swing";

/** Cautions where people stand in front of a bat; usual practice, no source. */
export const setupCautions: readonly string[] = [
  "The tracker, its cables and its battery stay out of the ball's and the bat's way, and of the catcher's: a shield before it, cables taped or run behind the net.",
  "Nobody between bat and net while anyone holds a bat: measure, move and level only when bats are down.",
  "A sound screen for whoever flips or throws, helmets on, nobody within the swing's reach.",
  "Stop on pain, numbness or dizziness and see a licensed practitioner; nothing here is medical advice.",
  "The facility's rules, your league's and the makers' instructions come before this sheet.",
];

/** What the sheet says in place of its limits while nobody has said where the tracker stands. */
export const limitsUnknown =
  "How close is close enough depends on where the tracker stands: with its place given, this sheet says it.";

/**
 * The five looks, with the limits that the table of tolerances gives for a tracker that is to stand there.
 * @param stand where it is to stand; null leaves the limits out
 * @example checklist(null).length // 5
 */
export function checklist(
  stand: Stand | null,
  units: UnitSystem = "us",
  table: Tolerances = tolerances,
): Look[] {
  const most = stand === null ? null : fineLimits(stand, table);
  const within = (length_in: number | undefined): string =>
    length_in === undefined ? "" : `, to ${lengthWords(length_in, units)}`;
  const level = most === null ? "" : `: at most ${slopeWords(Math.min(most.tilt_deg, most.roll_deg), units)}`;
  const turn = most === null ? "" : `, to ${most.yaw_deg.toFixed(1)}°`;
  return [
    {
      title: "At the people",
      items: [
        "Bats down until the fifth look is done. Screens sound, nets whole, everyone knows where to stand.",
        "Nothing of the tracker in reach of a swing, a foul ball or a catcher's throw; cables where nobody steps.",
      ],
    },
    {
      title: "At what it was told",
      items: [
        "The day's session, the hitter's name and side, the kind of work, the units: as they are today.",
        "Calibrated here and today, as its maker says. The time goes into the log.",
      ],
    },
    {
      title: "At the ground, with a tape",
      items: [
        stand === null
          ? "Measured from the plate's rear point: along the line to the rubber, and across it."
          : `From the plate's rear point, along the line to the rubber and across it: ${placeWords(stand, units)}.`,
        `Along the line as it was told${within(most === null ? undefined : most.distance_ft * 12)}; across it${within(most?.offset_in) || " too"}. Two tapes to the corners of first and third base tell both at once.`,
      ],
    },
    {
      title: "At the bubble",
      items: [
        `Level along the line to the rubber and across it${level}.`,
        "Lean on it, let go, look again: its legs are locked, and the ground holds.",
      ],
    },
    {
      title: "Through it, to center field",
      items: [
        `A sight or a string along it runs beside the line from the plate's point to the rubber's middle, at the same distance from it at both ends${turn}.`,
        "From it to the plate nothing is in the way: no post, no net's seam, no bucket.",
      ],
    },
  ];
}

/**
 * The balls that show whether the looks were right, before any that count.
 * @example trialBalls().length // 3
 */
export function trialBalls(units: UnitSystem = "us", table: Tolerances = tolerances): string[] {
  return [
    "Five easy swings off a tee over the plate's middle, its height by tape: helmet on, screen up, nobody before the net.",
    `Each ball met within ${lengthWords(table.fine_contact_ft * 12, units)} of the tape's place. All off to one side: the tracker is turned, tilted or elsewhere, so from the third look again.`,
    "Balls seen to go left of the middle read below 0° in spray; none reads 80° or more in launch; no two read the same speed to the last digit.",
  ];
}

/** What is to be done with the log, and when to begin anew. */
export const logWords =
  "Write it down here, then into sessions.csv. Knocked or moved: a new session, and all five looks again. Afterwards, drift tells a tracker that moved from a hitter who changed.";

/** What the log of a session asks for: the field of sessions.csv, and its name on paper. */
export const logFields = [
  ["session", "Session"],
  ["date", "Date"],
  ["place", "Place"],
  ["tracker_distance_ft", "Distance, ft (− behind)"],
  ["tracker_offset_in", "Offset, in (+ first base)"],
  ["tracker_yaw_deg", "Turn, ° (+ right field)"],
  ["tracker_tilt_deg", "Tilt, ° (+ pitcher's end down)"],
  ["tracker_roll_deg", "Lean, ° (+ first base)"],
  ["calibrated_at", "Calibrated at"],
] as const;
