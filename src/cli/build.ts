/** `batted build`: the notebooks as a static site, or one page to send a hitter. */
import type { Command } from "commander";
import { Fault } from "./errors.ts";
import { filterMeant, noneLeft, withFilter, type Asked, type FilterCall } from "./filtering.ts";
import { libraryMeant } from "./library.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
import { counted } from "../swing/words.ts";
import type { SwingScope } from "../views/filter.ts";

interface Call extends FilterCall {
  readonly library: string;
  readonly out: string;
  readonly hitter: readonly string[];
  readonly initials?: true;
  readonly json?: true;
}

/** A call that may leave out the library. */
type Given = Omit<Call, "library"> & { readonly library?: string };

/** Describes the command. */
export function register(program: Command, out: Out): void {
  withFilter(
    program
      .command("build")
      .description(
        "write the notebooks as a static site; with a hitter, one HTML file that holds this hitter's swings alone and opens anywhere",
      )
      .option("--library <dir>", "the library's folder (default: data/demo)")
      .option(
        "--hitter <name>",
        "one file with this hitter's swings alone, to send; may be given again for others",
        (name: string, before: readonly string[]) => [...before, name],
        [] as readonly string[],
      ),
  )
    .option("--initials", "initials instead of names")
    .requiredOption("-o, --out <dir>", "the folder to write into; made when absent")
    .option("--json", "print the files written as JSON")
    .action(async (given: Given) => {
      const call: Call = { ...given, library: libraryMeant(given.library) };
      const asked = await filterMeant(call);
      if (call.hitter.length > 0) return writePages(out, call, asked);
      const part = { ...(await scopeOf(call, asked)), initials: call.initials === true };
      const { buildNotebooks } = await import("../../notebooks/build.ts");
      const { tellUnread } = await import("./unread.ts");
      const { files, unread } = await buildNotebooks({ library: call.library, out: call.out, part });
      tellUnread(out, unread);
      const pages = files.filter(({ file }) => file.endsWith(".html"));
      if (call.json === true) out.json({ out: call.out, files });
      else
        out.print(
          `${pages.length} pages and what they need, ${kB(files)} kB, are in ${call.out}; any static server can serve them.`,
        );
    });
}

const kB = (files: readonly { readonly bytes: number }[]): number =>
  Math.round(files.reduce((sum, { bytes }) => sum + bytes, 0) / 1000);

/** Which rows a site holds; a library is opened beforehand only where something is asked of its rows. */
async function scopeOf(call: Call, { scopeIn, asksNone }: Asked): Promise<SwingScope> {
  if (asksNone) return scopeIn(noSwings);
  const { openLibrary } = await import("../library/library.ts");
  const { rowsInScope } = await import("../views/filter.ts");
  const library = await openLibrary(call.library);
  const scope = await scopeIn(library);
  if (rowsInScope(library.swings, library, scope).length === 0)
    throw await noneLeft(`${call.library} has`, scope);
  return scope;
}

const noSwings = { swings: [], sessions: [], thresholds: null };

/** One file a hitter. */
async function writePages(out: Out, call: Call, { scopeIn }: Asked): Promise<void> {
  const [{ openLibrary }, { tellOfLibrary }, { pagesToSend }, { writeTogether }, { join }] =
    await Promise.all([
      import("../library/library.ts"),
      import("./source.ts"),
      import("../../notebooks/onePage.ts"),
      import("../library/write.ts"),
      import("node:path"),
    ]);
  if (/\.html?$/i.test(call.out))
    throw new Fault(`"${call.out}" is a file's name: pages go into a folder, one file a hitter.`, 2);
  const library = await openLibrary(call.library);
  await tellOfLibrary(out, library);
  const names = [...new Set(library.swings.map(({ hitter }) => hitter))];
  if (names.length === 0) throw new Fault(`${call.library} holds no swings.`, 1);
  const part = { ...(await scopeIn(library)), initials: call.initials === true };
  const hitters = [...new Set(call.hitter.map((name) => nameMeant(name, names, "hitter")))];
  const files: { file: string; hitter: string; bytes: number; swings: number }[] = [];
  await writeTogether(async (put) => {
    for await (const { file, hitter, html, swings } of pagesToSend(library, hitters, part)) {
      await put(join(call.out, file), [html]);
      files.push({ file, hitter, bytes: Buffer.byteLength(html), swings });
    }
  }, call.out);
  if (call.json === true) return out.json({ out: call.out, files });
  for (const f of files)
    out.print(
      `${join(call.out, f.file)}  (${f.hitter}, ${counted(f.swings, "swing")}, ${kB([f])} kB: opens from a disk, a mail or a phone)`,
    );
}
