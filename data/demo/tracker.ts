/** The tracker: what it makes of a swing, from where it truly stands. */
import type { Swing } from "../../src/swing/fields.ts";
import { swingOf } from "../../src/swing/unknown.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { readFrom } from "../../src/field/tracker.ts";
import { departureOf, velocityOf } from "../../src/field/vector.ts";
import { deg, mph } from "../../src/units/index.ts";
import type { Chance } from "./chance.ts";
import type { SessionPlan } from "./scenario.ts";
import type { TrueSwing } from "./swings.ts";

/** Spreads of the readings, in the fields' units. Invented, to look right. */
const noise = {
  exitVelocity: 0.5,
  launchAngle: 0.6,
  sprayAngle: 0.8,
  spin: 60,
  pitchSpeed: 0.4,
  contact: 0.05,
  batSpeed: 0.8,
  attackAngle: 1.2,
} as const;

/** Shares of readings that fail. Invented. */
const failing = {
  row: 0.012,
  spray: 0.012,
  spin: 0.06,
  contact: 0.025,
  pitchSpeed: 0.03,
  sensor: 0.04,
} as const;

/** What the tracker writes of a swing, its name and time apart; null when it missed it altogether. */
export function track(swing: TrueSwing, plan: SessionPlan, draw: Chance): Swing | null {
  const row = swingOf({
    session: plan.log.session,
    hitter: swing.hitter.hitter,
    bats: plan.sides ? swing.bats : null,
    input: swing.input,
    drill: swing.drill,
    outcome: swing.outcome,
  });
  if (draw.happens(failing.row)) return null;

  if (swing.pitch !== null) {
    const atRelease =
      plan.log.pitch_speed_at === "release" ? 1 / (1 - defaultThresholds.release_speed_lost_share) : 1;
    const speed = draw.normal(swing.pitch.speed_mph * atRelease, noise.pitchSpeed);
    row.pitch_speed_mph = draw.happens(failing.pitchSpeed) ? null : speed;
    if (swing.input === "live") {
      row.pitch_type = swing.pitch.type;
      row.pitcher = swing.pitch.pitcher;
    }
  }

  if (swing.batSpeed_mph !== null && swing.attackAngle_deg !== null) {
    const [speed, angle] = [
      draw.normal(swing.batSpeed_mph, noise.batSpeed),
      draw.normal(swing.attackAngle_deg, noise.attackAngle),
    ];
    if (plan.sensor && swing.hitter.sensor && !draw.happens(failing.sensor)) {
      row.bat_speed_mph = speed;
      row.attack_angle_deg = angle;
    }
  }

  const { launch } = swing;
  if (launch === null) return row;
  // A foul that leaves sideways or backward is out of the tracker's sight.
  if (swing.outcome === "foul" && (Math.abs(launch.sprayAngle_deg) > 75 || draw.happens(0.15))) return row;

  const { stand } = plan;
  const reading = readFrom(
    {
      velocity: velocityOf(launch.speed, launch.launchAngle_deg, launch.sprayAngle_deg),
      contact: launch.contact,
    },
    { ...stand, yaw_deg: plan.turned_deg, tilt_deg: plan.tilted_deg, roll_deg: 0 },
    { stand, scaled: false },
  );
  const seen = departureOf(reading.velocity);
  row.exit_velocity_mph = draw.normal(seen.speed / mph, noise.exitVelocity);
  row.launch_angle_deg = Math.min(
    89.9,
    Math.max(-89.9, draw.normal(seen.launchAngle_deg, noise.launchAngle)),
  );
  const spray = draw.normal(seen.sprayAngle_deg, noise.sprayAngle);
  row.spray_angle_deg = draw.happens(failing.spray) ? null : spray;

  const [back, side] = [
    draw.normal(launch.backspin_rpm, noise.spin),
    draw.normal(launch.sidespin_rpm, noise.spin),
  ];
  if (!draw.happens(failing.spin)) {
    if (plan.spin === "components") [row.backspin_rpm, row.sidespin_rpm] = [back, side];
    if (plan.spin === "axis" || plan.spin === "rate") row.spin_rpm = Math.hypot(back, side);
    if (plan.spin === "axis") row.spin_axis_deg = Math.atan2(side, back) / deg;
  }

  const read = reading.contact.map((value) => draw.normal(value, noise.contact));
  if (!draw.happens(failing.contact)) {
    [row.contact_side_ft, row.contact_depth_ft, row.contact_height_ft] = [read[0]!, read[1]!, read[2]!];
  }
  return row;
}
