/** The charts: each a pure function of its rows and options, giving an SVG element. */
export { bucketStrip } from "./bucketStrip.ts";
export { caterpillar } from "./caterpillar.ts";
export { contactMap } from "./contactMap.ts";
export { contactPlace } from "./contactPlace.ts";
export { driftShifts } from "./driftShifts.ts";
export { flightSide } from "./flightSide.ts";
export { flightTop } from "./flightTop.ts";
export { pitchOutcomes } from "./pitchOutcomes.ts";
export { reliability } from "./reliability.ts";
export { repeatability } from "./repeatability.ts";
export { setupPlan } from "./setupPlan.ts";
export { setupSide } from "./setupSide.ts";
export { sprayChart } from "./sprayChart.ts";
export { timing } from "./timing.ts";
export { trustBadge } from "./trustBadge.ts";
export { waterfall } from "./waterfall.ts";
export { zoneMap } from "./zoneMap.ts";
export type { ChartOptions } from "./frame.ts";
