/** Files are written in one place, whole or not at all; a library's own by its transactions. */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import { expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

const writers = ["disk", "write", "transaction", "lock"].map((name) => `src/library/${name}.ts`);
const writes = /\b(writeFile(Sync)?|appendFile(Sync)?|createWriteStream|rename(Sync)?|copyFile(Sync)?)\s*\(/;

it("no file is written past the one way of writing", () => {
  const files = ["src", "notebooks", "data"].flatMap((folder) => filesUnder(folder, [".ts", ".mjs"]));
  const found = files.filter((file) => writes.test(readFileSync(file, "utf8"))).map((f) => relative(root, f));
  const known = found.filter((file) => writers.includes(file.replaceAll("\\", "/")));
  expect(known.length).toBeGreaterThan(1);
  expect(found).toEqual(known);
});
