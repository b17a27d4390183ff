/** A hitter's drill report: one HTML file that needs nothing else, on screen, on a phone or on two printed pages. */
import type { Thresholds } from "../contact/thresholds.ts";
import { withoutDoubtful } from "../contact/flags.ts";
import type { Trust } from "../setup/trust.ts";
import { inputs, type EnrichedSwing, type Hitter, type Session, type Target } from "../swing/fields.ts";
import { changeSince } from "../views/change.ts";
import { headline, type Headline } from "../views/headline.ts";
import { ceilingOverAll, filterWords } from "../views/sentences/filter.ts";
import { changeSentence } from "../views/sentences/report.ts";
import { rowsInScope, type SwingScope } from "../views/filter.ts";
import { rowsInSpan, sessionLists } from "../views/sessions.ts";
import { inPlay, ofInput } from "../views/swings.ts";
import { targetResult } from "../views/target.ts";
import type { UnitSystem } from "../units/system.ts";
import { zoneCells, type ZoneOptions } from "../views/zone.ts";
import { airWords } from "./air.ts";
import { documentOf } from "./document.ts";
import { cautions } from "../views/cautions.ts";
import { progress } from "../season/progress.ts";
import { changesSection } from "./changes.ts";
import { foot, type SourceFile } from "./foot.ts";
import { html, type Markup } from "./html.ts";
import { firstScreen, mainTarget } from "./firstScreen.ts";
import { monthOf, monthSpan } from "./month.ts";
import { picturesOf } from "./pictures.ts";
import { seasonSection } from "./season.ts";
import { sheetStyle, style } from "./style.ts";
import type { ReportSize } from "./sizes.ts";
import { targetsSection } from "./targets.ts";
import { trustLine, trustOfRows, trustSection } from "./trust.ts";
import { viewsOf, viewsSection } from "./workViews.ts";
import { counted } from "../swing/words.ts";

type Rows = readonly EnrichedSwing[];

/** What a report is made from. */
export interface ReportSource {
  readonly hitter: string;
  /** The hitter's row of hitters.csv, where there is one. */
  readonly listed: Hitter | null;
  /** All of this hitter's swings, enriched: those before the session reported on are what it is compared with. */
  readonly rows: Rows;
  readonly sessions: readonly Session[];
  readonly targets: readonly Target[];
  readonly thresholds: Thresholds;
  readonly files: readonly SourceFile[];
  /** What the checks say of each session of the whole library; a session that isn't there was compared with none. */
  readonly trust: ReadonlyMap<string, Trust>;
  /** Files of the library that could not be read; none when not given. */
  readonly unread?: readonly string[];
}

/** How a report is made: of a session, or of a scope's swings. */
export interface ReportOptions extends SwingScope {
  /** Where the charts are drawn: in Node, a jsdom window's. */
  readonly document: Document;
  /** The kit's version, for the foot. */
  readonly version: string;
  /** The session reported on; every session when not given. */
  readonly session?: string | null;
  readonly system?: UnitSystem;
  /** Whether rows whose readings are in doubt are left out of every figure; their count is shown either way. */
  readonly withoutFlagged?: boolean;
  /** Whether names stand in it as initials, for the foot. */
  readonly initials?: boolean;
  /** How much of it is wanted; everything when not given. */
  readonly size?: ReportSize;
  /** Whose house it is, and its colour, `#rrggbb`. */
  readonly facility?: string | null;
  readonly color?: string | null;
  /** What the coach says to this hitter. */
  readonly note?: string | null;
  /** The faces that the page carries in itself, as a style sheet; the reader's own when not given. */
  readonly letters?: string;
}

/** A report's parts: what its title and every printed page say, and what stands in it. */
interface Sheet {
  readonly running: string;
  readonly body: Markup;
}

/**
 * A hitter's report.
 * @returns a whole HTML document, without script and without anything to fetch
 */
export function reportPage(source: ReportSource, options: ReportOptions): string {
  const { running, body } = sheetOf(source, options);
  const { letters = "", color = null } = options;
  return documentOf(`Drill report: ${source.hitter}`, style({ running, letters, color }), body);
}

/**
 * Several hitters' reports in one document, to be printed at once: each begins a page, and its hitter's name stands on
 * every one of its pages.
 * @param each a report's source and options; letters and colour are the first one's
 */
export function reportsTogether(each: readonly (readonly [ReportSource, ReportOptions])[]): string {
  const sheets = each.map(([source, options]) => sheetOf(source, options));
  const { letters = "", color = null } = each[0]?.[1] ?? {};
  const running = sheets.map((sheet) => sheet.running);
  return documentOf(
    "Drill reports",
    `${style({ running: "Drill reports", letters, color })}\n${sheetStyle(running)}`,
    html`${sheets.map(({ body }) => html`<div class="sheet">${body}</div>`)}`,
  );
}

function sheetOf(source: ReportSource, options: ReportOptions): Sheet {
  const { session = null, since = null, until = null, system = "us", withoutFlagged = false } = options;
  const { drill = null, pitch_type = null, pitch_speed_mph = null, pitcher = null } = options;
  const conditions = { drill, pitch_type, pitch_speed_mph, pitcher };
  const { size = "everything", facility = null, color = null, note = null, document } = options;
  const { hitter, sessions, thresholds } = source;
  const days = size === "month" ? monthSpan(source, { since, until }) : { since, until };
  const reported = rowsInScope(source.rows, source, { ...conditions, ...days });
  const all = session === null ? reported : reported.filter((r) => r.session === session);
  // What lies before is compared with, and nothing that came after.
  const before = rowsInSpan(source.rows, sessions, { until });
  const known = rowsInScope(before, source, conditions);
  const counting = (some: Rows): Rows => (withoutFlagged ? withoutDoubtful(some).kept : some);
  const rows = counting(all);
  const trust = trustOfRows(all, sessions, source.trust);
  const turned = new Set(
    [...source.trust.values(), ...trust].flatMap((t) => (t.turnedBack ? [t.session] : [])),
  );
  const zone: ZoneOptions = { height_in: source.listed?.height_in ?? null, zone: thresholds };
  const drills = new Set(rows.map((r) => r.drill));
  const targets = source.targets.filter((t) => drills.has(t.drill)).map((t) => targetResult(rows, t));
  const within = new Set(all.map((r) => r.session));
  const changes = changeSince(counting(known), sessions, session).filter(({ to }) => within.has(to.session));
  const upTo = session === null ? null : (sessions.find((s) => s.session === session)?.date ?? null);
  const season = progress(
    {
      swings: before,
      sessions,
      hitters: source.listed === null ? [] : [source.listed],
      thresholds,
    },
    hitter,
    { ...conditions, until: upTo },
  );
  const views = viewsOf(rows, { ...zone, sessions, thresholds });
  const cells = zoneCells(rows, zone);
  const main = mainTarget(targets);
  const window =
    main === null
      ? null
      : { met: main, window: source.targets.find((target) => target.drill === main.drill)! };
  const pictures = picturesOf({
    rows,
    sessions,
    thresholds,
    views,
    cells,
    target: window,
    system,
    document,
  });
  const said = headline(rows, { targets, changes, zone, system });
  const brief = size === "sentence";
  const words = filterWords(conditions, system);
  const only = words === "" ? null : `Only ${words}${words.endsWith(".") ? "" : "."} ${ceilingOverAll}`;
  const made = {
    ...{ hitter, session, since, until, size, units: system, withoutFlagged },
    ...{ initials: options.initials === true, facility, color, note },
    ...Object.fromEntries(Object.entries(conditions).filter(([, value]) => value !== null)),
  };
  const house = facility === null ? "" : ` · ${facility}`;
  if (size === "month")
    return {
      running: `A month of hitting: ${hitter}${house}`,
      body: html`<main class="month">
        ${unreadNote(source.unread ?? [])}
        ${monthOf({ hitter, rows, known: counting(known), sessions, thresholds, listed: source.listed, span: days, next: said.next, coach: coachNote(note), facility, system, document })}
        ${careSection(all, sessions)} ${foot({ ...source, rows, system, version: options.version, made })}
      </main>`,
    };
  return {
    running: `Drill report: ${hitter}${house}`,
    body: html`<main class="${size}">
      ${unreadNote(source.unread ?? [])}
      ${headerOf(source, rows, session, facility, only, trustLine(trust, all, withoutFlagged, document))}
      ${firstScreen({
        hitter,
        rows,
        targets,
        next: said.next,
        changed:
          changes.length === 0
            ? null
            : changes.flatMap((table) =>
                table.changes.flatMap((c) => changeSentence(c, table, system) ?? []),
              ),
        picture: pictures.first,
        swings: pictures.strip,
        system,
        size,
        coach: coachNote(note),
      })}
      ${
        !brief &&
        html`<div class="row">
          ${headlineSection(said)}
          <figure class="third">${pictures.contact}</figure>
          ${
            pictures.zone === null
              ? html`<p class="third note">No contact point was measured: there is no map of the zone.</p>`
              : html`<figure class="third">${pictures.zone}</figure>`
          }
        </div>`
      }
      ${
        size === "everything" &&
        html`${targetsSection(targets, system, rows)} ${viewsSection(views, system, pictures.views, rows)}
        ${changesSection(changes, system, turned)} ${seasonSection(season, system)}`
      }
      ${careSection(all, sessions)} ${size === "everything" && trustSection(trust, all, document)}
      <p class="row note"><span>Air: ${airWords(rows, sessions, system)}</span></p>
      ${foot({ ...source, rows, system, version: options.version, made })}
    </main>`,
  };
}

/** What the coach says to this hitter. */
function coachNote(note: string | null): Markup | null {
  if (note === null || note.trim() === "") return null;
  return html`<div class="coach"><b>From the coach</b> <span>${note.trim()}</span></div>`;
}

/** On its face: what the report is made without. */
function unreadNote(files: readonly string[]): Markup | false {
  return (
    files.length > 0 &&
    html`<p class="unread">
      Not everything could be read, and swings may be missing here:
      ${files.map((file, i) => html`${i > 0 && ", "}<bdi>${file}</bdi>`)}.
    </p>`
  );
}

function headerOf(
  { hitter, listed, sessions }: ReportSource,
  rows: Rows,
  session: string | null,
  facility: string | null,
  only: string | null,
  trust: Markup,
): Markup {
  const days = sessionLists(rows, sessions);
  const dates = days.flatMap((d) => (d.date === null ? [] : [d.date]));
  const span =
    dates.length === 0
      ? "no dates given"
      : dates[0] === dates.at(-1)
        ? dates[0]!
        : `${dates[0]} to ${dates.at(-1)}`;
  const counts = inputs
    .map((input) => [input, ofInput(rows, input).length] as const)
    .filter(([, n]) => n > 0);
  const who = [
    listed?.bats && { L: "bats left", R: "bats right", S: "bats from both sides" }[listed.bats],
    listed?.level,
  ].filter((w): w is string => Boolean(w));
  return html`<header>
    ${facility !== null && html`<p class="house"><bdi>${facility}</bdi></p>`}
    <h1>Drill report: <bdi>${hitter}</bdi></h1>
    <p>
      <b>${span}</b>${
        session === null ? `, ${counted(days.length, "session")}` : html`, session <bdi>${session}</bdi>`
      }${who.length > 0 && `; ${who.join(", ")}`}. <b>${counted(rows.length, "row")}</b>:
      ${counts.map(([input, n]) => `${input} ${n}`).join(", ") || "none"};
      ${counted(inPlay(rows).length, "ball")} in play.${only !== null && html` ${only}`}
    </p>
    ${trust}
  </header>`;
}

function headlineSection({ facts }: Headline): Markup {
  return html`<section class="headline third">
    <h2>In short</h2>
    ${
      facts.length > 0 &&
      html`<ul>
        ${facts.map((fact) => html`<li>${fact}</li>`)}
      </ul>`
    }
  </section>`;
}

function careSection(rows: Rows, sessions: readonly Session[]): Markup {
  const days = sessionLists(rows, sessions);
  const most = days.reduce((a, d) => Math.max(a, d.rows.filter((r) => r.outcome !== "take").length), 0);
  return html`<section class="row care">
    <h2>Before anyone swings</h2>
    <p>${most > 0 && `Most swings in one session here: ${most}. `}${cautions.join(" ")}</p>
  </section>`;
}

/** One report in the list of them. */
export interface Listed {
  readonly hitter: string;
  readonly file: string;
  readonly swings: number;
  readonly latest: string | null;
}

/**
 * The page that leads to each hitter's report.
 * @param reports file names as `fileNames` makes them: letters, digits and hyphens
 * @param unread files of the library that could not be read
 */
export function indexPage(
  reports: readonly Listed[],
  unread: readonly string[] = [],
  look: { readonly letters?: string; readonly color?: string | null } = {},
): string {
  return documentOf(
    "Drill reports",
    style({ running: "Drill reports", letters: "", ...look }),
    html`<main>
      ${unreadNote(unread)}
      <header><h1>Drill reports</h1></header>
      <section class="row">
        <table>
          <thead>
            <tr>
              <th>Hitter</th>
              <th>Rows</th>
              <th>Latest session</th>
            </tr>
          </thead>
          <tbody>
            ${reports.map(
              ({ hitter, file, swings, latest }) =>
                html`<tr>
                  <th>
                    <a href="${encodeURIComponent(file)}"><bdi>${hitter}</bdi></a>
                  </th>
                  <td>${swings}</td>
                  <td>${latest ?? "no date"}</td>
                </tr> `,
            )}
          </tbody>
        </table>
      </section>
    </main>`,
  );
}
