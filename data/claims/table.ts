/** What was found against what is asked, as the developers' page has it: one line a claim, its settings by sessions. */
import { share } from "../../src/stats/share.ts";
import { verdictOf, type Claims, type Wanted } from "./line.ts";

const told: readonly { readonly words: string; readonly line: RegExp; readonly what: RegExp }[] = [
  {
    words: "same swings live: power kept or a bucket called clear",
    line: /^same-swings$/,
    what: /^(power_kept|share_\w+) clear$/,
  },
  {
    words: "the same, level unknown or 10 mph off",
    line: /^same-swings-/,
    what: /^(power_kept|share_\w+) clear$/,
  },
  {
    words: "same swings live: another measure called clear",
    line: /^same-swings/,
    what: /^(launch|spray|line_drive)\w+ clear$/,
  },
  {
    words: "the page finds live off the pitch's work",
    line: /^same-swings/,
    what: /^page says that live is off/,
  },
  {
    words: "“no clear difference” over a clear one",
    line: /^(same-swings|equal-parts)/,
    what: /^page says no clear difference/,
  },
  { words: "gap beyond the pitch held", line: /^same-swings/, what: /^gap beyond the pitch holds$/ },
  { words: "gap held, two unequal live sessions", line: /^two-uneven/, what: /holds$/ },
  { words: "a list of eight alike: any clear pair", line: /^list$/, what: /a clear pair$/ },
  { words: "pooled gaps held, τ 0 mph", line: /^pooled-0$/, what: /: pooled gap holds$/ },
  { words: "pooled gaps held, τ 1 mph", line: /^pooled-1$/, what: /: pooled gap holds$/ },
  { words: "pooled gaps held, τ 3 mph", line: /^pooled-3$/, what: /: pooled gap holds$/ },
  { words: "one of two equal parts named alone", line: /^equal-parts$/, what: /^one of two equal/ },
  { words: "a number of swings named, no hitter differing", line: /^stabilizes$/, what: /^a line that says/ },
  { words: "report's mean exit velocity held", line: /^report-figures$/, what: /^tee view: mean exit/ },
  { words: "clean or flush share held", line: /^report-figures$/, what: /^live view: clean or flush/ },
  { words: "power kept (median) held", line: /^report-figures$/, what: /power[ _]kept holds$/ },
  { words: "spread of launch angle held", line: /^report-figures$/, what: /^spread of launch angle/ },
  {
    words: "“balls met X” named, place costing nothing",
    line: /^(report-figures|changes)$/,
    what: /balls met somewhere/,
  },
  {
    words: "a line of the change table called a change, nothing changed",
    line: /^changes$/,
    what: /^a line of the change table/,
  },
  { words: "a report that repeats such a change", line: /^changes$/, what: /^in short/ },
  { words: "exit velocity called off, tracker still", line: /^drift/, what: /exit velocity/ },
  { words: "any session called moved, tracker still", line: /^drift/, what: /called moved$/ },
];

function askedWords(wanted: Wanted): string {
  if ("told" in wanted) return "";
  const percent = (v: number): string => `${Math.round(100 * v)}`;
  return "most" in wanted ? `≤ ${percent(wanted.most)}` : `${percent(wanted.low)} to ${percent(wanted.high)}`;
}

/**
 * The rows: what, how many libraries were made up, in percent (of how many) at two, three and eight sessions, what is
 * asked, and whether all together reach it, give or take what so many libraries leave to chance. A line that wasn't run is left out.
 * @example tableRows({ about: "", lines: [] }) // []
 */
export function tableRows({ lines }: Claims): string[][] {
  return told.flatMap(({ words, line, what }) => {
    const own = lines.filter((l) => line.test(l.name) && l.found.some((f) => what.test(f.what)));
    const libraries = own.reduce((sum, l) => sum + l.runs * l.settings.length, 0);
    const found = own
      .flatMap((l) =>
        l.found
          .filter((f) => what.test(f.what))
          .flatMap((f) =>
            f.n.map((n, i) => ({ count: f.count[i]!, n, wanted: f.wanted, sessions: l.settings[i]![1] })),
          ),
      )
      .filter(({ n }) => n > 0);
    if (found.length === 0) return [];
    const over = (some: typeof found) =>
      share(
        some.reduce((sum, { count }) => sum + count, 0),
        some.reduce((sum, { n }) => sum + n, 0),
      );
    const cell = (sessions: number): string => {
      const s = over(found.filter((f) => f.sessions === sessions));
      return s.share === null ? "" : `${(100 * s.share).toFixed(1)} (${s.n})`;
    };
    const { wanted } = found[0]!;
    const all = over(found);
    // Figures of one library hang together: chance goes by libraries.
    const n = Math.min(all.n, libraries);
    const apart = share(Math.round(all.share! * n), n);
    const verdict = { within: "yes", near: "within chance", outside: "no", told: "" }[
      verdictOf(all, wanted) === "within" ? "within" : verdictOf(apart, wanted)
    ];
    return [[words, `${libraries}`, cell(2), cell(3), cell(8), askedWords(wanted), verdict]];
  });
}

/** The table in Markdown. */
export function tableText(claims: Claims): string {
  const head = ["in percent (of how many)", "libraries", "2 sessions", "3", "8", "asked", "reached"];
  const rows = [head, head.map(() => "---"), ...tableRows(claims)];
  return rows.map((cells) => `| ${cells.join(" | ")} |`).join("\n");
}
