import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { swingLanding } from "../../src/contact/landing.ts";
import { sessionFields, type Session } from "../../src/swing/fields.ts";
import { deg, ft } from "../../src/units/index.ts";
import { ball, swing } from "./swings.ts";

const unknown = Object.fromEntries(sessionFields.map((f) => [f.name, null])) as unknown as Session;
const mountain: Session = { ...unknown, session: "s1", altitude_ft: 5280 };
const rows = () =>
  enrich({
    swings: [
      ball(98, 30, { session: "s1", spray_angle_deg: -20, bats: "R" }),
      ball(98, 30, { session: "s1" }),
      swing({ outcome: "miss" }),
    ],
    sessions: [mountain],
    hitters: [],
  });

describe("the landing of one swing", () => {
  it("has its ellipse about where it comes down, in its session's air", () => {
    const [far] = rows();
    const landing = swingLanding(far!, mountain)!;
    expect(landing.carry_ft).toBe(far!.carry_ft);
    const { x, y, long } = landing.ellipse;
    expect(Math.hypot(x, y) / ft).toBeGreaterThan(far!.carry_low_ft!);
    expect(Math.hypot(x, y) / ft).toBeLessThan(far!.carry_high_ft!);
    expect(Math.abs(Math.atan2(x, y) / deg - far!.bearing_deg!)).toBeLessThan(1);
    expect(long / ft).toBeGreaterThan(10);
    // Without its session it would come down elsewhere.
    expect(swingLanding(far!, null)!.ellipse.y).toBeLessThan(y - 5);
  });

  it("is none without a direction or a flight", () => {
    const [, aimless, miss] = rows();
    expect(swingLanding(aimless!, mountain)).toBeNull();
    expect(swingLanding(miss!, mountain)).toBeNull();
  });
});
