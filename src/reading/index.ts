/** From text to swings: CSV in any layout, column maps and guesses at them, checks, and CSV out again. */
export * from "./check.ts";
export * from "./csv.ts";
export * from "./datapackage.ts";
export * from "./guess.ts";
export * from "./maps.ts";
export * from "./namesakes.ts";
export * from "./read.ts";
export * from "./text.ts";
