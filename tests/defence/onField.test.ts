/** Balls against a defence: sums, limits, and the chance of going over held against seeded draws. */
import { randomLcg } from "d3-random";
import { describe, expect, it } from "vitest";
import { fenceOdds } from "../../src/contact/fence.ts";
import { chancesOf, landingParts, type LandingParts } from "../../src/defence/chances.ts";
import { defenceOn, mostReach, reachIn } from "../../src/defence/fielders.ts";
import { onField } from "../../src/defence/onField.ts";
import table from "../../data/fielders.json" with { type: "json" };
import { fieldFor, playingFields } from "../../src/field/fields.ts";
import { airFor } from "../../src/flight/air.ts";
import { ballFor } from "../../src/flight/ball.ts";
import { launchOf } from "../../src/flight/launch.ts";
import { swing } from "../views/rows.ts";

const hit = (speed: number, angle: number, spray: number, session = "a") =>
  swing({ exit_velocity_mph: speed, launch_angle_deg: angle, spray_angle_deg: spray, session, bats: "R" });
const on = (...balls: readonly ReturnType<typeof hit>[]) => onField(balls, { field: "60/90" });

describe("a ball's chances", () => {
  it("add up to one on every field, whatever the ball", () => {
    for (const { name } of playingFields)
      for (const ball of onField(
        [20, 45, 70, 95, 115].flatMap((speed) =>
          [-60, -20, 0, 8, 15, 28, 50, 80].flatMap((angle) =>
            [-40, 3, 30].map((spray) => hit(speed, angle, spray)),
          ),
        ),
        { field: name },
      ).balls) {
        const all = [ball.over, ball.caught, ball.fielded, ball.down];
        expect(all.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
        for (const chance of all) expect(chance).toBeGreaterThanOrEqual(0);
      }
  });

  it("are what a coach would say of plain cases", () => {
    const [homer, routine, popped, hole, toShort, shot] = on(
      hit(110, 28, -30),
      hit(90, 35, 0),
      hit(70, 60, -10),
      hit(86, 13, -15),
      hit(80, -5, -13),
      hit(80, -5, -22),
    ).balls;
    expect(homer!.over).toBeGreaterThan(0.9);
    expect(routine!.caught).toBeGreaterThan(0.9);
    expect(popped!.caught).toBeGreaterThan(0.9);
    expect(hole!.down).toBeGreaterThan(0.5);
    expect(toShort!.fielded).toBeGreaterThan(0.85);
    expect(shot!.down).toBeGreaterThan(toShort!.down);
  });

  it("grow with the air: a mile up more goes over the fence", () => {
    const balls = Array.from({ length: 9 }, (_, i) => hit(98 + (i % 3), 27, -30 + 7 * i));
    const low = onField(balls, { field: "60/90" }).total.over.value;
    const high = onField(balls, { field: "60/90", air: { altitude_ft: 5280 } }).total.over.value;
    expect(high).toBeGreaterThan(low + 1);
  });

  it("are totals whose ranges are those of balls that fall each by its own chance", () => {
    const { balls, total } = onField(
      Array.from({ length: 40 }, (_, i) => hit(60 + i, (i * 7) % 40, -40 + 2 * i)),
      { field: "60/90" },
    );
    // 2 000 seasons of the same balls, each drawn by its chances.
    const random = randomLcg(0.27);
    const counts = Array.from({ length: 2000 }, () => balls.filter(({ caught }) => random() < caught).length);
    const { value, low, high } = total.caught;
    expect(value).toBeCloseTo(counts.reduce((all, n) => all + n, 0) / counts.length, 0);
    const within = counts.filter((n) => n >= low && n <= high).length / counts.length;
    expect(within).toBeGreaterThan(0.92);
    expect(within).toBeLessThan(0.98);
    for (const count of [total.over, total.down, total.fielded, total.safe]) {
      expect(count.low).toBeLessThan(count.value);
      expect(count.high).toBeGreaterThan(count.value);
    }
  });

  it("are what a landing in many more parts would give", () => {
    const [air, ball, field] = [airFor(null), ballFor(null), fieldFor("60/90")];
    const defence = defenceOn(field);
    const [many, few] = [landingParts(151, 41), landingParts(3, 1)];
    let [most, rough] = [0, 0];
    for (const speed of [60, 75, 90, 100, 105])
      for (let angle = -18; angle <= 50; angle += 4)
        for (const spray of [-38, -21, -4, 13, 33]) {
          const { launch, spinSource } = launchOf(hit(speed, angle, spray))!;
          const of = (parts?: LandingParts) =>
            chancesOf(launch, air, ball, spinSource, field, defence, undefined, parts);
          const [usual, fine, coarse] = [of(), of(many), of(few)];
          if (usual === null) continue;
          for (const kind of ["over", "caught", "fielded", "down"] as const) {
            most = Math.max(most, Math.abs(usual[kind] - fine![kind]));
            rough = Math.max(rough, Math.abs(coarse![kind] - fine![kind]));
          }
        }
    expect(most).toBeLessThan(0.04);
    expect(rough).toBeGreaterThan(0.1);
  });

  it("over the fence agree with balls drawn and followed to the fence one by one", () => {
    const [air, ball, field] = [airFor(null), ballFor(null), fieldFor("60/90")];
    let between = 0;
    for (const speed of [94, 97, 99, 101, 104]) {
      const { launch, spinSource } = launchOf(hit(speed, 27, -14))!;
      const { over } = chancesOf(launch, air, ball, spinSource, field, defenceOn(field))!;
      const drawn = fenceOdds(launch, air, ball, spinSource, field, { draws: 1000 }).chance;
      if (over > 0.03 && over < 0.97) between++;
      // Parts of the landing against a thousand draws, and a straight way down against a curved one: to a tenth.
      expect(Math.abs(over - drawn)).toBeLessThan(0.1);
    }
    expect(between).toBeGreaterThan(1);
  });
});

describe("totals", () => {
  it("are sums of chances, with chance's own interval, session by session", () => {
    const found = on(hit(95, 15, 10, "a"), hit(95, 15, 10, "b"), hit(60, -10, 0, "b"), hit(90, 20, 60, "b"));
    expect(found.foul).toBe(1);
    expect(found.total.n).toBe(3);
    expect(found.total.sessions).toBe(2);
    expect(found.bySession.map(({ session, n }) => [session, n])).toEqual([
      ["a", 1],
      ["b", 2],
    ]);
    const p = found.balls.map(({ over, down }) => over + down);
    expect(found.total.safe.value).toBeCloseTo(
      p.reduce((a, b) => a + b, 0),
      9,
    );
    const half = 1.959964 * Math.sqrt(p.reduce((a, q) => a + q * (1 - q), 0));
    expect(found.total.safe.high).toBeCloseTo(Math.min(3, found.total.safe.value + half), 5);
  });

  it("leave out what has no direction, and count it", () => {
    const none = onField([swing({ exit_velocity_mph: 80, launch_angle_deg: 10, spray_angle_deg: null })], {});
    expect(none.left_out).toBe(1);
    expect(none.total).toMatchObject({ n: 0, over: { value: 0, low: 0, high: 0 } });
    expect(none.total.share.value).toBeNull();
  });
});

describe("the fielders' table", () => {
  it("gives every figure its source, or says that it has none", () => {
    const all = [...table.positions, ...table.running, ...Object.values(table.reach)];
    expect(all.length).toBeGreaterThan(20);
    for (const { source } of all) expect(source).toMatch(/no source|from memory|\d{4}/);
  });

  it("lets nobody move before the reaction, and nobody run faster than the sprint", () => {
    const { running } = defenceOn(fieldFor("60/90"));
    expect(reachIn(0.2, "outfield", running)).toBe(reachIn(0.5, "outfield", running));
    const second = reachIn(9, "outfield", running) - reachIn(8, "outfield", running);
    expect(second).toBeLessThanOrEqual(running.sprint);
    expect(second).toBeGreaterThan(0.99 * running.sprint);
  });

  it("rules nobody out who could be there", () => {
    const { running } = defenceOn(fieldFor("60/90"));
    for (const kind of ["infield", "outfield"] as const)
      for (let time = 0; time < 8; time += 0.05)
        expect(mostReach(time, kind, running)).toBeGreaterThanOrEqual(reachIn(time, kind, running));
  });
});
