/**
 * Each chart against its kept drawing in tests/golden. `npm run golden` writes those that changed or are
 * missing, for review as a diff.
 */
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyGallery, gallery } from "./gallery.ts";
import { drawn } from "./node.ts";
import { writeTogether } from "../../src/library/write.ts";

const folder = fileURLToPath(new URL("../golden", import.meta.url));
const update = (import.meta as { env?: { MODE?: string } }).env?.MODE === "golden";

/** One element a line, so that a change reads as a diff. */
const lines = (svg: SVGSVGElement): string => `${svg.outerHTML.replaceAll("><", ">\n<")}\n`;

const pictures = [
  ...Object.entries(gallery).flatMap(([name, draw]) => [350, 720].map((width) => ({ name, draw, width }))),
  ...Object.entries(emptyGallery).map(([name, draw]) => ({ name, draw, width: 350 })),
].map((picture) => ({ ...picture, file: `${picture.name}-${picture.width}.svg` }));

describe("charts draw what is kept in tests/golden", () => {
  const files = new Set(pictures.map((p) => p.file));

  it.each(pictures)("$file", async ({ draw, width, file }) => {
    const path = join(folder, file);
    const now = lines(drawn(draw, width));
    const kept = existsSync(path) ? readFileSync(path, "utf8") : null;
    if (update) {
      if (kept !== now) await writeTogether((put) => put(path, [now]), folder);
      return;
    }
    expect(kept, `tests/golden/${file} is missing: npm run golden`).not.toBeNull();
    expect(now).toBe(kept);
  });

  it("keeps no drawing that nothing draws", () => {
    if (update)
      for (const old of readdirSync(folder))
        if (old.endsWith(".svg") && !files.has(old)) rmSync(join(folder, old));
    expect(readdirSync(folder).sort()).toEqual([...files].sort());
  });
});
