/** `batted notebooks`: the pages on this machine, live. */
import { InvalidArgumentError, type Command } from "commander";
import type { Out } from "./out.ts";

function port(text: string): number {
  if (!/^\d{1,5}$/.test(text) || Number(text) > 65535) {
    throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
  }
  return Number(text);
}

export function register(program: Command, out: Out): void {
  program
    .command("notebooks")
    .description("serve the notebooks on 127.0.0.1; they reload when the library or a page changes")
    .option("--library <dir>", "the library's folder", "data/demo")
    .option("--port <n>", "the port; without it, the first free one", port)
    .option("--read-only", "no page writes to the library: files are not brought, and tables not filled in")
    .option("--json", "print the address as JSON")
    .action(async (options: { library: string; port?: number; readOnly?: true; json?: true }) => {
      const { serveNotebooks } = await import("../../notebooks/serve.ts");
      const served = await serveNotebooks(options);
      const { address } = served;
      if (options.json === true) out.json({ address, library: options.library }, 0);
      else
        out.print(
          `The notebooks on ${options.library} are at ${address} (this machine only; Ctrl+C ends them).`,
        );
      await new Promise<void>((done) => {
        for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => done());
      });
      await served.close();
    });
}
