/** A report's letters, as they are installed: Node only. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { once } from "../swing/once.ts";
import { faceRules } from "./faces.ts";

/** The faces as a style sheet. */
export const fontFaces = once((): string => {
  const { resolve } = createRequire(import.meta.url);
  return faceRules((file) => readFileSync(resolve(file)).toString("base64"));
});
