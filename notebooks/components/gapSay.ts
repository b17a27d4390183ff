/** The tee-versus-live page in sentences and figures: what src/gap found, put in words. */
import type { HitterGap, MeasureGap } from "../../src/gap/gap.ts";
import { gapAnswer } from "../../src/gap/answer.ts";
import type { Across } from "../../src/gap/across.ts";
import type { SplitGap } from "../../src/gap/parts.ts";
import type { Stabilizing } from "../../src/gap/stabilizing.ts";
import type { WaterfallRows } from "../../src/charts/waterfall.ts";
import type { Input } from "../../src/swing/fields.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import { measuresIn } from "../../src/views/measures.ts";
import type { TimingView } from "../../src/views/timing.ts";
import { groupSentence } from "../../src/views/sentences/group.ts";
import { ruleWords } from "../../src/views/sentences/timing.ts";
import { fixedNumber } from "../../src/swing/words.ts";
import { shortName, signedRange, signedWords, valueWords } from "../../src/views/words.ts";
import { gapWords } from "../../src/views/sentences/gap.ts";
import { opening, type Figure } from "./opening.ts";
import { spanOf } from "./say.ts";
import { box, type Fact } from "./show.ts";
import type { Scope } from "./scope.ts";
import { shownParts } from "./gapTables.ts";

const title: Record<Input, string> = { tee: "Tee", flip: "Flip", live: "Live" };
const digits = (gap: MeasureGap): number => (gap.unit === "share" ? 0 : 1);

/** Sentences as a list; nothing for none. */
export function noted(notes: readonly string[]): HTMLElement {
  if (notes.length === 0) return box("quiet");
  const list = document.createElement("ul");
  list.className = "notes";
  for (const note of new Set(notes)) list.appendChild(document.createElement("li")).textContent = note;
  return list;
}

/** The answer for a coach: what differs, by how much, what of it is the pitch's work. */
export function answered(
  parts: HitterGap,
  gap: MeasureGap,
  scope: Scope,
  units: UnitSystem = "us",
  picture?: Node,
): HTMLElement {
  const { beyondPitch: beyond } = parts.exitVelocity;
  const [headline, ...told] = gapAnswer(parts, gap, scope, units);
  const ofSpeed = gap.measure === "exit_velocity" && beyond.value !== null;
  const [main, unit] = ofSpeed ? [beyond, "mph" as const] : [gap, gap.unit];
  const side = (input: Input, end: MeasureGap["from"], sessions: number): Figure => ({
    name: title[input],
    value: valueWords(end.value, gap.unit, units, digits(gap)),
    doubt: `n ${end.n}, sessions ${sessions}`,
  });
  return opening({
    answer: { text: `${shortName(parts.hitter)}: ${headline}`, figure: gapWords(main, unit, units) },
    told,
    figures: [
      side(scope.from, gap.from, gap.sessions.from),
      side(scope.to, gap.to, gap.sessions.to),
      {
        name: ofSpeed ? "Beyond the pitches' speed" : "Gap",
        value: signedWords(main.value, unit, units),
        doubt:
          main.low === null || main.high === null
            ? (main.reason ?? "no interval")
            : `95%: ${signedRange(main, unit, units).replace(/^.*\((.*)\)$/, "$1")}`,
        ...spanOf(main.value, main.low, main.high, "difference"),
      },
    ],
    picture,
  });
}

/**
 * The group's answer, where every hitter is chosen.
 * @param beyond the same of exit velocity beyond the pitches' part, which then leads
 */
export function groupAnswered(
  across: Across,
  beyond: Across | null = null,
  units: UnitSystem = "us",
  picture?: Node,
): HTMLElement {
  const told = (of: Across): string => {
    const { title: what, group, from, to, unit } = of;
    const mean = group === null ? null : { value: group.mean, low: group.low, high: group.high };
    return groupSentence({ title: what, unit, k: group?.k ?? 0, mean }, { from, to }, units);
  };
  const leads = beyond?.group == null ? null : beyond;
  const main = leads ?? across;
  const text = told(main);
  const mean = (of: Across, name: string): Figure[] =>
    of.group === null
      ? []
      : [
          {
            name,
            value: signedWords(of.group.mean, of.unit, units),
            doubt: `95%: ${signedRange({ ...of.group, value: of.group.mean, reason: null }, of.unit, units).replace(/^.*\((.*)\)$/, "$1")}, ${of.group.k} hitters`,
            ...spanOf(of.group.mean, of.group.low, of.group.high, "difference"),
          },
        ];
  return opening({
    answer: {
      text,
      figure:
        main.group === null
          ? ""
          : gapWords({ ...main.group, value: main.group.mean, reason: null }, main.unit, units),
    },
    told: leads === null ? [] : [told(across)],
    figures: [
      ...(leads === null ? [] : mean(leads, "Beyond the pitches' speed")),
      ...mean(across, "Gap in all"),
    ],
    picture,
  });
}

/** A split as the waterfall draws it; null where there is no gap to part. */
export function waterfallRows(
  split: SplitGap,
  { from, to }: Scope,
  units: UnitSystem = "us",
): WaterfallRows | null {
  if (split.gap.value === null) return null;
  const shown = shownParts(split, units);
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
      name: ruleWords(early_ms),
      value: whole(early_ms.value),
      doubt:
        early_ms.low === null || early_ms.high === null
          ? (early_ms.reason ?? "no interval")
          : `95%: ${fixedNumber(early_ms.low, 1)} to ${fixedNumber(early_ms.high, 1)} ms early, n ${early_ms.n}`,
    },
    {
      name: "Varies by",
      value: whole(spread_ms.value),
      doubt: `spread, n ${n}`,
    },
  ];
}

/** The measures a coach asks about first. */
const first = measuresIn("reliability").map(({ name }) => name);

/** Those of the measures that the reliability chart shows. */
export const stabilizingShown = (rows: readonly Stabilizing[]): Stabilizing[] =>
  rows.filter((row) => first.includes(row.measure));
