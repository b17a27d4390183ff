/** The flight of a ball: air, ball, spin, launch, carry with its range, and the path. SI inside. */
export * from "./air.ts";
export * from "./ball.ts";
export * from "./batch.ts";
export { fly, type Flight } from "./carry.ts";
export * from "./coefficients.ts";
export * from "./ellipse.ts";
export * from "./launch.ts";
export * from "./range.ts";
export * from "./sensitivity.ts";
export * from "./spin.ts";
export * from "./spreads.ts";
export * from "./trajectory.ts";
