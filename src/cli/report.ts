/** `batted report`: drill reports to hand out, one HTML file a hitter and a page that leads to them. */
import { Option, type Command } from "commander";
import { isUnread, quoted } from "../swing/problems.ts";
import { unitSystems, type UnitSystem } from "../units/system.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
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
export function register(program: Command, out: Out): void {
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
      const files = await writeReports(out, call);
      if (call.json === true) out.json({ files });
      else for (const { file, hitter } of files) out.print(hitter === null ? file : `${file}  (${hitter})`);
    });
}

interface Written {
  readonly file: string;
  /** Null for the page that leads to the reports. */
  readonly hitter: string | null;
}

async function writeReports(out: Out, call: Call): Promise<Written[]> {
  const [
    { openLibrary },
    { enrich },
    { thresholdsFrom },
    { sessionsInOrder },
    { fileNames },
    { withInitials },
    { trustBySession },
  ] = await Promise.all([
    import("../library/library.ts"),
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
  await tellOfLibrary(out, opened);
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

  const [{ writeTogether }, { join }] = await Promise.all([
    import("../library/write.ts"),
    import("node:path"),
  ]);
  // Charts need Plot and a document, the slow part of starting: only a call that is right waits for them.
  const [{ reportPage, indexPage }, { JSDOM }, { group }] = await Promise.all([
    import("../report/page.ts"),
    import("jsdom"),
    import("d3"),
  ]);
  const { document } = new JSDOM("").window;
  const version = await versionOf();
  const thresholds = thresholdsFrom(library.thresholds);
  // Ceilings come from all swings of a hitter, and trust from the sessions of all hitters: all are enriched.
  const rows = enrich(library);
  const trust = trustBySession(rows, library.sessions);
  const names = fileNames(every, "report");
  const without = library.problems.filter(isUnread).map(({ file }) => file);
  const byHitter = group(rows, (row) => row.hitter);
  const listedBy = new Map(library.hitters.map((h) => [h.hitter, h]));
  const fileOf = new Map(every.map((hitter, i) => [hitter, names[i]!]));
  const pages: { hitter: string; file: string; swings: number; latest: string | null }[] = [];
  // A page is written as soon as it is made: a club's thousands are never held together.
  await writeTogether(async (put) => {
    for (const hitter of reported) {
      const own = byHitter.get(hitter)!;
      const file = fileOf.get(hitter)!;
      const text = reportPage(
        {
          ...library,
          hitter,
          listed: listedBy.get(hitter) ?? null,
          rows: own,
          thresholds,
          trust,
          unread: without,
        },
        { document, version, session, system: call.units, withoutFlagged: call.withoutFlagged === true },
      );
      await put(join(call.output, file), [text]);
      const shown = session === null ? own : own.filter((r) => r.session === session);
      const latest = sessionsInOrder(shown, library.sessions).at(-1)?.date ?? null;
      pages.push({ hitter, file, swings: shown.length, latest });
    }
    await put(join(call.output, "index.html"), [indexPage(pages, without)]);
  }, call.output);
  return [...pages.map(({ file, hitter }) => ({ file, hitter })), { file: "index.html", hitter: null }];
}

async function versionOf(): Promise<string> {
  const { createRequire } = await import("node:module");
  // By its own name: a built kit has it elsewhere than the sources.
  const own = createRequire(import.meta.url)("batted-ball-notebooks/package.json") as { version: string };
  return own.version;
}
