/**
 * Writes the demo scenario beside this file: `npm run demo`. Everything in it is invented, and every run writes
 * the same bytes.
 */
import { csvFormatRows } from "d3";
import { fileURLToPath, pathToFileURL } from "node:url";
import { format } from "prettier";
import config from "../../package.json" with { type: "json" };
import {
  hitterFields,
  sessionFields,
  swingFields,
  targetFields,
  type Field,
  type Hitter,
  type Session,
  type Swing,
  type Target,
} from "../../src/swing/fields.ts";
import type { UnitName } from "../../src/units/index.ts";
import { chance } from "./chance.ts";
import { withFaults, type FiledRow, type PrintedRow } from "./faults.ts";
import { hitterModels, sessionPlans, targets, unmeasured, type SessionPlan } from "./scenario.ts";
import { batSpeedInWeek, swingsOf, type Scene } from "./swings.ts";
import { track } from "./tracker.ts";
import { writeTogether } from "../../src/library/write.ts";

type Cell = string | number | boolean | null;

/** Decimals a tracker prints. */
const decimals: Partial<Record<UnitName, number>> = { mph: 1, deg: 1, rpm: 0, ft: 2 };

/** A cell of swings.csv as the tracker prints it. */
function tracked(field: Field, value: Cell): string {
  if (typeof value !== "number") return value === null ? "" : String(value);
  return value.toFixed(decimals[field.unit!] ?? 0).replace(/^-(0(\.0*)?)$/, "$1");
}

/** A cell of the other tables, which people write. */
function written(_: Field, value: Cell): string {
  return value === null ? "" : String(value);
}

function print(
  fields: readonly Field[],
  row: Readonly<Record<string, Cell>>,
  cell: (field: Field, value: Cell) => string,
): PrintedRow {
  return Object.fromEntries(fields.map((f) => [f.name, cell(f, row[f.name] ?? null)]));
}

function csv(fields: readonly Field[], rows: readonly PrintedRow[]): string {
  const names = fields.map((f) => f.name);
  return csvFormatRows([names, ...rows.map((row) => names.map((name) => row[name]!))]) + "\n";
}

const notes = [
  "new tee height",
  "on video",
  "wet ball",
  "checked swing",
  "asked for a break",
  "end of the bat, it felt",
];

/** A session's printed rows: what the tracker saw, with the gaps that its export has. */
export function rowsOf(plan: SessionPlan, scene?: Scene): PrintedRow[] {
  const draw = chance(`${plan.log.session} tracker`);
  const start = Date.parse(`${plan.log.date}T${plan.start}:00Z`);
  const code = plan.log.session.replace(/-/g, "").replace(/ /g, "-");
  return swingsOf(plan, scene).flatMap((swing, i) => {
    const seen = track(swing, plan, draw);
    if (seen === null) return [];
    const row: Swing = {
      ...seen,
      swing_id: plan.ids ? `${code}-${String(i + 1).padStart(3, "0")}` : null,
      time: new Date(start + swing.second * 1000).toISOString().slice(0, 19),
    };
    if (row.outcome === "in_play" && (!plan.outcomes || draw.happens(0.02))) row.outcome = null;
    if (draw.happens(0.015)) row.drill = null;
    if (draw.happens(0.03)) row.pitch_type = null;
    if (draw.happens(0.008)) row.note = notes[Math.floor(draw.uniform() * notes.length)]!;
    return [print(swingFields, row, tracked)];
  });
}

/** Where a fault stands: the row as a spreadsheet counts it, the header being row 1. */
function faultsOf(filed: readonly FiledRow[], kind: "misread" | "duplicate" | "refused") {
  return filed.flatMap(({ cells, fault }, i) => {
    if (fault?.kind !== kind) return [];
    const at = { row: i + 2, swing_id: cells.swing_id || null, session: cells.session, what: fault.what };
    return kind === "duplicate" ? [at] : [{ ...at, field: fault.field, before: fault.before }];
  });
}

function truths(filed: readonly FiledRow[]) {
  const one = (name: string) => hitterModels.find((h) => h.hitter === name)!;
  const misplaced = (session: (plan: SessionPlan) => boolean) => {
    const plan = sessionPlans.find(session)!;
    return {
      session: plan.log.session,
      turned_deg: plan.turned_deg,
      tilted_deg: plan.tilted_deg,
      hitters: plan.hitters,
    };
  };
  const weeks = [...new Set(sessionPlans.map((plan) => plan.week))];
  const [place, timing, improving] = [one("Cal R."), one("Finn L."), one("Ada K.")];
  return {
    about:
      "What the demo's generator put in, for tests. All of it is invented. Written by data/demo/make.ts.",
    place: {
      hitter: place.hitter,
      what: "Loses bat speed on balls outside and low, on the tee as well; live, that is where the pitches are.",
      bat_speed_lost_outside: place.lostOutside,
      bat_speed_lost_low: place.lostLow,
    },
    timing: {
      hitter: timing.hitter,
      what: "Early and late against pitches, wherever they are; no place costs bat speed.",
      timing_spread_ms: timing.timingSpread_ms,
      late_ms: timing.late_ms,
    },
    improving: {
      hitter: improving.hitter,
      what: "Bat speed rises from week to week.",
      gain_mph_a_week: improving.gain_mph_a_week,
    },
    turned: {
      what: "The tracker's readings are turned toward right field about the tracker's place; the log doesn't say so.",
      ...misplaced((plan) => plan.turned_deg !== 0),
    },
    tilted: {
      what: "The tracker's readings are tilted up about the tracker's place; the log doesn't say so.",
      ...misplaced((plan) => plan.tilted_deg !== 0),
    },
    misread: faultsOf(filed, "misread"),
    duplicate: faultsOf(filed, "duplicate"),
    refused: faultsOf(filed, "refused"),
    gaps: {
      without_swing_id: sessionPlans.filter((plan) => !plan.ids).map((plan) => plan.log.session),
      without_bats: sessionPlans.filter((plan) => !plan.sides).map((plan) => plan.log.session),
      without_spin: sessionPlans.filter((plan) => plan.spin === "none").map((plan) => plan.log.session),
      spin_rate_only: sessionPlans.filter((plan) => plan.spin === "rate").map((plan) => plan.log.session),
      without_bat_speed: sessionPlans.filter((plan) => !plan.sensor).map((plan) => plan.log.session),
      pitch_speed_at_release: sessionPlans
        .filter((plan) => plan.log.pitch_speed_at === "release")
        .map((plan) => plan.log.session),
      hitters_without_height: unmeasured,
      hitters_without_bat_speed: hitterModels.filter((h) => !h.sensor).map((h) => h.hitter),
    },
    hitters: hitterModels.map((h) => ({
      hitter: h.hitter,
      bat_speed_mph_by_week: weeks.map((week) => Number(batSpeedInWeek(h, week).toFixed(1))),
      attack_angle_deg: h.attackAngle_deg,
      timing_spread_ms: h.timingSpread_ms,
      late_ms: h.late_ms,
      bat_speed_lost_outside: h.lostOutside,
      bat_speed_lost_low: h.lostLow,
      bat_speed_gained_live: h.liveEffort,
    })),
  };
}

/** What a scenario is made of, row by row. */
interface Scenario {
  /** As the tracker prints them. */
  readonly swings: readonly PrintedRow[];
  readonly sessions: readonly Session[];
  readonly hitters: readonly Hitter[];
  readonly targets: readonly Target[];
  /** What the generator put in, for tests. */
  readonly truths: object;
}

/** A scenario's files by name, as texts. */
export async function filesOf({ swings, sessions, hitters, targets, truths }: Scenario) {
  const people = (fields: readonly Field[], rows: readonly Readonly<Record<string, Cell>>[]): string =>
    csv(
      fields,
      rows.map((row) => print(fields, row, written)),
    );
  return {
    "swings.csv": csv(swingFields, swings),
    "sessions.csv": people(sessionFields, sessions),
    "hitters.csv": people(hitterFields, hitters),
    "targets.csv": people(targetFields, targets),
    "truths.json": await format(JSON.stringify(truths), {
      parser: "json",
      printWidth: config.prettier.printWidth,
    }),
  };
}

/** Where a module is run by itself, writes the files it makes beside it. */
export async function writeBeside(
  module: string,
  make: () => Promise<Readonly<Record<string, string>>>,
): Promise<void> {
  if (process.argv[1] === undefined || module !== pathToFileURL(process.argv[1]).href) return;
  const files = Object.entries(await make());
  await writeTogether(async (put) => {
    for (const [name, text] of files) await put(fileURLToPath(new URL(name, module)), [text]);
  });
}

/** The demo's files by name, as texts. */
export async function make(): Promise<Readonly<Record<string, string>>> {
  const filed = withFaults(sessionPlans.flatMap((plan) => rowsOf(plan)));
  return filesOf({
    swings: filed.map((row) => row.cells),
    sessions: sessionPlans.map((plan) => plan.log),
    hitters: hitterModels.map(({ hitter, bats, level, height_in }) => ({
      hitter,
      bats,
      level,
      height_in: unmeasured.includes(hitter) ? null : height_in,
    })),
    targets,
    truths: truths(filed),
  });
}

await writeBeside(import.meta.url, make);
