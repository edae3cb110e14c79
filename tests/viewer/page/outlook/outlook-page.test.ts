// The room of plans, histories and comparisons, over the real server.
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serve, type Serving } from "../../../../server/serve.ts";
import { LONG } from "../../../setup/long.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, newPage, skipBrowser } from "../chromium.ts";

const examples = new URL("../../../../examples/", import.meta.url).pathname;
const sent = (name: string, buffer: Buffer) => ({ name, mimeType: "application/octet-stream", buffer });

/** A plan over two temperatures, with a study that needs no other file. */
async function plan(target: number) {
  const study = JSON.parse(await readFile(join(examples, "harrowfen/cold-store-4.json"), "utf8")) as object;
  const sweep = { study, over: [{ quantity: "bath temperature", unit: "°C", values: [4, 20] }], trials: 20_000 };
  const document = {
    title: "Towards 9 mK",
    sweep: "sweep.json",
    target,
    levers: [{ kind: "scale", name: "certificate", inputs: ["referenceCertificate"], steps: [{ to: 0.4 }] }],
  };
  return [
    sent("plan.json", Buffer.from(JSON.stringify(document))),
    sent("sweep.json", Buffer.from(JSON.stringify(sweep))),
  ];
}

describe.skipIf(skipBrowser)("plans, histories and comparisons", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  const complaints: string[] = [];
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-outlook-page-"));
    serving = await serve({
      host: "127.0.0.1",
      port: 0,
      workers: 2,
      store: folder,
      warn: () => undefined,
      page: BUILT_PAGE,
    });
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    page.on("pageerror", (error) => complaints.push(String(error)));
    await page.goto(serving.url);
    await page.click("#outlook-link");
    await page.waitForSelector("#outlook-files");
  });
  afterAll(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test("a plan that cannot be used is told with its place", async () => {
    await page.setInputFiles("#outlook-files", await plan(0));
    await page.waitForSelector("#trouble");
    expect(await page.innerText("#trouble")).toContain("target");
    await page.click("#dismiss");
  });

  test("a plan is opened, its proposal run and confirmed", LONG, async () => {
    await page.setInputFiles("#outlook-files", await plan(0.009));
    await page.waitForSelector("#confirm-plan");
    expect(await page.innerText("#plan-range")).toContain("is a prediction until its study has been run");
    await page.focus("#confirm-plan");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#plan-range a");
    expect(await page.innerText("#plan-range")).toContain("Confirmed by a run of the proposed study");
    expect(await page.locator("#outlook-body svg").count()).toBe(3);
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.click("#plan-range a");
    await page.waitForFunction(() => document.querySelector("#sheet-title")?.textContent === "Towards 9 mK");
    await page.goBack();
    await page.waitForSelector("#outlook-files");
  });

  test.each([
    ["history", 4],
    ["comparison", 0],
  ] as const)("the example of a %s, wide and narrow", LONG, async (kind, pictures) => {
    await page.click(`#example-${kind}`);
    await page.waitForSelector(`#${kind}-table-1`);
    expect(await page.locator("#outlook-body svg").count()).toBe(pictures);
    expect(await page.innerText("#outlook-body")).not.toMatch(/NaN|undefined|\{\w+\}|null/);
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
    await page.setViewportSize({ width: 1280, height: 900 });
  });
});
