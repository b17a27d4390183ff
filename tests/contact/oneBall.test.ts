import { describe, expect, it } from "vitest";
import { oneBall, type BallGiven } from "../../src/contact/oneBall.ts";
import { carryRange } from "../../src/flight/range.ts";
import { ball as swing } from "./swings.ts";

const given: BallGiven = swing(100, 28, { spray_angle_deg: -10, bats: "R" });
const found = (more: Partial<BallGiven>) => {
  const { ball, amiss } = oneBall({ ...given, ...more });
  expect(amiss).toEqual([]);
  return ball!;
};

describe("one ball", () => {
  it("has its flight, range, ellipse and fence, and says all that was assumed", () => {
    const one = found({});
    expect(one.range).toEqual(carryRange(one.launch, one.air, one.ball, "estimated"));
    expect(one.ellipse.long).toBeGreaterThan(one.ellipse.short);
    expect(one.fence!.draws).toBe(2000);
    expect(one.assumed).toEqual([
      "spin estimated from the launch",
      "met 3 ft above the plate",
      "a baseball",
      "the fence of the full field, 90 ft bases",
      "70 °F",
      "sea-level pressure",
      "50 % humidity",
      "no wind",
    ]);
  });

  it("assumes nothing where everything is given", () => {
    const one = found({
      backspin_rpm: 2000,
      sidespin_rpm: 0,
      contact_side_ft: 0,
      contact_depth_ft: 1,
      contact_height_ft: 2.5,
      temperature_f: 80,
      pressure_inhg: 29.5,
      humidity_pct: 40,
      wind_mph: 5,
      wind_toward_deg: 20,
      ball: "11-inch softball",
      field: "softball 43/60",
    });
    expect(one.assumed).toEqual(["a softball's drag and lift taken as a baseball's"]);
    expect(one.path.at(-1)).toMatchObject({ t: one.flight.hang, z: 0 });
    expect(one.ball.name).toBe("11-inch softball");
    expect(one.field.name).toBe("softball 43/60");
  });

  it("has no fence where there is no direction, and no wind under a roof", () => {
    expect(found({ spray_angle_deg: null }).fence).toBeNull();
    const indoor = found({ indoor: true, wind_mph: 20, wind_toward_deg: 0 });
    expect(indoor.air.wind).toEqual([0, 0]);
    expect(indoor.assumed).toContain("indoors: carry is as if outdoors in this air");
  });

  it.each<[Partial<BallGiven>, string]>([
    [{ launch_angle_deg: 120 }, "Launch angle 120° is over 90°: −90 to 90° is expected."],
    [{ exit_velocity_mph: null }, "A flight needs an exit velocity."],
    [{ humidity_pct: -5 }, "Humidity −5 % is under 0 %: 0 to 100 % is expected."],
    [{ temperature_f: 200 }, "Temperature 200 °F is over 130 °F: −20 to 130 °F is expected."],
    [
      { pressure_inhg: 1013 },
      "Pressure 1013 inHg is over 32 inHg: 16 to 32 inHg is expected, and this looks like hPa.",
    ],
    [{ wind_mph: 300, wind_toward_deg: 0 }, "Wind 300 mph is over 80 mph: 0 to 80 mph is expected."],
    [{ exit_velocity_mph: NaN }, "Exit velocity NaN mph is not a number."],
    [{ ball: "melon" }, 'The ball table has no "melon".'],
    [{ field: "moon" }, 'The field table has no "moon".'],
  ])("is refused with one sentence for %j", (more, sentence) => {
    const { ball, amiss } = oneBall({ ...given, ...more });
    expect(ball).toBeNull();
    expect(amiss.map((a) => a.sentence)).toEqual([sentence]);
  });

  it("asks which way a wind blows", () => {
    expect(oneBall({ ...given, wind_mph: 10 }).amiss[0]!.sentence).toMatch(/0 is out to center field/);
    expect(oneBall({ ...given, wind_mph: 0 }).amiss).toEqual([]);
  });
});
