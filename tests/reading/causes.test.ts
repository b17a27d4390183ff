import { describe, expect, it } from "vitest";
import { byCause, causeSentence, rowRanges } from "../../src/reading/causes.ts";
import type { Problem } from "../../src/swing/problems.ts";

const refused = (
  row: number | null,
  field: string | null,
  value: string | null,
  reason: string,
): Problem => ({
  kind: "refused",
  file: "a.csv",
  row,
  field,
  value,
  reason,
});
const noInput = "is not one of tee, flip, live";

describe("problems by cause", () => {
  it("tells a word once, with all its rows, whatever its capitals and blanks", () => {
    const rows = [3, 5, ...Array.from({ length: 13 }, (_, i) => i + 8)];
    const problems = rows.map((row, i) => refused(row, "input", ["Cage 3", "cage  3"][i % 2]!, noInput));
    const causes = byCause([...problems, refused(4, "input", "mound", noInput)]);
    expect(causes.map(causeSentence)).toEqual([
      'a.csv, 15 rows: input "Cage 3" is not one of tee, flip, live (rows 3, 5 and 8 to 20).',
      'a.csv, row 4: input "mound" is not one of tee, flip, live.',
    ]);
    expect(causes.map(({ isWord }) => isWord)).toEqual([true, true]);
  });

  it("tells one reason once whatever number stands in the cell, and shows a few of them", () => {
    const causes = byCause([
      refused(9, "exit_velocity_mph", "141", "(141 mph) is over 130 mph"),
      refused(2, "exit_velocity_mph", "150", "(150 mph) is over 130 mph"),
      refused(3, "launch_angle_deg", "95", "is over 90"),
      {
        ...refused(7, null, null, "the row is an exact copy of row 3, and is counted once"),
        kind: "warning",
      },
      {
        ...refused(8, null, null, "the row is an exact copy of row 4, and is counted once"),
        kind: "warning",
      },
    ]);
    expect(causes.map(({ kind, rows }) => [kind, rows])).toEqual([
      ["refused", [2, 9]],
      ["refused", [3]],
      ["warning", [7, 8]],
    ]);
    expect(causeSentence(causes[0]!)).toBe(
      'a.csv, 2 rows: exit_velocity_mph ("141", "150", …) is over 130 mph (rows 2 and 9).',
    );
  });

  it("keeps what is wrong with whole files and with several names apart", () => {
    const near = (value: string): Problem => ({
      ...refused(null, "hitter", value, 'may be the same as "Bo"'),
      kind: "warning",
    });
    expect(byCause([near("bo"), near("BO")])).toHaveLength(2);
    expect(causeSentence(byCause([refused(null, null, null, "is empty")])[0]!)).toBe("a.csv: is empty.");
    expect(byCause([])).toEqual([]);
  });

  it("gives as many rows as there are problems", () => {
    const problems = Array.from({ length: 292 }, (_, i) =>
      refused(i + 2, "input", i % 3 ? "x" : "y", noInput),
    );
    const causes = byCause(problems);
    expect(causes).toHaveLength(2);
    expect(causes.flatMap(({ rows }) => rows).sort((a, b) => a - b)).toEqual(problems.map(({ row }) => row));
  });
});

describe("row ranges", () => {
  it("writes three and more in a row as a range", () => {
    expect(rowRanges([1, 2, 4, 5, 6])).toBe("1, 2 and 4 to 6");
    expect(rowRanges([])).toBe("");
    expect(rowRanges([2, 4, 6, 8, 10], 3)).toBe("2, 4, 6 and 2 more");
  });
});
