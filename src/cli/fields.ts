/** `batted fields`: the definition of the tables, for a person or a machine. */
import type { Command } from "commander";

export function register(program: Command): void {
  program
    .command("fields")
    .description("print the fields of every table")
    .option("--json", "print them as a Data Package")
    .option("--write", "write data/datapackage.json and the fields' table in README.md")
    .action(async (options: { json?: true; write?: true }) => {
      const { readFile, writeFile } = await import("node:fs/promises");
      const { dataPackageText, fieldsText, withFieldsTable } = await import("../swing/datapackage.ts");
      if (options.write === true) {
        await writeFile(new URL("../../data/datapackage.json", import.meta.url), dataPackageText());
        const readme = new URL("../../README.md", import.meta.url);
        const page = await readFile(readme, "utf8").catch(() => "");
        const updated = withFieldsTable(page);
        if (updated !== null) await writeFile(readme, updated);
      }
      if (options.json === true) process.stdout.write(dataPackageText());
      else if (options.write !== true) process.stdout.write(fieldsText());
    });
}
