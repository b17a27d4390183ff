import { describe, expect, it } from "vitest";
import { answer, guessLayout, leastCertainty } from "../../src/reading/guess.ts";
import { columnMapProblems, type ColumnMap } from "../../src/reading/maps.ts";
import { collect, sampleOf, scanText } from "../../src/reading/read.ts";
import { textFrom } from "../../src/reading/text.ts";
import { problemSentence } from "../../src/swing/problems.ts";
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

  describe("a direction counted from the pull side", () => {
    // Right-handed hitters pull to the left side, where directions are negative: the blueprint's coordinates.
    const balls = Array.from({ length: 24 }, (_, i) => {
      const bats = i % 2 === 0 ? "R" : "L";
      return { bats, spray: ((i * 7) % 50) - 25, launch: (i * 5) % 30 };
    });
    const sheet = (heading: string, end: 1 | -1, hands: (i: number) => string): string =>
      [
        `Batter;Side;From;EV (mph);LA;${heading}`,
        ...balls.map(({ bats, spray, launch }, i) => {
          const pulled = end * (bats === "R" ? -spray : spray);
          return `Ada;${hands(i)};tee;${70 + i};${launch};${pulled}`;
        }),
      ].join("\n");
    const handOf = (i: number): string => (balls[i]!.bats === "R" ? "RHH" : "LHH");
    const sampled = async (text: string) => sampleOf(textFrom("pull.csv", [Buffer.from(text)]));
    const read = async (text: string, map: ColumnMap) =>
      collect(scanText("swings", textFrom("pull.csv", [Buffer.from(text)]), { map }));

    it.each([
      ["Spray (+ = pull)", 1, "pull"],
      ["Spray (+ = opposite field)", -1, "opposite"],
    ] as const)("is turned exactly where each row says its side: %s", async (heading, end, sign) => {
      const text = sheet(heading, end, handOf);
      const guess = guessLayout(await sampled(text));
      expect(guess.questions).toEqual([]);
      expect(guess.map.columns[heading]).toEqual({ field: "spray_angle_deg", sign });
      const { rows, refused } = await read(text, guess.map);
      expect(refused).toEqual([]);
      expect(rows.map((row) => row.spray_angle_deg)).toEqual(balls.map(({ spray }) => spray));
    });

    it("is asked where a row's side is unknown, and then that row is refused with a sentence", async () => {
      const text = sheet("Spray (+ = pull)", 1, (i) => (i === 5 ? "" : handOf(i)));
      const guess = guessLayout(await sampled(text));
      expect(guess.questions.map(({ id, likely }) => [id, likely])).toEqual([
        ["sign:Spray (+ = pull)", "pull"],
      ]);
      expect(guess.map.columns["Spray (+ = pull)"]).toBeNull();
      const { map } = answer(guess, { "sign:Spray (+ = pull)": "pull" });
      const { rows, problems } = await read(text, map);
      expect(rows).toHaveLength(23);
      expect(problems.filter(({ kind }) => kind === "refused").map(problemSentence)).toEqual([
        `pull.csv, row 7: spray_angle_deg "${balls[5]!.spray}" counts from the pull side, and the side that the ball was hit from is unknown.`,
      ]);
    });

    it("is left out where no column says a side, and no map can count another field so", async () => {
      const text = sheet("Spray (+ = pull)", 1, () => "");
      const guess = guessLayout(await sampled(text));
      expect(guess.map.columns["Spray (+ = pull)"]).toBeNull();
      expect(guess.columns.find(({ heading }) => heading === "Spray (+ = pull)")!.reason).toContain(
        "no column says from which side",
      );
      const wrong = { columns: { LA: { field: "launch_angle_deg", sign: "pull" } } };
      expect(columnMapProblems(wrong)).toEqual([
        '"LA" counts from the pull side, which only spray_angle_deg can',
      ]);
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
