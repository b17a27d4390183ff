/** Drag, lift and spin decay: the numbers of the model, and where they come from. */

/** Drag coefficient without spin (fit to indoor flight measurements; from memory). */
export const dragWithoutSpin = 0.3008;

/** What 1000 rpm of total spin adds to the drag coefficient (the same fit; from memory). */
export const dragPerThousandRpm = 0.0292;

/**
 * The lift coefficient is S / (liftOffset + liftSlope·S), S = Rω⊥/v (R. Cross, Physics of Baseball & Softball,
 * 2011; data of A. M. Nathan, Am. J. Phys. 76, 2008, 119).
 */
export const liftOffset = 0.4;
export const liftSlope = 2.32;

/** The time in which spin falls to 1/e of itself, s (common practice, no source). */
export const spinDecay_s = 30;
