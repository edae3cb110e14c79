// @module-tag long
// All ten budgets through the page, by the keyboard alone.
import { afterAll, beforeAll, describe, test } from "vitest";
import { TEN_BUDGETS } from "../../../server/intake/ten-budgets.ts";
import { skipBrowser } from "../chromium.ts";
import { importBench, walk, type ImportBench } from "./walk.ts";

describe.skipIf(skipBrowser)("import", () => {
  let bench: ImportBench;
  beforeAll(async () => {
    bench = await importBench();
  });
  afterAll(async () => bench.end());

  test.each(TEN_BUDGETS)("$file by the keyboard", async (budget) => {
    await walk(bench, budget);
  });
});
