/** The field: its fences and lanes, the zone over the plate, and where a tracker stands and how it is turned. */
export * from "./fields.ts";
export * from "./lanes.ts";
export * from "./tracker.ts";
export * from "./corrected.ts";
export * from "./zone.ts";
