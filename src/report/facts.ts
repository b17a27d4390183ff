/**
 * The facts of a report, once: each one's name, its unit, how it is taken of a view, and which kinds of work show it. A new
 * fact is an entry here and nothing else.
 */
import type { Estimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import type { Input } from "../swing/fields.ts";
import { counted } from "../swing/words.ts";
import type { UnitName } from "../units/index.ts";
import type { UnitSystem } from "../units/system.ts";
import type { FlipView } from "../views/flip.ts";
import type { LiveView, Outcome } from "../views/live.ts";
import type { ReportOpening } from "../views/opening.ts";
import { oneLength, perLength } from "../views/slopes.ts";
import type { TeeView } from "../views/tee.ts";
import { shortName } from "../views/words.ts";
import { estimateFigure, shareFigure, type Fact, type FigureStyle } from "./figures.ts";

/** What each kind of work is seen as. */
export interface Views {
  readonly tee: TeeView;
  readonly flip: FlipView;
  readonly live: LiveView;
}

/** What a fact comes to: an estimate, a share, or counts in words; null for a view that has nothing to say of it. */
type Taken = Estimate | Share | string | null;

/** One fact. */
interface ReportFact extends FigureStyle {
  readonly name: string | ((system: UnitSystem) => string);
  /** An estimate's. */
  readonly unit?: UnitName;
  /** How it is taken of each kind of work that shows it. */
  readonly of: { readonly [K in Input]?: (view: Views[K], system: UnitSystem) => Taken };
  /** Shown on a screen and not on paper. */
  readonly screen?: true;
}

/** Shown off the tee and off flips. */
const placed = (take: (view: TeeView, system: UnitSystem) => Taken): ReportFact["of"] => ({
  tee: take,
  flip: take,
});

/** A slope in mph per foot becomes km/h per metre: the unit below the line is converted as well. */
const slope = (take: (view: TeeView) => Estimate): Pick<ReportFact, "unit" | "digits" | "signed" | "of"> => ({
  unit: "mph",
  digits: 1,
  signed: true,
  // A place that was not measured is told in a sentence, not in a line for each direction.
  of: placed((view, system) => (take(view).n > 0 ? perLength(take(view), system) : null)),
});

const perFoot =
  (before: string, after: string) =>
  (system: UnitSystem): string =>
    `${before}${oneLength[system].figure} ${after}`;

/** Of depth, where it was measured. */
const deep = (take: (view: FlipView, system: UnitSystem) => Estimate): ReportFact["of"] => ({
  flip: (view, system) => (view.timing.depth_ft.n > 0 ? take(view, system) : null),
});

/** What came of the pitches, where any came to that. */
const outcome =
  (name: Outcome) =>
  (view: LiveView): Share | null =>
    view.outcomes.find((o) => o.outcome === name && o.count > 0) ?? null;

/** By where the pitch was, where that is known of any. */
const located = (take: (view: LiveView) => Share): ReportFact["of"] => ({
  live: (view) => (view.zone_swings.n + view.chases.n > 0 ? take(view) : null),
});

/** Every fact of the views, in the order it is shown. */
const facts: readonly ReportFact[] = [
  { name: "Pitches", of: { live: (v) => `${v.pitches}, swung at ${v.swings}` } },
  {
    name: "In play",
    of: { ...placed((v) => `${v.in_play} of ${counted(v.swings, "swing")}`), live: outcome("in_play") },
  },
  { name: "Foul", of: { live: outcome("foul") }, screen: true },
  { name: "Taken", of: { live: outcome("take") }, screen: true },
  { name: "Misses, of swings", of: { live: (v) => v.misses } },
  { name: "Swings in the zone", of: located((v) => v.zone_swings) },
  { name: "Chases, outside it", of: located((v) => v.chases) },
  {
    name: "Exit velocity, mean",
    unit: "mph",
    of: { ...placed((v) => v.exit_velocity_mph), live: (v) => v.exit_velocity_mph },
  },
  { name: perFoot("", "farther outside"), ...slope((v) => v.place.outward) },
  { name: perFoot("", "higher"), ...slope((v) => v.place.upward) },
  { name: perFoot("", "farther out front"), ...slope((v) => v.place.forward) },
  { name: "Spread of launch angle", unit: "deg", of: placed((v) => v.repeatability.launch_angle_deg) },
  { name: "Spread of spray angle", unit: "deg", of: placed((v) => v.repeatability.spray_angle_deg) },
  { name: "Contact depth, mean", unit: "ft", digits: 1, of: deep((v) => v.timing.depth_ft) },
  { name: "Spread of contact depth", unit: "ft", digits: 1, of: deep((v) => v.timing.depth_spread_ft) },
  {
    name: perFoot("Pull, ", "farther out front"),
    unit: "deg",
    signed: true,
    of: deep((v, system) => perLength(v.timing.pull_deg_per_ft, system)),
  },
  { name: "Power kept, median", unit: "share", of: { live: (v) => v.power_kept } },
  { name: "Clean or flush, of balls in play", of: { live: (v) => v.well_hit }, screen: true },
];

/** The facts of one kind of work, as its view gives them. */
export function factsOf<K extends Input>(kind: K, view: Views[K], system: UnitSystem): Fact[] {
  return facts.flatMap(({ name, unit = "share", of, screen, ...style }): Fact[] => {
    const taken = of[kind]?.(view, system) ?? null;
    if (taken === null) return [];
    const figure =
      typeof taken === "string"
        ? taken
        : "share" in taken
          ? shareFigure(taken)
          : estimateFigure(taken, unit, system, style);
    return [[typeof name === "string" ? name : name(system), figure, screen ? "screen" : ""]];
  });
}

/** A figure of the first screen, set large. */
interface OpeningFact {
  readonly label: (opening: ReportOpening) => string;
  readonly of: (opening: ReportOpening) => Share | ReportOpening["speed"];
}

const off = ({ input }: ReportOpening): string =>
  input === null ? "" : { tee: "off the tee", flip: "off flips", live: "live" }[input];

const drillsWords = (drills: readonly string[]): string =>
  drills.length === 1 ? shortName(drills[0]!) : `${drills.length} drills`;

/** The first screen's figures, in the order shown; one of no balls is left out. */
export const openingFacts: readonly OpeningFact[] = [
  { label: ({ met }) => `target met, ${drillsWords(met.drills)}`, of: ({ met }) => met },
  { label: (opening) => `clean or flush, ${off(opening)}`, of: ({ well }) => well },
  { label: (opening) => `exit velocity, ${off(opening)}`, of: ({ speed }) => speed },
];
