import { describe, expect, test } from "vitest";
import { violationsInBothThemes } from "./axe.ts";
import { skipBrowser } from "./chromium.ts";
import { RECORDS } from "./fixed-records.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { sticksOut, WIDTHS } from "./sideways.ts";
import { LONG } from "../../setup/long.ts";

const mass = RECORDS["published/mass-calibration"]!;

describe.skipIf(skipBrowser)("the look of the page", () => {
  const it = pageUnderTest();

  test("keeps numerals on their decimal signs", LONG, async () => {
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

  test("draws differences of the ends, δ and the bins to scale", LONG, async () => {
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

  test.each(Object.keys(RECORDS))("%s has no sideways scroll at any width", LONG, async (study) => {
    const id = it.server.addFinished(study);
    await it.page.setViewportSize({ width: WIDTHS[0], height: 800 });
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator(".side-by-side").waitFor();
    for (const width of WIDTHS) {
      await it.page.setViewportSize({ width, height: 800 });
      // What was drawn for a wider page sticks out until it is drawn anew.
      await expect.poll(() => sticksOut(it.page, width), { message: `${width} pixels` }).toEqual([]);
    }
  });

  test("passes the accessibility rules in light and dark", LONG, async () => {
    const id = it.server.addFinished("published/mass-calibration");
    const two = it.server.addFinished("harrowfen/two-measurands");
    for (const hash of ["", "#study=harrowfen/cold-store-4", `#run=${id}`, `#run=${two}`, "#run=gone"]) {
      await it.page.goto("about:blank");
      await it.page.goto(`${it.home}${hash}`);
      await it.page.locator(hash === "#run=gone" ? "#trouble" : "h1").waitFor();
      await it.page.locator(".runs").waitFor();
      if (hash.startsWith("#run=r")) {
        for (const name of ["bins", "course"]) await it.page.locator(`#${name}-summary`).click();
      }
      expect(await violationsInBothThemes(it.page), hash).toEqual([]);
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
    await expect.poll(paper).toBe(dark);
  });

  test.each(["A4", "Letter"] as const)(
    "prints on %s, in light colours whatever the screen has",
    LONG,
    async (format) => {
      // As a person has it before printing: another test may have left the page in print.
      await it.page.setViewportSize({ width: 1280, height: 900 });
      await it.page.emulateMedia({ media: null, colorScheme: "dark" });
      const id = it.server.addFinished("harrowfen/cold-store-4");
      await it.page.goto(`${it.home}#run=${id}`);
      await it.page.locator("#panel-provenance").waitFor();
      await it.page.waitForLoadState("networkidle");
      await it.page.evaluate(() => document.fonts.ready);
      const pages = async (): Promise<number> =>
        ((await it.page.pdf({ format })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g) ?? []).length;
      // Pictures are drawn anew for the width at which the page stands now.
      await expect.poll(pages).toBeLessThanOrEqual(format === "A4" ? 5 : 6);
      expect(await pages()).toBeGreaterThanOrEqual(2);
      await it.page.emulateMedia({ media: "print", colorScheme: "dark" });
      expect(await it.page.evaluate(() => getComputedStyle(document.documentElement).getPropertyValue("color"))).toBe(
        "rgb(24, 33, 38)",
      );
      expect(await it.page.locator("#shelf").isVisible()).toBe(false);
      expect(await it.page.evaluate(() => getComputedStyle(document.body).page)).toBe("evidence");
    },
  );
});
