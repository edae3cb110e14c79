import { describe, expect, test } from "vitest";
import { fixed } from "../../../../viewer/present/numbers.ts";
import { bytesOf, skipBrowser } from "../chromium.ts";
import { RECORDS } from "../fixed-records.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { LONG } from "../../../setup/long.ts";

const curve = RECORDS["published/thermometer-line"]!.calibrationCurve!;

describe.skipIf(skipBrowser)("the calibration curve", () => {
  const it = pageUnderTest();
  const open = async (study: string, reading = ""): Promise<void> => {
    const id = it.server.addFinished(study);
    await it.page.goto("about:blank");
    await it.page.goto(`${it.home}#run=${id}${reading}`);
    await it.page.locator("#panel-provenance").waitFor();
  };
  const chosen = (): Promise<string> =>
    it.page.locator("#drawn input:checked").getAttribute("value") as Promise<string>;
  const name = (): Promise<string> => it.page.locator("svg.curve").getAttribute("aria-label") as Promise<string>;

  test("stands where the model declares one, and nowhere else", LONG, async () => {
    await open("published/thermometer-line");
    expect(await it.page.locator("#panel-curve").count()).toBe(1);
    await open("published/polar-010-correlated");
    expect(await it.page.locator("#panel-curve").count()).toBe(0);
  });

  test("has the figures of JCGM 100:2008, H.3.4 in its table", async () => {
    await open("published/thermometer-line");
    // b(30 °C) = −0.1494 °C with u = 0.0041 °C; at 20 °C y₁ = −0.1712 °C with s = 0.0029 °C.
    expect(await it.plainText("#curve-table tbody tr:last-child")).toMatch(
      /^30\.00 −0\.1494 0\.00414 \[−0\.1575, −0\.1413\] /,
    );
    expect(await it.plainText("#curve-table tbody tr:first-child")).toMatch(/^20\.00 −0\.1712 0\.00288 /);
    expect(await it.plainText("#curve-sentence")).toMatch(
      /least, 1\.1 mK, at 24\.00 °C and greatest, 4\.1 mK, at 30\.00 °C/,
    );
    expect(await it.page.locator("svg.curve .observed").count()).toBe(11);
  });

  test("is read from the keyboard, argument by argument", async () => {
    await open("published/thermometer-line");
    await it.page.locator("#curve-reader").focus();
    await it.page.keyboard.press("End");
    const { linear, monteCarlo } = curve.points[40]!;
    const read = await it.plainText("#curve-readout");
    expect(read).toContain("At 30.00 °C: b = −0.1494 °C, U = 8.1 mK (linear, k = 1.96)");
    expect(read).toContain(`Monte Carlo ${fixed(monteCarlo.interval[0], 4)} to ${fixed(monteCarlo.interval[1], 4)} °C`);
    await it.page.keyboard.press("ArrowLeft");
    expect(await it.plainText("#curve-readout")).toContain("At 29.75 °C");
    expect(await it.page.locator("#curve-reader").getAttribute("aria-valuetext")).toContain("At 29.75");
    expect(await it.page.locator("svg.curve .cursor").getAttribute("d")).not.toBeNull();
    expect(linear.coverageFactor).toBeCloseTo(1.96, 3);
  });

  test(
    "is drawn as deviation where the reader wants that, in a unit that suits it, and the address keeps it",
    LONG,
    async () => {
      await open("published/thermometer-line");
      expect(await chosen()).toBe("curve");
      await it.page.locator("#drawn-curve").focus();
      await it.page.keyboard.press("ArrowRight");
      await it.page.locator("svg.curve[aria-label^='Bands about']").waitFor();
      expect(await it.page.locator("svg.curve .axis-title").allTextContents()).toContain(
        "deviation from the curve, Δb / mK",
      );
      expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("drawn-deviation");
      await it.page.waitForFunction(() => location.hash.includes("curve=deviation"));
      const address = it.page.url();
      await it.page.goto("about:blank");
      await it.page.goto(address);
      await it.page.locator("svg.curve").waitFor();
      expect(await name()).toContain("Bands about");
    },
  );

  test(
    "one too steep for its band to show begins with the deviation, and tells U at the argument too",
    LONG,
    async () => {
      await open("harrowfen/steep-curve");
      expect(await chosen()).toBe("deviation");
      expect(await name()).toContain("Bands about");
      await it.page.locator("#curve-reader").focus();
      await it.page.keyboard.press("End");
      // The slope is 5 °C/mV and 2 mK/mV more: 8.1 mK is as much as 1.6 µV.
      expect(await it.plainText("#curve-readout")).toMatch(/U = 8\.1 mK, as much as 1\.6 × 10⁻³ mV in x \(linear/);
    },
  );

  test("picture, table and numbers can be taken away", LONG, async () => {
    await open("published/thermometer-line");
    const take = async (id: string): Promise<Buffer> => {
      const [download] = await Promise.all([it.page.waitForEvent("download"), it.page.locator(id).click()]);
      return bytesOf(download);
    };
    await it.page.locator("#take-curve-summary").click();
    expect((await take("#take-curve-svg-0")).toString("utf8")).toContain('xmlns="http://www.w3.org/2000/svg"');
    // PNG's signature (ISO/IEC 15948, 5.2).
    expect([...(await take("#take-curve-png-0")).subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    expect((await take("#take-curve-csv-0")).toString("utf8")).toContain(
      '30.00,-0.1494,0.00414,"[\u22120.1575, \u22120.1413]",',
    );
    await it.page.locator("#curve-numbers-summary").click();
    const lines = (await take("#curve-numbers-csv")).toString("utf8").trim().split("\r\n");
    expect(lines).toHaveLength(42);
    // JCGM 100:2008, H.3.4 at 30 °C: −0.1494 and 0.0041, and y ± 1.96 u.
    const [t, y, u, lower, upper] = lines[41]!.split(",").map(Number);
    expect(t).toBe(30);
    expect([y, u, lower, upper].map((figure) => figure!.toFixed(4))).toEqual([
      "-0.1494",
      "0.0041",
      "-0.1575",
      "-0.1413",
    ]);
  });

  test("stands in the printed sheet, without what only a screen can do", LONG, async () => {
    await open("published/thermometer-line");
    await it.page.emulateMedia({ media: "print" });
    expect(await it.page.locator("svg.curve").isVisible()).toBe(true);
    expect(await it.page.locator("#curve-table").isVisible()).toBe(true);
    for (const id of ["#drawn", "#curve-readout", "#curve-numbers-fold", "#take-curve"])
      expect(await it.page.locator(id).isVisible(), id).toBe(false);
  });
});
