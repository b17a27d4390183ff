/** Every interval over swings counts the sessions they are of: nobody asks for one without handing them over. */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import { expect, it } from "vitest";
import { filesUnder, root } from "./files.ts";

const sources = [...filesUnder("src", [".ts"]), ...filesUnder("notebooks", [".ts", ".html"])]
  .map((path) => ({ path: relative(root, path), text: readFileSync(path, "utf8") }))
  .filter(({ path }) => !path.startsWith("src/stats/") && !path.includes("/dist/"));

/** Arguments of each call of a function, by its name: what stands between its parentheses. */
function callsOf(text: string, name: RegExp): string[] {
  return [...text.matchAll(name)].map(({ index, 0: { length } }) => {
    let depth = 1;
    let end = index + length;
    for (; depth > 0 && end < text.length; end++) depth += "(" === text[end] ? 1 : ")" === text[end] ? -1 : 0;
    return text.slice(index + length, end - 1);
  });
}

/** Runs that are made up know of no sessions: how often an interval held, how often an alarm was false. */
const ofSimulations = [
  "src/gap/simulate.ts",
  "notebooks/components/setupSay.ts",
  "notebooks/components/coverageSay.ts",
];
/** Rows of one session that a check flags: a test against a known share, and no figure of a hitter. */
const ofOneSession = ["src/setup/trust.ts"];

it("no view, report or page takes Wilson's interval alone", () => {
  const alone = sources.filter(({ text }) =>
    /import \{[^}]*\bshare\b(?! as)[^}]*\} from "[^"]*stats\/share\.ts"/.test(text),
  );
  expect(
    alone.map(({ path }) => path).filter((path) => ![...ofSimulations, ...ofOneSession].includes(path)),
  ).toEqual([]);
  expect(alone.length).toBeGreaterThan(0);
});

it("every estimate and every share is asked for with the sessions of its values", () => {
  const name = /\b(?:meanEstimate|spreadEstimate|quantileEstimate|slopeEstimate|shareOf|sharesOf)\(/g;
  const calls = sources.flatMap(({ path, text }) => callsOf(text, name).map((args) => ({ path, args })));
  expect(calls.length).toBeGreaterThan(20);
  expect(calls.filter(({ args }) => !/session/i.test(args))).toEqual([]);
});
