/** Columns that give themselves away: the wrong unit, the wrong sign, each other's place. */
import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { Judge } from "../../src/reading/check.ts";
import { swingsFrom } from "./support.ts";

const random = randomLcg(0.3);
const speed = randomNormal.source(random)(72, 8);
const launch = randomNormal.source(random)(11, 18);
const off = randomNormal.source(random)(0, 18);

/** Swings as they are hit: ground balls pulled by 12° on average. */
const swings = Array.from({ length: 240 }, (_, i) => {
  const bats = i % 3 === 0 ? "L" : "R";
  const angle = launch();
  const pull = angle < 10 ? 12 : 0;
  return { bats, speed: speed(), angle, spray: (bats === "R" ? -pull : pull) + off() };
});
type Made = (typeof swings)[number];

async function doubts(change: (swing: Made) => Partial<Made>, options = {}): Promise<string[]> {
  const rows = swings.map((swing) => {
    const s = { ...swing, ...change(swing) };
    return `Ana,${s.bats},tee,${s.speed.toFixed(1)},${s.angle.toFixed(1)},${s.spray.toFixed(1)}`;
  });
  const text = `hitter,bats,input,exit_velocity_mph,launch_angle_deg,spray_angle_deg\n${rows.join("\n")}\n`;
  const reading = await swingsFrom(text);
  const judge = new Judge("swings", "a.csv", options);
  reading.rows.forEach((row, i) => judge.row(row, reading.numbers[i]!));
  for (const row of reading.refused) judge.refused(row);
  return judge.doubts().map((p) => `${p.field} ${p.reason}`);
}

describe("doubts", () => {
  it("are none when nothing is wrong", async () => {
    expect(await doubts(() => ({}))).toEqual([]);
    expect(await doubts(() => ({}), { fastest_mph: 87 })).toEqual([]);
  });

  it("name a unit: km/h, m/s, radians", async () => {
    expect(await doubts((s) => ({ speed: s.speed * 1.609344 }))).toEqual([
      expect.stringMatching(/^exit_velocity_mph .*looks like km\/h/),
    ]);
    expect(await doubts((s) => ({ speed: s.speed * 0.44704 }))).toEqual([
      expect.stringMatching(/looks like m\/s/),
    ]);
    expect(await doubts((s) => ({ angle: (s.angle * Math.PI) / 180 }))).toContainEqual(
      expect.stringMatching(/^launch_angle_deg looks like radians/),
    );
  });

  it("name km/h that only hitters of another level could reach in mph", async () => {
    const young = (s: Made): Partial<Made> => ({ speed: s.speed * 0.75 * 1.609344 });
    expect(await doubts(young)).toEqual([]);
    expect(await doubts(young, { fastest_mph: 66 })).toEqual([
      expect.stringMatching(/^exit_velocity_mph looks like km\/h: .* the library's hitters reach about 66$/),
    ]);
  });

  it("name columns that were swapped", async () => {
    expect(await doubts((s) => ({ speed: s.angle, angle: s.speed }))).toEqual([
      "exit_velocity_mph and launch_angle_deg look swapped: each holds what the other should",
    ]);
  });

  it("name directions that are mirrored, for both sides or one", async () => {
    const mirrored = expect.stringMatching(
      /^spray_angle_deg looks mirrored: .*right-handed batters go .* to the right-field side/,
    ) as string;
    expect(await doubts((s) => ({ spray: -s.spray }))).toEqual([mirrored]);
    expect(await doubts((s) => ({ spray: -s.spray, bats: "R" as const }))).toEqual([]);
    expect(await doubts((s) => ({ spray: s.bats === "R" ? -s.spray : s.spray, bats: "R" as const }))).toEqual(
      [mirrored],
    );
  });

  it("don't take a lefty who hits to the opposite field for a mirror, while right-handed ones pull", async () => {
    expect(await doubts((s) => ({ spray: s.bats === "L" ? -s.spray : s.spray }))).toEqual([]);
  });

  it("name launch angles from the vertical and upside down", async () => {
    expect(await doubts((s) => ({ angle: 90 - s.angle }))).toContainEqual(
      expect.stringMatching(/looks measured from the vertical|look swapped/),
    );
    expect(await doubts((s) => ({ angle: Math.max(-90, -s.angle - 12) }))).toContainEqual(
      expect.stringMatching(/upside down/),
    );
  });
});
