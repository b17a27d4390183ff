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
import type { EnrichedSwing, Session } from "../swing/fields.ts";
import { phraseIn, type UnitSystem } from "../units/system.ts";
import { html, type Markup } from "./html.ts";

/** A file a report was made from. */
export interface SourceFile {
  readonly file: string;
  readonly sha256: string;
  readonly rows: number;
  readonly refused: number;
}

export interface FootParts {
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

/** File hashes, version, the constants of the flight and the thresholds in use. */
export function foot({ files, version, thresholds, rows, sessions, system }: FootParts): Markup {
  const shown = files.slice(0, mostFiles);
  const refused = files.reduce((sum, f) => sum + f.refused, 0);
  return html`<footer>
    <p>
      Made by batted-ball-notebooks ${version} from
      ${shown.map(
        ({ file, sha256 }, i) =>
          html`${i === 0 ? "" : ", "}<bdi>${file}</bdi> <code>${sha256.slice(0, digits)}</code>`,
      )}${files.length > shown.length ? ` and ${files.length - shown.length} more files` : ""}
      (first ${digits} digits of SHA-256).
      ${refused > 0 && `${refused} ${refused === 1 ? "row was" : "rows were"} refused and count nowhere here: check names them.`}
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
      values on (a spread: ${fewestForSpread}). ${thresholdWords(thresholds)}
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
