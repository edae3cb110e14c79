import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { QueueState } from "../../../../viewer/api/queue.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, newPage, skipBrowser } from "../chromium.ts";
import { FixedServer } from "../fixed-server.ts";

const worker = {
  version: "0.8.0",
  threads: 4,
  active: 5,
  trials: 12_340_000,
  rate: 250_000,
  since: "",
  silent: 0.4,
  gone: false,
};
const run = {
  trials: 4_000_000,
  limit: 100_000_000,
  adaptive: false,
  waiting: 12,
  active: 9,
  workers: 2,
  silent: 0.8,
  refusals: [],
};
const BUSY: QueueState = {
  address: "rediss://queue.example:6379/0",
  workers: [
    { ...worker, name: "bench-1/4711" },
    { ...worker, name: "bench-2/815", silent: 34, gone: true },
  ],
  runs: [
    { ...run, title: "Steriliser at 134 °C" },
    {
      ...run,
      title: "Freezer at −40 °C",
      adaptive: true,
      workers: 0,
      silent: 61,
      refusals: [{ worker: "bench-1/4711", words: "the run needs version 0.9.0, and this worker has 0.8.0." }],
    },
  ],
};

describe.skipIf(skipBrowser)("the workers of a queue, in the page", () => {
  let server: FixedServer;
  let home: string;
  let page: Page;
  let state: QueueState | Error = BUSY;
  beforeAll(async () => {
    server = new FixedServer(BUILT_PAGE, async () => {
      if (state instanceof Error) throw state;
      return state;
    });
    home = await server.listen();
    page = await newPage({ viewport: { width: 1280, height: 900 } });
  });
  afterAll(async () => {
    await page.close();
    await server.close();
  });
  const standing = (): Promise<string> => page.locator("#workers-standing").innerText();
  /** What is waited for, with the two seconds between two looks of the page passed over. */
  const soon = (what: () => Promise<string>) =>
    expect.poll(async () => {
      await page.clock.runFor(2000);
      return what();
    });

  test("show what they draw, how far runs are and what is stalled, and go on by themselves", async () => {
    await page.clock.install();
    await page.goto(home);
    await page.locator("#to-workers").press("Enter");
    await page.locator("#stalled").waitFor();
    // The one that is gone counts for nothing.
    expect((await standing()).replaceAll(/\s/g, " ")).toBe("One worker with 4 threads: 250 000 trials a second.");
    const stalled = await page.locator("#stalled li").allInnerTexts();
    expect(stalled.map((text) => text.replaceAll(/\s/g, " "))).toEqual([
      "bench-2/815: gone for 34 s; its parts go to others.",
      "Freezer at −40 °C: what started this run has not been heard of for 61 s. Started again, it goes on from here.",
      "Freezer at −40 °C: no worker takes this run.",
      "Freezer at −40 °C: bench-1/4711 does not take this run: the run needs version 0.9.0, and this worker has 0.8.0.",
    ]);
    expect(await page.locator("#queue-runs tbody tr").count()).toBe(2);
    for (const width of [1440, 768, 360]) {
      await page.setViewportSize({ width, height: 900 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      const look = process.env["TRIALBAND_LOOK"];
      if (look !== undefined) await page.screenshot({ path: join(look, `workers-${width}.png`), fullPage: true });
    }
    expect(await violationsInBothThemes(page)).toEqual([]);
    state = { ...BUSY, workers: [], runs: [] };
    await soon(standing).toContain("No worker is there.");
    await page.locator("#nothing-stalled").waitFor();
    state = new Error("away");
    await soon(() => page.locator("#workers-away").innerText()).toContain("does not answer");
    state = BUSY;
    await soon(standing).toContain("One worker");
    expect(await page.locator("#workers-away").innerText()).toBe("");
  });

  test("without a queue there is no way to them, and the address says how to get one", async () => {
    const plain = new FixedServer(BUILT_PAGE);
    const address = await plain.listen();
    try {
      await page.goto(`${address}#workers`);
      await soon(standing).toContain("This server draws by itself.");
      expect(await page.locator("#to-workers").count()).toBe(0);
    } finally {
      await page.goto("about:blank");
      await plain.close();
    }
  });
});
