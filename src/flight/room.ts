/** Where the integrator keeps its numbers: typed arrays that live as long as the module. */

/**
 * A launch and its air as numbers, for those who have no objects: speed, launch angle, spray angle, backspin,
 * sidespin; contact point x, y, z; density; wind x, y. Units as in `Launch` and `Air`.
 */
export const aim = new Float64Array(11);

/**
 * What a flight starts from, in this order: contact point x, y, z (m); velocity x, y, z (m/s); spin vector x, y, z
 * (rad/s); drag without spin, ρA/2m·Cd (1/m); the part of it that decays with the spin (1/m); ρA/2m·R;
 * lift slope·R (m); wind x, y (m/s).
 */
export const given = new Float64Array(15);

/** Where a flight ended: x, y (m), time (s), highest z (m), velocity x, y, z at landing (m/s). */
export const landed = new Float64Array(7);

/** Time, x, y, z and velocity x, y, z at the start of a step, and at its end. */
export const here = new Float64Array(7);
export const next = new Float64Array(7);

/** Acceleration x, y, z at a step's start, in its middle and at its end. */
export const acceleration = new Float64Array(9);
export const atMiddle = 3;
export const atEnd = 6;

/** What is left of the spin at a step's start, in its middle and at its end. */
export const decay = new Float64Array(3);

/** The length of the step to take, s; how far the step's own two values of its last acceleration are apart, m. */
export const plan = new Float64Array(2);
