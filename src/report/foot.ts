/** The foot of a report: what it was made from, so that it can be made again. */
import { spinBasis } from "../contact/spinBasis.ts";
import { thresholdTable, type ThresholdName, type Thresholds } from "../contact/thresholds.ts";
import { defaultAir, gravity } from "../flight/air.ts";
import { ballFor, findBall } from "../flight/ball.ts";
import {
  dragPerThousandRpm,
  dragWithoutSpin,
  liftOffset,
  liftSlope,
  spinDecay_s,
} from "../flight/coefficients.ts";
import { fewestForInterval, fewestForSpread, resamples } from "../stats/bootstrap.ts";
import { untimedSentence } from "../reading/causes.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { sessionOfPath } from "../swing/partition.ts";
import { sha256Of } from "../swing/sha256.ts";
import { phraseIn, unitSystems, type UnitSystem } from "../units/system.ts";
import { unescapeHtml } from "../swing/words.ts";
import type { SwingConditions } from "../views/filter.ts";
import { ceilingGivenSentence, spreadTailsSentence } from "../views/sentences/gap.ts";
import { html, type Markup } from "./html.ts";
import { reportSizes, type ReportSize } from "./sizes.ts";

/** A file a report was made from. */
export interface SourceFile {
  readonly file: string;
  readonly sha256: string;
  readonly rows: number;
  readonly refused: number;
  /** Rows without a time that were exact copies of another, and are counted once. */
  readonly untimed: number;
}

/** How a report was made: what its foot keeps for `report --again`. Of drill and pitches only what was asked for. */
export interface Made extends SwingConditions {
  /** As the report names it. */
  readonly hitter: string;
  /** Null for all of them. */
  readonly session: string | null;
  /** The span's first and last day; null where it is open. */
  readonly since: string | null;
  readonly until: string | null;
  readonly size: ReportSize;
  readonly units: UnitSystem;
  readonly withoutFlagged: boolean;
  readonly initials: boolean;
  /** What a facility and a coach put on it; null for nothing. */
  readonly facility: string | null;
  readonly color: string | null;
  readonly note: string | null;
  readonly version: string;
  /** The sum of the library's files' names and sums; see `librarySum`. */
  readonly library: string;
}

export interface FootParts {
  readonly made: Omit<Made, "version" | "library">;
  readonly files: readonly SourceFile[];
  readonly version: string;
  readonly thresholds: Thresholds;
  readonly rows: readonly EnrichedSwing[];
  readonly sessions: readonly Session[];
  readonly system: UnitSystem;
}

/** Hash digits shown: enough to tell files apart by eye and by machine. */
const digits = 16;
/** More files than this are counted, not named. */
const mostFiles = 12;

/**
 * One sum for all files of a library: which they are, and what is in them.
 * @example librarySum([]).length // 16
 */
export function librarySum(files: readonly Pick<SourceFile, "file" | "sha256">[]): string {
  const lines = files.map(({ file, sha256 }) => `${sha256}  ${file}\n`);
  return sha256Of(lines.sort().join("")).slice(0, digits);
}

/**
 * How a report was made, by its own foot; null when the text is no report, or its foot doesn't say.
 * @param page the report's HTML
 * @example madeFrom("<footer></footer>") // null
 */
export function madeFrom(page: string): Made | null {
  const [, written] = /<footer data-made="([^"]*)">/.exec(page) ?? [];
  if (written === undefined) return null;
  try {
    const made = JSON.parse(unescapeHtml(written)) as Partial<Record<keyof Made, unknown>>;
    const isText = (value: unknown): boolean => typeof value === "string";
    const isWhole =
      [made.hitter, made.version, made.library].every(isText) &&
      [made.session, made.since, made.until, made.facility, made.color, made.note].every(
        (value) => value === null || isText(value),
      ) &&
      [made.drill, made.pitch_type, made.pitcher].every((value) => value == null || isText(value)) &&
      isBand(made.pitch_speed_mph) &&
      reportSizes.some((size) => size === made.size) &&
      unitSystems.some((system) => system === made.units) &&
      [made.withoutFlagged, made.initials].every((value) => typeof value === "boolean");
    return isWhole ? (made as Made) : null;
  } catch {
    return null;
  }
}

/** A file as a reader of the report knows it: a session by its name. */
function fileRead(file: string): string {
  const session = sessionOfPath(file);
  return session === undefined ? file : session === null ? "swings without a session" : `session ${session}`;
}

const isBand = (band: unknown): boolean =>
  band == null ||
  (typeof band === "object" &&
    ["low", "high"].every((end) => typeof (band as Record<string, unknown>)[end] === "number"));

/** File hashes, version, how it was made, the constants of the flight and the thresholds in use. */
export function foot({ files, version, thresholds, rows, sessions, system, made }: FootParts): Markup {
  const shown = files.slice(0, mostFiles);
  const refused = files.reduce((sum, f) => sum + f.refused, 0);
  const untimed = files.reduce((sum, f) => sum + f.untimed, 0);
  const again: Made = { ...made, version, library: librarySum(files) };
  return html`<footer data-made="${JSON.stringify(again)}">
    <p>
      Made by batted-ball-notebooks ${version} from
      ${shown.map(
        ({ file, sha256 }, i) =>
          html`${i === 0 ? "" : ", "}<bdi>${fileRead(file)}</bdi> <code>${sha256.slice(0, digits)}</code>`,
      )}${files.length > shown.length ? ` and ${files.length - shown.length} more files` : ""}
      (first ${digits} digits of SHA-256).
      ${refused > 0 && `${refused} ${refused === 1 ? "row was" : "rows were"} refused and ${refused === 1 ? "counts" : "count"} nowhere here: check names ${refused === 1 ? "it" : "them"}.`}
      ${untimedSentence(untimed)}
    </p>
    <p>
      Flight: g ${gravity} m/s²; ${ballWords(rows, sessions)}; drag coefficient ${dragWithoutSpin} +
      ${dragPerThousandRpm} per 1000 rpm; lift coefficient S/(${liftOffset} + ${liftSlope} S); spin fades over
      ${spinDecay_s} s; default air ${phraseIn(defaultAir.assumed.join(", "), system)}
      (${defaultAir.density.toFixed(3)} kg/m³). <span class="screen">${spinWords(rows)}</span>
    </p>
    <p>
      Ranges after a figure are 95% intervals: over several sessions the days are counted; of a share the
      wider of that and Wilson's; else a seeded bootstrap of ${resamples} resamples, from ${fewestForInterval}
      values on (a spread: ${fewestForSpread}).
      <span class="screen">${ceilingGivenSentence} ${spreadTailsSentence}</span> ${thresholdWords(thresholds)}
    </p>
  </footer>`;
}

/** On paper only what differs from the version's own table: that table comes with the version named above. */
function thresholdWords(thresholds: Thresholds): Markup {
  const names = Object.keys(thresholdTable) as ThresholdName[];
  const changed = names.filter((name) => thresholds[name] !== thresholdTable[name].value);
  const said = (listed: readonly ThresholdName[]): string =>
    listed
      .map((name) => `${name.replaceAll("_", " ")} ${Number(thresholds[name].toPrecision(4))}`)
      .join("; ");
  return html`Thresholds: as they come with this
    version${changed.length > 0 && `, but the library's own ${said(changed)}`}.
    <span class="screen">All in use: ${said(names)}.</span>`;
}

function ballWords(rows: readonly EnrichedSwing[], sessions: readonly Session[]): string {
  const named = new Set(rows.map((r) => sessions.find((s) => s.session === r.session)?.ball ?? null));
  const balls = new Set([...named].map((name) => (name === null ? null : findBall(name)) ?? ballFor(null)));
  return [...(balls.size === 0 ? [ballFor(null)] : balls)]
    .map((b) => `${b.name} ${(b.mass * 1000).toFixed(1)} g, ${(b.radius * 200).toFixed(2)} cm across`)
    .join("; ");
}

function spinWords(rows: readonly EnrichedSwing[]): string {
  const spins = spinBasis(rows);
  return spins === "" ? "" : `Spin behind the carry: ${spins}.`;
}
