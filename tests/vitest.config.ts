import { defineConfig } from "vitest/config";
import { fileURLToPath } from "node:url";

export default defineConfig({
  test: {
    root: fileURLToPath(new URL("..", import.meta.url)),
    include: ["tests/**/*.test.ts"],
    // Before any worker starts: what takes seconds, and is made once.
    globalSetup: ["tests/browser/once.ts"],
    testTimeout: 60_000,
    // Waiting on a machine that is busy with others is tried once more; a wrong answer is wrong the first time.
    retry: { count: 1, condition: /Timeout \d+ms exceeded|Test timed out in \d+ms/ },
    // Two cores: more workers than that only make the browser tests wait on each other.
    maxWorkers: 2,
  },
});
