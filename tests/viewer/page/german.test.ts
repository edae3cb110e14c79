// The page in German: no English word is left in its views, it keeps to the rules of access, and fits a phone.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Page } from "playwright-core";
import { languageFor } from "../../../viewer/page/language-choice.ts";
import { violationsOn } from "./axe.ts";
import { ENGLISH_ALONE, englishOn, textsIn } from "./english-words.ts";
import { BUILT_PAGE, newPage, skipBrowser } from "./chromium.ts";
import { RECORDS } from "./fixed-records.ts";
import { FixedServer } from "./fixed-server.ts";
import { sticksOut } from "./sideways.ts";
import { LONG } from "../../setup/long.ts";

test.each([
  { wanted: ["de-AT", "en"], language: "de" },
  { wanted: ["fr-FR", "de", "en"], language: "de" },
  { wanted: ["en-GB", "de"], language: "en" },
  { wanted: ["fr"], language: "en" },
  { wanted: [], language: "en" },
])("a browser that asks for $wanted is answered in $language", ({ wanted, language }) => {
  expect(languageFor(wanted)).toBe(language);
});

test("the words that only English has are many, and commonest among them", () => {
  expect(ENGLISH_ALONE.length).toBeGreaterThan(800);
  expect(ENGLISH_ALONE).toEqual(expect.arrayContaining(["the", "and", "with", "from"]));
});

describe.skipIf(skipBrowser)("the page in German", () => {
  let server: FixedServer;
  let home: string;
  let page: Page;
  const complaints: string[] = [];
  const runs: Record<string, string> = {};

  beforeAll(async () => {
    server = new FixedServer(BUILT_PAGE);
    home = await server.listen();
    for (const study of Object.keys(RECORDS)) runs[study] = server.addFinished(study);
    page = await newPage({ viewport: { width: 1280, height: 900 }, locale: "de-DE" });
    page.on("pageerror", (error) => complaints.push(String(error)));
  });
  afterAll(async () => {
    await page.close();
    await server.close();
    expect(complaints).toEqual([]);
  });

  const open = async (view: string): Promise<void> => {
    await page.goto("about:blank");
    await page.goto(`${home}${view}`);
    await page.locator("#sheet-title, #selfcheck-title").first().waitFor();
    if (view.startsWith("#run=")) await page.locator("#run-again").waitFor();
  };

  /** What studies say in their own words: titles, notes, sources. */
  const ownTexts = Object.values(RECORDS)
    .flatMap(({ study, model, leftOut, sweep }) => textsIn([study, model.source, leftOut, sweep?.quantity]))
    .filter((text) => text.length > 3);
  const groups = ["Harrowfen Calibration Room"];

  const VIEW = "has no English word in %s, breaks no rule of access, and fits a phone";
  const speaksGerman = async (named: string): Promise<void> => {
    const address = named.replaceAll(/=([a-z]+\/[\w-]+)/g, (whole, id: string) =>
      id in runs ? `=${runs[id]!}` : whole,
    );
    await page.setViewportSize({ width: 1280, height: 900 });
    await open(address);
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
    });
    await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe("de");
    await expect.poll(() => englishOn(page, [...ownTexts, ...groups])).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 780 });
    await expect.poll(() => sticksOut(page, 360)).toEqual([]);
  };
  test.each(["#run=verdicts/curvature"])(VIEW, speaksGerman);
  test.each([
    "",
    "#new",
    "#import",
    "#own",
    "#laboratory",
    "#help",
    "#runs",
    "#survey-setup",
    "#study=harrowfen/steriliser-134",
    "#run=harrowfen/pasteuriser-72",
    "#run=harrowfen/range",
    "#run=published/thermometer-line",
    "#run=published/polar-010-correlated",
    "#compare=verdicts/another-factor&with=harrowfen/pasteuriser-72",
    "#compare=verdicts/curvature&with=verdicts/curvature",
  ])(VIEW, LONG, speaksGerman);

  test("prints German numbers, marks a sentence that has no German words, and saves the record as it was filed", async () => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await open(`#run=${runs["verdicts/curvature"]!}`);
    // The record was worded by another version: its sentence stays as it is filed, and is marked.
    expect(await page.locator("#verdict-sentence [lang=en]").count()).toBe(1);
    const figures = await page.locator("#results").innerText();
    expect(figures).toMatch(/\d,\d/);
    expect(figures).not.toMatch(/\d\.\d/);
    // What a program reads keeps its points and its words.
    const saved = page.waitForEvent("download");
    await page.locator("#save-record").click();
    const stream = await (await saved).createReadStream();
    const parts: Buffer[] = [];
    for await (const part of stream) parts.push(part as Buffer);
    expect(JSON.parse(Buffer.concat(parts).toString())).toEqual(
      JSON.parse(readFileSync(join(import.meta.dirname, "fixtures/curvature.json"), "utf8")),
    );
  });

  test("what German parts thousands by is read as a decimal sign, and that is said; a comma needs no remark", async () => {
    await open("#new");
    const value = page.locator("#cell-row-1-value");
    await value.fill("1.000");
    await value.press("Tab");
    await page.locator("#cell-row-1-value-problem", { hasText: "„1.000“ wird als 1,000 gelesen" }).waitFor();
    await value.fill("37,002");
    await value.press("Tab");
    await page.locator("#cell-row-1-value-problem:empty").waitFor({ state: "attached" });
    await page.locator("summary", { hasText: "p = 0,95" }).waitFor();
  });

  test("changes its language by the switch, remembers it, and loses nothing that was typed", async () => {
    await open("#new");
    await page.locator("#in-title").fill("Fühler der Abfüllanlage bei 37 °C");
    await page.locator("label[for=language-en]").click();
    await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe("en-GB");
    await expect.poll(() => page.locator("#in-title").inputValue()).toBe("Fühler der Abfüllanlage bei 37 °C");
    await open("#runs");
    await expect.poll(() => page.locator("#sheet-title").innerText()).toBe("Runs kept here");
    await page.locator("#find-run").fill("pasteuriser");
    await page.locator("label[for=language-de]").click();
    await expect.poll(() => page.locator("#sheet-title").innerText()).toBe("Hier aufbewahrte Läufe");
    // A search is kept nowhere else.
    await expect.poll(() => page.locator("#find-run").inputValue()).toBe("pasteuriser");
    await expect.poll(() => page.locator(".listing tbody tr").count()).toBe(1);
  });

  test.each([
    { what: "record", file: "fixtures/curvature.json", name: "kept.json", waits: "#panel-assessor" },
    { what: "study", file: "../../../examples/verdicts/curvature.json", name: "own.json", waits: ".study-view" },
  ])("a $what opened from a file, which has no address, stays through a switch and a reload", LONG, async (opened) => {
    await page.setViewportSize({ width: 1280, height: 900 });
    await open("");
    await page
      .locator("input[type=file]")
      .first()
      .setInputFiles({
        name: opened.name,
        mimeType: "application/json",
        buffer: readFileSync(join(import.meta.dirname, opened.file)),
      });
    const stays = async (language: string): Promise<void> => {
      await expect.poll(() => page.evaluate(() => document.documentElement.lang)).toBe(language);
      await page.locator(opened.waits).waitFor();
      await page.locator("#sheet", { hasText: opened.name }).waitFor();
    };
    await stays("de");
    await page.locator("label[for=language-en]").click();
    await stays("en-GB");
    await page.reload();
    await stays("en-GB");
    // What is opened next takes its place, and Back brings it back.
    await page.locator("label[for=language-de]").click();
    await stays("de");
    await page.evaluate(() => (location.hash = "#runs"));
    await page.locator("#find-run").waitFor();
    await page.goBack();
    await stays("de");
  });
});
