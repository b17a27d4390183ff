/** A group of hitters over days and weeks: who did what, who needs what. */
export * from "./group.ts";
export * from "./needs.ts";
