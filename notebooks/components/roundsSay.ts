/** What the page of live rounds says, as elements. The computing is in src/season. */
import { pairGrid, type GridPair } from "../../src/charts/pairGrid.ts";
import {
  pairMeasures,
  type LiveRounds,
  type Pair,
  type PairFigure,
  type PairMeasure,
  type RoundResult,
} from "../../src/season/liveRounds.ts";
import { fewestDays } from "../../src/stats/dayChange.ts";
import type { Estimate } from "../../src/stats/estimate.ts";
import type { Share } from "../../src/stats/share.ts";
import { counted } from "../../src/swing/words.ts";
import type { UnitSystem } from "../../src/units/system.ts";
import {
  outsideRounds,
  pairBasis,
  pairSentence,
  roundsAnswer,
  roundsNote,
  type ToldPair,
} from "../../src/views/sentences/rounds.ts";
import { rangeNumbers, rangeWords, shortName, valueWords } from "../../src/views/words.ts";
import { cellName } from "../../src/views/zone.ts";
import { choose, held, hold, type ChoiceElement, type Option } from "./choice.ts";
import { noted } from "./gapSay.ts";
import type { Figure, Opening } from "./opening.ts";
import { box, figure, nothing, table } from "./show.ts";
import type { RoundTables } from "./works/liveRounds.ts";

/** Whom a page may be about, of either side. */
export const nameOptions = (names: readonly string[]): Option[] =>
  names.length === 0 ? [{ value: "", text: "Nobody" }] : names.map((value) => ({ value, text: value }));

/** Whom the pitcher's side was last opened beside. */
let beside: string | null = null;

/**
 * The pitcher to show: until one is chosen, and when the hitter changes to one whom that pitcher never met, the answer's own
 * if the two met, else the one whom the hitter met most.
 */
export function choosePitcher(
  rounds: LiveRounds,
  hitter: string,
  clearest: Pick<ToldPair, "pitcher"> | undefined,
): ChoiceElement {
  const met = rounds.pairs.filter((p) => p.hitter === hitter).sort((a, b) => b.swings - a.swings);
  const has = (pitcher: string | null | undefined): boolean => met.some((p) => p.pitcher === pitcher);
  if (beside !== null && beside !== hitter && !has(held().get("pitcher"))) hold("pitcher", "");
  beside = hitter;
  const otherwise = has(clearest?.pitcher) ? clearest?.pitcher : (met[0]?.pitcher ?? clearest?.pitcher);
  return choose({
    key: "pitcher",
    label: "Pitcher",
    options: nameOptions(rounds.pitchers),
    ...(otherwise === undefined ? {} : { otherwise }),
  });
}

/** Why the pitcher's sheet can't be printed yet. */
export const sheetWaits = "What came of the pitches is being worked out: then it can be printed.";

/** What the grid may show. */
export const pairMeasureOptions = (): Option[] =>
  pairMeasures.map(({ name, title }) => ({ value: name, text: title }));

const figureOf = (pair: Pair, measure: string): PairFigure =>
  pair.figures.find((f) => f.measure.name === measure) ?? pair.figures[0]!;

const measureNamed = (name: string): PairMeasure =>
  pairMeasures.find((m) => m.name === name) ?? pairMeasures[0]!;

/** The picture of every pair by one measure. */
export function roundsPicture(rounds: LiveRounds, name: string, units: UnitSystem): HTMLElement {
  const { title, unit } = measureNamed(name);
  return figure((width) => pairGrid(gridOf(rounds, name), { measure: title, unit, units, width }));
}

const gridOf = ({ pairs }: LiveRounds, measure: string): GridPair[] =>
  pairs.map((pair) => {
    const { n, pooled, expected, stands } = figureOf(pair, measure);
    return { hitter: pair.hitter, pitcher: pair.pitcher, n, pooled, expected, stands };
  });

/** The pairs that stand, the clearest first. */
export const toldPairs = ({ pairs }: LiveRounds): ToldPair[] =>
  pairs
    .flatMap((pair) =>
      pair.figures.flatMap((figure) => {
        const { own, expected, stands, measure, n, apart } = figure;
        if (stands === null || own === null || expected === null) return [];
        const { hitter, pitcher, sessions } = pair;
        return [
          {
            hitter,
            pitcher,
            stands,
            measure: measure.name,
            unit: measure.unit,
            own,
            expected,
            n,
            sessions,
            first: measure.first,
            p: apart?.p ?? 1,
          },
        ];
      }),
    )
    .sort((a, b) => Number(b.first) - Number(a.first) || a.p - b.p);

const isNamed = ({ figures }: Pair): boolean => figures.some(({ stands }) => stands !== null);

/** Figures that the first screen has room for. */
const most = 3;

/** The first screen: who is hard on whom, and the hitter chosen against each pitcher. */
export function roundsSaid(
  rounds: LiveRounds,
  hitter: string,
  fewest: number,
  system: UnitSystem,
): Required<Pick<Opening, "answer" | "told" | "figures">> {
  const standing = toldPairs(rounds);
  const [first, ...others] = standing;
  const note = roundsNote({
    pairs: rounds.pairs.length,
    enough: rounds.pairs.filter((p) => p.enough).length,
    looked: rounds.looked,
    fewest,
    sessions: fewestDays,
  });
  const outside = outsideRounds(rounds.left_out, rounds.without_pitcher);
  const own = rounds.pairs
    .filter((p) => p.hitter === hitter)
    .sort((a, b) => Number(isNamed(b)) - Number(isNamed(a)) || b.swings - a.swings);
  return {
    answer: roundsAnswer(standing, rounds.looked, system),
    told: [
      ...(first === undefined ? [] : [pairBasis(first, system)]),
      ...others.slice(0, 2).map((pair) => pairSentence(pair, system)),
      ...[note, outside].filter((text) => text !== null && text !== ""),
    ] as string[],
    figures: own.slice(0, most).map((pair): Figure => {
      const { pooled, expected, n, measure } = figureOf(pair, "");
      const name = `${shortName(hitter)} against ${shortName(pair.pitcher)}`;
      if (pooled === null)
        return { name, value: "–", doubt: `${counted(pair.swings, "swing")}: too few to say` };
      return {
        name,
        value: valueWords(pooled.value, "share", system),
        doubt: `${measure.title.toLowerCase()}, pooled; 95%: ${rangeWords(pooled.low, pooled.high, "share", system)}, n ${n}${expected === null ? "" : `; expected ${valueWords(expected, "share", system)}`}`,
        span: { ...pooled, scale: "share" },
      };
    }),
  };
}

/** A pair's figure in a table: pooled, with its interval and n. */
function cellWords({ pooled, n, measure, stands }: PairFigure, system: UnitSystem): string {
  if (pooled === null) return n === 0 ? "none" : `n ${n}: too few to say`;
  const digits = measure.unit === "share" ? 0 : 1;
  const range = rangeNumbers(pooled.low, pooled.high, measure.unit, system, digits);
  return `${valueWords(pooled.value, measure.unit, system, digits)} (${range}), n ${n}${stands === null ? "" : `: ${stands}`}`;
}

/**
 * One side of the pairs: a hitter against each pitcher, or a pitcher against each hitter.
 * @param side whose name is the same on every line
 */
export function sideTable(
  { pairs }: LiveRounds,
  side: "hitter" | "pitcher",
  name: string,
  system: UnitSystem,
): HTMLElement {
  const own = pairs.filter((p) => p[side] === name);
  if (own.length === 0) return nothing("No live pitch has the names of both sides.");
  const other = side === "hitter" ? "pitcher" : "hitter";
  return table(
    [
      other === "pitcher" ? "Pitcher" : "Hitter",
      "Pitches, swings",
      "In play, fouls, misses",
      ...pairMeasures.map((m) => m.title),
    ],
    own.map((pair) => [
      pair[other],
      `${pair.pitches}, ${pair.swings}`,
      `${pair.in_play}, ${pair.fouls}, ${pair.misses}`,
      ...pair.figures.map((figure) => cellWords(figure, system)),
    ]),
  );
}

const shareWords = ({ count, n, low, high }: Share): string =>
  low === null || high === null ? "none" : `${count} of ${n} (${rangeWords(low, high, "share", "us")})`;

function estimateWords({ value, low, high, n }: Estimate, unit: "mph" | "share", system: UnitSystem): string {
  const digits = unit === "share" ? 0 : 1;
  if (value === null) return "none";
  const range = low === null || high === null ? "no interval" : rangeNumbers(low, high, unit, system, digits);
  return `${valueWords(value, unit, system, digits)} (${range}), n ${n}`;
}

interface Line {
  readonly name: string;
  readonly result: RoundResult;
}

/** Balls met at a place: no miss is, so theirs are shares of the balls in play. */
function placeTable(lines: readonly Line[], fewest: number, system: UnitSystem): HTMLElement {
  const [, , own, kept] = pairMeasures.map((m) => m.title);
  return table(
    ["Met where", "Balls in play", "Clean or flush, of these", own!, kept!],
    lines.map(({ name, result }) => [
      name,
      String(result.in_play),
      ...(result.in_play < fewest
        ? ["too few to say", "", ""]
        : [
            shareWords(result.well_hit),
            estimateWords(result.own_speed, "mph", system),
            estimateWords(result.power_kept, "share", system),
          ]),
    ]),
  );
}

function resultTable(head: string, lines: readonly Line[], fewest: number, system: UnitSystem): HTMLElement {
  return table(
    [head, "Pitches, swings", ...pairMeasures.map((m) => m.title)],
    lines.map(({ name, result }) => [
      name,
      `${result.pitches}, ${result.swings}`,
      ...(result.swings < fewest
        ? ["too few to say", "", "", ""]
        : [
            shareWords(result.well_hit),
            shareWords(result.misses),
            estimateWords(result.own_speed, "mph", system),
            estimateWords(result.power_kept, "share", system),
          ]),
    ]),
  );
}

/**
 * What came of some pitches by type, by speed at the plate and by place: as it was, not pooled.
 * @param fewest with fewer swings, or balls in play, counts stand alone
 */
export function resultTables(
  { types, speeds, places }: RoundTables,
  fewest: number,
  system: UnitSystem,
): HTMLElement {
  if (types.length === 0) return nothing("There is no live pitch with a pitcher's name here.");
  const met = places.filter((p) => p.pitches > 0);
  return box(
    "rounds",
    resultTable(
      "Pitch",
      types.map((r) => ({ name: r.of ?? "not written down", result: r })),
      fewest,
      system,
    ),
    resultTable(
      "Speed at the plate",
      speeds.map((r) => ({
        name: r.of === null ? "not measured" : rangeWords(r.of, r.to!, "mph", system),
        result: r,
      })),
      fewest,
      system,
    ),
    ...(met.length === 0
      ? []
      : [
          placeTable(
            met.map((r) => ({ name: cellName(r), result: r })),
            fewest,
            system,
          ),
        ]),
    noted([
      `Shares and means as they were, each with its 95% interval, sessions counted; under ${fewest} swings, or balls in play, counts alone.`,
    ]),
  );
}
