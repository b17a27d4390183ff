/** `batted fields`: the definition of the tables, for a person or a machine. */
import type { Command } from "commander";

export function register(program: Command): void {
  program
    .command("fields")
    .description("print the fields of every table")
    .option("--json", "print them as a Data Package")
    .option("--write", "write data/datapackage.json and the fields' table in README.md")
    .action(async (options: { json?: true; write?: true }) => {
      const { readFile } = await import("node:fs/promises");
      const { fileURLToPath } = await import("node:url");
      const { writeTogether } = await import("../library/write.ts");
      const { dataPackageText, fieldsText, withFieldsTable } = await import("../reading/datapackage.ts");
      if (options.write === true) {
        const inProject = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
        const page = await readFile(inProject("README.md"), "utf8").catch(() => "");
        const updated = withFieldsTable(page);
        await writeTogether(async (put) => {
          await put(inProject("data/datapackage.json"), [dataPackageText()]);
          if (updated !== null) await put(inProject("README.md"), [updated]);
        });
      }
      if (options.json === true) process.stdout.write(dataPackageText());
      else if (options.write !== true) process.stdout.write(fieldsText());
    });
}
