/** `batted notebooks`: the pages on this machine, live. */
import { existsSync } from "node:fs";
import { realpath, stat } from "node:fs/promises";
import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { InvalidArgumentError, type Command } from "commander";
import { libraryMeant } from "./library.ts";
import type { Out } from "./out.ts";

function port(text: string): number {
  if (!/^\d{1,5}$/.test(text) || Number(text) > 65535) {
    throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
  }
  return Number(text);
}

/** The demo's swings are made up: nobody's own are to stand among them. */
const demo = fileURLToPath(new URL("../../data/demo", import.meta.url));

async function isSameFolder(a: string, b: string): Promise<boolean> {
  const [one, other] = await Promise.all([a, b].map((path) => realpath(path).catch(() => null)));
  return one !== null && one === other;
}

/** Whether a folder of that name can be made: it isn't there, and the one above it is. */
async function isWanting(path: string): Promise<boolean> {
  const there = await stat(path).catch((error: NodeJS.ErrnoException) => error.code === "ENOENT");
  return there === true && existsSync(dirname(resolve(path)));
}

export function register(program: Command, out: Out): void {
  program
    .command("notebooks")
    .description("serve the notebooks on 127.0.0.1; they reload when the library or a page changes")
    .option("--library <dir>", "the library's folder; a new one is made (default: data/demo)")
    .option("--port <n>", "the port; without it, the first free one", port)
    .option("--read-only", "no page writes to the library: files are not brought, and tables not filled in")
    .option("--json", "print the address as JSON")
    .action(async (given: { library?: string; port?: number; readOnly?: true; json?: true }) => {
      const options = { ...given, library: libraryMeant(given.library) };
      const { serveNotebooks, untilStopped } = await import("../../notebooks/serve.ts");
      const isDemo = await isSameFolder(options.library, demo);
      const readOnly = options.readOnly === true || isDemo;
      const isNew = !readOnly && (await isWanting(options.library));
      if (isNew) {
        const { makeFolder } = await import("../library/disk.ts");
        await makeFolder(options.library);
      }
      const served = await serveNotebooks({ ...options, readOnly });
      const { address } = served;
      if (options.json === true) out.json({ address, library: options.library }, 0);
      else
        out.print(
          `The notebooks on ${options.library} are at ${address} (this machine only; Ctrl+C ends them).` +
            (isNew ? ` The folder is new: “Bring a file” puts the first swings into it.` : "") +
            (isDemo ? " The demo is only read: for swings of your own name a folder with --library." : ""),
        );
      await untilStopped(served);
    });
}
