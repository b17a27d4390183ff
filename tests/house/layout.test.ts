/** The visible top level stays what a newcomer is told it is. */
import { execFileSync } from "node:child_process";
import { expect, it } from "vitest";
import { root } from "./files.ts";

it("shows nothing at the top but what belongs there", () => {
  const tracked = execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8" }).trim().split("\n");
  const top = [...new Set(tracked.map((path) => path.split("/")[0]!))].filter(
    (name) => !name.startsWith("."),
  );
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
