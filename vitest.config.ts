import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    globalSetup: ["tests/setup/browser.ts"],
    testTimeout: 60_000,
    // A browser on a busy machine can miss a moment; a test that passed only the second time is named as such in the
    // output. Everything else here is deterministic, and fails twice if it fails once.
    retry: process.env["CI"] === "true" ? 1 : 0,
    hookTimeout: 120_000,
    // Two cores: more files at once only take turns.
    maxWorkers: 2,
  },
});
