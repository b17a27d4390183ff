/** One hitter, and several, between two kinds of work: measures, the gap, its parts, and what differs between hitters. */
export * from "./cells.ts";
export * from "./gap.ts";
export * from "./measures.ts";
export * from "./parts.ts";
export * from "./rows.ts";
export * from "./across.ts";
export * from "./stabilizing.ts";
