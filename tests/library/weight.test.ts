import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { expect, test } from "vitest";
import { root } from "../sources.ts";

/** Kilobytes of a door in a browser's bundle, minified, gzip level 9. */
async function weightOf(statement: string): Promise<number> {
  const { outputFiles } = await build({
    stdin: { contents: statement, resolveDir: root, loader: "ts" },
    bundle: true,
    minify: true,
    write: false,
    format: "esm",
    platform: "browser",
    target: "es2022",
  });
  return gzipSync(outputFiles[0]!.contents, { level: 9 }).length / 1000;
}

/** What a page loads that propagates a study: DEVELOPERS.md states the figures. */
test.each([
  { door: "trialband", statement: 'export * from "./engine/index.ts"', most: 225 },
  { door: "propagate alone", statement: 'export { defineModel, propagate } from "./engine/index.ts"', most: 215 },
  { door: "a worker's side", statement: 'export { serveTrials } from "./library/workers/index.ts"', most: 155 },
])("$door weighs at most $most kB", async ({ statement, most }) => {
  const weight = await weightOf(statement);
  expect(weight).toBeLessThan(most);
  // A limit that is far off holds nothing.
  expect(weight).toBeGreaterThan(0.85 * most);
});
