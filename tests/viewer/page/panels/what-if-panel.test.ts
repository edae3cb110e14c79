// What if: a width as people type it, changes kept under a name and set side by side, and from there into the form.
import { describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { RECORDS } from "../fixed-records.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { LONG } from "../../../setup/long.ts";

const STUDY = "verdicts/another-factor";
const stated = RECORDS[STUDY]!.study.inputs["bathAxial"] as { readonly halfWidth: number };

describe.skipIf(skipBrowser)("what if, by fields", () => {
  const it = pageUnderTest();
  const open = async (reading = ""): Promise<void> => {
    const id = it.server.addFinished(STUDY);
    await it.page.goto(`${it.home}#run=${id}${reading}`);
    if (reading === "") await it.page.locator("#try-open").click();
    await it.page.locator("#what-if-computed").waitFor();
  };
  const type = async (id: string, text: string): Promise<void> => {
    await it.page.locator(id).focus();
    await it.page.keyboard.press("Control+A");
    await it.page.keyboard.press("Delete");
    await it.page.keyboard.type(text);
    await it.page.keyboard.press("Enter");
  };
  const said = (name: string): Promise<string> => it.plainText(`#try-width-${name}-said`);
  const heads = (): Promise<string[]> => it.page.locator("#what-if-computed-table thead th").allInnerTexts();

  test("a figure, a factor and a change in percent; what is no width says so and loses nothing", LONG, async () => {
    await open();
    const before = `half-width ${stated.halfWidth} °C`;
    expect(await said("bathAxial")).toBe(`${before}, as stated`);
    await type("#try-width-bathAxial", "4 mK");
    await it.page.locator("#try-width-bathAxial-said", { hasText: "half-width 0.004" }).waitFor();
    expect(await it.plainText("#preview-changes")).toBe(`δtax: ${before} → 0.004 °C`);
    await type("#try-width-bathRadial", "wide");
    await it.page.locator("#try-width-bathRadial-said", { hasText: "got wide; expected a figure" }).waitFor();
    await type("#try-width-bathAxial", "+10 %");
    const wider = Number((1.1 * stated.halfWidth).toPrecision(3));
    await it.page.locator("#preview-changes", { hasText: `→ ${wider}` }).waitFor();
    // The other field keeps what was typed, with its mistake.
    expect(await it.page.locator("#try-width-bathRadial").inputValue()).toBe("wide");
    expect(await it.page.locator("#try-width-bathRadial").getAttribute("aria-invalid")).toBe("true");
    await type("#try-width-bathAxial", "");
    await it.page.locator("#try-width-bathAxial-said", { hasText: "as stated" }).waitFor();
    expect(await it.page.locator("#preview-changes").count()).toBe(0);
  });

  test(
    "changes kept under a name stand side by side, survive a reload, are removed and brought back",
    LONG,
    async () => {
      await open();
      await it.page.locator("#alternative-keep").click();
      expect(await it.plainText("#alternative-said")).toBe("Nothing is changed yet.");
      await type("#try-width-bathAxial", "0,5 mK");
      await type("#alternative-name", "Better zone");
      await type("#try-width-bathAxial", "×2");
      await it.page.locator("#alternative-keep").click();
      await expect.poll(heads).toEqual(["Figure / °C", "As stated", "Changed", "Better zone", "Alternative 1"]);
      // The second is what stands in the fields.
      const ends = await it.page.locator("#what-if-computed-table tbody tr").nth(4).locator("td").allInnerTexts();
      expect(ends[3]).toBe(ends[1]);
      expect(ends[2]).not.toBe(ends[1]);
      expect(await violationsInBothThemes(it.page)).toEqual([]);

      await it.page.reload();
      await it.page.locator("#alternative-0-show").waitFor();
      await it.page.locator("#alternative-0-show").click();
      await it.page.locator("#try-width-bathAxial-said", { hasText: "half-width 0.0005" }).waitFor();
      await it.page.locator("#alternative-0-remove").click();
      await expect.poll(heads).toEqual(["Figure / °C", "As stated", "Changed", "Alternative 1"]);
      await it.page.locator("#alternative-back").click();
      await expect.poll(heads).toHaveLength(5);
    },
  );

  test(
    "an estimate, ν and a constant are changed by their fields, and stand with y, u, U, k and verdict in one table",
    LONG,
    async () => {
      await open();
      await it.page.locator("#try-estimate-bathAxial-said", { hasText: "as stated" }).waitFor();
      await type("#try-estimate-bathAxial", "+0.5 mK");
      await it.page.locator("#preview-changes", { hasText: "Estimate 0 °C → 0.0005 °C" }).waitFor();
      await type("#try-freedom-bathAxial", "8");
      await it.page.locator("#preview-changes", { hasText: "ν ∞ → 8" }).waitFor();
      await type("#try-estimate-bathAxial", "5 Ω");
      await it.page.locator("#try-estimate-bathAxial-said", { hasText: "got 5 Ω; expected a figure in" }).waitFor();
      await type("#try-estimate-bathAxial", "+0.5 mK");
      await type("#alternative-name", "Shifted");
      await expect.poll(heads).toEqual(["Figure / °C", "As stated", "Changed", "Shifted"]);
      const rows = it.page.locator("#what-if-computed-table tbody tr");
      expect((await rows.locator("th").allInnerTexts()).map((head) => head.replace(/\s+/g, " "))).toEqual([
        expect.stringMatching(/^Estimate/),
        expect.stringMatching(/^Standard uncertainty/),
        expect.stringMatching(/^Expanded uncertainty U/),
        ...Array.from({ length: 4 }, () => expect.stringMatching(/endpoint/) as string),
        "Without a unit",
        ...Array.from({ length: 2 }, () => expect.stringMatching(/^Coverage factor k/) as string),
        "Verdict",
      ]);
      const verdicts = rows.last().locator("td");
      await expect.poll(() => verdicts.allInnerTexts()).not.toContain("being drawn");
      const judged = await verdicts.allInnerTexts();
      expect(judged[2]).toBe(judged[1]);
      expect(await violationsInBothThemes(it.page)).toEqual([]);
    },
  );

  test("a kept change opens as a study in the form, named and noted", LONG, async () => {
    await open("&tries=bathAxial:stated:0.5");
    await type("#alternative-name", "Better zone");
    await it.page.locator("#alternative-0-edit").click();
    await it.page.locator("#in-title").waitFor();
    expect(await it.page.locator("#in-title").inputValue()).toMatch(/ \(Better zone\)$/);
    expect(await it.page.locator("#in-notes").inputValue()).toContain(`half-width ${stated.halfWidth}`);
  });

  test(
    "Enter opens it and leads to the first choice; code that does not arrive is told, and the button stays",
    LONG,
    async () => {
      await open();
      await it.page.reload();
      await it.page.locator("#try-open").focus();
      await it.page.keyboard.press("Enter");
      await it.page.locator("#panel-what-if select:focus").waitFor();
      await it.page.route(/what-if-opened-.*\.js$/, (route) => route.abort());
      await it.page.reload();
      await it.page.locator("#try-open").focus();
      await it.page.keyboard.press("Enter");
      await it.page.locator("#panel-what-if [role=alert]", { hasText: "could not be loaded" }).waitFor();
      expect(await it.page.locator("#try-open").evaluate((button) => button === document.activeElement)).toBe(true);
      expect(await violationsInBothThemes(it.page)).toEqual([]);
    },
  );

  test("at 360 pixels nothing scrolls sideways", LONG, async () => {
    await it.page.setViewportSize({ width: 360, height: 800 });
    await open("&tries=bathAxial:stated:0.5");
    await type("#alternative-name", "A longer name of an alternative");
    await it.page.locator("#alternative-0-show").waitFor();
    expect(await it.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });
});
