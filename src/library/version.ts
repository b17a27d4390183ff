/** The kit's own version. */
import { createRequire } from "node:module";

/** As package.json says it, by the package's own name: a built kit has it elsewhere than the sources. */
export const version = (
  createRequire(import.meta.url)("batted-ball-notebooks/package.json") as { version: string }
).version;
