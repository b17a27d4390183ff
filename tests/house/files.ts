import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The project's folder. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

/** Every file under a folder of the project whose name ends in one of the endings. */
export function filesUnder(folder: string, endings: readonly string[]): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && endings.some((ending) => entry.name.endsWith(ending)))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !path.includes("node_modules"))
    .sort();
}
