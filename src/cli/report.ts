/** `batted report`: drill reports to hand out, one HTML file a hitter and a page that leads to them. */
import { Option, type Command } from "commander";
import { isUnread, quoted } from "../swing/problems.ts";
import { unitSystems, type UnitSystem } from "../units/system.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import type { Made } from "../report/foot.ts";
import type { Out } from "./out.ts";
import { tellOfLibrary } from "./source.ts";

interface Call {
  readonly library: string;
  readonly hitter?: string;
  readonly session?: string;
  readonly output?: string;
  readonly again?: string;
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
    .option("-o, --output <dir>", "the folder to write into; made when absent")
    .option(
      "--again <file>",
      "make this report again, as its foot says it was made, and say whether it is the same",
    )
    .addOption(new Option("--units <system>", "the units shown").choices([...unitSystems]).default("us"))
    .option(
      "--without-flagged",
      "leave rows whose readings are in doubt out of every figure, and say how many",
    )
    .option("--initials", "initials instead of the hitters' names")
    .option("--json", "list the files as JSON")
    .action(async (call: Call) => {
      if (call.again !== undefined) return makeAgain(out, call, call.again);
      if (call.output === undefined)
        throw new Fault("Name the folder that the reports go into: --output DIR.", 2);
      const files = await writeReports(out, { ...call, output: call.output });
      if (call.json === true) out.json({ files });
      else for (const { file, hitter } of files) out.print(hitter === null ? file : `${file}  (${hitter})`);
    });
}

interface Written {
  readonly file: string;
  /** Null for the page that leads to the reports. */
  readonly hitter: string | null;
}

/** A library with all that any of its reports is made from. */
async function madeReady(out: Out, call: Pick<Call, "library" | "initials">) {
  const [{ openLibrary }, { enrich }, { thresholdsFrom }, { withInitials }, { trustBySession }] =
    await Promise.all([
      import("../library/library.ts"),
      import("../contact/enrich.ts"),
      import("../contact/thresholds.ts"),
      import("../library/initials.ts"),
      import("../setup/trust.ts"),
    ]);
  const opened = await openLibrary(call.library);
  await tellOfLibrary(out, opened);
  const library = call.initials === true ? withInitials(opened) : opened;
  if (library.swings.length === 0) throw new Fault(`${call.library} holds no swings.`, 1);
  const initials = call.initials === true;
  const without = library.problems.filter(isUnread).map(({ file }) => file);
  return {
    opened,
    library,
    without,
    every: [...new Set(library.swings.map((s) => s.hitter))],
    /** Makes the pages: Plot and a document are the slow part of starting, and only a call that is right waits for them. */
    async pages() {
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
      const byHitter = group(rows, (row) => row.hitter);
      const listedBy = new Map(library.hitters.map((h) => [h.hitter, h]));
      return {
        indexPage,
        version,
        rowsOf: (hitter: string) => byHitter.get(hitter)!,
        textOf(hitter: string, options: Pick<Made, "session" | "units" | "withoutFlagged">): string {
          return reportPage(
            {
              ...library,
              hitter,
              listed: listedBy.get(hitter) ?? null,
              rows: byHitter.get(hitter)!,
              thresholds,
              trust,
              unread: without,
            },
            {
              document,
              version,
              session: options.session,
              system: options.units,
              withoutFlagged: options.withoutFlagged,
              initials,
            },
          );
        },
      };
    },
  };
}

async function writeReports(out: Out, call: Call & { readonly output: string }): Promise<Written[]> {
  if (/\.html?$/i.test(call.output))
    throw new Fault(
      `${quoted(call.output)} is a file's name: reports go into a folder, one file a hitter.`,
      2,
    );
  const { opened, library, every, without, pages: made } = await madeReady(out, call);
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

  const [{ writeTogether }, { join }, { sessionsInOrder }, { fileNames }] = await Promise.all([
    import("../library/write.ts"),
    import("node:path"),
    import("../views/sessions.ts"),
    import("../library/fileName.ts"),
  ]);
  const { indexPage, textOf, rowsOf } = await made();
  const names = fileNames(every, "report");
  const fileOf = new Map(every.map((hitter, i) => [hitter, names[i]!]));
  const pages: { hitter: string; file: string; swings: number; latest: string | null }[] = [];
  // A page is written as soon as it is made: a club's thousands are never held together.
  await writeTogether(async (put) => {
    for (const hitter of reported) {
      const own = rowsOf(hitter);
      const file = fileOf.get(hitter)!;
      const { units, withoutFlagged = false } = call;
      await put(join(call.output, file), [textOf(hitter, { session, units, withoutFlagged })]);
      const shown = session === null ? own : own.filter((r) => r.session === session);
      const latest = sessionsInOrder(shown, library.sessions).at(-1)?.date ?? null;
      pages.push({ hitter, file, swings: shown.length, latest });
    }
    await put(join(call.output, "index.html"), [indexPage(pages, without)]);
  }, call.output);
  return [...pages.map(({ file, hitter }) => ({ file, hitter })), { file: "index.html", hitter: null }];
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
  const { library, pages } = await madeReady(out, {
    library: call.library,
    ...(made.initials ? { initials: true } : {}),
  });
  const { hitter, session } = made;
  if (!library.swings.some((s) => s.hitter === hitter && (session === null || s.session === session)))
    throw new Fault(
      `${call.library} has no swings of ${quoted(hitter)}${session === null ? "" : ` in the session ${quoted(session)}`}: name the library with --library.`,
      1,
    );
  const { textOf, version } = await pages();
  const text = textOf(hitter, made);
  if (call.output !== undefined) {
    const { writeTogether } = await import("../library/write.ts");
    await writeTogether((put) => put(join(call.output!, basename(path)), [text]), call.output);
  }
  const why = [
    ...(made.version === version ? [] : [`it was made by version ${made.version}, and this is ${version}`]),
    ...(made.library === librarySum(library.files) ? [] : ["the library's files have changed since"]),
  ];
  const same = text === before;
  if (!same) out.end(1);
  const reasons =
    why.length > 0 ? why : ["version and library are what they were, so the report itself was changed"];
  if (call.json === true) out.json({ file: path, same, reasons: same ? [] : reasons });
  else if (same) out.print(`${path} is the same again, byte for byte.`);
  else out.print(`${path} is not the same again: ${reasons.join("; ")}.`);
}

async function versionOf(): Promise<string> {
  const { createRequire } = await import("node:module");
  // By its own name: a built kit has it elsewhere than the sources.
  const own = createRequire(import.meta.url)("batted-ball-notebooks/package.json") as { version: string };
  return own.version;
}
