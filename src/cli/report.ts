/** `batted report`: drill reports to hand out, one HTML file a hitter and a page that leads to them. */
import { Option, type Command } from "commander";
import { isUnread, printable, quoted } from "../swing/problems.ts";
import { unitSystems, type UnitSystem } from "../units/system.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import { jsonText } from "./json.ts";
import { tellOfLibrary } from "./source.ts";

interface Call {
  readonly library: string;
  readonly hitter?: string;
  readonly session?: string;
  readonly output: string;
  readonly units: UnitSystem;
  readonly initials?: true;
  readonly withoutFlagged?: true;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command): void {
  program
    .command("report")
    .description("drill reports as self-contained HTML: one file a hitter, and a page that leads to them")
    .option("--library <dir>", "the library's folder", "data/demo")
    .option("--hitter <name>", "this hitter alone")
    .option("--session <id>", "this session alone, compared with the one before")
    .requiredOption("-o, --output <dir>", "the folder to write into; made when absent")
    .addOption(new Option("--units <system>", "the units shown").choices([...unitSystems]).default("us"))
    .option(
      "--without-flagged",
      "leave rows whose readings are in doubt out of every figure, and say how many",
    )
    .option("--initials", "initials instead of the hitters' names")
    .option("--json", "list the files as JSON")
    .action(async (call: Call) => {
      const files = await writeReports(call);
      process.stdout.write(
        call.json === true
          ? `${jsonText({ files })}\n`
          : files
              .map(({ file, hitter }) => `${file}${hitter === null ? "" : `  (${printable(hitter)})`}\n`)
              .join(""),
      );
    });
}

interface Written {
  readonly file: string;
  /** Null for the page that leads to the reports. */
  readonly hitter: string | null;
}

async function writeReports(call: Call): Promise<Written[]> {
  const [
    { openLibrary },
    { enrich },
    { thresholdsFrom },
    { sessionsInOrder },
    { fileNames },
    { withInitials },
    { trustBySession },
  ] = await Promise.all([
    import("../swing/library.ts"),
    import("../contact/enrich.ts"),
    import("../contact/thresholds.ts"),
    import("../views/sessions.ts"),
    import("../report/fileName.ts"),
    import("../report/initials.ts"),
    import("../setup/trust.ts"),
  ]);
  if (/\.html?$/i.test(call.output))
    throw new Fault(
      `${quoted(call.output)} is a file's name: reports go into a folder, one file a hitter.`,
      2,
    );
  const opened = await openLibrary(call.library);
  await tellOfLibrary(opened);
  const library = call.initials === true ? withInitials(opened) : opened;
  const every = [...new Set(library.swings.map((s) => s.hitter))];
  if (every.length === 0) throw new Fault(`${call.library} holds no swings.`, 1);
  /** The name that was asked for, as the report has it. */
  const as = (asked: string, field: "hitter" | "session"): string => {
    const names = [...new Set(opened.swings.flatMap((s) => s[field] ?? []))];
    const name = nameMeant(asked, names, field);
    return library.swings[opened.swings.findIndex((s) => s[field] === name)]![field]!;
  };
  const wanted = call.hitter === undefined ? every : [as(call.hitter, "hitter")];
  const session = call.session === undefined ? null : as(call.session, "session");
  const reported = wanted.filter(
    (hitter) => session === null || library.swings.some((s) => s.hitter === hitter && s.session === session),
  );
  if (reported.length === 0)
    throw new Fault(`${quoted(wanted[0]!)} has no swings in the session ${quoted(session!)}.`, 2);

  // Charts need Plot and a document, the slow part of starting: only a call that is right waits for them.
  const [{ reportPage, indexPage }, { JSDOM }] = await Promise.all([
    import("../report/page.ts"),
    import("jsdom"),
  ]);
  const { document } = new JSDOM("").window;
  const version = await versionOf();
  const thresholds = thresholdsFrom(library.thresholds);
  // Ceilings come from all swings of a hitter, and trust from the sessions of all hitters: all are enriched.
  const rows = enrich(library);
  const trust = trustBySession(rows, library.sessions);
  const names = fileNames(every, "report");
  const without = library.problems.filter(isUnread).map(({ file }) => file);
  const pages = reported.map((hitter) => {
    const own = rows.filter((r) => r.hitter === hitter);
    const listed = library.hitters.find((h) => h.hitter === hitter) ?? null;
    const text = reportPage(
      { ...library, hitter, listed, rows: own, thresholds, trust, unread: without },
      { document, version, session, system: call.units, withoutFlagged: call.withoutFlagged === true },
    );
    const shown = session === null ? own : own.filter((r) => r.session === session);
    const latest = sessionsInOrder(shown, library.sessions).at(-1)?.date ?? null;
    return { hitter, file: names[every.indexOf(hitter)]!, text, swings: shown.length, latest };
  });
  await writeAll(call.output, [...pages, { file: "index.html", text: indexPage(pages, without) }]);
  return [...pages.map(({ file, hitter }) => ({ file, hitter })), { file: "index.html", hitter: null }];
}

/** Every file, or, when one can't be written, none. */
async function writeAll(dir: string, files: readonly { file: string; text: string }[]): Promise<void> {
  const { mkdir, rename, rm, stat, writeFile } = await import("node:fs/promises");
  const { join } = await import("node:path");
  await mkdir(dir, { recursive: true });
  const parts = files.map(({ file, text }) => ({
    path: join(dir, file),
    part: join(dir, `.${file}.${process.pid}.part`),
    text,
  }));
  try {
    for (const { part, text } of parts) await writeFile(part, text, { flag: "wx" });
    for (const { path } of parts)
      if ((await stat(path).catch(() => null))?.isDirectory())
        throw new Fault(`${path} is a folder, where a report would be written.`, 2);
    for (const { part, path } of parts) await rename(part, path);
  } catch (error) {
    await Promise.all(parts.map(({ part }) => rm(part, { force: true })));
    throw error;
  }
}

async function versionOf(): Promise<string> {
  const { readFile } = await import("node:fs/promises");
  const text = await readFile(new URL("../../package.json", import.meta.url), "utf8");
  return (JSON.parse(text) as { version: string }).version;
}
