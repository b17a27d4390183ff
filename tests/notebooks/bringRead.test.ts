/** A file that a page was given, read: what it would become, and whether it needs a map. */
import { describe, expect, it } from "vitest";
import { lookAt, readWhole } from "../../notebooks/components/bringRead.ts";

const given = (text: string) => ({ name: "a.csv", blob: new Blob([text]) });
const read = (text: string) =>
  readWhole({
    ...given(text),
    map: null,
    fill: {},
    fixes: new Map(),
    delimiter: ",",
    known: [],
    names: [],
    fastest_mph: null,
  });

const head = "session,hitter,input,time,exit_velocity_mph,launch_angle_deg";

describe("a file on a page", () => {
  it("is told how many rows are copies, and how many of them no time tells apart", async () => {
    const same = "may,Ana,tee,,80,10\n".repeat(3);
    const timed = "may,Ana,tee,2026-05-05T10:00:01,80,10\n".repeat(2);
    expect(await read(`${head}\n${same}${timed}`)).toMatchObject({
      read: 5,
      taken: 2,
      copies: 3,
      untimed: 2,
    });
    // An id of its own says as much as a time.
    const owned = "x1,may,Ana,tee,,80,10\n".repeat(2);
    expect(await read(`swing_id,${head}\n${owned}`)).toMatchObject({ copies: 1, untimed: 0 });
  });

  it.each([
    [head, true],
    ["Hitter,Input,Outcome", true],
    ["refused_file,refused_row,refused_reason,Batter,EV", true],
    ["hitter,input,exit_velocity_mph", false],
    ["Batter,Mode,EV", false],
  ])("with the headings %s needs no map: %s", async (headings, isOwn) => {
    const row = headings.split(",").map(() => "1");
    expect((await lookAt(given(`${headings}\n${row.join(",")}\n`), [])).isOwn).toBe(isOwn);
  });
});
