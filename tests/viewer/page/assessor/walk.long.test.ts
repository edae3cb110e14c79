// @module-tag long
// The walk of an assessor (open, read, verify, download, print, dossier) and that of a customer (one page, result first), in
// the real page before the real server.
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { bagProblems } from "../../../../server/dossier/bag.ts";
import { unpackBag } from "../../../../server/dossier/archive.ts";
import { recordText, type SealedRecord } from "../../../../server/record/seal.ts";
import { serve, type Serving } from "../../../../server/serve.ts";
import { violationsInBothThemes, violationsOn } from "../axe.ts";
import { bytesOf, newPage, skipBrowser } from "../chromium.ts";

const study = JSON.parse(
  readFileSync(new URL("../../../../examples/harrowfen/pasteuriser-72.json", import.meta.url), "utf8"),
) as object;

let serving: Serving;
let id: string;
let record: SealedRecord;
beforeAll(async () => {
  serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
  const started = await fetch(new URL("api/runs", serving.url), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ study: { ...study, trials: 20_000 } }),
  });
  ({ id } = (await started.json()) as { id: string });
  await new Promise<void>((done) => void serving.runs.follow(id, ({ type }) => type === "finished" && done()));
  record = (await serving.runs.read(id)).record as SealedRecord;
});
afterAll(() => serving.close());

let page: Page;
let complaints: string[] = [];
const openPage = async (locale: string, colorScheme: "light" | "dark" = "light"): Promise<void> => {
  page = await newPage({ viewport: { width: 1280, height: 900 }, locale, colorScheme });
  complaints = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
};
afterEach(async () => {
  await page.close();
  expect(complaints).toEqual([]);
});

const openRun = async (): Promise<void> => {
  await page.goto(`${serving.url}#run=${id}`);
  await page.locator("#panel-assessor #digests").waitFor();
};
const openFile = async (content: string): Promise<void> => {
  await page.goto(serving.url);
  await page
    .locator("input[type=file]")
    .first()
    .setInputFiles({
      name: "record.json",
      mimeType: "application/json",
      buffer: Buffer.from(content),
    });
  await page.locator("#panel-assessor #digests").waitFor();
};
const download = async (button: string): Promise<{ readonly name: string; readonly bytes: Buffer }> => {
  const coming = page.waitForEvent("download");
  await page.locator(button).click();
  const found = await coming;
  await page.locator("#report-status", { hasText: /Saved as|Gespeichert als/ }).waitFor();
  return { name: found.suggestedFilename(), bytes: await bytesOf(found) };
};
const altered = (): string => {
  const copy = JSON.parse(recordText(record)) as { measurands: { error: { linear: { estimate: number } } } };
  copy.measurands.error.linear.estimate += 0.01;
  return recordText(copy as never);
};

/** Languages of the browser and themes: a walk is made in each pair. */
const SETTINGS = [
  { locale: "en-GB", language: "en", theme: "light", other: "de" },
  { locale: "en-GB", language: "en", theme: "dark", other: "de" },
  { locale: "de-DE", language: "de", theme: "light", other: "en" },
  { locale: "de-DE", language: "de", theme: "dark", other: "en" },
] as const;

/** Rules of access as the page stands, in its own theme and in forced colours. */
const faultsOfAccess = async (media: "screen" | "print" = "screen"): Promise<string[]> => {
  const plain = await violationsOn(page);
  await page.emulateMedia({ media, forcedColors: "active" });
  const forced = await violationsOn(page);
  await page.emulateMedia({ media, forcedColors: "none" });
  return [...plain, ...forced.map((found) => `in forced colours: ${found}`)];
};
const pagesOnPaper = async (format: string): Promise<number> =>
  ((await page.pdf({ format })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;

describe.skipIf(skipBrowser).each(SETTINGS)("in $language, $theme", ({ locale, language, theme, other }) => {
  beforeEach(() => openPage(locale, theme));

  test("an assessor opens, reads, verifies, takes the report, prints, and takes the dossier, by keyboard", async () => {
    await openRun();
    expect(await page.evaluate(() => document.documentElement.lang.slice(0, 2))).toBe(language);
    // Read: the digests, the program, and the symbols of the sentence as in the tables.
    const digests = await page.locator("#digests").innerText();
    expect(digests).toContain(record.engine.version);
    expect(digests.replaceAll(/[\s\u200b]/g, "")).toContain(record.seal.record);
    const symbols = await page.locator("#verdict-sentence var").allInnerTexts();
    expect(symbols).toEqual(expect.arrayContaining(["u", "e", "δ"]));
    // Verify.
    await page.locator("#verify-record").focus();
    await page.keyboard.press("Enter");
    await page.locator('.verified[data-outcome="bits"]').waitFor();
    expect(await page.locator("#verify-record").evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await faultsOfAccess()).toEqual([]);
    // Take the report: first in the language of the page, then in the other.
    for (const of of [language, other]) {
      if (of === other) await page.locator(`label[for="report-language-${of}"]`).click();
      const report = await download("#report-html");
      expect(report.name).toMatch(new RegExp(`-${of}\\.html$`));
      expect(report.bytes.toString("utf8")).toContain(`<html lang="${of}">`);
    }
    const pdf = await download("#report-pdf");
    expect(pdf.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    const dossier = await download("#dossier");
    expect(bagProblems(unpackBag(dossier.bytes, dossier.name))).toEqual([]);
    // Print: the whole sheet in light colours, with the digests.
    expect(await pagesOnPaper("A4")).toBeGreaterThan(1);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("#digests").isVisible()).toBe(true);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).colorScheme)).toBe("light");
    expect(await faultsOfAccess("print")).toEqual([]);
  });

  test.each(["A4", "Letter"])("a customer gets one page with the result first, on %s", async (format) => {
    await openRun();
    await page.evaluate(() => {
      window.print = () => undefined;
    });
    await page.locator("#print-customer").click();
    await expect.poll(() => pagesOnPaper(format)).toBe(1);
    // The print over, the sheet is whole again; what the page had is looked at once more.
    expect(await page.evaluate(() => document.documentElement.dataset["print"])).toBeUndefined();
    await page.evaluate(() => (document.documentElement.dataset["print"] = "customer"));
    await page.emulateMedia({ media: "print" });
    const top = (selector: string): Promise<number> =>
      page.locator(selector).evaluate((element) => element.getBoundingClientRect().top);
    expect(await top("#on-certificate")).toBeLessThan(await top("#verdict-sentence"));
    expect(await page.locator("#panel-budget").isVisible()).toBe(false);
    // What may hurt stays.
    expect(await page.locator("#panel-cautions").isVisible()).toBe(true);
    expect(await page.locator("#digests").isVisible()).toBe(true);
    expect(await faultsOfAccess("print")).toEqual([]);
  });
});

describe.skipIf(skipBrowser)("an assessor", () => {
  beforeEach(() => openPage("en-GB"));

  test("gets a PDF, or the report to print where the server has no Chromium", async () => {
    await openRun();
    const pdf = await download("#report-pdf");
    expect(pdf.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    process.env["TRIALBAND_CHROMIUM"] = "/nowhere/chromium";
    try {
      await page.locator("#report-pdf").click();
      await page.locator("#report-status", { hasText: "opened for printing" }).waitFor();
      const frame = page.frameLocator(".printed-report");
      await frame.locator("h1").waitFor({ state: "attached" });
    } finally {
      delete process.env["TRIALBAND_CHROMIUM"];
    }
  });

  test("cannot miss that a record was altered, and is shown the figure", async () => {
    await openFile(altered());
    await page.locator("#altered[role=alert]").waitFor();
    expect(await page.locator("#verdict-sentence s").count()).toBe(1);
    expect(await page.locator("#report-pdf, #report-html, #dossier, #on-certificate").count()).toBe(0);
    expect(await page.locator("#panel-verdict").innerText()).not.toContain("to be reported");
    await page.locator("#verify-record").click();
    await page.locator('.verified[data-outcome="refused"]').waitFor();
    const row = await page.locator(".differences tbody tr").first().innerText();
    expect(row).toContain("e, linear budget, estimate");
    expect(row).toContain(String(record.measurands["error"]!.linear.estimate));
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.emulateMedia({ forcedColors: "active" });
    expect(await violationsOn(page)).toEqual([]);
    expect(await page.locator("#altered").evaluate((box) => getComputedStyle(box).borderTopWidth)).toBe("4px");
    await page.emulateMedia({ forcedColors: "none", media: "print" });
    expect(await page.locator("#altered").isVisible()).toBe(true);
  });

  test("verifies a record from a file that is as it was written", async () => {
    await openFile(recordText(record));
    expect(await page.locator("#altered").count()).toBe(0);
    await page.locator("#verify-record").click();
    await page.locator('.verified[data-outcome="bits"]').waitFor();
  });
});
