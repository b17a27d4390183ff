/** The checklist before a session: place, level, line up, calibrate, verify, log, and the cautions that go with it. */
import { plateDepth_ft, usualStand } from "../field/tracker.ts";
import { deg } from "../units/index.ts";
import { usualRubber_ft } from "./measured.ts";
import type { Tolerances } from "./tolerances.ts";
import { tolerances } from "./tolerances.ts";
import { fineLimits } from "./words.ts";

/** One step: a word to act on, and what to tick. */
export interface Step {
  readonly title: string;
  readonly items: readonly string[];
}

/** Cautions where people stand in front of a bat; usual practice, no source. */
export const setupCautions: readonly string[] = [
  "The tracker, its cables and its battery stay out of the ball's way: a shield before the tracker, cables taped or run behind the net.",
  "Nobody between bat and net while anyone holds a bat: measure, move and level only when bats are down.",
  "A sound screen for whoever flips or throws, helmets on, nobody within the swing's reach.",
  "Stop on pain, numbness or dizziness and see a licensed practitioner; nothing here is medical advice.",
  "The facility's rules, your league's and the makers' instructions come before this sheet.",
];

/** The steps, with the limits of the table of tolerances. */
export function checklist(table: Tolerances = tolerances): Step[] {
  const most = fineLimits(table);
  const behind = usualRubber_ft - plateDepth_ft - usualStand.distance_ft;
  const slope = Math.tan(Math.min(most.tilt_deg, most.roll_deg) * deg) * 12;
  const sight = Math.tan(most.yaw_deg * deg) * behind * 12;
  const inch = (value: number): string => `${value.toFixed(1)} in`;
  return [
    {
      title: "Place",
      items: [
        `On firm ground, ${usualStand.distance_ft} ft from the plate's front edge, by tape, to ${inch(most.distance_ft * 12)}; if it stands elsewhere, tell it the distance you measured.`,
        `On the line from the plate's point to the rubber's middle, to ${inch(most.offset_in)}. Two tapes of one length to the corners of first and third base meet on it.`,
      ],
    },
    {
      title: "Level",
      items: [
        `Along its length and across it, the bubble in its middle: no more than ${slope.toFixed(2)} in in a foot (${Math.min(most.tilt_deg, most.roll_deg).toFixed(1)}°).`,
        "Legs locked; press on it once, and look at the bubble again.",
      ],
    },
    {
      title: "Line up",
      items: [
        `The far sight on the rubber's middle, to ${inch(sight)} (${most.yaw_deg.toFixed(1)}°). No rubber: on a string from the plate's point through the line.`,
      ],
    },
    {
      title: "Calibrate",
      items: ["As its maker says, on this day and in this place. Write the time down."],
    },
    {
      title: "Verify with five tee swings",
      items: [
        "Tee on the plate's middle, its height by tape. Screen up, helmet on, everyone behind the net.",
        `Contact place within ${inch(table.fine_contact_ft * 12)} of the tape's. Off to the same side each time: the tracker is turned, tilted or elsewhere.`,
        "Balls seen to the left of the middle have negative spray angles; no launch angle of 80° or more, no speed twice the same.",
      ],
    },
    {
      title: "Log",
      items: [
        "Write it down below, then into sessions.csv. Knocked or moved: a new session, from the top.",
        "Afterwards, run drift: it tells a tracker that moved from a hitter who changed.",
      ],
    },
  ];
}

/** What the log of a session asks for: the field of sessions.csv, and its name on paper. */
export const logFields = [
  ["session", "Session"],
  ["date", "Date"],
  ["place", "Place"],
  ["tracker_distance_ft", "Distance, ft"],
  ["tracker_offset_in", "Offset, in (+ first base)"],
  ["tracker_yaw_deg", "Turn, ° (+ right field)"],
  ["tracker_tilt_deg", "Tilt, ° (+ nose up)"],
  ["tracker_roll_deg", "Lean, ° (+ first base)"],
  ["calibrated_at", "Calibrated at"],
] as const;
