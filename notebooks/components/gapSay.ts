/** The tee-versus-live page in sentences and figures: what src/gap found, put in words. */
import { gapWords, type HitterGap, type MeasureGap } from "../../src/gap/gap.ts";
import type { Across } from "../../src/gap/across.ts";
import type { ExitVelocitySplit, GapPart, SplitGap } from "../../src/gap/parts.ts";
import type { Settling } from "../../src/gap/settling.ts";
import type { WaterfallRows } from "../../src/charts/waterfall.ts";
import { noClearChange } from "../../src/stats/difference.ts";
import type { Input } from "../../src/swing/fields.ts";
import type { TimingView } from "../../src/views/timing.ts";
import { valueWords } from "../../src/views/words.ts";
import { box, facts, type Fact } from "./show.ts";
import type { Scope } from "./comparison.ts";
import { shownParts, signed, signedRange } from "./gapTables.ts";

const at: Record<Input, string> = { tee: "off the tee", flip: "on flips", live: "live" };
const title: Record<Input, string> = { tee: "Tee", flip: "Flip", live: "Live" };
const digits = (gap: MeasureGap): number => (gap.unit === "share" ? 0 : 1);

function sentence(text: string, className = ""): HTMLElement {
  const element = document.createElement("p");
  element.className = className;
  element.textContent = text;
  return element;
}

/** Sentences as a list; nothing for none. */
export function noted(notes: readonly string[]): HTMLElement {
  if (notes.length === 0) return box("quiet");
  const list = document.createElement("ul");
  list.className = "notes";
  for (const note of new Set(notes)) list.appendChild(document.createElement("li")).textContent = note;
  return list;
}

/**
 * A measure's title as part of a sentence.
 * @example measureWords("Exit velocity, mean") // "mean exit velocity"
 */
export function measureWords(title: string): string {
  const [, what = title, kind] = /^(.*?)(?:, (mean|median|share|top end))?$/.exec(title) ?? [];
  const lower = what.slice(0, 1).toLowerCase() + what.slice(1);
  if (kind === undefined) return lower;
  return kind === "share" ? `share of ${lower}` : `${kind === "top end" ? "top-end" : kind} ${lower}`;
}

/** A gap as one sentence. */
export function gapSentence(gap: MeasureGap, { from, to }: Scope): string {
  const what = measureWords(gap.title);
  if (gap.low === null || gap.high === null) return `${what}: ${gap.words}.`;
  return noClearChange(gap)
    ? `${what}: no clear difference between ${at[from]} and ${at[to]}.`
    : `${what}: ${gap.words} ${at[to]} than ${at[from]}.`;
}

/** What the pitches alone would do, and what is left to the hitter; null without pitch speeds. */
export function predictedSentence(
  { predicted, beyondPitch }: ExitVelocitySplit,
  { from, to }: Scope,
): string | null {
  if (predicted.value === null || beyondPitch.value === null) return null;
  const left = gapWords(beyondPitch, "mph");
  const told =
    beyondPitch.low === null || beyondPitch.high === null
      ? `${at[to]} it is ${signed(beyondPitch.value, "mph")} off that, too few to say more`
      : left === "no clear difference"
        ? `what came ${at[to]} is not clearly off that`
        : `what came ${at[to]} is ${left}`;
  return `A faster ball comes off the bat faster. The same swings as ${at[from]}, met by these pitches, would give ${valueWords(predicted.value, "mph", "us", 1)}: ${told}.`;
}

/** The part beyond the pitch's that is clear and largest; null for none. */
export function largestPart({ parts }: SplitGap): GapPart | null {
  const clear = parts.filter(
    (p) => p.part !== "pitch speed" && p.value !== null && p.low !== null && !noClearChange(p),
  );
  return clear.sort((a, b) => Math.abs(b.value!) - Math.abs(a.value!))[0] ?? null;
}

const partWords: Readonly<Record<GapPart["part"], string>> = {
  "pitch speed": "the pitches' speed",
  place: "where the ball is met",
  "bat speed": "bat speed",
  contact: "contact, which is all that is left",
  rest: "all that is left",
};

function partSentence(split: SplitGap): string {
  const largest = largestPart(split);
  if (split.gap.value === null) return "";
  if (largest === null) return "Beyond the pitch's speed no part is clearly other than nothing.";
  return `${largest.value! < 0 ? "Most is lost" : "Most is gained"} by ${partWords[largest.part]}: ${signedRange(largest, "mph")}.`;
}

/** The answer for a coach: what differs, by how much, what of it is the pitch's work, and what to know first. */
export function answered(parts: HitterGap, gap: MeasureGap, scope: Scope): HTMLElement {
  const { exitVelocity } = parts;
  const told =
    gap.measure === "exit_velocity"
      ? [predictedSentence(exitVelocity, scope), partSentence(exitVelocity)]
      : [];
  const items: Fact[] = [
    {
      name: `${title[scope.from]}`,
      value: valueWords(gap.from.value, gap.unit, "us", digits(gap)),
      doubt: `n ${gap.from.n}, sessions ${gap.sessions.from}`,
    },
    {
      name: `${title[scope.to]}`,
      value: valueWords(gap.to.value, gap.unit, "us", digits(gap)),
      doubt: `n ${gap.to.n}, sessions ${gap.sessions.to}`,
    },
    {
      name: "Gap",
      value: signed(gap.value, gap.unit),
      doubt:
        gap.low === null || gap.high === null
          ? (gap.reason ?? "no interval")
          : `95%: ${signedRange(gap, gap.unit).replace(/^.*\((.*)\)$/, "$1")}`,
    },
    ...(gap.measure === "exit_velocity"
      ? [
          {
            name: "Gap beyond the pitch's speed",
            value: signed(exitVelocity.beyondPitch.value, "mph"),
            doubt:
              exitVelocity.beyondPitch.value === null
                ? (exitVelocity.beyondPitch.reason ?? "unknown")
                : signedRange(exitVelocity.beyondPitch, "mph").replace(/^.*\((.*)\)$/, "95%: $1"),
          },
        ]
      : []),
  ];
  return box(
    "answered",
    sentence(`${parts.hitter}, ${gapSentence(gap, scope)}`, "headline"),
    ...told.filter((text) => text !== null && text !== "").map((text) => sentence(text!)),
    facts(items),
    noted(parts.notes),
  );
}

/** The group's answer, where every hitter is chosen. */
export function groupAnswered({ title: what, group, hitters, notes, from, to, unit }: Across): HTMLElement {
  const scope = { from, to, drill: "" };
  const head =
    group === null
      ? `${what}: fewer than two hitters have enough swings of both kinds to be compared.`
      : `${hitters.length} hitters. ${what}: ${gapWords({ value: group.mean, low: group.low, high: group.high, reason: null }, unit)}${group.low <= 0 && group.high >= 0 ? "" : ` ${at[scope.to]} than ${at[scope.from]}`}, in the mean of the group.`;
  return box("answered", sentence(head, "headline"), noted(notes));
}

/** A split as the waterfall draws it; null where there is no gap to part. */
export function waterfallRows(split: SplitGap, { from, to }: Scope): WaterfallRows | null {
  if (split.gap.value === null) return null;
  const shown = shownParts(split);
  return {
    from: { name: title[from], ...split.from },
    to: { name: title[to], ...split.to },
    parts: split.parts.map((part, i) => ({ ...part, value: shown[i]! })),
    gap: split.gap,
  };
}

/** What is known of a hitter's timing, in a few figures. */
export function timingFacts({ early, on_time, late, early_ms, spread_ms, n }: TimingView): Fact[] {
  const whole = (v: number | null): string => (v === null ? "unknown" : `${Math.abs(v).toFixed(1)} ms`);
  return [
    ...[["Early", early] as const, ["On time", on_time] as const, ["Late", late] as const].map(
      ([name, s]) => ({
        name,
        value: valueWords(s.share, "share", "us"),
        doubt:
          s.low === null || s.high === null
            ? "nothing to count"
            : `${s.count} of ${s.n}, 95%: ${valueWords(s.low, "share", "us")} to ${valueWords(s.high, "share", "us")}`,
      }),
    ),
    {
      name: early_ms.value !== null && early_ms.value < 0 ? "Late as a rule by" : "Early as a rule by",
      value: whole(early_ms.value),
      doubt:
        early_ms.low === null || early_ms.high === null
          ? (early_ms.reason ?? "no interval")
          : `95%: ${early_ms.low.toFixed(1).replace("-", "−")} to ${early_ms.high.toFixed(1).replace("-", "−")} ms early, n ${early_ms.n}`,
    },
    {
      name: "Varies by",
      value: whole(spread_ms.value),
      doubt: `spread, n ${n}`,
    },
  ];
}

/** The measures a coach asks about first. */
const first = ["exit_velocity", "power_kept", "launch_angle", "launch_spread", "line_drive_window", "misses"];

/** Those of the measures that the reliability chart shows. */
export const settlingShown = (rows: readonly Settling[]): Settling[] =>
  rows.filter((row) => first.includes(row.measure));
