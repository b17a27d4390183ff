/** The setup: what a placement puts on the numbers, which sessions look moved, and trust in a session. */
export * from "./budget.ts";
export * from "./checklist.ts";
export * from "./drift.ts";
export * from "./lengths.ts";
export * from "./measured.ts";
export * from "./tolerances.ts";
export * from "./trend.ts";
export * from "./trust.ts";
export * from "./twoWay.ts";
export * from "./words.ts";
