/** What a player reads off a spray chart. */
import { describe, expect, it } from "vitest";
import { sprayView } from "../../src/views/spray.ts";
import { swing } from "./rows.ts";

describe("sprayView", () => {
  const fly = (carry_ft: number | null) =>
    swing({ carry_ft, category: "fly ball", bucket: "clean", side: "pull" });

  it("takes the usual carry from balls in the air, and the farthest from all", () => {
    const grounder = swing({ carry_ft: 20, category: "ground ball", bucket: "mishit", side: "opposite" });
    const bloop = swing({ carry_ft: 400, category: "bloop" });
    const view = sprayView([fly(200), fly(300), fly(310), fly(null), grounder, bloop]);
    expect(view.in_play).toBe(6);
    expect(view.carry_ft).toMatchObject({ n: 3, value: 300 });
    expect(view.farthest).toBe(bloop);
    expect(view.well_hit).toMatchObject({ count: 4, n: 5 });
    expect(view.sides.map(({ side, count, n }) => [side, count, n])).toEqual([
      ["pull", 4, 5],
      ["middle", 0, 5],
      ["opposite", 1, 5],
    ]);
  });

  it("leaves out what was not put in play, and says unknown where nothing is known", () => {
    const view = sprayView([swing({ outcome: "miss", exit_velocity_mph: null, carry_ft: null })]);
    expect(view).toMatchObject({ in_play: 0, farthest: null });
    expect(view.carry_ft.value).toBeNull();
    expect(view.well_hit.share).toBeNull();
    expect(sprayView([swing({ carry_ft: null })]).farthest).toBeNull();
  });
});
