// A study before it is run, in the page.
import { describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { pageUnderTest } from "../page-under-test.ts";

describe.skipIf(skipBrowser)("the page of a study", () => {
  const it = pageUnderTest();

  test("has its equation as mathematics, its quantities with symbols and units, and passes the accessibility rules", async () => {
    await it.page.setViewportSize({ width: 360, height: 800 });
    await it.page.goto(`${it.home}#study=equation/transmitter-72`);
    await it.page.locator(".mathematics math").first().waitFor();
    expect((await it.plainText("#study-measurands-rows thead")).trim()).toBe("Result Meaning Unit");
    expect(await it.page.locator("#study-inputs-rows tbody tr").first().locator("th var").count()).toBe(1);
    expect(await it.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await violationsInBothThemes(it.page)).toEqual([]);
  });

  test("says which model is missing and what can be done, and is opened in the form from there", async () => {
    await it.page.goto(it.home);
    await it.page.locator("#study-file").waitFor({ state: "attached" });
    const study = {
      title: "Of another server",
      model: "ring-gauge",
      inputs: { bore: { distribution: "normal", estimate: 1, standardUncertainty: 0.1 } },
    };
    await it.page.setInputFiles("#study-file", {
      name: "other.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(study)),
    });
    await it.page.locator("#study-trouble").waitFor();
    expect(await it.plainText("#study-trouble")).toMatch(/does not have the model.*“ring-gauge”.*edit a copy/i);
    expect(await it.page.locator("#run").isDisabled()).toBe(true);
    // What is stated stays readable.
    expect(await it.plainText("#study-inputs-rows tbody")).toContain("normal");
    await it.page.locator("#write-from").click();
    await it.page.locator("#in-title").waitFor();
    expect(await it.page.locator("#in-title").inputValue()).toBe(study.title);
  });
});
