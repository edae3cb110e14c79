import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, test } from "vitest";
import { skipBrowser } from "./chromium.ts";
import { RECORDS } from "./fixed-records.ts";
import { pageUnderTest } from "./page-under-test.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const mass = RECORDS["published/mass-calibration"]!;

describe.skipIf(skipBrowser)("the look of the page", () => {
  const it = pageUnderTest();

  test("keeps numerals on their decimal signs", async () => {
    const id = it.server.addFinished("harrowfen/cold-store-4");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator(".budget").waitFor();
    await it.page.evaluate(() => document.fonts.ready);
    // The left edge of the decimal sign of every number in a column.
    const places = await it.page.evaluate(() =>
      [3, 4, 7].map((column) =>
        [...document.querySelectorAll(`.budget tbody td:nth-child(${column})`)].flatMap((cell) => {
          const node = (cell.querySelector(".digits") ?? cell).firstChild as Text;
          const at = node.data.indexOf(".");
          if (at < 0) return [];
          const range = document.createRange();
          range.setStart(node, at);
          range.setEnd(node, at + 1);
          return [range.getBoundingClientRect().left];
        }),
      ),
    );
    for (const column of places) {
      expect(column.length).toBeGreaterThan(5);
      // Half a pixel: what rounding of glyph positions may do.
      expect(Math.max(...column) - Math.min(...column)).toBeLessThan(0.5);
    }
  });

  test("draws differences of the ends, δ and the bins to scale", async () => {
    const id = it.server.addFinished("published/mass-calibration");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#end-low").waitFor();
    const { validation, monteCarlo } = mass.measurands.deviation!;
    const length = (selector: string): Promise<number> =>
      it.page.locator(selector).evaluate((node) => (node as unknown as SVGGraphicsElement).getBBox().width);
    const distance = (await length("#end-low .distance")) / (await length("#end-high .distance"));
    const band = (await length("#end-low .tolerance")) / 2 / (await length("#end-low .distance"));
    expect(distance).toBeCloseTo(validation.dLow / validation.dHigh, 2);
    expect(band).toBeCloseTo(validation.numericalTolerance / validation.dLow, 2);
    const bars = await it.page
      .locator(".figure .trials-area")
      .evaluate((node) => (node as unknown as SVGGraphicsElement).getBBox().width);
    const [low, high] = monteCarlo.intervals.shortest;
    const bracket = await length(".lanes .trials-rule:not(.solid):not(.estimate)");
    expect(bracket / bars).toBeCloseTo(
      (high - low) / (monteCarlo.histogram.width * monteCarlo.histogram.counts.length),
      2,
    );
  });

  test.each([360, 820, 965, 1040, 1100, 1440])("has no sideways scroll at %i pixels", async (width) => {
    await it.page.setViewportSize({ width, height: 800 });
    for (const study of Object.keys(RECORDS)) {
      const id = it.server.addFinished(study);
      await it.page.goto(`${it.home}#run=${id}`);
      await it.page.locator(".side-by-side").waitFor();
      expect(await it.page.evaluate(() => document.documentElement.scrollWidth), study).toBeLessThanOrEqual(width);
      const wide = await it.page
        .locator("svg text")
        .evaluateAll(
          (texts, most) =>
            texts
              .filter((node) => node.getBoundingClientRect().right > most || node.getBoundingClientRect().left < 0)
              .map((node) => node.textContent),
          width,
        );
      expect(wide, study).toEqual([]);
    }
  });

  test.each(["light", "dark"] as const)("passes the accessibility rules in %s", async (colorScheme) => {
    await it.page.emulateMedia({ colorScheme });
    const id = it.server.addFinished("published/mass-calibration");
    const two = it.server.addFinished("harrowfen/two-measurands");
    for (const hash of ["", "#study=harrowfen/cold-store-4", `#run=${id}`, `#run=${two}`, "#run=gone"]) {
      await it.page.goto("about:blank");
      await it.page.goto(`${it.home}${hash}`);
      await it.page.locator(hash === "#run=gone" ? "#trouble" : "h1").waitFor();
      await it.page.locator(".runs").waitFor();
      if (hash.startsWith("#run=r"))
        for (const name of ["bins", "course"]) await it.page.locator(`#${name}-summary`).click();
      await it.page.evaluate(axe);
      const violations = await it.page.evaluate(async () => {
        const results = await (
          globalThis as unknown as {
            axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
          }
        ).axe.run();
        return results.violations.map((violation) => `${violation.id}: ${violation.nodes[0]!.html}`);
      });
      expect(violations, hash).toEqual([]);
    }
  });

  test("remembers the colours chosen", async () => {
    await it.page.goto(it.home);
    const paper = (): Promise<string> =>
      it.page.evaluate(() => getComputedStyle(document.querySelector("main")!).backgroundColor);
    const light = await paper();
    await it.page.locator("#theme label", { hasText: "Dark" }).click();
    const dark = await paper();
    expect(dark).not.toBe(light);
    await it.page.reload();
    expect(await paper()).toBe(dark);
  });

  test.each(["A4", "Letter"] as const)("prints on %s, in light colours whatever the screen has", async (format) => {
    await it.page.emulateMedia({ colorScheme: "dark" });
    const id = it.server.addFinished("harrowfen/cold-store-4");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator(".side-by-side").waitFor();
    await it.page.evaluate(() => document.fonts.ready);
    const pdf = (await it.page.pdf({ format })).toString("latin1");
    const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g) ?? [];
    expect(pages.length).toBeGreaterThanOrEqual(2);
    expect(pages.length).toBeLessThanOrEqual(5);
    await it.page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await it.page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue("color"))).toBe(
      "rgb(24, 33, 38)",
    );
    expect(await it.page.locator("#shelf").isVisible()).toBe(false);
    expect(await it.page.locator("#sheet").evaluate((sheet) => getComputedStyle(sheet).page)).toBe("evidence");
  });
});
