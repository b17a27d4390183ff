import { describe, expect, it } from "vitest";
import { oneBall, type BallGiven } from "../../src/contact/oneBall.ts";
import { ballWords } from "../../src/views/sentences/ball.ts";
import { ball as swing } from "../contact/swings.ts";

const words = (given: Partial<BallGiven>, system: "us" | "metric" = "us"): string => {
  const { ball, amiss } = oneBall({
    ...swing(100, 28, { spray_angle_deg: -10, bats: "R" }),
    ...given,
  });
  expect(amiss).toEqual([]);
  const { headline, sentences } = ballWords(ball!, system);
  return [headline, ...sentences].join("\n");
};

describe("a ball in words", () => {
  it("says how far, between what, how long, how high and where", () => {
    const said = words({});
    expect(said).toMatch(
      /^About 4\d\d ft\. Of ten balls hit like this, eight come down between 3\d\d and 4\d\d ft\.$/m,
    );
    expect(said).toMatch(
      /^It is 5\.\d s in the air, \d\d ft up at its highest, and lands \d+° to the left of center\.$/m,
    );
  });

  it("says it in metres and km/h where those are asked for", () => {
    const said = words({ wind_mph: 10, wind_toward_deg: 0 }, "metric");
    expect(said).toMatch(/^About 1[23]\d m\. .* between 1\d\d and 1\d\d m\.$/m);
    expect(said).toContain("wind of 16 km/h toward 0°");
    expect(said).toContain("met 0.9 m above the plate");
    expect(said).not.toMatch(/ ft\b|mph|°F/);
  });

  it("answers whether it clears the fence, with the chance", () => {
    expect(words({})).toMatch(
      /^Over the fence\? It gets there \d+ ft up, and the fence is 3\d\d ft away and 8 ft high: about \d in 10 such balls would clear it\.$/m,
    );
    expect(words({ exit_velocity_mph: 95 })).toMatch(
      /This one falls \d+ ft short of it .* such balls would clear it/,
    );
    expect(words({ exit_velocity_mph: 60 })).toMatch(/Over the fence\? No: it is .* ft too far/);
    expect(words({ spray_angle_deg: -60 })).toMatch(/It goes foul/);
    expect(words({ spray_angle_deg: null })).not.toMatch(/Over the fence/);
  });

  it("names each source of the spin with its spread", () => {
    expect(words({})).toMatch(/Spin, estimated from the launch: .*each ±500 rpm, one standard deviation/);
    expect(words({ spin_rpm: 2400 })).toMatch(
      /Spin, rate measured, axis estimated: .*±100 rpm, and ±500 rpm across/,
    );
    expect(words({ spin_rpm: 2400, spin_axis_deg: 180 })).toMatch(
      /rate and axis measured: 2,400 rpm of topspin/,
    );
    expect(words({ backspin_rpm: 2000, sidespin_rpm: -300 })).toMatch(
      /backspin and sidespin measured: 2,000 rpm of backspin and 300 rpm curving it to the left/,
    );
  });

  it("says what was assumed, the wind, and that a range was drawn", () => {
    expect(words({})).toMatch(/Assumed, as nothing was given: spin estimated.*70 °F/);
    expect(words({ wind_mph: 12, wind_toward_deg: 90 })).toMatch(/wind of 12 mph toward 90°/);
    expect(words({ exit_velocity_mph: 40, launch_angle_deg: 88 })).toMatch(/drawn at random, seeded/);
  });
});
