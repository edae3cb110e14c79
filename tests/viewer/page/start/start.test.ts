import { describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { bytesOf, skipBrowser } from "../chromium.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { sticksOut, WIDTHS } from "../sideways.ts";
import { LONG } from "../../../setup/long.ts";

describe.skipIf(skipBrowser)("the first screen", () => {
  const it = pageUnderTest();
  const focused = (): Promise<string> => it.page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string): Promise<void> => {
    for (let i = 0; i < 150 && (await focused()) !== id; i += 1) await it.page.keyboard.press("Tab");
    expect(await focused()).toBe(id);
  };

  test("has three large targets in sight at every width, before anything else of the sheet", LONG, async () => {
    await it.page.goto(it.home);
    await it.page.locator("#template-budget\\.xlsx").waitFor();
    for (const width of WIDTHS) {
      await it.page.setViewportSize({ width, height: 900 });
      await expect.poll(() => sticksOut(it.page, width), { message: `${width} pixels` }).toEqual([]);
      const boxes = await it.page
        .locator(".starts .start-card")
        .evaluateAll((cards) => cards.map((card) => card.getBoundingClientRect().toJSON() as DOMRect));
      expect(boxes).toHaveLength(3);
      for (const { height, width: wide, bottom } of boxes) {
        // WCAG 2.2, 2.5.5: 44 by 44 pixels; these are several times that.
        expect(height).toBeGreaterThan(88);
        expect(wide).toBeGreaterThan(200);
        expect(bottom, `${width} pixels`).toBeLessThan(900);
      }
    }
    expect(await violationsInBothThemes(it.page)).toEqual([]);
  });

  test("leads to each start by keyboard, and back by the page's name", LONG, async () => {
    await it.page.goto(it.home);
    await it.page.locator("#shelf-fold").waitFor();
    await tabTo("start-new");
    await it.page.keyboard.press("Enter");
    await it.page.locator("#in-title").waitFor();
    await it.page.locator("#home").click();
    await it.page.locator("#start-survey").waitFor();
    expect(await focused()).toBe("sheet-title");
    await tabTo("start-survey");
    await it.page.keyboard.press("Enter");
    await it.page.locator("#surveys-title").waitFor();
  });

  test("opens the budget table that was downloaded as a template", LONG, async () => {
    await it.page.goto(it.home);
    const [download] = await Promise.all([
      it.page.waitForEvent("download"),
      it.page.locator("#template-budget\\.xlsx").click(),
    ]);
    await it.page.setInputFiles("#start-file", {
      name: download.suggestedFilename(),
      mimeType: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
      buffer: await bytesOf(download),
    });
    await it.page.locator("#import-run:not([disabled])").waitFor();
    expect(await it.text("#sheet")).toContain("Repeatability");
    expect(await it.page.locator("#trouble").count()).toBe(0);
  });
});
