/** Where one enriched swing may have come down, for a chart. */
import { airFor } from "../flight/air.ts";
import { ballFor, findBall } from "../flight/ball.ts";
import { landingEllipse, type LandingEllipse } from "../flight/ellipse.ts";
import { launchOf } from "../flight/launch.ts";
import { carryRange } from "../flight/range.ts";
import type { EnrichedSwing, Session } from "../swing/fields.ts";

/** The range of a swing's carry, ft, and the ellipse of its landing point. */
export interface SwingLanding {
  readonly carry_ft: number;
  readonly carry_low_ft: number;
  readonly carry_high_ft: number;
  readonly ellipse: LandingEllipse;
}

/**
 * The range and the ellipse of a swing, in its session's air and with its ball; null for a swing without a flight or
 * without a direction.
 * @param session the swing's own; null when it names none
 */
export function swingLanding(swing: EnrichedSwing, session: Session | null): SwingLanding | null {
  const { carry_ft, carry_low_ft, carry_high_ft } = swing;
  if (carry_ft === null || carry_low_ft === null || carry_high_ft === null || swing.bearing_deg === null) {
    return null;
  }
  const launched = launchOf(swing);
  if (launched === null) return null;
  const ball = session?.ball ?? null;
  const range = carryRange(
    launched.launch,
    airFor(session),
    ballFor(ball !== null && findBall(ball) === null ? null : ball),
    launched.spinSource,
  );
  return { carry_ft, carry_low_ft, carry_high_ft, ellipse: landingEllipse(range.landing) };
}
