import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["tests/setup/global.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // Two cores: more files at once only take turns.
    maxWorkers: 2,
  },
});
