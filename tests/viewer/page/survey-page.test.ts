import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { EvaluatedSurvey } from "../../../viewer/api/surveys.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { fixed } from "../../../viewer/present/numbers.ts";
import { violationsInBothThemes } from "./axe.ts";
import { BUILT_PAGE, bytesOf, newPage, skipBrowser } from "./chromium.ts";
import { LONG } from "../../setup/long.ts";

const example = (path: string): string => new URL(`../../../examples/${path}`, import.meta.url).pathname;
const PASTEURISER = "Survey of the water bath at 72 °C";
const PICTURES = ["log", "allan", "zone-1", "swap-differences", "swap-offset-1"];

describe.skipIf(skipBrowser)("surveys in the page, over the real server", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  let complaints: string[];
  const plainText = async (selector: string): Promise<string> =>
    (await page.locator(selector).innerText()).replace(/\s+/g, " ").trim();
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string, most = 250): Promise<void> => {
    for (let i = 0; i < most && (await focused()) !== id; i += 1) await page.keyboard.press("Tab");
    expect(await focused()).toBe(id);
  };
  const survey = async (id: string): Promise<EvaluatedSurvey> =>
    (await (await fetch(`${serving.url}api/surveys/${id}`)).json()) as EvaluatedSurvey;
  const open = async (hash: string): Promise<void> => {
    await page.goto(`${serving.url}${hash}`);
    await page.locator("#panel-survey-origin .provenance").waitFor();
  };
  const file = async (
    name: string,
    path: string,
    change: (text: string) => string = (text) => text,
  ): Promise<{ name: string; mimeType: string; buffer: Buffer }> => ({
    name,
    mimeType: "",
    buffer: Buffer.from(change(await readFile(example(path), "utf8"))),
  });

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-survey-"));
    serving = await serve({
      host: "127.0.0.1",
      port: 0,
      workers: 1,
      store: folder,
      warn: () => undefined,
      page: BUILT_PAGE,
    });
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error)));
  });
  afterEach(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test("goes from the log over survey and study to the verdict, and from the budget back to the survey", async () => {
    await page.goto(serving.url);
    await page.locator("#surveys-link").click();
    await page.locator("#surveys li").nth(3).waitFor();
    expect(new URL(page.url()).hash).toBe("#surveys");
    expect(await page.title()).toBe("Surveys of baths · Trialband");
    await page.getByRole("link", { name: PASTEURISER, exact: true }).click();
    await page.locator("#survey-run").waitFor();
    expect(new URL(page.url()).hash).toBe("#survey=pasteuriser-72");
    expect(await focused()).toBe("sheet-title");
    expect(await page.locator("#survey-into").inputValue()).toBe("harrowfen/pasteuriser-72");
    await page.locator("#survey-bathRadial").selectOption("arcsine");
    await page.locator("#survey-run").click();
    // The button to print comes with the end of the run.
    await page.locator("#print").waitFor();
    await page.locator("#verdict-sentence").waitFor();
    const { id } = serving.runs.list()[0]!;
    const { record } = await serving.runs.read(id);
    const { statements } = await survey("pasteuriser-72");
    const ran = record!.study.inputs as Record<string, Record<string, unknown>>;
    expect(ran["bathStability"]).toEqual(statements["bathStability"]);
    expect(ran["bathAxial"]).toEqual(statements["bathAxial"]);
    expect(ran["bathRadial"]).toEqual({ ...statements["bathRadial"], distribution: "arcsine" });
    expect(ran["hysteresis"]!["evidence"]).toBeUndefined();
    await page.locator("#open-hysteresis").click();
    expect(await page.locator("#behind-hysteresis a").count()).toBe(0);
    for (const name of ["bathStability", "bathAxial", "bathRadial"]) {
      await page.locator(`#open-${name}`).click();
      await page.locator(`#survey-behind-${name}`).waitFor();
    }
    await page.locator("#survey-behind-bathAxial").click();
    await page.locator("h1", { hasText: PASTEURISER }).waitFor();
    await page.goBack();
    await page.locator("#verdict-sentence").waitFor();
  });

  test("shows the figures of the interface", LONG, async () => {
    const { evaluation, statements, worst } = await survey("steriliser-134");
    await open("#survey=steriliser-134");
    const milli = (kelvin: number): string => fixed(1000 * kelvin, 3);
    expect(await page.locator("#survey-quantities tbody td:nth-child(2)").allInnerTexts()).toEqual(
      Object.values(statements).map((statement) => milli((statement as { halfWidth?: number }).halfWidth!)),
    );
    const { stability, axial, radial, map } = evaluation;
    expect(await page.locator("#survey-windows tbody td:nth-child(4)").allInnerTexts()).toEqual(
      [stability.worst, stability.best, stability.whole].map(({ halfRange }) => milli(halfRange)),
    );
    const zones = [axial!, radial!].flatMap(({ quantity, smaller }) => [quantity, ...smaller]);
    expect(await page.locator("#survey-smaller tbody td:nth-child(2)").allInnerTexts()).toEqual(
      zones.map(({ halfWidth }) => milli(halfWidth)),
    );
    const comparisons = page.locator("#survey-comparisons tbody tr");
    expect(await comparisons.locator("td:nth-child(2)").allInnerTexts()).toEqual(
      map.comparisons.map(({ difference }) => milli(difference)),
    );
    expect(await comparisons.locator("td:nth-child(3)").allInnerTexts()).toEqual(
      map.comparisons.map(({ offset }) => milli(offset)),
    );
    expect(await page.locator("#panel-survey-swaps .determinations .strong").count()).toBe(
      map.comparisons.length + map.offsets.length,
    );
    // The box of the worst window reaches as far along the scale as the window lasts, and as high as its range.
    const box = await page
      .locator(".survey-log .tolerance")
      .evaluate((rect) => ["width", "height"].map((name) => Number(rect.getAttribute(name))));
    const strip = await page
      .locator(".survey-log .position rect")
      .first()
      .evaluate((rect) => Number(rect.getAttribute("width")));
    const first = evaluation.steps[0]!;
    expect(box[0]! / strip).toBeCloseTo((stability.worst.to - stability.worst.from) / (first.to - first.from), 6);
    const [top, below] = await page
      .locator(".survey-log .axis text[text-anchor=end]")
      .evaluateAll((texts) =>
        texts.slice(-4, -2).map((text) => [Number(text.textContent), Number(text.getAttribute("y"))] as const),
      );
    const perKelvin = Math.abs((below![1] - top![1]) / (below![0] - top![0]));
    // Ticks are set to whole pixels.
    expect(Math.abs(box[1]! - (worst[1] - worst[0]) * perKelvin)).toBeLessThan(2);
    await page.locator("#checks-held-summary").click();
    expect(await page.locator(".checks li").count()).toBe(evaluation.checks.length);
    expect(await plainText("#panel-cautions")).toContain("Heated oil");
    expect(await plainText("#panel-survey-origin .provenance")).toContain("SHA-256");
  });

  test("is read, worked and run by the keyboard alone", LONG, async () => {
    await page.goto(serving.url);
    await page.locator("#surveys-link").waitFor();
    await tabTo("surveys-link");
    await page.keyboard.press("Enter");
    await page.locator("#surveys").waitFor();
    await tabTo("survey-of-cold-store-4");
    await page.keyboard.press("Enter");
    await page.locator("#panel-survey-origin .provenance").waitFor();
    const { evaluation } = await survey("cold-store-4");
    const said = (id: string): Promise<string> => plainText(`#${id}-readout`);
    await tabTo("log-reader");
    await page.keyboard.press("End");
    expect(await said("log")).toMatch(/^2026-03-02 .*: HS-11 [\d.]+ to [\d.]+ °C at centre; HS-12 /);
    await tabTo("allan-reader");
    expect(await said("allan")).toBe(
      `means over 10 s (1 reading) differ by ${fixed(1000 * evaluation.stability.allan[0]!.deviation, 3)} mK, from ${evaluation.stability.allan[0]!.differences} differences`,
    );
    await page.keyboard.press("ArrowRight");
    expect(await said("allan")).toContain("means over 20 s (2 readings)");
    await tabTo("zone-1-reader");
    expect(await said("zone-1")).toContain("the reference position");
    await page.keyboard.press("ArrowDown");
    expect(await said("zone-1")).toMatch(/^high, depth 260 mm, radius 0 mm: [+−]\d/);
    expect((await page.locator("#zone-1-reader").getAttribute("aria-valuetext"))!.replace(/\s+/g, " ")).toBe(
      await said("zone-1"),
    );
    await tabTo("swap-differences-reader");
    expect(await said("swap-differences")).toMatch(/^high less centre: .* by swapping HS-11 and HS-12$/);
    await page.keyboard.press("Home");
    await page.keyboard.press("Shift+Tab");
    for (let i = 0; i < 40 && (await focused()) !== "survey-run"; i += 1) await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Enter");
    await page.locator("#verdict-sentence").waitFor();
    expect(serving.runs.list()[0]!.title).toBe("Cold-store probe HF-021 at 4 °C");
  });

  test("shows the study first where that is asked for", LONG, async () => {
    await open("#survey=freezer-minus-40");
    await page.locator("#survey-into").selectOption("harrowfen/cold-store-4");
    expect(await plainText("#survey-into-note")).toContain("do not name the same bath");
    await page.locator("#survey-into").selectOption("harrowfen/freezer-minus-40");
    await page.locator("#survey-study").click();
    await page.locator("#run").waitFor();
    expect(await plainText(".study-view")).toContain("Survey of the silicone bath at −40 °C: half the span of");
    expect(await plainText(".study-view")).toContain("evidence from freezer-minus-40.json, freezer-minus-40.csv");
    expect(serving.runs.list()).toEqual([]);
    // Of a bath that no study names, none is chosen for the reader.
    await page.setInputFiles("#study-file", [
      await file("own.json", "survey/freezer-minus-40.json", (text) =>
        text.replace('"setTemperature": -40', '"setTemperature": -41'),
      ),
      await file("freezer-minus-40.csv", "survey/freezer-minus-40.csv"),
    ]);
    await page.locator("#survey-run").click();
    await page.locator("#survey-into:focus").waitFor();
    expect(await plainText("#survey-into-note")).toBe("Choose the study whose quantities the survey replaces.");
    await page.goBack();
    // The study that was looked at has no address of its own.
    await page.locator(".empty").waitFor();
    await page.goBack();
    await page.locator("#survey-run").waitFor();
  });

  test("says what to do where there is no survey yet, and where no study can take one", LONG, async () => {
    await page.route("**/api/surveys", (route) => route.fulfill({ json: [] }));
    await page.goto(`${serving.url}#surveys`);
    await page.locator("#no-surveys").waitFor();
    expect(await plainText("#own-survey")).toContain("opened together with its log by Open a file");
    await page.route("**/api/surveys/*/studies", (route) => route.fulfill({ json: [] }));
    await open("#survey=cold-store-4");
    expect(await plainText("#survey-no-study")).toContain("Import a budget table or fill one in");
    expect(await page.locator("#survey-run").count()).toBe(0);
  });

  test("opens a survey of one's own, chosen or dropped with its log, and lists it", LONG, async () => {
    await page.goto(`${serving.url}#surveys`);
    await page.locator("#surveys").waitFor();
    await page.setInputFiles("#study-file", [
      await file("own.csv", "survey/pasteuriser-72.csv"),
      await file("own.json", "survey/pasteuriser-72.json", (text) =>
        text.replace("pasteuriser-72.csv", "own.csv").replace(PASTEURISER, "A bath of our own"),
      ),
    ]);
    await page.locator("h1", { hasText: "A bath of our own" }).waitFor();
    const address = page.url();
    expect(new URL(address).hash).toMatch(/^#survey=[0-9a-f]{16}-[0-9a-f]{16}$/);
    expect(await plainText(".kind")).toContain("from files opened here");
    await page.locator("#survey-run").click();
    await page.locator("#verdict-sentence").waitFor();
    await page.locator("#open-bathStability").click();
    await page.locator("#survey-behind-bathStability").click();
    await page.locator("h1", { hasText: "A bath of our own" }).waitFor();
    expect(page.url()).toBe(address);
    await page.locator("#to-surveys").click();
    await page.locator("#surveys", { hasText: "A bath of our own" }).waitFor();

    const texts = await Promise.all(
      ["json", "csv"].map(
        async (kind) =>
          [`cold-store-4.${kind}`, await readFile(example(`survey/cold-store-4.${kind}`), "utf8")] as const,
      ),
    );
    await page.evaluate((files) => {
      const dataTransfer = new DataTransfer();
      for (const [name, text] of files) dataTransfer.items.add(new File([text], name));
      dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    }, texts);
    await page.locator("h1", { hasText: "Survey of the water bath at 4 °C" }).waitFor();
    expect(await page.locator("#survey-quantities tbody tr").count()).toBe(3);
  });

  test("names what is wrong with files by file, row, column and value, and keeps what was shown", LONG, async () => {
    await open("#survey=pasteuriser-72");
    const description = await file("pasteuriser-72.json", "survey/pasteuriser-72.json");
    const log = await file("pasteuriser-72.csv", "survey/pasteuriser-72.csv");
    const told = async (files: Parameters<Page["setInputFiles"]>[1], words: string): Promise<void> => {
      await page.setInputFiles("#study-file", files);
      await page.locator("#trouble .problems", { hasText: words }).waitFor();
      expect(await page.locator("h1").innerText()).toBe(PASTEURISER);
      expect(await page.locator("#survey-quantities tbody tr").count()).toBe(3);
      await page.locator("#dismiss").click();
      await page.locator("#trouble").waitFor({ state: "detached" });
    };
    await page.setInputFiles("#study-file", [
      description,
      await file("pasteuriser-72.csv", "survey/pasteuriser-72.csv", (text) => text.replace(/^(100,)[\d.]+/m, "$1warm")),
    ]);
    await page.locator("#trouble").waitFor();
    expect(await plainText(".problems")).toBe(
      'pasteuriser-72.csv, row 12, column HS-11 / °C got "warm" expected a number, or a word for no reading such as ---- or OVLD',
    );
    await told(description, "pasteuriser-72.csv, chosen or dropped together with the description");
    await told([description, { ...log, name: "other.csv" }], '"other.csv"');
    await told([description, { ...description, name: "b.json" }, log], "2 descriptions of surveys");
    await told([log, { ...log, name: "b.csv" }], "2 files at once");
    await told([{ ...description, buffer: Buffer.from('{"steps": [,]}') }, log], "not JSON from line 1, column 12");
    await told({ name: "photo.png", mimeType: "image/png", buffer: Buffer.from("\u0089PNG", "latin1") }, "a picture");
    await page.goto(`${serving.url}#survey=none`);
    await page.locator("#trouble", { hasText: 'There is no survey "none".' }).waitFor();
    expect(await page.locator("h1").innerText()).toBe(PASTEURISER);
  });

  test("gives every picture as SVG and PNG, every table as CSV, and the numbers behind", LONG, async () => {
    await open("#survey=pasteuriser-72");
    for (const [panel, picture] of [
      ["survey-log", ".survey-log"],
      ["survey-allan", ".allan"],
      ["survey-zone", ".zone"],
      ["survey-swaps", ".determinations"],
    ] as const) {
      await page.locator(`#take-${panel}-summary`).click();
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.locator(`#take-${panel}-svg-0`).click(),
      ]);
      const svg = (await bytesOf(download)).toString("utf8");
      expect(svg, panel).toContain("<svg");
      expect(svg.match(/<(path|circle|rect)\b/g)!.length, panel).toBeGreaterThanOrEqual(
        await page.locator(picture).first().locator("path, circle, rect").count(),
      );
      expect(svg, panel).not.toContain("var(");
    }
    const [png] = await Promise.all([page.waitForEvent("download"), page.locator("#take-survey-zone-png-0").click()]);
    expect((await bytesOf(png)).subarray(1, 4).toString("latin1")).toBe("PNG");
    const [table] = await Promise.all([
      page.waitForEvent("download"),
      page.locator("#take-survey-swaps-csv-0").click(),
    ]);
    const rows = (await bytesOf(table)).toString("utf8").trim().split("\r\n");
    expect(rows).toHaveLength(5);
    const { evaluation } = await survey("pasteuriser-72");
    const { position, difference, offset, standardUncertainty, degreesOfFreedom } = evaluation.map.comparisons[0]!;
    const figures = [difference, offset, standardUncertainty].map((kelvin) =>
      fixed(1000 * kelvin, 3).replace("−", "-"),
    );
    // One decimal below 100, as JCGM 100, G.4.1 gives it; only the look-up of t cuts it to a whole number.
    expect(degreesOfFreedom).toBeLessThan(100);
    expect(rows[1]).toBe(
      [position, ...figures, degreesOfFreedom!.toFixed(1), "swapping HS-11 and HS-12 (steps 2 and 3)"].join(","),
    );
    await page.locator("#survey-log-summary").click();
    await page.locator("#survey-log-scroll tbody tr").first().waitFor();
    expect(await page.locator("#survey-log-scroll tbody tr").count()).toBe(
      evaluation.outlines.reduce((sum, { times }) => sum + times.length, 0),
    );
  });

  test(
    "passes the accessibility rules in both themes, has no sideways scroll at 360 pixels, and prints whole",
    LONG,
    async () => {
      for (const hash of ["#surveys", "#survey=pasteuriser-72"]) {
        await page.goto("about:blank");
        await page.goto(`${serving.url}${hash}`);
        await page.locator(hash === "#surveys" ? "#surveys" : "#panel-survey-origin .provenance").waitFor();
        if (hash !== "#surveys")
          for (const id of ["checks-held-summary", "survey-zone-summary", "take-survey-zone-summary"])
            await page.locator(`#${id}`).click();
        for (const width of [1280, 360]) {
          await page.setViewportSize({ width, height: 900 });
          expect(await violationsInBothThemes(page), `${hash} ${width}`).toEqual([]);
          expect(await page.evaluate(() => document.documentElement.scrollWidth), hash).toBeLessThanOrEqual(width);
        }
        await page.setViewportSize({ width: 1280, height: 900 });
      }
      // Every picture has a name for who does not see it, and a reader of its own.
      for (const id of PICTURES)
        expect(await page.locator(`.picture:has(#${id}-reader) svg[role=img]`).getAttribute("aria-label")).toMatch(
          /\d/,
        );
      // As wide as the text of A4, which is narrower than that of Letter less its margins.
      await page.setViewportSize({ width: 680, height: 900 });
      await page.emulateMedia({ media: "print" });
      await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
      expect(await page.locator(".into-study").isVisible()).toBe(false);
      const beyond = await page.evaluate(() =>
        [...document.querySelectorAll(".survey-view svg, .survey-view table")]
          .filter((part) => part.getBoundingClientRect().right > 681 && part.getBoundingClientRect().width > 0)
          .map((part) => part.id || part.getAttribute("class")),
      );
      expect(beyond).toEqual([]);
      for (const format of ["A4", "Letter"]) expect((await page.pdf({ format })).length).toBeGreaterThan(10_000);
    },
  );
});
