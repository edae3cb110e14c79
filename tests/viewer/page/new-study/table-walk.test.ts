import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { openWritten, type Written } from "./written.ts";
import { LONG } from "../../../setup/long.ts";

describe.skipIf(skipBrowser)("a budget written in the table, by the keyboard alone", () => {
  let it: Written;
  beforeEach(async () => {
    it = await openWritten();
    await it.page.goto(`${it.serving.url}#new`);
    await it.page.locator("#cell-row-1-symbol").waitFor();
  });
  afterEach(() => it.close());

  test("what is wrong stands at its field and is counted, what was typed can be undone, and the keys go round the table", async () => {
    const { page } = it;
    await page.locator("#cell-row-1-symbol").focus();
    await it.type("a");
    await it.tabTo("cell-row-1-unit");
    await it.type("K");
    await it.tabTo("cell-row-1-how");
    await it.type("rect");
    await it.press("ArrowRight");
    expect(await it.focused()).toBe("cell-row-1-first");
    await it.type("0,0,2");
    await it.press("Tab");
    await page
      .locator("#cell-row-1-first-problem", { hasText: "“0,0,2” is not a number. Type one such as 0.004 or 0,004." })
      .waitFor();
    expect(await page.locator("#cell-row-1-first").getAttribute("aria-invalid")).toBe("true");
    // Title, value, figure and the unit of the result: each counted, each with its link.
    const count = page.locator("#to-do", { hasText: "4 things are still to be stated or mended" });
    await count.waitFor();
    expect(await count.getByRole("button").count()).toBe(4);
    expect(await page.locator("#ready").count()).toBe(0);

    // Asked to run too early, the form goes to what is missing first.
    await it.press("Control+Enter");
    await expect.poll(() => it.focused()).toBe("in-title");
    await page.locator("#cell-row-1-first").focus();
    await it.press("Control+A");
    await it.type("0,02");
    await page.locator("#cell-row-1-first-problem:empty").waitFor({ state: "attached" });
    await it.press("Control+Z");
    expect(await page.locator("#cell-row-1-first").inputValue()).toBe("0,0,2");
    expect(await it.focused()).toBe("cell-row-1-first");
    await it.press("Control+Y");
    expect(await page.locator("#cell-row-1-first").inputValue()).toBe("0,02");

    // A comma is never one of thousands, and the form says so where it might be taken for one.
    await it.press("Control+A");
    await it.type("1,000");
    await it.press("Tab");
    await page.locator("#cell-row-1-first-problem", { hasText: "“1,000” is read as 1.000" }).waitFor();
    expect(await page.locator("#cell-row-1-first").getAttribute("aria-invalid")).toBe(null);
    await page.locator("#cell-row-1-first").focus();

    await it.press("Enter");
    expect(await it.focused()).toBe("cell-row-2-symbol");
    expect(await page.locator("#cell-row-2-unit").inputValue()).toBe("K");
    await it.type("b");
    await it.press("Control+Shift+ArrowUp");
    expect(
      await page
        .locator("tr.line[data-key]")
        .evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset["key"])),
    ).toEqual(["row-2", "row-1"]);
    await it.press("ArrowDown");
    expect(await it.focused()).toBe("cell-row-1-symbol");
    await it.press("Alt+Enter");
    expect(await it.focused()).toBe("full-source-row-1");
    await it.press("Shift+Tab");
    await it.press("Enter");
    await page.locator("#cell-row-2-symbol").focus();
    await it.press("Control+Shift+Delete");
    expect(await page.locator("tr.line[data-key]").count()).toBe(1);
    await it.press("Control+Z");
    expect(await page.locator("tr.line[data-key]").count()).toBe(2);
  });

  test(
    "the table of a model has its rows, a unit of one's own, inputs left out with a reason, and no violation",
    LONG,
    async () => {
      const { page } = it;
      await page.goto(`${it.serving.url}#study=harrowfen/pasteuriser-72`);
      await page.locator("#write-from").click();
      await page.locator("#ready").waitFor();
      expect(await page.locator("#cautions").getAttribute("open")).toBe(null);
      await page.locator("#cautions-summary").click();
      expect(await page.locator("#cautions li").count()).toBeGreaterThan(3);
      expect(await page.locator("#cell-leads-source").inputValue()).toContain("four wires");
      await page.locator("#cell-bathAxial-unit").fill("mK");
      await page.locator("#cell-bathAxial-first").fill("5");
      await page.locator("#ready").waitFor();
      await page.locator("#quick-look-summary").click();
      await page.locator("#look").click();
      await page.locator("#quick-look td", { hasText: "±" }).first().waitFor();
      expect(await page.locator("#quick-look tbody tr").count()).toBe(1);
      expect(await violationsInBothThemes(page)).toEqual([]);
      await page.locator("#cell-bathAxial-first").focus();
      await it.press("Control+Enter");
      await page.locator("#print").waitFor();
      const record = await it.record();
      expect(record.study.inputs["bathAxial"]).toMatchObject({ halfWidth: 5, unit: "mK" });
      // 5 mK are the 0.005 °C that the study had.
      expect(record.inputs["bathAxial"]!.standardUncertainty).toBeCloseTo(0.005 / Math.sqrt(3), 15);
      expect(record.study.negligible!["leads"]).toContain("four wires");
    },
  );

  test(
    "a certificate attached to a row, and a percentage of its value, stand behind it on the sheet",
    LONG,
    async () => {
      const { page } = it;
      await page.locator("#in-title").fill("Standard resistor");
      for (const [column, text] of [
        ["symbol", "R_S"],
        ["value", "100"],
        ["unit", "Ω"],
      ] as const)
        await page.locator(`#cell-row-1-${column}`).fill(text);
      await page.locator("#cell-row-1-how").selectOption("certificate");
      await page.locator("#cell-row-1-first").fill("0,02 %");
      await page.locator("#cell-row-1-second").fill("2");
      await page.locator("#cell-result-1-unit").fill("Ω");
      await page.locator("#open-row-1").focus();
      await it.press("Enter");
      await page.locator(".part-of-estimate", { hasText: "0,02 % of the estimate is 0.02" }).waitFor();
      const bytes = Buffer.from("%PDF-1.4, a certificate");
      const certificate = { name: "certificate R 17.pdf", mimeType: "application/pdf", buffer: bytes };
      await page.locator("#attach-row-1").setInputFiles({ ...certificate, buffer: Buffer.alloc(0) });
      await page.locator("#attach-row-1-problem", { hasText: "certificate R 17.pdf is empty" }).waitFor();
      await page.locator("#attach-row-1").setInputFiles(certificate);
      await page.locator("#attach-row-1-file-0").waitFor();
      expect(await violationsInBothThemes(page)).toEqual([]);
      await it.press("Control+Enter");
      await page.locator("#print").waitFor();
      // U = 0.02 % of 100 Ω and k = 2: u = 0.01 Ω (JCGM 100, 4.3.3).
      const { measurands, study } = await it.record();
      expect(measurands["result"]!.linear.standardUncertainty).toBeCloseTo(0.01, 12);
      expect(study.inputs["R_S"]).toMatchObject({ evidence: { files: [{ name: certificate.name }] } });
      await page.locator("[id='open-R_S']").focus();
      await it.press("Enter");
      const link = page.getByRole("link", { name: certificate.name });
      await link.waitFor();
      const kept = await fetch(new URL((await link.getAttribute("href"))!, it.serving.url));
      expect(Buffer.from(await kept.arrayBuffer())).toEqual(bytes);
    },
  );
});
