/** What charts of balls by contact bucket share: the balls' marks, the key, and the words about them. */
import { buckets, type EnrichedSwing } from "../swing/fields.ts";
import { accountOf } from "./account.ts";
import { codeOf, type ChartOptions, type Words } from "./frame.ts";
import {
  cloud,
  fillKey,
  fillOf,
  flaggedWords,
  swingWords,
  tally,
  type Cloud,
  type Frame,
  type SpokenSwing,
} from "./swings.ts";
import { bucketCodes } from "./theme.ts";
import { count } from "./text.ts";

/** A ball in its place, in the scales' units. */
export interface PlacedBall<Row extends SpokenSwing = SpokenSwing> {
  readonly row: Row;
  readonly x: number;
  readonly y: number;
  /** What pointing at it tells beside its numbers. */
  readonly more?: readonly string[];
}

/** Room about the picture of balls on two axes, px. */
export const axesMargin = { left: 46, right: 12, top: 24, bottom: 42 };

/** The balls as marks, each with its bucket as colour and shape. */
export const bucketCloud = (balls: readonly PlacedBall[], frame: Frame, options: ChartOptions): Cloud =>
  cloud(
    balls.map(({ row, x, y, more = [] }) => ({
      x,
      y,
      code: codeOf.bucket(row.bucket),
      ...fillOf(row),
      words: [swingWords(row, options.units), ...more].join(", "),
    })),
    frame,
    options.tip,
  );

/** What a chart of balls by bucket says beside what is common to them. */
export interface BucketWords {
  readonly title: string;
  /** What is seen: "Contact depth against spray". */
  readonly picture: string;
  /** How the balls are seen, after their count. */
  readonly seen?: string;
  /** What a ball that is left out lacks. */
  readonly missing: string;
  /** Before what is left out: at the foot, and in the text alternative. */
  readonly notes: readonly string[];
  readonly description: readonly string[];
}

/**
 * All words of a chart of balls by bucket.
 * @param drawn the balls drawn
 * @param all how many there were
 * @param swings the drawn ones' marks
 */
export function bucketWords(
  drawn: readonly (SpokenSwing & Pick<EnrichedSwing, "bucket">)[],
  all: number,
  swings: Cloud,
  { title, picture, seen = "", missing, notes, description }: BucketWords,
): Words {
  const account = accountOf(drawn, all, missing, swings);
  const balls = count(drawn.length, "swing");
  const split = tally(
    drawn.map((row) => row.bucket),
    buckets,
  );
  return {
    title,
    subtitle: [`${balls}${seen}`, ...flaggedWords(drawn)],
    key: [...buckets.map((name) => ({ label: name, code: bucketCodes[name] })), ...fillKey(drawn)],
    notes: [...notes, ...account.notes],
    description: [
      drawn.length ? `${picture} for ${balls}, by bucket: ${split}.` : `${picture}: no swings to draw.`,
      ...description,
      ...account.sentences,
    ],
  };
}
