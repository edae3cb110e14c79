import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { HOW, NINE } from "./nine-terms.ts";
import { openWritten, type Written } from "./written.ts";
import { LONG } from "../../../setup/long.ts";

/** √Σu², JCGM 100, 5.1.2: U/k for the certificate, a/√3 for limits. */
const COMBINED = Math.sqrt(
  NINE.reduce((sum, [, , , how, figure]) => {
    const value = Number(figure.replace(",", "."));
    const u = how === "c" ? value / 2 : how === "r" ? value / Math.sqrt(3) : value;
    return sum + u * u;
  }, 0),
);

describe.skipIf(skipBrowser)("a budget written in the table, by the keyboard alone", () => {
  let it: Written;
  beforeEach(async () => {
    it = await openWritten();
    await it.page.goto(`${it.serving.url}#new`);
    await it.page.locator("#cell-row-1-symbol").waitFor();
  });
  afterEach(() => it.close());

  /** Past the shelf by the skip link, then the title. */
  const title = async (words: string): Promise<void> => {
    await it.press("Tab", "Enter");
    await it.tabTo("in-title");
    await it.type(words);
  };
  const finish = async (): Promise<void> => {
    await it.page.locator("#ready").waitFor();
    await it.press("Control+Enter");
    await it.page.locator("#print").waitFor();
    const record = await it.record();
    expect(record.measurands["result"]!.linear.standardUncertainty).toBeCloseTo(COMBINED, 12);
    expect(record.measurands["result"]!.linear.estimate).toBeCloseTo(-0.006, 12);
    expect(Object.keys(record.study.inputs)).toEqual(NINE.map(([symbol]) => symbol));
    expect(record.study.trials).toBe("adaptive");
  };

  test("nine rows are typed, with the server restarted in the middle, and run", LONG, async () => {
    await title("Comparison at 37 °C");
    await it.tabTo("cell-row-1-symbol");
    for (const [i, [symbol, quantity, value, how, figure, k, ν]] of NINE.entries()) {
      const cell = (column: string): string => `cell-row-${i + 1}-${column}`;
      expect(await it.focused()).toBe(cell("symbol"));
      await it.type(symbol);
      await it.press("Tab");
      await it.type(quantity);
      await it.press("Tab");
      await it.type(value);
      await it.press("Tab");
      // A new row has the unit of the row above.
      if (i === 0) await it.type("°C");
      await it.press("Tab");
      if (i === 0) await it.type("d");
      await it.press("Tab");
      await it.type(how);
      await it.press("Tab");
      await it.type(figure);
      await it.press("Tab");
      if (k !== "") {
        await it.type(k);
        await it.press("Tab");
      }
      await it.type(ν);
      if (i < NINE.length - 1) await it.press("Enter");
      if (i === 4) {
        await it.restart();
        await it.page.reload();
        await it.page.locator("#cell-row-6-symbol").waitFor();
        expect(await it.page.locator("#cell-row-5-first").inputValue()).toBe("0,004");
        await it.page.locator("#cell-row-6-symbol").focus();
      }
    }
    expect(await it.page.locator("#to-do").innerText()).toContain(
      "1 thing is still to be stated or mended: unit of the result.",
    );
    await it.tabTo("cell-result-1-unit");
    await it.type("°C");
    await it.press("Tab");
    await it.type("d");
    await finish();
    console.log(`a nine-row budget typed and run: 0 clicks, ${it.keys} keys`);
  });

  test("nine rows are pasted from a spreadsheet with decimal commas, and run", LONG, async () => {
    const rows = NINE.map(([symbol, quantity, value, how, figure, , ν]) =>
      [symbol, quantity, value, HOW[how], figure, ν || "∞", "1", "survey"].join("\t"),
    );
    const head =
      "Symbol\tQuantity\tEstimate / °C\tDistribution\tHalf-width\tDegrees of freedom\tSensitivity coefficient\tSource";
    await it.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await it.page.evaluate((text) => navigator.clipboard.writeText(text), [head, ...rows, ""].join("\r\n"));
    await title("Comparison at 37 °C");
    await it.tabTo("cell-row-1-symbol");
    await it.press("Control+V");
    await it.page.locator(".entry-said", { hasText: "9 rows pasted" }).waitFor();
    expect(await it.page.locator("#cell-row-1-second").inputValue()).toBe("2");
    await it.tabTo("cell-row-1-ofTemperature");
    await it.type("d");
    await it.press("Control+Shift+D");
    await it.page.locator("#to-do", { hasText: "1 thing is still" }).waitFor();
    await it.page.locator("#to-results-result-1-unit").focus();
    await it.press("Enter");
    await it.type("°C");
    await it.press("Tab");
    await it.type("d");
    await finish();
    console.log(`a nine-row budget pasted and run: 0 clicks, ${it.keys} keys`);
  });

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
