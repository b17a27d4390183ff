/**
 * How often the drift check is wrong: simulated libraries, in which it is known what the tracker did. Invented
 * numbers, harsher than the demo's: days differ more, tees and plates are put down less well.
 *
 * `npm run drift-simulation` writes drift-simulation.json, which the setup page shows.
 */
import { randomNormal } from "d3";
import { fileURLToPath, pathToFileURL } from "node:url";
import { readFrom, straight, type Stand, type Turn } from "../src/field/tracker.ts";
import { trackerStands } from "./demo/scenario.ts";
import { departureOf, velocityOf } from "../src/field/vector.ts";
import { drift, type Drift, type DriftSession, type DriftSwing } from "../src/setup/drift.ts";
import { randomFrom } from "../src/stats/random.ts";
import { writeWhole } from "../src/library/write.ts";

/** Standard deviations. */
export const simulated = {
  swing: { spray_deg: 14, launch_deg: 12, speed_mph: 6, tee_ft: 0.08, flip_ft: 0.3, depth_ft: 0.3 },
  hitterDay: { spray_deg: 1.8, launch_deg: 1.4, speed_mph: 1.2, place_ft: 0.06, depth_ft: 0.15 },
  session: { direction_deg: 0.3, place_ft: 0.1, depth_ft: 0.1 },
  hitter: { spray_deg: 9, launch_deg: 5, speed_mph: 10 },
  misread: 0.02,
} as const;

const drills = [
  { input: "tee", drill: "middle", swings: 12, side: 0, height: 2.5 },
  { input: "tee", drill: "away", swings: 10, side: 0.5, height: 2 },
  { input: "flip", drill: "flip", swings: 10, side: 0, height: 2.5 },
] as const;

export interface Planted {
  readonly hitters: number;
  readonly sessions: number;
  /** What the tracker does in the session chosen, and what the first hitter alone does there. */
  readonly turn?: Partial<Turn>;
  readonly hitterSpray_deg?: number;
  /** How many times as much a hitter's days differ; 1 when not given. */
  readonly days?: number;
  /** What every hitter gains from session to session, mph. */
  readonly gained_mph?: number;
  /** Where the tracker stands; before the plate when not given. */
  readonly stand?: Stand;
}

/** Places that a tracker may have: the demo's, and one that looks across the plate. */
export const stands = {
  ...trackerStands,
  beside: { distance_ft: 2.6, offset_in: 188 },
} as const satisfies Record<string, Stand>;

/** One library, and the session in which something was planted. */
export function simulate(
  seed: number,
  planted: Planted,
): { swings: DriftSwing[]; sessions: DriftSession[]; chosen: string } {
  const uniform = randomFrom(seed);
  const standard = randomNormal.source(uniform)(0, 1);
  const normal = (spread: number): number => spread * standard();
  const { stand = stands.before } = planted;
  const hitters = Array.from({ length: planted.hitters }, (_, i) => ({
    hitter: `Hitter ${i + 1}`,
    bats: uniform() < 0.3 ? ("L" as const) : ("R" as const),
    spray: normal(simulated.hitter.spray_deg),
    launch: 12 + normal(simulated.hitter.launch_deg),
    speed: 75 + normal(simulated.hitter.speed_mph),
  }));
  const chosen = Math.floor(uniform() * planted.sessions);
  const name = (s: number): string => `Session ${s + 1}`;
  const swings: DriftSwing[] = [];
  for (let s = 0; s < planted.sessions; s++) {
    const placement = { ...stand, ...straight, ...(s === chosen ? planted.turn : {}) };
    const { session: common, hitterDay: day, swing: one } = simulated;
    const shared = {
      spray: normal(common.direction_deg),
      launch: normal(common.direction_deg),
      side: normal(common.place_ft),
      height: normal(common.place_ft),
      depth: normal(common.depth_ft),
    };
    hitters.forEach((h, i) => {
      const more = planted.days ?? 1;
      const form = {
        spray: more * normal(day.spray_deg) + (s === chosen && i === 0 ? (planted.hitterSpray_deg ?? 0) : 0),
        launch: more * normal(day.launch_deg),
        speed: more * normal(day.speed_mph) + s * (planted.gained_mph ?? 0),
      };
      for (const { input, drill, swings: n, side, height } of drills) {
        const tee = { side: normal(day.place_ft), height: normal(day.place_ft), depth: normal(day.depth_ft) };
        const spread = input === "tee" ? one.tee_ft : one.flip_ft;
        for (let k = 0; k < n; k++) {
          const reading = readFrom(
            {
              velocity: velocityOf(
                h.speed + form.speed + normal(one.speed_mph),
                h.launch + shared.launch + form.launch + normal(one.launch_deg),
                h.spray + shared.spray + form.spray + normal(one.spray_deg),
              ),
              contact: [
                (h.bats === "R" ? side : -side) + shared.side + tee.side + normal(spread),
                1.6 + shared.depth + tee.depth + normal(one.depth_ft),
                height + shared.height + tee.height + normal(spread),
              ],
            },
            placement,
            { stand, scaled: false },
          );
          const seen = departureOf(reading.velocity);
          const wild = uniform() < simulated.misread;
          swings.push({
            session: name(s),
            time: null,
            hitter: h.hitter,
            bats: h.bats,
            input,
            drill,
            outcome: "in_play",
            exit_velocity_mph: wild ? 20 + 100 * uniform() : seen.speed,
            launch_angle_deg: wild ? 90 - 180 * uniform() : seen.launchAngle_deg,
            spray_angle_deg: wild ? 180 - 360 * uniform() : seen.sprayAngle_deg,
            contact_side_ft: reading.contact[0],
            contact_depth_ft: reading.contact[1],
            contact_height_ft: wild ? 7 : reading.contact[2],
          });
        }
      }
    });
  }
  const sessions = Array.from({ length: planted.sessions }, (_, s) => ({
    session: name(s),
    date: `2025-01-${String(s + 1).padStart(2, "0")}`,
    tracker_distance_ft: stand.distance_ft,
    tracker_offset_in: stand.offset_in,
  }));
  return { swings, sessions, chosen: name(chosen) };
}

/** What became of some libraries with the same thing planted. */
export interface Outcome {
  readonly libraries: number;
  /** Libraries with a session flagged in which the tracker did nothing. */
  readonly false_alarms: number;
  /** Libraries whose planted session was not flagged. */
  readonly missed: number;
  /** Root mean square of the found less the planted turn or tilt, °; null where none was planted. */
  readonly error_deg: number | null;
}

/** Simulates libraries and counts how the check did. */
export function tried(libraries: number, planted: Planted, firstSeed = 1): Outcome {
  let [alarms, missed, squares, found] = [0, 0, 0, 0];
  for (let i = 0; i < libraries; i++) {
    const { swings, sessions, chosen } = simulate(firstSeed + i, planted);
    const result: Drift = drift(swings, sessions);
    const flagged = result.sessions.filter((s) => s.verdict !== null && s.verdict !== "sound");
    const turned = planted.turn !== undefined;
    if (flagged.some((s) => !turned || s.session !== chosen)) alarms++;
    if (turned && !flagged.some((s) => s.session === chosen)) missed++;
    const one = result.sessions.find((s) => s.session === chosen)!;
    for (const axis of ["yaw_deg", "tilt_deg"] as const) {
      const put = planted.turn?.[axis];
      if (put === undefined || one[axis].value === null) continue;
      squares += (one[axis].value - put) ** 2;
      found++;
    }
  }
  return {
    libraries,
    false_alarms: alarms,
    missed,
    error_deg: found === 0 ? null : Number(Math.sqrt(squares / found).toFixed(2)),
  };
}

/** What the page shows, a row each. */
export const trials: readonly { readonly what: string; readonly planted: Planted }[] = [
  { what: "nothing moved", planted: { hitters: 4, sessions: 6 } },
  { what: "turned 1°", planted: { hitters: 4, sessions: 6, turn: { yaw_deg: 1 } } },
  { what: "turned 2°", planted: { hitters: 4, sessions: 6, turn: { yaw_deg: 2 } } },
  { what: "turned 3°", planted: { hitters: 4, sessions: 6, turn: { yaw_deg: 3 } } },
  { what: "tilted 1.5°", planted: { hitters: 4, sessions: 6, turn: { tilt_deg: 1.5 } } },
  { what: "turned 2°", planted: { hitters: 2, sessions: 6, turn: { yaw_deg: 2 } } },
  { what: "turned 2°", planted: { hitters: 8, sessions: 12, turn: { yaw_deg: 2 } } },
  {
    what: "behind the plate, turned 2°",
    planted: { hitters: 4, sessions: 6, turn: { yaw_deg: 2 }, stand: stands.behind },
  },
  {
    what: "beside the plate, turned 2°",
    planted: { hitters: 4, sessions: 6, turn: { yaw_deg: 2 }, stand: stands.beside },
  },
  { what: "beside the plate, nothing moved", planted: { hitters: 4, sessions: 6, stand: stands.beside } },
  { what: "one hitter pulls 10° more", planted: { hitters: 4, sessions: 6, hitterSpray_deg: -10 } },
];

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const rows = trials.map(({ what, planted }) => ({
    what,
    hitters: planted.hitters,
    sessions: planted.sessions,
    ...tried(200, planted),
  }));
  await writeWhole(fileURLToPath(new URL("drift-simulation.json", import.meta.url)), [
    `${JSON.stringify(rows, null, 2)}\n`,
  ]);
}
