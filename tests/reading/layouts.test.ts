import { describe, expect, it } from "vitest";
import { answer, guessLayout, leastCertainty } from "../../src/reading/guess.ts";
import { collect, scanText } from "../../src/reading/read.ts";
import { textFrom } from "../../src/reading/text.ts";
import { heldOut } from "./layouts/heldOut.ts";
import { fareOf, sheetOf, totalOf } from "./layouts/score.ts";
import { tuned } from "./layouts/tuned.ts";

describe("a guess at layouts of every kind", () => {
  // Common practice, no source: so much is wanted of a guess before people leave it to it.
  it.each([
    ["tuned on", tuned, 90],
    ["written before it", heldOut, 90],
  ] as const)(
    "takes nothing wrong, and all after two questions: those it was %s",
    async (_, specs, least) => {
      const farings = [];
      for (const spec of specs) farings.push(await fareOf(spec));
      const { cells, layouts, rightPct, wrong, whole } = totalOf(farings);
      expect(layouts).toBe(20);
      expect(cells).toBeGreaterThan(9000);
      expect(wrong).toEqual([0, 0, 0]);
      expect(rightPct[0]).toBeGreaterThan(least);
      expect(whole[2]).toBe(20);
    },
  );

  it("turns a direction whose heading says that positive is left, and asks where nothing tells", async () => {
    const spec = tuned.find(({ name }) => name === "family name first, NULL, plus to left field")!;
    const { sample } = await sheetOf(spec);
    const guess = guessLayout(sample);
    expect(guess.map.columns["Spray (+ = left field)"]).toEqual({ field: "spray_angle_deg", sign: -1 });
    const plain = {
      ...sample,
      header: sample.header.map((heading) => (heading.startsWith("Spray") ? "Spray" : heading)),
    };
    // By what is pulled, as the heading says nothing now.
    expect(guessLayout(plain).map.columns["Spray"]).toEqual({ field: "spray_angle_deg", sign: -1 });
    const hands = plain.header.indexOf("Bats");
    const handless = {
      ...plain,
      header: plain.header.filter((_, i) => i !== hands),
      rows: plain.rows.map((row) => row.filter((_, i) => i !== hands)),
    };
    const open = guessLayout(handless);
    const column = open.columns.find(({ heading }) => heading === "Spray")!;
    expect([column.field, column.isTaken, open.map.columns["Spray"]]).toEqual([
      "spray_angle_deg",
      false,
      null,
    ]);
    expect(column.certainty).toBeLessThan(leastCertainty);
    expect(open.questions.map(({ id }) => id)).toEqual(["sign:Spray"]);
    expect(answer(open, { "sign:Spray": "left" }).map.columns["Spray"]).toEqual({
      field: "spray_angle_deg",
      sign: -1,
    });
  });

  it("takes no line of means for a swing, even where every row gets its input", async () => {
    const csv = "hitter,exit_velocity_mph,launch_angle_deg\nAna,80,10\nAverage,81,11\n";
    const source = textFrom("a.csv", [new TextEncoder().encode(csv)]);
    const { rows, refused } = await collect(scanText("swings", source, { fill: { input: "tee" } }));
    expect([rows.length, refused.length]).toEqual([1, 1]);
    expect(refused[0]!.problems[0]!.reason).toBe("is a line of totals or means, and no swing");
  });
});
