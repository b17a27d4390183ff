/** The tables of the tee-versus-live page: what each shows in words, and what its file holds. */
import type { Across } from "../../src/gap/across.ts";
import type { HitterGap, MeasureGap, MeasureRow } from "../../src/gap/gap.ts";
import type { Coverage } from "../../src/gap/simulate.ts";
import type { SplitGap } from "../../src/gap/parts.ts";
import type { Stabilizing } from "../../src/gap/stabilizing.ts";
import { roundToTotal } from "../../src/stats/split.ts";
import type { Share } from "../../src/stats/share.ts";
import { inputs, type Input } from "../../src/swing/fields.ts";
import type { UnitName } from "../../src/units/index.ts";
import { shownNumber, type UnitSystem } from "../../src/units/system.ts";
import { gapWords } from "../../src/views/sentences/gap.ts";
import type { LiveResult, LiveView } from "../../src/views/live.ts";
import type { TimingResult, TimingView } from "../../src/views/timing.ts";
import { fixedNumber } from "../../src/swing/words.ts";
import { rangeNumbers, rangeWords, signedRange, signedWords, valueWords } from "../../src/views/words.ts";
import { cellName } from "../../src/views/zone.ts";
import type { Scope } from "./scope.ts";
import type { Sheet } from "./sheet.ts";

interface Ranged {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly reason?: string | null;
}

const digitsOf = (unit: UnitName): number => (unit === "share" ? 0 : 1);

/** A value with its interval, as short as it can be told: "83.7 mph (82.1 to 85.2)". */
function withRange(figure: Ranged, unit: UnitName, units: UnitSystem = "us"): string {
  const { value, low, high, reason } = figure;
  if (value === null) return reason ?? "unknown";
  const range =
    low === null || high === null
      ? (reason ?? "no interval")
      : rangeNumbers(low, high, unit, units, digitsOf(unit));
  return `${valueWords(value, unit, units, digitsOf(unit))} (${range})`;
}

const name = (hitter: string, scope: Scope, what: string): string =>
  [what, hitter || "all", scope.from, scope.to]
    .join("-")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");

const within = ({ low, high, n, value }: Ranged & { n: number }) => ({ n, value, low, high });

const ofShare = ({ n, share, low, high }: Share) => ({ n, value: share, low, high });

/** Every measure: each kind of work with its interval, and the gap in words. */
export function measuresSheet(
  hitter: string,
  scope: Scope,
  table: readonly MeasureRow[],
  gaps: readonly MeasureGap[],
  units: UnitSystem = "us",
): Sheet {
  const { from, to } = scope;
  const sides = inputs.filter((input) => table.some((row) => row.input === input));
  const side = (measure: string, input: Input): MeasureRow | undefined =>
    table.find((row) => row.measure === measure && row.input === input);
  return {
    file: name(hitter, scope, "measures"),
    head: ["Measure", `${to} − ${from}`, "In words", ...sides.map((input) => `${input}: figure (95%), n`)],
    rows: gaps.map((gap) => [
      gap.title,
      gap.value === null ? "unknown" : signedRange(gap, gap.unit, units),
      gapWords(gap, gap.unit, units),
      ...sides.map((input) => {
        const row = side(gap.measure, input);
        return row === undefined ? "none" : `${withRange(row, row.unit, units)}, n ${row.n}`;
      }),
    ]),
    records: gaps.map((gap) => ({
      hitter,
      measure: gap.measure,
      unit: gap.unit,
      from,
      to,
      gap: gap.value,
      gap_low: gap.low,
      gap_high: gap.high,
      drawn_anew: gap.resampled,
      words: gap.words,
      ...Object.fromEntries(
        inputs.flatMap((input) =>
          Object.entries(
            within(side(gap.measure, input) ?? { n: 0, value: null, low: null, high: null }),
          ).map(([key, value]) => [key === "value" ? input : `${input}_${key}`, value]),
        ),
      ),
    })),
  };
}

/** One measure's gap of several hitters. */
export function hittersSheet(
  scope: Scope,
  gaps: readonly (MeasureGap & { readonly hitter: string })[],
  units: UnitSystem = "us",
): Sheet {
  const { from, to } = scope;
  return {
    file: name("", scope, gaps[0]?.measure ?? "gap"),
    head: ["Hitter", from, to, `${to} − ${from} (95%)`, "In words", "n"],
    rows: gaps.map((gap) => [
      gap.hitter,
      valueWords(gap.from.value, gap.unit, units, digitsOf(gap.unit)),
      valueWords(gap.to.value, gap.unit, units, digitsOf(gap.unit)),
      gap.value === null ? "unknown" : signedRange(gap, gap.unit, units),
      gapWords(gap, gap.unit, units),
      `${gap.from.n}, ${gap.to.n}`,
    ]),
    records: gaps.map((gap) => ({
      hitter: gap.hitter,
      measure: gap.measure,
      unit: gap.unit,
      [from]: gap.from.value,
      [`${from}_n`]: gap.from.n,
      [to]: gap.to.value,
      [`${to}_n`]: gap.to.n,
      gap: gap.value,
      gap_low: gap.low,
      gap_high: gap.high,
      words: gap.words,
    })),
  };
}

/** Parts as they are read: rounded, in the reader's unit, so that they still add up to the rounded gap. */
export function shownParts(split: SplitGap, units: UnitSystem = "us"): (number | null)[] {
  const one = split.measure === "exit_velocity" ? shownNumber(1, "mph", units) : 1;
  const rounded = roundToTotal(
    split.parts.map((part) => (part.value ?? 0) * one),
    1,
  );
  return split.parts.map((part, i) => (part.value === null ? null : rounded[i]! / one));
}

/** The parts of both splits, of one hitter or several. */
export function partsSheet(
  hitter: string,
  scope: Scope,
  gaps: readonly HitterGap[],
  units: UnitSystem = "us",
): Sheet {
  const splits = gaps.flatMap((gap) =>
    [gap.exitVelocity, gap.launchAngle].map((split) => ({
      hitter: gap.hitter,
      split,
      unit: split.measure === "exit_velocity" ? ("mph" as const) : ("deg" as const),
      title: split.measure === "exit_velocity" ? "Exit velocity" : "Launch angle",
    })),
  );
  const many = gaps.length > 1;
  return {
    file: name(hitter, scope, "parts"),
    head: [...(many ? ["Hitter"] : []), "Gap of", "Part", "Takes or adds (95%)"],
    rows: splits.flatMap(({ hitter: who, split, unit, title }) => {
      const shown = shownParts(split, units);
      const first = many ? [who] : [];
      return [
        ...split.parts.map((part, i) => [
          ...first,
          title,
          part.part,
          part.value === null
            ? `can't be told: ${part.reason ?? ""}`
            : signedRange({ ...part, value: shown[i]! }, unit, units),
        ]),
        [...first, title, "in all", signedRange(split.gap, unit, units)],
      ];
    }),
    records: splits.flatMap(({ hitter: who, split, unit }) =>
      [...split.parts, { part: "gap", ...split.gap }].map(({ part, value, low, high, reason }) => ({
        hitter: who,
        from: scope.from,
        to: scope.to,
        measure: split.measure,
        unit,
        part,
        value,
        low,
        high,
        reason,
      })),
    ),
  };
}

/** The groups of cells behind the place part. */
export function cellsSheet(
  hitter: string,
  scope: Scope,
  { exitVelocity, from, to }: HitterGap,
  units: UnitSystem = "us",
): Sheet {
  const share = (value: number): string => valueWords(value, "share", units);
  return {
    file: name(hitter, scope, "cells"),
    head: ["Place", `${from}: share, mean`, `${to}: share, mean`, "Its part of “place”", "n"],
    rows: exitVelocity.cells.map((cell) => [
      cell.name,
      `${share(cell.from.share)}, ${valueWords(cell.from.mean, "mph", units, 1)}`,
      `${share(cell.to.share)}, ${valueWords(cell.to.mean, "mph", units, 1)}`,
      signedWords(cell.place, "mph", units),
      `${cell.from.n}, ${cell.to.n}`,
    ]),
    records: exitVelocity.cells.map((cell) => ({
      hitter,
      place: cell.name,
      [`${from}_n`]: cell.from.n,
      [`${from}_share`]: cell.from.share,
      [`${from}_mean_mph`]: cell.from.mean,
      [`${to}_n`]: cell.to.n,
      [`${to}_share`]: cell.to.share,
      [`${to}_mean_mph`]: cell.to.mean,
      place_mph: cell.place,
    })),
  };
}

/** A gap across hitters, raw and pooled. */
export function acrossSheet(
  scope: Scope,
  { measure, unit, hitters }: Across,
  units: UnitSystem = "us",
): Sheet {
  return {
    file: name("", scope, `hitters-${measure}`),
    head: ["Hitter", "Own gap (95%)", "Pooled (95%)", "Own weight", "n", "Read with care"],
    rows: hitters.map(({ hitter, n, raw, pooled, warning }) => [
      hitter,
      signedRange(raw, unit, units),
      pooled === null ? "no group" : signedRange(pooled, unit, units),
      pooled === null ? "none" : valueWords(pooled.own, "share", units),
      `${n.from}, ${n.to}`,
      warning ?? "",
    ]),
    records: hitters.map(({ hitter, n, raw, pooled, warning }) => ({
      hitter,
      measure,
      unit,
      from: scope.from,
      to: scope.to,
      from_n: n.from,
      to_n: n.to,
      gap: raw.value,
      gap_low: raw.low,
      gap_high: raw.high,
      pooled: pooled?.value ?? null,
      pooled_low: pooled?.low ?? null,
      pooled_high: pooled?.high ?? null,
      own_weight: pooled?.own ?? null,
      warning,
    })),
  };
}

const third = (value: number | null): string => (value === null ? "unknown" : fixedNumber(value, 3));

/** How many swings each measure needs. */
export function stabilizingSheet(scope: Scope, rows: readonly Stabilizing[]): Sheet {
  const swings = (n: number | null): string => (n === null ? "can't be told" : String(n));
  return {
    file: name("", scope, "swings-needed"),
    head: [
      "Measure",
      "Work",
      "Swings until 0.7 (95%)",
      "By halves",
      "ICC of one swing (95%)",
      "Hitters, swings",
    ],
    rows: rows.map((row) => [
      row.title,
      row.input,
      row.needed.value === null
        ? "can't be told"
        : `${row.needed.value} (${swings(row.needed.low)} to ${row.needed.high ?? "unknown"})`,
      swings(row.halves.needed),
      row.icc.value === null
        ? "unknown"
        : `${third(row.icc.value)} (${third(row.icc.low)} to ${third(row.icc.high)})`,
      `${row.hitters}, ${row.swings}`,
    ]),
    records: rows.map((row) => ({
      measure: row.measure,
      input: row.input,
      reading: row.reading,
      hitters: row.hitters,
      swings: row.swings,
      icc: row.icc.value,
      icc_low: row.icc.low,
      icc_high: row.icc.high,
      swings_needed: row.needed.value,
      swings_needed_low: row.needed.low,
      swings_needed_high: row.needed.high,
      by_halves: row.halves.needed,
    })),
  };
}

const speeds = (
  { low_mph, high_mph }: { low_mph: number | null; high_mph: number | null },
  units: UnitSystem,
): string =>
  low_mph === null || high_mph === null ? "speed unknown" : rangeWords(low_mph, high_mph, "mph", units);

/** Early and late, by the pitch's speed and the place it was met. */
export function timingSheet(
  hitter: string,
  scope: Scope,
  views: readonly TimingView[],
  units: UnitSystem = "us",
): Sheet {
  const rows = views.flatMap((view) => [
    { input: view.input, by: "all", group: "all", result: view as TimingResult },
    ...view.by_speed.map((r) => ({
      input: view.input,
      by: "speed",
      group: speeds(r, units),
      result: r as TimingResult,
    })),
    ...view.by_place
      .filter((r) => r.n > 0)
      .map((r) => ({ input: view.input, by: "place", group: cellName(r), result: r as TimingResult })),
  ]);
  return {
    file: name(hitter, scope, "timing"),
    head: [
      "Work",
      "Balls",
      "Early",
      "On time",
      "Late",
      "How early, ms (95%)",
      "Exit velocity on time, else",
      "n",
    ],
    rows: rows.map(({ input, group, result: r }) => [
      input,
      group,
      ...[r.early, r.on_time, r.late].map((s) => `${s.count} (${valueWords(s.share, "share", units)})`),
      ms(r.early_ms),
      `${valueWords(r.exit_velocity_on_time.value, "mph", units, 1)}, ${valueWords(r.exit_velocity_off_time.value, "mph", units, 1)}`,
      String(r.n),
    ]),
    records: rows.map(({ input, by, group, result: r }) => ({
      hitter,
      input,
      by,
      group,
      n: r.n,
      early: r.early.count,
      on_time: r.on_time.count,
      late: r.late.count,
      early_ms: r.early_ms.value,
      early_ms_low: r.early_ms.low,
      early_ms_high: r.early_ms.high,
      spread_ms: r.spread_ms.value,
      exit_velocity_on_time_mph: r.exit_velocity_on_time.value,
      exit_velocity_off_time_mph: r.exit_velocity_off_time.value,
    })),
  };
}

const toTenths = (x: number): string => fixedNumber(x, 1);

function ms({ value, low, high, reason }: Ranged): string {
  if (value === null) return reason ?? "unknown";
  const [v, a, b] = [value, low, high].map((x) => (x === null ? null : toTenths(x)));
  return `${v} (${a === null || b === null ? (reason ?? "no interval") : `${a} to ${b}`})`;
}

/** Live results by what was thrown, how fast, where it was met, and by whom. */
export function liveSheet(hitter: string, scope: Scope, live: LiveView, units: UnitSystem = "us"): Sheet {
  const rows: { by: string; group: string; result: LiveResult }[] = [
    ...live.by_pitch_type.map((r) => ({ by: "pitch", group: r.pitch_type ?? "type unknown", result: r })),
    ...live.by_speed.map((r) => ({ by: "speed", group: speeds(r, units), result: r })),
    ...live.by_place
      .filter((r) => r.pitches > 0)
      .map((r) => ({ by: "place", group: cellName(r), result: r })),
    ...live.by_pitcher.map((r) => ({ by: "pitcher", group: r.pitcher ?? "pitcher unknown", result: r })),
  ];
  return {
    file: name(hitter, scope, "live"),
    head: [
      "By",
      "Group",
      "Pitches",
      "Misses of swings (95%)",
      "Exit velocity (95%), n",
      "Power kept, median (95%)",
    ],
    rows: rows.map(({ by, group, result: r }) => [
      by,
      group,
      String(r.pitches),
      r.misses.n === 0
        ? "no swings"
        : `${withRange(ofShare(r.misses), "share", units)}, ${r.misses.count} of ${r.misses.n}`,
      `${withRange(r.exit_velocity_mph, "mph", units)}, n ${r.exit_velocity_mph.n}`,
      withRange(r.power_kept, "share", units),
    ]),
    records: rows.map(({ by, group, result: r }) => ({
      hitter: hitter || "all",
      by,
      group,
      pitches: r.pitches,
      swings: r.swings,
      misses: r.misses.count,
      miss_share: r.misses.share,
      miss_low: r.misses.low,
      miss_high: r.misses.high,
      in_play: r.exit_velocity_mph.n,
      exit_velocity_mph: r.exit_velocity_mph.value,
      exit_velocity_low: r.exit_velocity_mph.low,
      exit_velocity_high: r.exit_velocity_mph.high,
      power_kept: r.power_kept.value,
      power_kept_low: r.power_kept.low,
      power_kept_high: r.power_kept.high,
    })),
  };
}

/** How often the intervals held the truth in simulated teams. */
export function coverageSheet(
  rows: readonly (Coverage & { readonly team?: string })[],
  file: string,
  units: UnitSystem = "us",
): Sheet {
  const teams = rows.some(({ team }) => team !== undefined);
  // On paper a cell has room for the share, and below it for its interval: neither is broken.
  const whole = (words: string): string => words.replaceAll(" ", "\u00a0");
  const held = ({ share, low, high }: Share): string =>
    share === null || low === null || high === null
      ? whole("none given")
      : `${(100 * share).toFixed(1)}% ${whole(`(${rangeNumbers(low, high, "share", units, 1)})`)}`;
  const shown = ["gap", "beyond pitch", "pitch speed", "place", "bat speed", "contact"] as const;
  return {
    file,
    head: [
      ...(teams ? ["Team"] : []),
      "Swings a side",
      "Sessions a side",
      "Days differ by",
      ...shown,
      "Width of the gap’s",
      "The hitter’s own gap",
    ],
    rows: rows.map((row) => [
      ...(teams ? [row.team ?? ""] : []),
      String(row.swings),
      String(row.sessions),
      whole(valueWords(row.day_sd_mph, "mph", units, 1)),
      ...shown.map((name) => held(row.held[name])),
      row.width_mph === null ? "none" : whole(valueWords(row.width_mph, "mph", units, 1)),
      row.heldAcrossDays === null ? whole("the same") : held(row.heldAcrossDays),
    ]),
    records: rows.map((row) => ({
      ...(teams ? { team: row.team ?? null } : {}),
      swings: row.swings,
      sessions: row.sessions,
      day_sd_mph: row.day_sd_mph,
      hitters: row.hitters,
      ...Object.fromEntries(
        shown.flatMap((name) => [
          [`${name.replace(" ", "_")}_held`, row.held[name].share],
          [`${name.replace(" ", "_")}_of`, row.held[name].n],
        ]),
      ),
      width_mph: row.width_mph,
      across_days_held: row.heldAcrossDays?.share ?? null,
    })),
  };
}
