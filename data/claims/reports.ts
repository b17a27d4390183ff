/** What a hitter's report says. */
import type { Target } from "../../src/swing/fields.ts";
import { wellHitShare, inPlay } from "../../src/views/swings.ts";
import { targetResult } from "../../src/views/target.ts";
import { enrich } from "../../src/contact/enrich.ts";
import { allSettings, type Line, type Setting, type Tally } from "./line.ts";
import { measureTable } from "../../src/gap/gap.ts";
import { deviation } from "d3";
import { readyOf, reported, type Library } from "./product.ts";
import { dayOf, sessionsTable, sittingOf, squadOf, workOf, type Days, type Squad } from "./squad.ts";

const inputs = ["tee", "flip", "live"] as const;

/** All three kinds of work of everyone in the squad, `swings` balls of each. */
function allWork(squad: Squad, swings: number, sessions: number, days: Days): Library {
  return {
    swings: squad.traits.flatMap((trait) =>
      inputs.flatMap((input) => workOf(squad, trait, input, squad.luck.uneven(swings, sessions), days)),
    ),
    sessions: sessionsTable(sessions),
    hitters: squad.hitters,
  };
}

/** One window for the drills of all kinds of work: of launch angle alone, which the pitch leaves as it is. */
const targets: readonly Target[] = inputs.map(
  (drill) => ({ drill, launch_angle_deg_low: 5, launch_angle_deg_high: 30 }) as unknown as Target,
);

/** What a report's figures come to over very many days. */
interface Truth {
  readonly speed: number;
  readonly angle: number;
  readonly wellHit: number;
  readonly met: number;
  readonly power: number;
  readonly spread: number;
}

const many = { days: 250, balls: 4 };
const truths = new Map<Days, ReadonlyMap<string, Truth>>();

/** A team, so that each truth is worked out once, in a library that holds all of them. */
const team = squadOf(1, { hitters: 10 });
/** Team mates whose swings are in the library with the hitter's. */
const mates = 3;

function truthsOf(days: Days): ReadonlyMap<string, Truth> {
  const known = truths.get(days);
  if (known !== undefined) return known;
  const { traits, hitters } = team;
  const { luck, made } = squadOf(2);
  const swings = traits.flatMap((trait) =>
    Array.from({ length: many.days }, (_, d) =>
      sittingOf(
        { luck, made },
        trait,
        { session: `Day ${d}`, input: "tee", balls: many.balls },
        dayOf(luck, days),
      ),
    ).flat(),
  );
  const all = enrich({ swings, sessions: [], hitters });
  const found = new Map(
    traits.map(({ name }) => {
      const rows = all.filter((r) => r.hitter === name);
      const balls = inPlay(rows);
      const mean = (pick: (r: (typeof balls)[number]) => number): number =>
        balls.reduce((sum, r) => sum + pick(r), 0) / balls.length;
      const power = balls.flatMap((r) => r.power_kept ?? []).sort((a, b) => a - b);
      return [
        name,
        {
          speed: mean((r) => r.exit_velocity_mph!),
          angle: mean((r) => r.launch_angle_deg!),
          wellHit: wellHitShare(balls).share!,
          met: targetResult(rows, targets[0]!).share!,
          spread: deviation(balls, (r) => r.launch_angle_deg)!,
          power: power[Math.floor(power.length / 2)]!,
        },
      ];
    }),
  );
  truths.set(days, found);
  return found;
}

/** A library of some of the team, with this run's luck. */
function someOfTeam(seed: number): Squad {
  const at = Array.from({ length: 1 + mates }, (_, i) => (seed + 3 * i) % team.traits.length);
  const { luck, made } = squadOf(1000 + seed);
  return { luck, made, traits: at.map((i) => team.traits[i]!), hitters: at.map((i) => team.hitters[i]!) };
}

/** The figures of a report over several sessions. */
function figures(setting: Setting, seed: number, tally: Tally): void {
  const squad = someOfTeam(seed);
  const trait = squad.traits[0]!;
  const truth = truthsOf(setting.days).get(trait.name)!;
  const library = allWork(squad, setting.swings, setting.sessions, setting.days);
  const found = reported(library, trait.name, null, targets);
  const { tee, live } = found.views;
  tally.holds("tee view: mean exit velocity holds", tee!.exit_velocity_mph, truth.speed);
  tally.holds("live view: clean or flush holds", live!.well_hit, truth.wellHit);
  tally.holds("live view: power kept holds", live!.power_kept, truth.power);
  for (const one of found.targets) tally.holds("target met holds", one, truth.met);
  tally.holds("misses of swings hold", live!.misses, trait.missed.live);
  tally.holds("spread of launch angle holds", tee!.repeatability.launch_angle_deg, truth.spread);
  tally.holds("flip: contact depth holds", found.views.flip!.timing.depth_ft, 1.6);
  for (const slope of Object.values(tee!.place)) tally.holds("what a foot of place costs holds", slope, 0);
  for (const cell of tee!.cells)
    tally.holds("zone map: a cell's power kept holds", cell.power_kept, truth.power);
  const table = measureTable(readyOf(library), trait.name, {
    measures: ["exit_velocity", "launch_angle", "power_kept"],
  });
  for (const { input, measure, ...one } of table) {
    if (measure === "exit_velocity" && input !== "tee") continue;
    const value = { exit_velocity: truth.speed, launch_angle: truth.angle, power_kept: truth.power }[measure];
    tally.holds(`table of measures: ${measure} holds`, one, value ?? null);
  }
  const { facts } = found.headline;
  const said = (start: RegExp): [number, number] | null => {
    const text = facts.find((f) => start.test(f));
    const ends = text === undefined ? null : /\(([\d.]+)\s*(?:%|mph)?\s*to\s*([\d.]+)/.exec(text);
    return ends === null ? null : [Number(ends[1]), Number(ends[2])];
  };
  // Printed whole: half a unit either way is the print's.
  const speed = said(/^Exit velocity off the tee averages/);
  tally.count(
    "in short: mean exit velocity holds",
    speed === null ? null : speed[0] - 0.5 <= truth.speed && truth.speed <= speed[1] + 0.5,
    { low: 0.92, high: 1 },
  );
  const well = said(/^Clean or flush contact on .* tee balls/);
  tally.count(
    "in short: clean or flush holds",
    well === null ? null : well[0] - 0.5 <= 100 * truth.wellHit && 100 * truth.wellHit <= well[1] + 0.5,
    { low: 0.92, high: 1 },
  );
  tally.count(
    "work on next: a drill called the least met, all alike",
    /^Work on next: the drill .*(least met|by more than chance)/.test(found.headline.next),
    { most: 0.05 },
  );
  tally.count(
    "work on next: balls met somewhere, place costing nothing",
    /^Work on next: balls met/.test(found.headline.next),
    { most: 0.05 },
  );
}

/** The last of several sessions, none of which changed anything; `swings` of each kind a session. */
function changes(setting: Setting, seed: number, tally: Tally): void {
  const squad = someOfTeam(seed);
  const { sessions, days, swings } = setting;
  const library = allWork(squad, swings * sessions, sessions, days);
  const found = reported(library, squad.traits[0]!.name, `Day ${sessions}`);
  for (const { changes: lines } of found.changes)
    for (const line of lines)
      tally.count(
        "a line of the change table called clear",
        line.difference.low === null ? null : line.marked,
        { most: 0.05 },
      );
  tally.count(
    "in short: a report with a change that is none",
    found.headline.facts.some((f) => /, since /.test(f)),
    { most: 0.05 },
  );
  tally.count(
    "work on next, one session: balls met somewhere, place costing nothing",
    /^Work on next: balls met/.test(found.headline.next),
    { most: 0.05 },
  );
}

export const reportLines: readonly Line[] = [
  {
    name: "report-figures",
    about: "A report over several sessions: its intervals, and work on next where place costs nothing.",
    runs: 300,
    settings: allSettings,
    run: figures,
  },
  {
    name: "changes",
    about:
      "The latest session's report, nothing changed; swings are those of each kind of work a session, on the mean.",
    runs: 200,
    settings: allSettings,
    run: changes,
  },
];
