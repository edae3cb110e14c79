import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { BUILT_PAGE } from "./chromium.ts";

test("keeps what the page loads at first within 130 kB", async () => {
  const assets = join(BUILT_PAGE, "assets");
  const names = await readdir(assets);
  const first = new Set(names.filter((name) => /^(index|page)-.*\.js$/.test(name)));
  expect(first.size).toBe(2);
  let bytes = 0;
  // A set that grows while it is walked: what a script imports at once is loaded with it.
  for (const name of first) {
    const text = await readFile(join(assets, name), "utf8");
    bytes += gzipSync(text).length;
    for (const [, imported] of text.matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) first.add(imported!);
  }
  expect(first.size).toBeGreaterThan(10);
  expect(bytes).toBeLessThan(130_000);
});
