/** `batted fields`: the definition of the tables, for a person or a machine. */
import type { Command } from "commander";
import type { Out } from "./out.ts";

export function register(program: Command, out: Out): void {
  program
    .command("fields")
    .description("print the fields of every table")
    .option("--json", "print them as a Data Package")
    .option("--write", "write data/datapackage.json and the fields' table in README.md")
    .action(async (options: { json?: true; write?: true }) => {
      const { readFile } = await import("node:fs/promises");
      const { fileURLToPath } = await import("node:url");
      const { writeTogether } = await import("../library/write.ts");
      const { dataPackage, dataPackageText, fieldsText, withFieldsTable } =
        await import("../reading/datapackage.ts");
      if (options.write === true) {
        const inProject = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));
        const page = await readFile(inProject("README.md"), "utf8").catch(() => "");
        const updated = withFieldsTable(page);
        await writeTogether(async (put) => {
          await put(inProject("data/datapackage.json"), [dataPackageText()]);
          if (updated !== null) await put(inProject("README.md"), [updated]);
        });
      }
      if (options.json === true) out.json(dataPackage());
      else if (options.write !== true) out.print(fieldsText());
    });
}
