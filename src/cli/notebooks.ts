/** `batted notebooks`: the pages on this machine, live. */
import { InvalidArgumentError, type Command } from "commander";

function port(text: string): number {
  if (!/^\d{1,5}$/.test(text) || Number(text) > 65535) {
    throw new InvalidArgumentError("A port is a whole number from 0 to 65535.");
  }
  return Number(text);
}

export function register(program: Command): void {
  program
    .command("notebooks")
    .description("serve the notebooks on 127.0.0.1; they reload when the library or a page changes")
    .option("--library <dir>", "the library's folder", "data/demo")
    .option("--port <n>", "the port; without it, the first free one", port)
    .option("--json", "print the address as JSON")
    .action(async (options: { library: string; port?: number; json?: true }) => {
      const { serveNotebooks } = await import("../../notebooks/serve.ts");
      const served = await serveNotebooks(options);
      const { address } = served;
      process.stdout.write(
        options.json === true
          ? `${JSON.stringify({ address, library: options.library })}\n`
          : `The notebooks on ${options.library} are at ${address} (this machine only; Ctrl+C ends them).\n`,
      );
      await new Promise<void>((done) => {
        for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => done());
      });
      await served.close();
    });
}
