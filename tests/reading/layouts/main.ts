/** Prints how a guess fares on the layouts: `npx tsx tests/reading/layouts/main.ts [tuned|held-out] [--detail]`. */
import { heldOut } from "./heldOut.ts";
import { fareOf, totalOf } from "./score.ts";
import { tuned } from "./tuned.ts";

const [which = "both", ...more] = process.argv.slice(2);
for (const [name, specs] of [
  ["tuned", tuned],
  ["held-out", heldOut],
] as const) {
  if (which !== "both" && which !== name) continue;
  const farings = [];
  for (const spec of specs) farings.push(await fareOf(spec));
  const { cells, layouts, rightPct, wrong, whole } = totalOf(farings);
  for (const { name: layout, after, questions, wrong: cellsWrong, open } of more.includes("--detail")
    ? farings
    : []) {
    console.log(
      `${layout}: ${after.map(({ right, wrong: w, open: o }) => `${right}/${w}/${o}`).join(" → ")}`,
    );
    for (const text of [
      ...questions,
      ...cellsWrong,
      ...(open.length > 0 ? [`open: ${open.join(", ")}`] : []),
    ])
      console.log(`    ${text}`);
  }
  const shown = (list: readonly number[], digits = 0): string =>
    list.map((v) => v.toFixed(digits)).join(", ");
  console.log(
    `${name}: ${layouts} layouts, ${cells} cells; right without a question, after one, after two: ${shown(rightPct, 1)} %; ` +
      `wrong: ${shown(wrong)}; layouts whole: ${shown(whole)}`,
  );
}
