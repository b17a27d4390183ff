/** What a ball would have been against a defence: fielders in place, how far they get, chances, totals. */
export * from "./chances.ts";
export * from "./fielders.ts";
export * from "./onField.ts";
