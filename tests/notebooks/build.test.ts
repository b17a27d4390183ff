import { expect, it } from "vitest";
import { refuseForeign } from "../../notebooks/build.ts";
import { inFolder } from "../reading/support.ts";

it.each([
  ["is empty", {}],
  ["is a site", { "library.json": "{}", "index.html": "", "assets/a.js": "" }],
  ["is a site to which its owner has added", { "library.json": "{}", "index.html": "", CNAME: "" }],
  [
    "has what a build left that was killed while it wrote",
    { ".beside-9-1.part": "", "assets/.beside-9-2.part": "" },
  ],
  [
    "has what a build left that was killed while it put its modules in place",
    { "library.json": "{}", "assets/a.js": "" },
  ],
  [
    "has what a build left that was killed before its last page",
    { "library.json": "{}", "tee-vs-live.html": "" },
  ],
])("a site is built into a folder that %s", (_, files) =>
  inFolder(files as Readonly<Record<string, string>>, async (dir) =>
    expect(await refuseForeign(dir)).toBeUndefined(),
  ),
);

it.each([
  ["modules of another's", { "assets/a.js": "" }],
  ["pages of another's", { "index.html": "" }],
  ["a library", { "library.json": "{}", "swings.csv": "" }],
  ["a file beside what a build left", { "own.txt": "", "assets/.beside-9-2.part": "" }],
])("and not into one that holds %s", (_, files) =>
  inFolder(files as Readonly<Record<string, string>>, (dir) =>
    expect(refuseForeign(dir)).rejects.toThrow("holds something other than an earlier build"),
  ),
);
