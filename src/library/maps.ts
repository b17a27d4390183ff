/** The column maps that a library keeps, so that the next file with the same headings is read as the last one was. */
import { largest } from "../swing/lists.ts";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import type { ColumnMap } from "../reading/maps.ts";
import { readColumnMap } from "./files.ts";
import { takeLock } from "./lock.ts";
import { writeWhole } from "./write.ts";

const mapFile = /^map(?:-(\d+))?\.json$/;
const numberOf = (name: string): number => Number(mapFile.exec(name)?.[1] ?? 1);

/**
 * A library's maps, the one kept last first: of two for the same headings it is the one that was put right.
 * @throws UnusableFile when one of them can't be read
 */
export async function libraryMaps(dir: string): Promise<ColumnMap[]> {
  const names = await readdir(dir).catch((): string[] => []);
  return Promise.all(
    names
      .filter((name) => mapFile.test(name))
      .sort((a, b) => numberOf(b) - numberOf(a))
      .map((name) => readColumnMap(join(dir, name))),
  );
}

/**
 * Keeps a map beside the library's tables, under the first name that is free; one that is kept already is not kept twice.
 * @param patience how long another writer is waited for, ms
 * @returns the file's name
 * @throws Locked when another process goes on writing the library
 */
export async function keepMap(dir: string, map: ColumnMap, patience = 0): Promise<string> {
  const lock = await takeLock(dir, "keep a column map", patience);
  try {
    const text = `${JSON.stringify(map, null, 2)}\n`;
    const names = (await readdir(dir)).filter((name) => mapFile.test(name));
    for (const name of names) {
      const kept = await readColumnMap(join(dir, name)).catch(() => null);
      if (kept !== null && JSON.stringify(kept) === JSON.stringify({ ...map })) return name;
    }
    const last = largest(names.map(numberOf), 0);
    const name = last === 0 ? "map.json" : `map-${last + 1}.json`;
    await writeWhole(join(dir, name), [text]);
    return name;
  } finally {
    await lock.release();
  }
}
