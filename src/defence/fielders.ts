/** Where fielders stand, how soon they start and how far they get: one table, data/fielders.json, with each figure's source. */
import table from "../../data/fielders.json" with { type: "json" };
import { fenceDistance, type PlayingField } from "../field/fields.ts";
import { deg, ft } from "../units/index.ts";

/** A fielder in place, m. */
export interface Fielder {
  readonly name: string;
  readonly kind: "infield" | "outfield";
  readonly x: number;
  readonly y: number;
  /** From the plate. */
  readonly depth: number;
}

/** How fast everybody is on a field. */
export interface Running {
  /** m/s. */
  readonly sprint: number;
  /** From the plate to first base, s. */
  readonly toFirst: number;
  /** From the ball in the glove to the ball at first base, s. */
  readonly throwing: number;
}

/** The nine of a field, and how fast they are. */
export interface Defence {
  readonly fielders: readonly Fielder[];
  /** Of them, the nearest to the plate first. */
  readonly infield: readonly Fielder[];
  readonly outfield: readonly Fielder[];
  readonly running: Running;
}

const { reach } = table;

/** The table's figures for reach, in SI. */
export const reachFigures = {
  outfieldReaction: reach.outfield_reaction_s.value,
  infieldReaction: reach.infield_reaction_s.value,
  gather: reach.gather_s.value,
  arm: reach.arm_ft.value * ft,
  spread: reach.spread_ft.value * ft,
  infieldSpread: reach.infield_spread_ft.value * ft,
  jump: reach.jump_ft.value * ft,
  surest: reach.surest.value,
  groundSpeed: reach.ground_speed.value,
  throwSpread: reach.throw_spread_s.value,
} as const;

/**
 * The defence of a field: infielders by its base path, outfielders by its fence, speed by the base path, the nearest
 * one of the table.
 * @example defenceOn({ basePath_ft: 60, fence: [-45, 45].map((bearing_deg) => ({ bearing_deg, distance_ft: 200 })) }).running.sprint / 0.3048 // 19.0
 */
export function defenceOn(field: PlayingField): Defence {
  const fielders = table.positions.map(({ name, kind, bearing_deg, depth }): Fielder => {
    const bearing = bearing_deg * deg;
    const far = depth * (kind === "outfield" ? fenceDistance(field, bearing)! : field.basePath_ft * ft);
    return {
      name,
      kind: kind === "outfield" ? "outfield" : "infield",
      x: far * Math.sin(bearing),
      y: far * Math.cos(bearing),
      depth: far,
    };
  });
  const of = (kind: Fielder["kind"]): Fielder[] =>
    fielders.filter((fielder) => fielder.kind === kind).sort((a, b) => a.depth - b.depth);
  const off = (path: number): number => Math.abs(path - field.basePath_ft);
  const nearest = table.running.reduce((a, b) => (off(b.base_path_ft) < off(a.base_path_ft) ? b : a));
  return {
    fielders,
    infield: of("infield"),
    outfield: of("outfield"),
    running: {
      sprint: nearest.sprint_ft_s * ft,
      toFirst: nearest.to_first_s,
      throwing: nearest.throw_s,
    },
  };
}

/**
 * How far a fielder gets in a time, m: nothing before the reaction, then a sprint that gathers speed, and an arm.
 * Source: Furusawa, Hill & Parkinson, Proc. R. Soc. B 102, 1927, 29: v = v_max·(1 − e^(−t/τ)).
 * @param time since the ball was hit, s
 * @example reachIn(4, "outfield", { sprint: 27 * 0.3048, toFirst: 4.35, throwing: 1.9 }) / 0.3048 // 77.2
 */
export function reachIn(time: number, kind: Fielder["kind"], { sprint }: Running): number {
  const { gather, arm } = reachFigures;
  const run = runIn(time, kind);
  return sprint * (run - gather * (1 - Math.exp(-run / gather))) + arm;
}

/**
 * At the most so far, m: `reachIn` without the gathering, for what asks who can be ruled out.
 * @example mostReach(4, "outfield", { sprint: 27 * 0.3048, toFirst: 4.35, throwing: 1.9 }) / 0.3048 // 98.5
 */
export const mostReach = (time: number, kind: Fielder["kind"], { sprint }: Running): number =>
  sprint * runIn(time, kind) + reachFigures.arm;

/** How long of a time is left to run once it is seen where the ball goes, s. */
function runIn(time: number, kind: Fielder["kind"]): number {
  const { outfieldReaction, infieldReaction } = reachFigures;
  return Math.max(0, time - (kind === "outfield" ? outfieldReaction : infieldReaction));
}
