/** The reports of a library: whose there are, what each file is called, and each as a page. The same in Node and a browser. */
import type { Thresholds } from "../contact/thresholds.ts";
import { fileNames } from "../library/fileName.ts";
import { withInitials } from "../library/initials.ts";
import type { Library } from "../library/library.ts";
import type { Trust } from "../setup/trust.ts";
import type { EnrichedSwing } from "../swing/fields.ts";
import { isUnread } from "../swing/problems.ts";
import { rowsInScope } from "../views/filter.ts";
import { sessionLists } from "../views/sessions.ts";
import { indexPage, reportPage, reportsTogether, type ReportOptions, type ReportSource } from "./page.ts";
import type { Made } from "./foot.ts";

/** What reports are made from. */
export type ReportLibrary = Omit<Library, "dir" | "names" | "fields">;

/** What is chosen for all reports of a call, as their feet keep it; names as the library spells them. */
export interface ReportChoices extends Omit<Made, "hitter" | "note" | "version" | "library"> {
  /** What the coach says, by hitter. */
  readonly notes: ReadonlyMap<string, string>;
}

/** What no choice of a reader changes. */
export type ReportMaker = Pick<ReportOptions, "document" | "version"> & { readonly letters: string };

/** What is worked out from all swings, once for all reports. */
export interface Worked {
  /** The library's swings, enriched, with the names that the reports show. */
  readonly rows: readonly EnrichedSwing[];
  readonly trust: ReadonlyMap<string, Trust>;
  readonly thresholds: Thresholds;
}

/** The library with the names that reports show. */
export const shownLibrary = <L extends ReportLibrary>(
  library: L,
  { initials }: Pick<ReportChoices, "initials">,
): L => (initials ? withInitials(library) : library);

/** A library's reports under one choice. */
export class Reports {
  /** Hitters with swings in the session or span, as the library spells them, in its order. */
  readonly hitters: readonly string[];
  private readonly library: ReportLibrary;
  private readonly choices: ReportChoices;
  private readonly worked: Worked;
  private readonly maker: ReportMaker;
  private readonly without: readonly string[];
  private readonly rowsBy = new Map<string, EnrichedSwing[]>();
  private readonly fileBy: ReadonlyMap<string, string>;
  /** The session, as the reports name it. */
  private readonly session: string | null;

  /**
   * @param given the library as it is
   * @param shown the same as `shownLibrary` makes it
   * @param worked what was worked out from `shown`
   */
  constructor(
    given: ReportLibrary,
    shown: ReportLibrary,
    choices: ReportChoices,
    worked: Worked,
    maker: ReportMaker,
  ) {
    this.library = shown;
    this.worked = worked;
    this.maker = maker;
    this.without = shown.problems.filter(isUnread).map(({ file }) => file);
    const shownAs = new Map<string, string>();
    given.swings.forEach(({ hitter }, i) => {
      const own = this.rowsBy.get(hitter);
      if (own === undefined) this.rowsBy.set(hitter, [worked.rows[i]!]);
      else own.push(worked.rows[i]!);
      shownAs.set(hitter, shown.swings[i]!.hitter);
    });
    const every = [...this.rowsBy.keys()];
    const files = fileNames(
      every.map((hitter) => shownAs.get(hitter)!),
      "report",
    );
    this.fileBy = new Map(every.map((hitter, i) => [hitter, files[i]!]));
    // The session, too, may hold a name; a pitcher is one.
    const at = choices.session === null ? -1 : given.swings.findIndex((s) => s.session === choices.session);
    const thrown =
      choices.pitcher == null ? -1 : given.swings.findIndex((s) => s.pitcher === choices.pitcher);
    this.choices = thrown < 0 ? choices : { ...choices, pitcher: shown.swings[thrown]!.pitcher };
    this.session = at < 0 ? choices.session : shown.swings[at]!.session;
    this.hitters = every.filter((hitter) => this.within(hitter).length > 0);
  }

  private within(hitter: string): readonly EnrichedSwing[] {
    const own = rowsInScope(this.rowsBy.get(hitter) ?? [], this.library, this.choices);
    return this.session === null ? own : own.filter((row) => row.session === this.session);
  }

  /** The name of a hitter's file. */
  file(hitter: string): string {
    return this.fileBy.get(hitter)!;
  }

  /** A hitter as the reports name them. */
  shown(hitter: string): string {
    return this.rowsBy.get(hitter)![0]!.hitter;
  }

  private parts(hitter: string): readonly [ReportSource, ReportOptions] {
    const { library, worked, choices, maker } = this;
    const shown = this.shown(hitter);
    const source = {
      ...library,
      ...worked,
      hitter: shown,
      listed: library.hitters.find((row) => row.hitter === shown) ?? null,
      rows: this.rowsBy.get(hitter)!,
      unread: this.without,
    };
    const { notes, units, ...rest } = choices;
    const note = notes.get(hitter) ?? null;
    return [source, { ...rest, ...maker, system: units, session: this.session, note }];
  }

  /** A hitter's report, a whole HTML document. */
  page(hitter: string): string {
    return reportPage(...this.parts(hitter));
  }

  /** Several hitters' reports in one document, to be printed at once. */
  together(hitters: readonly string[]): string {
    return reportsTogether(hitters.map((hitter) => this.parts(hitter)));
  }

  /** The page that leads to hitters' reports. */
  index(hitters: readonly string[]): string {
    const pages = hitters.map((hitter) => {
      const own = this.within(hitter);
      const latest = sessionLists(own, this.library.sessions).at(-1)?.date ?? null;
      return { hitter: this.shown(hitter), file: this.file(hitter), swings: own.length, latest };
    });
    const { letters } = this.maker;
    return indexPage(pages, this.without, { letters, color: this.choices.color });
  }
}
