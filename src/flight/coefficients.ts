/**
 * Drag, lift and spin decay: the numbers of the model, and where they come from. What published measurements say
 * beside them stands in tests/published/coefficients.test.ts: on 100 mph at 28° they carry the ball up to 12 ft farther, a
 * season's tracked fly balls within 1 ft of ours.
 */

/** Drag coefficient without spin (fit to indoor flight measurements; from memory; 0.297 in Nathan's fit, next). */
export const dragWithoutSpin = 0.3008;

/**
 * What 1000 rpm of total spin adds to the drag coefficient (A. M. Nathan, Phys. Teach. 55, 2017, 134, a fit to tracked fly
 * balls, as others quote it).
 */
export const dragPerThousandRpm = 0.0292;

/**
 * The lift coefficient is S / (liftOffset + liftSlope·S), S = Rω⊥/v (R. Cross, Physics of Baseball & Softball,
 * 2011; data of A. M. Nathan, Am. J. Phys. 76, 2008, 119; from memory).
 */
export const liftOffset = 0.4;
export const liftSlope = 2.32;

/** The time in which spin falls to 1/e of itself, s (common practice, no source; Nathan, 2017, quotes the same). */
export const spinDecay_s = 30;
