/** Small libraries that faults are tried on, and what has to be in them before and after a change. */
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { addFile } from "../../src/library/add.ts";
import { openLibrary } from "../../src/library/library.ts";

const headings = "swing_id,session,hitter,input,exit_velocity_mph,launch_angle_deg";
const rows = (...lines: readonly string[]): string => `${[headings, ...lines].join("\n")}\n`;
const nine = (session: string, speed: number): string[] =>
  Array.from({ length: 9 }, (_, i) => `a${i + 1},${session},Ana,tee,${speed},10`);

/** The swings of a library, each as its id, session, hitter and speed. */
export async function swingsIn(dir: string): Promise<string[]> {
  const { swings } = await openLibrary(dir);
  return swings.map((s) => `${s.swing_id} ${s.session} ${s.hitter} ${s.exit_velocity_mph}`).sort();
}

/** A library of two sessions, and the file that moves swings from the one into the other, adds one and has one refused. */
export async function libraryToChange(folder: string): Promise<{ library: string; sheet: string }> {
  const library = join(folder, "library");
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, "first.csv"), rows(...nine("A", 60), "b1,B,Ben,tee,61,10"));
  await addFile(library, join(folder, "first.csv"));
  const sheet = join(folder, "second.csv");
  await writeFile(sheet, rows(...nine("B", 60), "a0,A,Ana,tee,62,10", ",A,Ana,tee,none,10"));
  await writeFile(join(library, "hitters.csv"), "hitter,level\nAna,college\nBen,college\n");
  return { library, sheet };
}
