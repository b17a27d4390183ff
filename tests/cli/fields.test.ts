import { describe, expect, it } from "vitest";
import { dataPackageText } from "../../src/reading/datapackage.ts";
import { tables } from "../../src/swing/tables.ts";
import { run } from "./run.ts";

describe("fields", () => {
  it("prints every field of every table", async () => {
    const { status, out } = await run("fields");
    expect(status).toBe(0);
    for (const table of tables) {
      expect(out).toContain(`${table.name}.csv\n`);
      for (const field of table.fields) expect(out).toContain(`  ${field.name}: `);
    }
    expect(out).toContain("exit_velocity_mph: mph, 5 to 130, needed in play");
  });

  it("prints the Data Package with --json", async () => {
    const { status, out } = await run("fields", "--json");
    expect([status, out]).toEqual([0, dataPackageText()]);
  });
});
