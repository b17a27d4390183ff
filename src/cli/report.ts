/** `batted report`: drill reports to hand out, one HTML file a hitter and a page that leads to them. */
import { Option, type Command } from "commander";
import { quoted } from "../swing/problems.ts";
import type { UnitSystem } from "../units/system.ts";
import { Fault } from "./errors.ts";
import { filterMeant, noneLeft, withFilter, type FilterCall } from "./filtering.ts";
import { libraryMeant } from "./library.ts";
import { nameMeant } from "./names.ts";
import type { ReportChoices, Reports } from "../report/reports.ts";
import { reportSizes, type ReportSize } from "../report/sizes.ts";
import type { Out } from "./out.ts";
import { unitsOption } from "./units.ts";
import { tellOfLibrary } from "./source.ts";

interface Call extends FilterCall {
  readonly library: string;
  readonly hitter?: string;
  readonly pitcherSheet?: string;
  readonly session?: string;
  readonly size: ReportSize;
  readonly facility?: string;
  readonly color?: string;
  readonly note?: ReadonlyMap<string, string>;
  readonly output?: string;
  readonly again?: string;
  readonly units: UnitSystem;
  readonly initials?: true;
  readonly withoutFlagged?: true;
  readonly charts?: true;
  readonly json?: true;
}

/** A call that may leave out the library. */
type Given = Omit<Call, "library"> & { readonly library?: string };

/** Describes the command. */
export function register(program: Command, out: Out): void {
  withFilter(
    program
      .command("report")
      .description("drill reports as self-contained HTML: one file a hitter, and a page that leads to them")
      .option("--library <dir>", "the library's folder (default: data/demo)")
      .option("--hitter <name>", "this hitter alone")
      .option(
        "--pitcher-sheet <name>",
        "a sheet for this pitcher instead: what hitters did, live, by pitch, speed and place",
      )
      .option("--session <id>", "this session alone, compared with the one before"),
  )
    .addOption(
      new Option("--size <size>", "one sentence and a picture, one page, everything, or a month for a parent")
        .choices([...reportSizes])
        .default("everything"),
    )
    .option("--facility <name>", "whose house it is, at the head of every page")
    .option("--color <color>", "the facility's color, such as #1f5f8b")
    .addOption(
      new Option(
        "--note <hitter=text>",
        "what the coach says to a hitter; may be given again for others",
      ).argParser(withNote),
    )
    .option("-o, --output <dir>", "the folder to write into; made when absent")
    .option(
      "--again <file>",
      "make this report again, as its foot says it was made, and say whether it is the same",
    )
    .addOption(unitsOption())
    .option(
      "--without-flagged",
      "leave rows whose readings are in doubt out of every figure, and say how many",
    )
    .option("--initials", "initials instead of the hitters' names")
    .option("--charts", "each report's charts as well, as SVG and PNG, in a folder of its name")
    .option("--json", "list the files as JSON")
    .action(async (given: Given) => {
      const call: Call = { ...given, library: libraryMeant(given.library) };
      if (call.again !== undefined) return makeAgain(out, call, call.again);
      if (call.output === undefined)
        throw new Fault("Name the folder that the reports go into: --output DIR.", 2);
      const written = { ...call, output: call.output };
      const files =
        call.pitcherSheet === undefined
          ? await writeReports(out, written)
          : await writePitcher(out, { ...written, pitcherSheet: call.pitcherSheet });
      if (call.json === true) out.json({ files });
      else for (const { file, hitter } of files) out.print(hitter === null ? file : `${file}  (${hitter})`);
    });
}

function withNote(text: string, before: ReadonlyMap<string, string> = new Map()): Map<string, string> {
  const at = text.indexOf("=");
  if (at < 1 || text.slice(at + 1).trim() === "")
    throw new Fault(
      `--note takes a hitter and a text, like "Ana K.=Keep your head still.", not ${quoted(text)}.`,
      2,
    );
  return new Map([...before, [text.slice(0, at).trim(), text.slice(at + 1).trim()]]);
}

interface Written {
  readonly file: string;
  /** Null for the page that leads to the reports. */
  readonly hitter: string | null;
}

/** A library with all that any of its reports is made from. */
async function madeReady(out: Out, call: Pick<Call, "library" | "initials">) {
  const [{ openLibrary }, { enrich }, { thresholdsFrom }, { trustBySession }, { withInitials }] =
    await Promise.all([
      import("../library/library.ts"),
      import("../contact/enrich.ts"),
      import("../contact/thresholds.ts"),
      import("../setup/trust.ts"),
      import("../library/initials.ts"),
    ]);
  const opened = await openLibrary(call.library);
  await tellOfLibrary(out, opened);
  if (opened.swings.length === 0) throw new Fault(`${call.library} holds no swings.`, 1);
  const shown = call.initials === true ? withInitials(opened) : opened;
  return {
    opened,
    shown,
    /** Makes the pages: Plot and a document are the slow part of starting, and only a call that is right waits for them. */
    async reports(choices: ReportChoices): Promise<Reports> {
      const [{ Reports }, { fontFaces }, { version }, { JSDOM }] = await Promise.all([
        import("../report/reports.ts"),
        import("../report/fonts.ts"),
        import("../library/version.ts"),
        import("jsdom"),
      ]);
      const { document } = new JSDOM("").window;
      // Ceilings come from all swings of a hitter, and trust from the sessions of all hitters: all are enriched.
      const rows = enrich(shown);
      const trust = trustBySession(rows, shown.sessions);
      const worked = { rows, trust, thresholds: thresholdsFrom(shown.thresholds) };
      const maker = { document, version, letters: fontFaces() };
      return new Reports(opened, shown, choices, worked, maker);
    },
  };
}

/** Into a folder, never under a file's name. */
function folderMeant({ output }: { readonly output: string }): string {
  if (/\.html?$/i.test(output))
    throw new Fault(`${quoted(output)} is a file's name: reports go into a folder, one file a hitter.`, 2);
  return output;
}

/** A pitcher's sheet: one file. */
async function writePitcher(
  out: Out,
  call: Call & { readonly output: string; readonly pitcherSheet: string },
): Promise<Written[]> {
  if (call.hitter !== undefined || call.session !== undefined || call.pitcher !== undefined)
    throw new Fault(
      "A pitcher's sheet is of all hitters and sessions, and held against all pitchers: leave out --hitter, --session and --pitcher.",
      2,
    );
  const folder = folderMeant(call);
  const [
    { rowsInScope },
    { enrich },
    { pitcherSheet },
    { livePitches },
    { fileNames },
    { writeTogether },
    { join },
  ] = await Promise.all([
    import("../views/filter.ts"),
    import("../contact/enrich.ts"),
    import("../report/pitcherSheet.ts"),
    import("../season/liveRounds.ts"),
    import("../library/fileName.ts"),
    import("../library/write.ts"),
    import("node:path"),
  ]);
  const { scopeIn } = await filterMeant(call);
  const { opened, shown } = await madeReady(out, call);
  const asked = nameMeant(
    call.pitcherSheet,
    [...new Set(opened.swings.flatMap((s) => s.pitcher ?? []))],
    "pitcher",
  );
  // As the sheet names them.
  const pitcher = shown.swings[opened.swings.findIndex((s) => s.pitcher === asked)]!.pitcher!;
  // Others' pitches are what this pitcher's are held against.
  const scope = { ...(await scopeIn(opened)), pitcher: null };
  const live = livePitches({ ...shown, swings: rowsInScope(enrich(shown), shown, scope) });
  if (!live.pitches.some((p) => p.pitcher === pitcher))
    throw new Fault(`${quoted(pitcher)} threw no live pitch on those days.`, 2);
  const { units, facility = null } = call;
  const { hitters, thresholds } = shown;
  const file = `pitcher-${fileNames([pitcher], "sheet")[0]!}`;
  const text = pitcherSheet({ pitcher, live, hitters, thresholds, facility, system: units });
  await writeTogether((put) => put(join(folder, file), [text]), folder);
  return [{ file, hitter: null }];
}

async function writeReports(out: Out, call: Call & { readonly output: string }): Promise<Written[]> {
  folderMeant(call);
  const { colorMeant } = await import("../report/style.ts");
  const { scopeIn } = await filterMeant(call);
  const color = call.color === undefined ? null : colorMeant(call.color);
  if (call.color !== undefined && color === null)
    throw new Fault(`--color takes a color like #1f5f8b, not ${quoted(call.color)}.`, 2);
  const { opened, reports } = await madeReady(out, call);
  /** The name that is meant, as the library spells it. */
  const meant = (asked: string, field: "hitter" | "session"): string =>
    nameMeant(asked, [...new Set(opened.swings.flatMap((s) => s[field] ?? []))], field);
  const hitter = call.hitter === undefined ? null : meant(call.hitter, "hitter");
  const session = call.session === undefined ? null : meant(call.session, "session");
  const scope = await scopeIn(opened);
  const notes = new Map([...(call.note ?? [])].map(([name, text]) => [meant(name, "hitter"), text]));
  const { units, size, withoutFlagged = false, initials = false, facility = null } = call;
  const made = await reports({
    ...{ ...scope, session, size, units, withoutFlagged, initials, facility, color, notes },
  });
  const reported = made.hitters.filter((name) => hitter === null || name === hitter);
  if (reported.length === 0) {
    const where = session === null ? "" : ` in the session ${quoted(session)}`;
    const whose = hitter === null ? "The library" : quoted(made.shown(hitter));
    throw await noneLeft(`${whose} has`, scope, where);
  }
  const [{ writeTogether }, { join }] = await Promise.all([
    import("../library/write.ts"),
    import("node:path"),
  ]);
  const charts: Written[] = [];
  // A page is written as soon as it is made: a club's thousands are never held together.
  await writeTogether(async (put) => {
    for (const name of reported) {
      const [file, text] = [made.file(name), made.page(name)];
      await put(join(call.output, file), [text]);
      if (call.charts === true)
        for (const chart of await chartFiles(text)) {
          const path = join(file.replace(/\.html$/, ""), chart.name);
          await put(join(call.output, path), [chart.bytes]);
          charts.push({ file: path, hitter: made.shown(name) });
        }
    }
    await put(join(call.output, "index.html"), [made.index(reported)]);
  }, call.output);
  return [
    ...reported.map((name) => ({ file: made.file(name), hitter: made.shown(name) })),
    { file: "index.html", hitter: null },
    ...charts,
  ];
}

/** The charts of a report, each as SVG and PNG; one that is drawn for a desk and for a phone is taken once. */
async function chartFiles(report: string): Promise<{ name: string; bytes: string | Uint8Array }[]> {
  const [{ JSDOM }, { chartKind, standAlone }, { pngOf }] = await Promise.all([
    import("jsdom"),
    import("../charts/standalone.ts"),
    import("../report/raster.ts"),
  ]);
  // Its style sheet says nothing of what is in a chart, and the reader of styles here knows few of its words.
  const { document } = new JSDOM(report.replace(/<style[^>]*>[^]*?<\/style>/g, "")).window;
  const seen = new Set<string>();
  const files: { name: string; bytes: string | Uint8Array }[] = [];
  for (const svg of document.querySelectorAll('figure svg[role="img"]')) {
    const kind = chartKind(svg.outerHTML);
    const title = `${kind} ${svg.querySelector("title")?.textContent ?? ""}`;
    if (seen.has(title)) continue;
    seen.add(title);
    const drawing = standAlone(svg.outerHTML);
    const name = `${String(seen.size).padStart(2, "0")}-${kind}`;
    files.push({ name: `${name}.svg`, bytes: drawing }, { name: `${name}.png`, bytes: await pngOf(drawing) });
  }
  return files;
}

/** Makes a report again from its own foot, says whether it is the same, and writes it where a folder is named. */
async function makeAgain(out: Out, call: Call, path: string): Promise<void> {
  const [{ readText }, { madeFrom, librarySum }, { basename, join }] = await Promise.all([
    import("../library/disk.ts"),
    import("../report/foot.ts"),
    import("node:path"),
  ]);
  const before = await readText(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") throw new Fault(`${quoted(path)} does not exist.`, 2);
    throw error;
  });
  const made = madeFrom(before);
  if (made === null) throw new Fault(`${quoted(path)} is no report whose foot says how it was made.`, 2);
  const { opened, shown, reports } = await madeReady(out, {
    library: call.library,
    ...(made.initials ? { initials: true } : {}),
  });
  const { hitter, session } = made;
  /** The name in the library of what the report calls so. */
  const spelled = (name: string, field: "hitter" | "session"): string | null =>
    opened.swings[shown.swings.findIndex((s) => s[field] === name)]?.[field] ?? null;
  const own = spelled(hitter, "hitter");
  const within = session === null ? null : spelled(session, "session");
  const again =
    own === null || (session !== null && within === null)
      ? null
      : await reports({
          ...made,
          session: within,
          notes: new Map(made.note === null ? [] : [[own, made.note]]),
        });
  if (own === null || again === null || !again.hitters.includes(own))
    throw new Fault(
      `${call.library} has no swings of ${quoted(hitter)}${session === null ? "" : ` in the session ${quoted(session)}`}: name the library with --library.`,
      1,
    );
  const text = again.page(own);
  const { version } = await import("../library/version.ts");
  if (call.output !== undefined) {
    const { writeTogether } = await import("../library/write.ts");
    await writeTogether((put) => put(join(call.output!, basename(path)), [text]), call.output);
  }
  const why = [
    ...(made.version === version ? [] : [`it was made by version ${made.version}, and this is ${version}`]),
    ...(made.library === librarySum(shown.files) ? [] : ["the library's files have changed since"]),
  ];
  const same = text === before;
  if (!same) out.end(1);
  const reasons =
    why.length > 0 ? why : ["version and library are what they were, so the report itself was changed"];
  if (call.json === true) out.json({ file: path, same, reasons: same ? [] : reasons });
  else if (same) out.print(`${path} is the same again, byte for byte.`);
  else out.print(`${path} is not the same again: ${reasons.join("; ")}.`);
}
