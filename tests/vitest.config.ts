import { defineConfig } from "vitest/config";
import { fileURLToPath } from "node:url";

export default defineConfig({
  test: {
    root: fileURLToPath(new URL("..", import.meta.url)),
    include: ["tests/**/*.test.ts"],
    // Before any worker starts: what takes seconds, and is made once.
    globalSetup: ["tests/browser/once.ts"],
    testTimeout: 60_000,
    // Two cores: more workers than that only make the browser tests wait on each other.
    maxWorkers: 2,
  },
});
