/** What a row is asked for beyond its single cells, wherever it was read from. */
import type { Swing } from "./fields.ts";

/** What is wrong with a row: it goes on from the field's name, where there is one. */
export interface Trouble {
  readonly field: string | null;
  readonly value: string | null;
  readonly reason: string;
}

/** The fields of a swing that its rules look at. */
export type RuledSwing = Pick<Swing, "outcome" | "exit_velocity_mph" | "launch_angle_deg">;

/**
 * Fills in a swing's outcome where that follows from the rest.
 * @returns what a ball in play lacks, field by field
 * @example swingTroubles({ outcome: null, exit_velocity_mph: 80, launch_angle_deg: null })[0].field // "launch_angle_deg"
 */
export function swingTroubles(swing: RuledSwing): Trouble[] {
  if (swing.outcome === null && swing.exit_velocity_mph !== null) swing.outcome = "in_play";
  if (swing.outcome !== "in_play") return [];
  return (["exit_velocity_mph", "launch_angle_deg"] as const)
    .filter((name) => swing[name] === null)
    .map((field) => ({ field, value: null, reason: "is missing, and a ball in play needs it" }));
}
