/** The visible top level stays what a newcomer is told it is. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ignore from "ignore";
import { expect, it } from "vitest";
import { root } from "./files.ts";

it("shows nothing at the top but what belongs there", () => {
  // What git would list, without git: a bare machine has none.
  const ignored = ignore().add(readFileSync(join(root, ".gitignore"), "utf8"));
  const top = readdirSync(root, { withFileTypes: true })
    .filter(({ name }) => !name.startsWith("."))
    .filter((entry) => !ignored.ignores(entry.isDirectory() ? `${entry.name}/` : entry.name))
    .map(({ name }) => name);
  expect(top.sort()).toEqual(
    [
      "README.md",
      "DEVELOPERS.md",
      "package.json",
      "package-lock.json",
      "tsconfig.json",
      "notebooks",
      "src",
      "tests",
      "data",
    ].sort(),
  );
});
