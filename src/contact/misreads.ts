/** Readings that physics, or the row beside them, puts in doubt. Nothing is changed or left out here: it is flagged. */
import type { EnrichedSwing, Swing } from "../swing/fields.ts";
import type { Flag } from "./flags.ts";
import { plateDepth_ft } from "../field/tracker.ts";
import { ballFor } from "../flight/ball.ts";
import { mph, rpm } from "../units/index.ts";
import type { Thresholds } from "./thresholds.ts";

/** Share of the slip between bat and ball that a gripping solid sphere leaves with as surface speed: mechanics. */
const gripShare = 5 / 7;

/** Spin beyond what the slip gives, or a rate that is not its parts'. */
function oddSpin(swing: Swing, pitch_mph: number | null, t: Thresholds): boolean {
  const { backspin_rpm: back, sidespin_rpm: side, spin_rpm: rate } = swing;
  const parts = Math.hypot(back ?? 0, side ?? 0);
  const slip = swing.bat_speed_mph === null || pitch_mph === null ? null : swing.bat_speed_mph + pitch_mph;
  // A pitch brings spin of its own, and sensors err: room for both.
  const most =
    slip === null
      ? t.spin_most_rpm
      : Math.min(t.spin_most_rpm, (gripShare * slip * mph) / ballFor(null).radius / rpm + t.spin_brought_rpm);
  if (Math.max(parts, rate ?? 0) > most) return true;
  // The rate may hold a part along the ball's path that the two components leave out, never less than they have.
  return rate !== null && parts > rate + t.spin_parts_rpm;
}

/** Off a tee, and met too high, too low or too far from the plate for one. */
function offTee(swing: Swing, t: Thresholds): boolean {
  const { contact_side_ft: x, contact_depth_ft: y, contact_height_ft: z } = swing;
  if (z !== null && (z < t.tee_low_ft || z > t.tee_high_ft)) return true;
  return Math.hypot(x ?? 0, (y ?? plateDepth_ft / 2) - plateDepth_ft / 2) > t.tee_far_ft;
}

/**
 * What a row's own readings put in doubt, beyond its exit velocity.
 * @param carry_ft the carry computed for it; null when there is none
 * @param pitch_mph where the ball met the bat, 0 off a tee; null when unknown
 * @example misreads({ input: "tee", outcome: "in_play", spray_angle_deg: 171 }, null, 0, { in_play_spray_most_deg: 90 }) // ["behind_plate"]
 */
export function misreads(
  swing: Swing,
  carry_ft: EnrichedSwing["carry_ft"],
  pitch_mph: number | null,
  t: Thresholds,
): Flag[] {
  const flags: Flag[] = [];
  const { tracker_carry_ft: told, spray_angle_deg: spray } = swing;
  if (told !== null && told !== undefined && carry_ft !== null) {
    const apart = Math.abs(told - carry_ft);
    if (apart > t.carry_apart_ft && apart > t.carry_apart_share * carry_ft) flags.push("carry_apart");
  }
  if (oddSpin(swing, pitch_mph, t)) flags.push("odd_spin");
  if (swing.outcome !== "foul" && spray !== null && Math.abs(spray) > t.in_play_spray_most_deg)
    flags.push("behind_plate");
  if (swing.input === "tee") {
    if (swing.pitch_speed_mph !== null && swing.pitch_speed_mph > t.tee_still_mph) flags.push("tee_moving");
    if (offTee(swing, t)) flags.push("off_tee");
  }
  return flags;
}

/** Flags by swing id, of those that have any. */
export type FlagsById = ReadonlyMap<string, readonly Flag[]>;

const watched = ["exit_velocity_mph", "launch_angle_deg", "spray_angle_deg"] as const;

interface Before {
  time: number;
  /** Of each watched field: its value in the row before, and the ids of the rows that had it, in turn. */
  /** The watched fields of the row before. */
  last: readonly (number | null)[];
  readonly runs: { value: number | null; ids: (string | null)[] }[];
  id: string | null;
}

/**
 * Looks at swings in the order of their file, and finds those that the rows beside them put in doubt: readings
 * that are stuck, and triggers that fired twice.
 */
export class Neighbours {
  private readonly before = new Map<string, Before>();
  private readonly found = new Map<string, Flag[]>();
  private readonly t: Thresholds;

  constructor(thresholds: Thresholds) {
    this.t = thresholds;
  }

  get flags(): FlagsById {
    return this.found;
  }

  private flag(id: string | null, flag: Flag): void {
    if (id === null) return;
    const flags = this.found.get(id);
    if (flags === undefined) this.found.set(id, [flag]);
    else if (!flags.includes(flag)) flags.push(flag);
  }

  see(swing: Swing): void {
    if (swing.exit_velocity_mph === null) return;
    const session = swing.session ?? "";
    let before = this.before.get(session);
    if (before === undefined) {
      before = {
        time: NaN,
        id: null,
        last: watched.map(() => null),
        runs: watched.map(() => ({ value: null, ids: [] })),
      };
      this.before.set(session, before);
    }
    const id = swing.swing_id;
    let same = 0;
    for (let i = 0; i < watched.length; i++) {
      const value = swing[watched[i]!];
      const run = before.runs[i]!;
      if (value === null || value !== run.value) {
        run.value = value;
        run.ids = [id];
        continue;
      }
      same++;
      run.ids.push(id);
      // Whole numbers recur by chance far more often than tenths.
      const most = this.t.stuck_rows + (Number.isInteger(value) ? 2 : 0);
      if (run.ids.length >= most) for (const stuck of run.ids.slice(-most)) this.flag(stuck, "stuck");
    }
    const near = watched.every((name, i) => {
      const [now, then] = [swing[name], before.last[i]!];
      // A field that one of the two rows leaves out says nothing against it.
      if (now === null || then === null) return i > 1;
      return Math.abs(now - then) <= (i === 0 ? this.t.doubled_mph : this.t.doubled_deg);
    });
    before.last = watched.map((name) => swing[name]);
    if (same === watched.length) {
      this.flag(before.id, "stuck");
      this.flag(id, "stuck");
    }
    const time = swing.time !== null && swing.time.length > 10 ? Date.parse(swing.time) : NaN;
    // A clock of whole seconds puts two balls of a quick round this near; one ball twice reads the same as well.
    if (near && Math.abs(time - before.time) <= this.t.doubled_s * 1000) this.flag(id, "doubled");
    before.time = time;
    before.id = id;
  }
}
