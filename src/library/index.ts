/** Swings on disk: a library opened, added to and looked through, and files read and written whole. For Node alone. */
export * from "./add.ts";
export * from "./damage.ts";
export * from "./files.ts";
export { forgetHitter, type Forgotten } from "./forget.ts";
export * from "./library.ts";
export * from "./stories.ts";
export { writeTable, writeTogether, writeWhole, type Pieces, type Put } from "./write.ts";
