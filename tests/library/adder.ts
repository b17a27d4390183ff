/** A process that adds file after file to a library, and says after each that it is in: for the test that kills it. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { addFile } from "../../src/library/add.ts";

const [dir, sheets, from] = process.argv.slice(2) as [string, string, string];

/** Swings of three sessions, one of which grows with every file, and one value of the file before, corrected. */
export function sheet(k: number): string {
  const row = (n: number, speed: number): string =>
    `swing-${n},${["all", `own ${n % 10}`, "May"][n % 3]!},Ana,tee,${speed},10`;
  const rows = Array.from({ length: 9 }, (_, i) => row(k * 9 + i, 60));
  if (k > 0) rows.push(row((k - 1) * 9, 70));
  rows.push(`,all,Ana,tee,none ${k},10`);
  return `swing_id,session,hitter,input,exit_velocity_mph,launch_angle_deg\n${rows.join("\n")}\n`;
}

if (dir !== undefined) {
  for (let k = Number(from); ; k++) {
    const path = join(sheets, `${k}.csv`);
    writeFileSync(path, sheet(k));
    process.stdout.write(`begin ${k}\n`);
    await addFile(dir, path, { patience: 5000 });
    process.stdout.write(`added ${k}\n`);
  }
}
