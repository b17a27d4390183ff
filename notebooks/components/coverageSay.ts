/** How often the gap's intervals cover the truth in simulated teams: data/gap-coverage.json, in words. */
import type { Coverage, Judged } from "../../src/gap/simulate.ts";
import kept from "../../data/claims.json" with { type: "json" };
import { verdictOf, type Claims, type Wanted } from "../../data/claims/line.ts";
import { share, type Share } from "../../src/stats/share.ts";
import { rangeWords } from "../../src/views/words.ts";
import { counted } from "../../src/swing/words.ts";

/** What was counted of hitters made up otherwise; a file of JSON knows no tuples. */
export const claims = kept as unknown as Claims;

/** What is asked of a 95 % interval. */
export const asked = { low: 0.92, high: 0.97 };

/** What the simulation found: the settings of one team, and those of others. */
export interface Simulated {
  readonly rows: readonly Coverage[];
  readonly others: readonly (Coverage & { readonly team: string })[];
}

/** One figure at one setting that is held too seldom or too often. */
export interface Outside {
  readonly row: Coverage;
  readonly figure: Judged;
  readonly share: number;
}

/**
 * Figures held outside of what is asked by more than the simulation's own chance: not even the interval of the
 * share reaches it.
 * @example outside([]) // []
 */
export function outside(rows: readonly Coverage[]): Outside[] {
  return rows.flatMap((row) =>
    (Object.entries(row.held) as [Judged, Share][]).flatMap(([figure, { share, low, high }]) =>
      share !== null && (high! < asked.low || low! > asked.high) ? [{ row, figure, share }] : [],
    ),
  );
}

/** The lowest and the highest of some shares, in percent: "93.8 to 97.6%". */
function percents(shares: readonly (number | null)[]): string {
  const known = shares.filter((s): s is number => s !== null).map((s) => (100 * s).toFixed(1));
  const [low, high] = [Math.min(...known.map(Number)), Math.max(...known.map(Number))];
  return low === high ? `${low.toFixed(1)}%` : `${low.toFixed(1)} to ${high.toFixed(1)}%`;
}

const sides = ({ swings, sessions }: Coverage): string =>
  `${swings} swings a side, ${counted(sessions, "session")}`;

const outsideWords = ({ row, figure, share }: Outside): string =>
  `${figure} at ${sides(row)}, days differing by ${row.day_sd_mph} mph: ${(100 * share).toFixed(1)}%.`;

/** Two or three sessions can't show that days are alike: their intervals may be too wide, not too narrow. */
const fewSessions = 3;

/** Whether a figure is held more often than asked, for want of sessions. */
const wideForFew = ({ row, share }: Outside): boolean =>
  share > asked.high && row.sessions > 1 && row.sessions <= fewSessions;

/** How often figures of several lines are held, all taken together; one figure's, or all. */
function heldOver(rows: readonly Coverage[], figure: Judged | null = null): Share {
  const all = rows.flatMap(({ held }) => (figure === null ? Object.values(held) : [held[figure]]));
  return share(
    all.reduce((sum, { count }) => sum + count, 0),
    all.reduce((sum, { n }) => sum + n, 0),
  );
}

/** What the reader must know of the table: its range, what lies outside, and what can't be told. One sentence each. */
export function coverageNotes({ rows, others }: Simulated): string[] {
  const held = rows.flatMap((row) => Object.values(row.held).map(({ share }) => share));
  const far = outside(rows);
  const rest = far.filter((o) => !wideForFew(o));
  const chance = Math.max(...rows.map(({ hitters }) => 196 * Math.sqrt((0.95 * 0.05) / hitters)));
  const notes = [
    `In the table, of ${Math.min(...rows.map(({ hitters }) => hitters))} hitters a line, the gap and its parts are held ${percents(held)} of the time, each give or take ${chance.toFixed(1)} points of the simulation's own chance.`,
  ];
  const few2 = heldOver(rows.filter(({ sessions }) => sessions === 2));
  const few3 = heldOver(rows.filter(({ sessions }) => sessions === fewSessions));
  if (Math.max(few2.share ?? 0, few3.share ?? 0) > asked.high)
    notes.push(
      `Not reached where a side has two or three sessions: so few can't show that days are alike, so the intervals are wider than asked there, and cover the truth ${percents([few2.share])} of the time over two and ${percents([few3.share])} over three.`,
    );
  notes.push(
    rest.length === 0
      ? `None ${few2.n > 0 ? "of the others " : ""}lies outside of 92 to 97% by more than that chance.`
      : `Outside of 92 to 97% by more than that chance: ${rest.map(outsideWords).join(" ")}`,
  );
  const few = rows.filter(({ held: { place } }) => place.n === 0);
  if (few.length > 0) {
    const widths = few.flatMap(({ width_mph }) => width_mph ?? []);
    notes.push(
      `With ${few[0]!.swings} swings a side place can't be told: no two parts of the zone have enough balls on both sides. The interval of the gap is ${rangeWords(Math.min(...widths), Math.max(...widths), "mph", "us")} wide: it covers the truth, and says little more than that.`,
    );
  }
  const some = rows.filter(({ held: { place }, hitters }) => place.n > 0 && place.n < 0.9 * hitters);
  if (some.length > 0)
    notes.push(
      `With ${some[0]!.swings} place is told for ${percents(some.map((r) => r.held.place.n / r.hitters))} of the hitters, and for the others its part is left in contact.`,
    );
  const days = rows.filter(({ heldAcrossDays, day_sd_mph }) => heldAcrossDays !== null && day_sd_mph > 0);
  if (days.length > 0)
    notes.push(
      `One session a side tells of those two days. The hitter's own gap, days aside, is covered ${percents(days.map((r) => r.heldAcrossDays!.share))} of the time where days differ: the more swings, the narrower and the further off. Only another session helps.`,
    );
  const elsewhere = outside(others);
  // Where place is held too often at all settings together, not for want of sessions alone.
  const always = new Set(
    others
      .map(({ team }) => team)
      .filter(
        (name) =>
          (heldOver(
            others.filter(({ team }) => team === name),
            "place",
          ).low ?? 0) > asked.high,
      ),
  );
  const nothing = others.filter(({ team }) => always.has(team));
  notes.push(
    `In teams made up otherwise, in the second table, the gap and its parts other than place are held ${percents(others.flatMap(({ held: { place: _, ...rest } }) => Object.values(rest).map(({ share }) => share)))} of the time.`,
  );
  if (nothing.length > 0)
    notes.push(
      `Place is held ${percents(nothing.map(({ held }) => held.place.share))} of the time where in truth it is nothing at all (${[...always].join("; ")}), and ${percents(others.filter((row) => !nothing.includes(row)).map((row) => row.held.place.share))} elsewhere. It is a product, change of share times difference of means. Where both could be nothing, the swings don't tell how much smaller still their product is, and an interval made narrow enough for that would miss where place is something.`,
    );
  const besides = elsewhere.filter(
    (o) => !wideForFew(o) && !(o.figure === "place" && nothing.some((row) => row === o.row)),
  );
  if (besides.length > 0) notes.push(`Outside there: ${besides.map(outsideWords).join(" ")}`);
  return notes;
}

/** What the page tells of the hitters made up otherwise: a line's figures, and the sentence that they make. */
const claimed: readonly {
  readonly line: RegExp;
  readonly what: RegExp;
  readonly words: (percent: string, hitters: string) => string;
}[] = [
  {
    line: /^same-swings$/,
    what: /^(power_kept|share_\w+) clear$/,
    words: (p, n) =>
      `Where live is the same swing and only the pitch's part is on top, ${p} of the gaps in power kept and buckets are called clear (${n} gaps).`,
  },
  {
    line: /^same-swings$/,
    what: /^page says that live is off/,
    words: (p, n) =>
      `There the answer finds a difference beyond the pitch's part for ${p} of the hitters (${n}).`,
  },
  {
    line: /^(same-swings|two-uneven-sessions)$/,
    what: /^gap beyond the pitch holds$/,
    words: (p, n) =>
      `The interval of the gap beyond the pitch's part covers the truth ${p} of the time (${n}).`,
  },
  {
    line: /^list$/,
    what: /: a clear pair$/,
    words: (p, n) =>
      `Of lists of eight hitters none of whom differs, ${p} have a pair that is called clear (${n} lists).`,
  },
  {
    line: /^pooled-/,
    what: /^[^:]*τ \d mph: pooled gap holds$/,
    words: (p, n) => `Intervals of gaps pooled with the group cover the truth ${p} of the time (${n}).`,
  },
  {
    line: /^equal-parts$/,
    what: /^one of two equal parts named alone$/,
    words: (p, n) =>
      `Where two parts cost the same, one of them is named alone for ${p} of the hitters (${n}).`,
  },
  {
    line: /^stabilizes$/,
    what: /^a line that says/,
    words: (p, n) => `Where no hitter differs, ${p} of the lines still name a number of swings (${n} lines).`,
  },
];

function askedWords(asked: Wanted): string {
  if ("told" in asked) return "nothing";
  const percent = (v: number): string => `${Math.round(100 * v)}%`;
  return "most" in asked
    ? `${percent(asked.most)} at most`
    : `${Math.round(100 * asked.low)} to ${percent(asked.high)}`;
}

/**
 * What was found of hitters made up unlike those of the tables (data/claims/): one sentence a figure, over all
 * settings, what is asked of it, and whether that is reached.
 * @example claimsNotes({ about: "", lines: [] }) // []
 */
export function claimsNotes({ lines }: Claims): string[] {
  return claimed.flatMap(({ line, what, words }) => {
    const own = lines
      .filter((l) => line.test(l.name))
      .flatMap((l) => l.found.filter((f) => what.test(f.what)))
      .flatMap((f) => f.n.map((n, i) => ({ count: f.count[i]!, n, wanted: f.wanted })))
      .filter(({ n }) => n > 0);
    const [count, n] = [own.reduce((a, f) => a + f.count, 0), own.reduce((a, f) => a + f.n, 0)];
    if (n === 0) return [];
    const asked = own[0]!.wanted;
    const missed = own.filter((f) => verdictOf(share(f.count, f.n), asked) === "outside").length;
    const result =
      verdictOf(share(count, n), asked) === "outside"
        ? " That is not reached."
        : missed > 0
          ? ` ${missed} of ${own.length} settings ${missed === 1 ? "misses" : "miss"} that by more than the simulation's own chance.`
          : "";
    return [
      `${words(`${((100 * count) / n).toFixed(1)}%`, n.toLocaleString("en"))} Asked: ${askedWords(asked)}.${result}`,
    ];
  });
}
