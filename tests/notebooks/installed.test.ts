/** Every address that Notebook Kit would load from another machine ends at an installed package or a sentence. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import {
  absentSentence,
  installed,
  isInstalled,
  packageOf,
  withInstalled,
} from "../../notebooks/plugins/installed.ts";
import { root } from "../house/files.ts";

const kit = "node_modules/@observablehq/notebook-kit/dist/src/runtime";

/** A host that serves code. */
const elsewhere = /jsdelivr|esm\.sh|unpkg|observablehq\.com/;

function kitModule(name: string): string {
  return readFileSync(join(root, kit, "stdlib", name), "utf8");
}

describe("the addresses of Notebook Kit", () => {
  it("name their package, without its version", () => {
    expect(packageOf("d3/+esm")).toEqual({ name: "d3", path: "" });
    expect(packageOf("apache-arrow@17.0.0/+esm")).toEqual({ name: "apache-arrow", path: "" });
    expect(packageOf("@observablehq/inputs/dist/index.css")).toEqual({
      name: "@observablehq/inputs",
      path: "dist/index.css",
    });
    expect(packageOf("@duckdb/duckdb-wasm@1.32.0/+esm").name).toBe("@duckdb/duckdb-wasm");
  });

  it("become the installed package where there is one", () => {
    const libraries = withInstalled(kitModule("recommendedLibraries.js"));
    for (const name of ["d3", "htl", "arquero", "@observablehq/plot"]) {
      expect(isInstalled(name)).toBe(true);
      expect(libraries).toContain(`import("${name}")`);
    }
    expect(libraries).toContain(`import("not-installed:lodash")`);
    expect(withInstalled(kitModule("inputs.js"))).toContain(`export * from "@observablehq/inputs"`);
    expect(withInstalled(`const {a} = await import("https://cdn.jsdelivr.net/npm/d3-format@3/+esm")`)).toBe(
      `const {a} = await import("d3-format")`,
    );
  });

  it("become a sentence where there is none", async () => {
    for (const [file, name, exported] of [
      ["mermaid.js", "mermaid", "mermaid"],
      ["tex.js", "katex", "tex"],
      ["duckdb.js", "@duckdb/duckdb-wasm", "DuckDBClient"],
      ["zip.js", "jszip", "ZipArchive"],
    ] as const) {
      const code = withInstalled(kitModule(file))!;
      expect(code).toContain(`export const ${exported} `);
      await expect(import(`data:text/javascript,${encodeURIComponent(code)}`)).rejects.toThrow(
        absentSentence(name),
      );
    }
    const { penguins } = (await import(
      `data:text/javascript,${encodeURIComponent(withInstalled(kitModule("sampleDatasets.js"))!)}`
    )) as { penguins: () => unknown };
    expect(() => penguins()).toThrow("not installed");
    expect(withInstalled(`import("https://esm.sh/jsr/@std/math")`)).toBe(`import("not-installed:@std/math")`);
  });

  it("are left in none of the kit's modules", () => {
    const transform = installed().transform as (code: string, id: string) => { code: string } | null;
    const files = readdirSync(join(root, kit), { recursive: true, encoding: "utf8" }).filter((name) =>
      /\.(js|css)$/.test(name),
    );
    const before = files.map((name) => ({ name, code: readFileSync(join(root, kit, name), "utf8") }));
    const naming = before.filter(({ code }) => elsewhere.test(code));
    expect(naming.length).toBeGreaterThan(10);
    for (const { name, code } of naming) {
      const after = transform(code, join(root, kit, name))?.code ?? code;
      // The addresses that XML's namespaces are named by are loaded by nobody.
      expect(after.match(elsewhere) ?? [], name).toEqual([]);
    }
  });

  it("are not looked for in code without any", () => {
    expect(withInstalled(`export const a = "https://example.org/";`)).toBeNull();
  });
});
