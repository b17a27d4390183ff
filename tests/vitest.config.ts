import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // Before any worker starts: unpacking takes seconds, and once is enough.
    globalSetup: ["tests/browser/unpack.ts"],
    testTimeout: 30_000,
    // Two cores: more workers than that only make the browser tests wait on each other.
    maxWorkers: 2,
  },
});
