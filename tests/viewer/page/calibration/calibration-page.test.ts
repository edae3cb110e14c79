// One walk through the page: from the files of a calibration to its results and certificates.
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serve, type Serving } from "../../../../server/serve.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, bytesOf, newPage, skipBrowser } from "../chromium.ts";
import { LONG } from "../../../setup/long.ts";

const examples = new URL("../../../../examples/", import.meta.url).pathname;
interface Sent {
  name: string;
  mimeType: string;
  buffer: Buffer;
}
const sent = (name: string, buffer: Buffer): Sent => ({ name, mimeType: "application/octet-stream", buffer });

/** The files of the example, few trials, the document changed. */
async function files(change: object, left: (name: string) => boolean = () => false): Promise<Sent[]> {
  const text = await readFile(join(examples, "calibration/two-probes.json"), "utf8");
  const document = JSON.stringify({ ...(JSON.parse(text) as object), trials: 20_000, ...change });
  const survey = join(examples, "survey");
  const names = (await readdir(survey)).filter(
    (name) => /^(freezer|cold|pasteuriser|steriliser|reference).*\.(json|csv)$/.test(name) && !left(name),
  );
  return [
    sent("two-probes.json", Buffer.from(document)),
    ...(await Promise.all(names.map(async (name) => sent(name, await readFile(join(survey, name)))))),
  ];
}

describe.skipIf(skipBrowser)("the room of calibrations, over the real server", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  const complaints: string[] = [];
  const started = (port: number): Promise<Serving> =>
    serve({ host: "127.0.0.1", port, workers: 2, store: folder, warn: () => undefined, page: BUILT_PAGE });
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-calibration-page-"));
    serving = await started(0);
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    page.on("pageerror", (error) => complaints.push(String(error)));
    await page.goto(`${serving.url}#calibration`);
    await page.waitForSelector("#calibration-files");
  });
  afterAll(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test("a file that is missing is named, without a folder of the server, and nothing is lost", async () => {
    await page.setInputFiles("#calibration-files", await files({}, (name) => name === "freezer-minus-40.csv"));
    await page.waitForSelector("#trouble");
    const told = await page.innerText("#trouble");
    expect(told).toContain("freezer-minus-40.csv");
    expect(told).not.toContain(tmpdir());
    await page.click("#dismiss");
  });

  test("files without a calibration among them", async () => {
    await page.setInputFiles("#calibration-files", [sent("a.json", Buffer.from("{}"))]);
    await page.waitForSelector("#trouble");
    expect(await page.innerText("#trouble")).toContain("one calibration that ends in .json");
  });

  test("from the files to points, curve and a draft that says what it lacks", LONG, async () => {
    await page.setInputFiles("#calibration-files", await files({ certificate: undefined }));
    await page.waitForSelector("#run-calibration");
    await page.click("#run-calibration");
    await page.waitForSelector("#calibration-2-html");
    expect(await page.innerText("#calibration-1")).toContain("HF-034");
    expect(await page.locator("#calibration-1 svg").count()).toBeGreaterThan(0);
    const certificate = await page.innerText("#calibration-1 .certificate");
    expect(certificate).toContain("the name of the customer");
    expect(await page.isDisabled("#calibration-1-dcc")).toBe(true);
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("#calibration-1-html")]);
    expect(download.suggestedFilename()).toBe("HF-034-certificate.html");
    expect((await bytesOf(download)).toString("utf8")).toContain("Draft of a calibration certificate");

    // What is lacking is filled in on the page, and the draft becomes a certificate with its digital form.
    await page.click("#certificate-fields > summary");
    const typed: Readonly<Record<string, string>> = {
      laboratoryName: "Harrowfen Calibration Room (invented)",
      laboratoryAddress: "2 Fen Lane\nHarrowfen",
      laboratoryCountry: "GB",
      laboratoryEmail: "calibration@harrowfen.example",
      customerName: "Harrowfen Dairy (invented)",
      customerAddress: "Dock 4\nHarrowfen",
      customerCountry: "GB",
      customerEmail: "sterile-goods@harrowfen.example",
      performedFrom: "2026-03-02",
      performedTo: "2026-03-03",
      issued: "2026-03-01",
      method: "Comparison in stirred baths",
      lowest: "22.1",
      highest: "23.4",
      traceability: "By the certificate of the reference.",
      authorised: "M. Tarrow (invented)",
    };
    for (const [name, text] of Object.entries(typed)) await page.fill(`#certificate-${name}`, text);
    await page.selectOption("#certificate-location", "laboratory");
    // Issued before the calibration ended: refused in words, and what was typed stays.
    await page.click("#take-fields");
    await page.waitForSelector("#trouble");
    expect(await page.innerText("#trouble")).toContain("a day no earlier than the last of the calibration");
    expect(await page.inputValue("#certificate-customerName")).toBe("Harrowfen Dairy (invented)");
    await page.click("#dismiss");
    await page.fill("#certificate-issued", "2026-03-05");
    await page.click("#take-fields");
    await page.waitForSelector("#calibration-1-dcc:not([disabled])");
    const [digital] = await Promise.all([page.waitForEvent("download"), page.click("#calibration-1-dcc")]);
    expect((await bytesOf(digital)).toString("utf8")).toContain("Harrowfen Dairy (invented)");
    const [final] = await Promise.all([page.waitForEvent("download"), page.click("#calibration-1-html")]);
    expect((await bytesOf(final)).toString("utf8")).not.toContain("Draft of a calibration certificate");
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360);
  });

  test("begun today and finished tomorrow: by keyboard alone, the server restarted in the middle", LONG, async () => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await page.goto(`${serving.url}#calibration`);
    await page.setInputFiles("#calibration-files", await files({ certificate: undefined }));
    await page.focus("#run-calibration");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#calibration-2-html");
    await expect.poll(() => page.url()).toMatch(/#calibration=[0-9a-f-]{36}$/);
    // The shelf has the runs of both instruments.
    await expect.poll(() => page.locator("#shelf-fold .runs li").count()).toBeGreaterThanOrEqual(2);
    await page.focus("#certificate-fields > summary");
    await page.keyboard.press("Enter");
    await page.focus("#certificate-customerName");
    await page.keyboard.insertText("Harrowfen Dairy (invented)");
    await page.focus("#take-fields");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.innerText(".calibration-status")).toBe("The certificates have these fields.");
    // Typed, and not taken: that too is there tomorrow.
    await page.focus("#certificate-method");
    await page.keyboard.insertText("Comparison in stirred baths");
    await page.focus("#calibration-naming > summary");
    await page.keyboard.press("Enter");
    await page.focus("#calibration-name");
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.insertText("Dairy probes, March");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.innerText("#calibration-title")).toBe("Dairy probes, March");

    await serving.close();
    serving = await started(Number(new URL(serving.url).port));
    await page.reload();
    await page.waitForSelector("#calibration-2-html");
    expect(await page.innerText("#calibration-title")).toBe("Dairy probes, March");
    expect(await page.inputValue("#certificate-customerName")).toBe("Harrowfen Dairy (invented)");
    expect(await page.inputValue("#certificate-method")).toBe("Comparison in stirred baths");
    const lacks = await page.innerText("#calibration-1 .certificate");
    expect(lacks).not.toContain("the name of the customer");
    expect(await page.isHidden("#run-calibration")).toBe(true);

    // The list: found by a word of an instrument, removed, brought back.
    await page.focus("#all-calibrations");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#kept-calibrations");
    await page.focus("#find-calibration");
    await page.keyboard.insertText("march hf-034");
    await expect.poll(() => page.locator("#kept-calibrations li").count()).toBe(1);
    await page.focus("#kept-calibrations button");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("undo-calibration-removal");
    expect(await page.locator("#kept-calibrations").count()).toBe(0);
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id ?? "")).toContain("kept-calibration-");
    await page.keyboard.press("Enter");
    await page.waitForSelector("#calibration-2-html");
    await page.focus("#remove-calibration");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe("undo-calibration-removal");
    expect(page.url()).toMatch(/#calibration$/);
    expect(await violationsInBothThemes(page)).toEqual([]);
  });
});
