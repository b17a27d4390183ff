/** What a swing is: the tables' fields, their limits and names, rows of which little is known, and what is amiss with one. */
export { byName } from "./byName.ts";
export * from "./columns.ts";
export * from "./fields.ts";
export * from "./limits.ts";
export * from "./names.ts";
export * from "./problems.ts";
export * from "./rules.ts";
export * from "./tables.ts";
export * from "./unknown.ts";
export { counted, fixedNumber, listed, signedNumber } from "./words.ts";
