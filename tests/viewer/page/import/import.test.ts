// A laboratory's own tables on their way into the page, by the keyboard alone; all ten in the walks of the page.
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { BUDGETS, TEN_BUDGETS } from "../../../server/intake/ten-budgets.ts";
import { skipBrowser } from "../chromium.ts";
import { importBench, walk, type ImportBench } from "./walk.ts";
import { LONG } from "../../../setup/long.ts";

const SHORT = new Set(["valmorin.xlsx"]);

describe.skipIf(skipBrowser)("import", () => {
  let bench: ImportBench;
  beforeAll(async () => {
    bench = await importBench();
  });
  afterAll(async () => bench.end());
  const open = async (address = "#import"): Promise<void> => {
    await bench.page.goto("about:blank");
    await bench.page.goto(`${bench.serving().url}${address}`);
    await bench.page.locator("#import-file").waitFor();
  };
  const status = (text: string): Promise<void> => bench.page.locator("#import-status", { hasText: text }).waitFor();

  test.each(TEN_BUDGETS.filter(({ file }) => SHORT.has(file)))("$file by the keyboard", async (budget) => {
    await walk(bench, budget);
  });

  test("what was stated of a table counts for the next one of its shape, until it is forgotten", LONG, async () => {
    const { page } = bench;
    await open();
    await page.evaluate(() => localStorage.clear());
    await page.setInputFiles("#import-file", join(BUDGETS, "tarnwick.csv"));
    await page.getByRole("button", { name: "Column E (Uncertainty 2026)" }).click();
    await status("Nothing is left open");
    await page.locator("#import-kept", { hasText: "remembered for the next table" }).waitFor();
    await page.setInputFiles("#import-file", join(BUDGETS, "tarnwick.csv"));
    await page.locator("#import-kept", { hasText: "Read as “tarnwick.csv” was" }).waitFor();
    await status("Nothing is left open");
    await page.locator("#import-forget").click();
    await page.setInputFiles("#import-file", join(BUDGETS, "tarnwick.csv"));
    await status("1 question to answer");
  });

  test(
    "a cell that cannot be used is read as the reader says, also when page and server begin anew in between",
    LONG,
    async () => {
      const { page } = bench;
      await open();
      await page
        .locator("#import-text")
        .fill("Quantity\tUncertainty\tUnit\tDistribution\tDivisor\nA\tsix\tmK\tnormal\t2\nB\t8\tmK\tnormal\t2\n");
      await page.locator("#import-read").click();
      await page.locator("#import-complaint-2-B", { hasText: "six" }).waitFor();
      expect(await page.locator("td.import-wrong").innerText()).toContain("six");
      await bench.restart();
      await page.reload();
      await page.locator("#import-complaint-2-B-field").fill("6");
      await page.locator("#import-complaint-2-B-field").press("Enter");
      await status("Nothing is left open");
      expect(await page.locator("#import-result").innerText()).toContain("5.000");
      expect(await page.locator("#import-compared ~ ul").innerText()).toContain("B2 read as “6”");
      // A row left out takes its part with it, and comes back.
      await page.locator("#import-row-3").selectOption("left-out");
      await page.locator("#import-result", { hasText: "3.000" }).waitFor();
      await page.locator("#import-undo").click();
      await page.locator("#import-result", { hasText: "5.000" }).waitFor();
    },
  );

  test("a table opened while a study is still being read is not overtaken by it", LONG, async () => {
    const { page } = bench;
    let answer = (): void => {};
    const opened = new Promise<void>((resolve) => (answer = resolve));
    await page.route("**/api/studies/published/end-gauge", async (route) => {
      await opened;
      await route.continue();
    });
    await page.goto("about:blank");
    const asked = page.waitForRequest("**/api/studies/published/end-gauge");
    const read = page.waitForResponse("**/api/studies/published/end-gauge");
    await page.goto(`${bench.serving().url}#study=published/end-gauge`);
    await asked;
    await page.setInputFiles("#study-file", join(BUDGETS, "brackenholt.csv"));
    await status("Nothing is left open");
    answer();
    await (await read).finished();
    await page.unroute("**/api/studies/published/end-gauge");
    // A turn of the page's own, in which the late answer would be drawn.
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn))));
    expect(await page.locator("#import-table-title").innerText()).toContain("brackenholt.csv");
  });

  test("a file of another kind is told for what it is, and the table stays", LONG, async () => {
    const { page } = bench;
    await open();
    await page.setInputFiles("#import-file", join(BUDGETS, "brackenholt.csv"));
    await status("Nothing is left open");
    await page.setInputFiles("#import-file", {
      name: "c.pdf",
      mimeType: "application/pdf",
      buffer: Buffer.from("%PDF-1.7"),
    });
    await page.locator("#trouble", { hasText: "a PDF document" }).waitFor();
    expect(await page.locator("#import-table-title").innerText()).toContain("brackenholt.csv");
  });
});
