/** The tests that are to notice a mutant: those of its room, and the outside checks. */
import { defineConfig } from "vitest/config";
import { fileURLToPath } from "node:url";

const room = process.env["MUTATED_ROOM"] ?? "stats";
/** Rooms without a test file for each module, whose figures are tested where they are used. */
const users: Readonly<Record<string, readonly string[]>> = { stats: ["season", "views"], contact: ["views"] };

export default defineConfig({
  test: {
    root: fileURLToPath(new URL("../..", import.meta.url)),
    include: [room, "published", ...(users[room] ?? [])].map((folder) => `tests/${folder}/**/*.test.ts`),
    // Reads no module of these rooms but through another program.
    exclude: ["tests/published/parquet.test.ts"],
    testTimeout: 60_000,
  },
});
