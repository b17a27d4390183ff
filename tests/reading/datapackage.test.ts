import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  dataPackage,
  dataPackageText,
  fieldsMarkdown,
  withFieldsTable,
} from "../../src/reading/datapackage.ts";
import { tables } from "../../src/swing/tables.ts";
import { cellReader, Refusal } from "../../src/reading/cells.ts";

const fileText = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");

describe("what is written out of the fields' definition", () => {
  it("data/datapackage.json is as fresh as the definition (npm run datapackage)", () => {
    expect(fileText("data/datapackage.json")).toBe(dataPackageText());
  });

  it("the README's table is as fresh as the definition (npm run datapackage)", () => {
    const page = fileText("README.md");
    expect(withFieldsTable(page)).toBe(page);
    expect(page).toContain(fieldsMarkdown());
  });

  it("names every field of every table once", () => {
    for (const table of tables) {
      const rows = fieldsMarkdown()
        .split("`" + table.name + ".csv`")[1]!
        .split(".csv`")[0]!;
      for (const { name } of table.fields) expect(rows.split(`\n| \`${name}\` `), name).toHaveLength(2);
    }
  });

  it("puts a table only where a page has its markers", () => {
    expect(withFieldsTable("no markers")).toBeNull();
    const page = withFieldsTable("a\n<!-- fields -->before<!-- /fields -->\nb")!;
    expect(page).not.toContain("-->before");
    expect(page.startsWith("a\n<!-- fields -->\n\n`swings.csv`")).toBe(true);
    expect(page.endsWith("<!-- /fields -->\nb")).toBe(true);
  });

  it("says of each limit what the reader does with it", () => {
    for (const [i, table] of tables.entries()) {
      for (const [j, field] of table.fields.entries()) {
        const { constraints } = dataPackage().resources[i]!.schema.fields[j]!;
        const read = cellReader(field);
        if (constraints?.maximum !== undefined) {
          expect(read(String(constraints.maximum))).toBe(constraints.maximum);
          expect(read(String(constraints.maximum + 0.01))).toBeInstanceOf(Refusal);
        }
        if (constraints?.minimum !== undefined) {
          expect(read(String(constraints.minimum))).toBe(constraints.minimum);
          expect(read(String(constraints.minimum - 0.01))).toBeInstanceOf(Refusal);
        }
        for (const word of constraints?.enum ?? []) expect(read(word)).toBe(word);
      }
    }
  });
});
