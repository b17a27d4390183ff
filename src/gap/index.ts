export * from "./cells.ts";
export * from "./gap.ts";
export * from "./measures.ts";
export * from "./parts.ts";
export * from "./rows.ts";
export * from "./across.ts";
export * from "./settling.ts";
