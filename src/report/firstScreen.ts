/** The first screen of a report: the answer in a sentence, its figures with their intervals, one picture, what next. */
import { meanEstimate } from "../stats/estimate.ts";
import type { Share } from "../stats/share.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { largest, smallest } from "../swing/lists.ts";
import { unitSign, shownUnit, shownNumber, type UnitSystem } from "../units/system.ts";
import { reportOpening } from "../views/opening.ts";
import { reportAnswer } from "../views/sentences/opening.ts";
import { inPlay, ofInput } from "../views/swings.ts";
import type { TargetResult } from "../views/target.ts";
import { rangeNumbers, rangeWords } from "../views/words.ts";
import { openingFacts } from "./facts.ts";
import { html, type Markup } from "./html.ts";
import type { ReportSize } from "./sizes.ts";

type Rows = readonly EnrichedSwing[];

/** What the first screen is made from. */
export interface FirstParts {
  readonly hitter: string;
  readonly rows: Rows;
  readonly targets: readonly TargetResult[];
  /** What to work on next, as the headline says it. */
  readonly next: string;
  /** Changes since the session before that stand, as sentences; null where there is no session before. */
  readonly changed: readonly string[] | null;
  /** The picture, at a desk and on a phone or on paper. */
  readonly picture: { readonly wide: Markup; readonly narrow: Markup };
  /** Swing by swing, below what is next. */
  readonly swings: { readonly wide: Markup; readonly narrow: Markup };
  readonly system: UnitSystem;
  readonly size: ReportSize;
  /** What the coach says, below what is next. */
  readonly coach: Markup | null;
}

/** The drill with a target that was swung at most; null where no drill has one. */
export const mainTarget = (targets: readonly TargetResult[]): TargetResult | null =>
  targets.reduce<TargetResult | null>(
    (most, t) => (t.n > 0 && (most === null || t.n > most.n) ? t : most),
    null,
  );

/** The first screen. */
export function firstScreen({
  hitter,
  rows,
  targets,
  next,
  changed,
  picture,
  swings,
  system,
  size,
  coach,
}: FirstParts): Markup {
  const opening = reportOpening(rows, targets);
  const { input, met, all, allWell } = opening;
  const balls = input === null ? [] : inPlay(ofInput(rows, input));
  const answer = reportAnswer(hitter, met, allWell, all);
  const [before, after] = answer.text.split(answer.figure, 2) as [string, string?];
  const figures = openingFacts.flatMap(({ label, of }) => {
    const figure = of(opening);
    if ("share" in figure) return figure.n > 0 ? [shareTile(figure, label(opening))] : [];
    return figure.value === null ? [] : [speedTile(figure, balls, label(opening), system)];
  });
  const since =
    changed === null
      ? ""
      : changed.length > 0
        ? changed.slice(0, 2).join(" ")
        : "No change since the session before stands out.";
  const sentence = html`<p class="answer">
    ${answer.figure === "" ? answer.text : html`${before}<em>${answer.figure}</em>${after}`}
  </p>`;
  if (size === "sentence") {
    const { n, low, high } = met.n > 0 ? met : allWell;
    const range =
      low === null || high === null ? "" : `95% interval ${rangeWords(low, high, "share", "us")}, n ${n}.`;
    return html`<section class="first">
      <div class="say">${sentence} ${range !== "" && html`<p class="sub">${range}</p>`} ${coach}</div>
      <figure class="pic wide">${picture.wide}</figure>
      <figure class="pic narrow">${picture.narrow}</figure>
    </section>`;
  }
  return html`<section class="first">
    <div class="say">
      ${sentence} ${since !== "" && html`<p class="sub">${since}</p>`}
      ${figures.length > 0 && html`<div class="tiles">${figures}</div>`} ${nextBlock(next)} ${coach}
      ${size === "everything" && html`<figure class="strip wide">${swings.wide}</figure>`}
    </div>
    <figure class="pic wide">${picture.wide}</figure>
    <figure class="pic narrow">${picture.narrow}</figure>
    ${size === "everything" && html`<figure class="strip narrow">${swings.narrow}</figure>`}
  </section>`;
}

/** What next: what is named first, and why below it. */
function nextBlock(next: string): Markup {
  const [, lead, why] = /^([^:]{1,60}:)\s+(.*)$/su.exec(next) ?? [null, next, ""];
  return html`<p class="next"><b>${lead}</b> ${why !== "" && html`<span>${why}</span>`}</p>`;
}

/** A figure set large, over a strip that shows its interval on a scale. */
function tile(figure: Markup, strip: Markup | null, label: string, words: string): Markup {
  return html`<div class="tile">
    <p class="n">${figure}</p>
    ${strip}
    <p class="l">${label}<br />${words}</p>
  </div>`;
}

function shareTile(share: Share, label: string): Markup {
  const { count, n, low, high } = share;
  const known = share.share !== null && low !== null && high !== null;
  return tile(
    html`${count}<small> of ${n}</small>`,
    known ? strip([low, share.share!, high]) : null,
    label,
    known ? rangeWords(low, high, "share", "us") : "too few for an interval",
  );
}

function speedTile(
  { n, value, low, high, reason }: ReturnType<typeof meanEstimate>,
  balls: Rows,
  label: string,
  system: UnitSystem,
): Markup {
  const all = balls.map((r) => r.exit_velocity_mph!);
  const [slowest, fastest] = [smallest(all), largest(all)];
  const along = (speed: number): number => (speed - slowest) / (fastest - slowest);
  const range =
    low === null || high === null ? (reason ?? "no interval") : rangeNumbers(low, high, "mph", system);
  return tile(
    html`${Math.round(shownNumber(value!, "mph", system))}<small>
        ${unitSign(shownUnit("mph", system))}</small
      >`,
    low === null || high === null || fastest === slowest
      ? null
      : strip([along(low), along(value!), along(high)]),
    label,
    `${range} · n ${n} · slowest ${rangeWords(slowest, fastest, "mph", system).replace(" to ", ", fastest ")}`,
  );
}

/** An interval and its figure on a scale from 0 to 1. */
function strip([low, value, high]: readonly [number, number, number]): Markup {
  const at = (share: number): string => (200 * Math.max(0, Math.min(1, share))).toFixed(1);
  return html`<svg class="iv" viewBox="-2 0 204 14" preserveAspectRatio="none" aria-hidden="true">
    <path d="M0 13.5H200" class="scale" />
    <path d="M${at(low)} 9H${at(high)}" class="range" />
    <path d="M${at(value)} 4V13.5" class="point" />
  </svg>`;
}
