import { describe, expect, test } from "vitest";
import { skipBrowser } from "../chromium.ts";
import { example, forms } from "./forms-under-test.ts";
import { LONG } from "../../../setup/long.ts";

describe.skipIf(skipBrowser)("forms of evidence, over the real server", () => {
  const it = forms();

  test("readings are pasted, evaluated and kept, by the keyboard alone", async () => {
    const { page, tabTo, type } = it;
    await page.goto(`${it.serving.url}#evidence`);
    await page.locator("#begin-readings").waitFor();
    await tabTo("begin-readings");
    await page.keyboard.press("Enter");
    await page.locator("#setup-title").waitFor();
    await tabTo("setup-title");
    await type("Probe 7 at 37 °C");
    await tabTo("setup-rows-0-at-0");
    // The differences are those of JCGM 100, table H.2, in mK: mean 4.9990, standard uncertainty of the mean 0.0032.
    const pairs = [5.007, 4.994, 5.005, 4.99, 4.999].map((mK, k) => [37 + k / 1000, 37 + k / 1000 + mK / 1000]);
    const cells = pairs.map((pair) => pair.map((value) => value.toFixed(6).replace(".", ",")).join("\t"));
    await it.paste("setup-rows-0-at-0", ["HR-02 / °C\tP 7 [°C]", ...cells].join("\n"));
    const mean = page.locator("#setup-mean-0-rows tbody tr");
    await mean.waitFor();
    const shown = (await mean.locator("td").allInnerTexts()).slice(0, 4);
    expect(shown).toEqual(["4.999", "0.007", "0.003", "4"]);
    expect(await page.locator("#setup-thermometer-1-name").inputValue()).toBe("P 7");
    await tabTo("setup-evaluate");
    await page.keyboard.press("Enter");
    await page.locator("#setup-version-1", { hasText: "Version 1: Probe 7" }).waitFor();
    await it.looked("readings");
  });

  test("a certificate that a file has goes into a study at the temperature of its bath", LONG, async () => {
    const { page } = it;
    await page.goto(`${it.serving.url}#certificate`);
    await page.locator("#setup-open").setInputFiles({
      name: "reference.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(await example("survey/reference-HR-02.json"))),
    });
    await expect.poll(() => page.locator("#setup-thermometer").inputValue()).toBe("HR-02");
    expect(await page.locator("#setup-points-2-uncertainty").inputValue()).toBe("8");
    await page.locator("#setup-on").fill("2026-03-02");
    await page.locator("#setup-at").fill("72");
    await page.locator("#setup-value", { hasText: "correction −6.00 mK, u 4.00 mK" }).waitFor();
    await page.locator("#setup-into-study").selectOption("harrowfen/pasteuriser-72");
    await expect.poll(() => page.locator("#setup-into-referenceDrift").inputValue()).toBe("referenceDrift");
    await page.locator("#setup-into-show").click();
    await page.locator("#sheet-title", { hasText: "Pasteuriser probe HF-034" }).waitFor();
    const [kept] = (await (await fetch(`${it.serving.url}api/evidence`)).json()) as {
      title: string;
      version: number;
    }[];
    expect(kept).toMatchObject({ title: "HR-02", version: 1 });
  });
});
