/** `batted build`: the notebooks as a static site. */
import type { Command } from "commander";

export function register(program: Command): void {
  program
    .command("build")
    .description("write the notebooks as a static site that needs no other machine")
    .option("--library <dir>", "the library's folder", "data/demo")
    .requiredOption("-o, --out <dir>", "the folder to write the site into")
    .option("--json", "print the files written as JSON")
    .action(async (options: { library: string; out: string; json?: true }) => {
      const { buildNotebooks } = await import("../../notebooks/build.ts");
      const { tellUnread } = await import("./unread.ts");
      const { files, unread } = await buildNotebooks(options);
      tellUnread(unread);
      const pages = files.filter(({ file }) => file.endsWith(".html"));
      const kB = Math.round(files.reduce((sum, { bytes }) => sum + bytes, 0) / 1000);
      process.stdout.write(
        options.json === true
          ? `${JSON.stringify({ out: options.out, files })}\n`
          : `${pages.length} pages and what they need, ${kB} kB, are in ${options.out}; any static server can serve them.\n`,
      );
    });
}
