/** A report's letters, as they are installed: Node only. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { faceRules } from "./faces.ts";

let made: string | null = null;

/** The faces as a style sheet. */
export function fontFaces(): string {
  const { resolve } = createRequire(import.meta.url);
  made ??= faceRules((file) => readFileSync(resolve(file)).toString("base64"));
  return made;
}
