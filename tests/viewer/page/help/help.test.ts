import { describe, expect, test } from "vitest";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { sticksOut } from "../sideways.ts";
import { LONG } from "../../../setup/long.ts";

describe.skipIf(skipBrowser)("help and glossary", () => {
  const it = pageUnderTest();
  const focusedText = (): Promise<string> => it.page.evaluate(() => document.activeElement?.textContent ?? "");

  test("is one click or one key away from every view, and leads back to it", LONG, async () => {
    const run = it.server.addFinished("harrowfen/cold-store-4");
    const study = "Cold-store probe HF-021 at 4 °C";
    for (const [hash, title] of [
      ["", "Does your uncertainty budget hold?"],
      ["#runs", "Runs kept here"],
      ["#new", "A new study"],
      ["#surveys", "Surveys of baths"],
      ["#study=harrowfen/cold-store-4", study],
      [`#run=${run}`, study],
    ] as const) {
      await it.page.goto("about:blank");
      await it.page.goto(`${it.home}${hash}`);
      await expect.poll(() => it.text("#sheet-title"), { message: hash }).toBe(title);
      await it.page.locator("body").press("?");
      await it.page.locator("#glossary").waitFor();
      expect(await it.text("#sheet-title")).toBe("Help and glossary");
      await it.page.goBack();
      await expect.poll(() => it.text("#sheet-title"), { message: hash }).toBe(title);
    }
    await it.page.locator("#to-help").click();
    await it.page.locator("#to-help[aria-current=page]").waitFor();
  });

  test("leaves the key to who types it", LONG, async () => {
    await it.page.goto(`${it.home}#new`);
    await it.page.locator("#in-title").focus();
    await it.page.keyboard.type("Does it hold?");
    expect(await it.page.locator("#in-title").inputValue()).toBe("Does it hold?");
  });

  test("shows the word that an address names, in both languages, and finds words by either", LONG, async () => {
    await it.page.goto(`${it.home}#runs`);
    await it.page.locator("#sheet-title").waitFor();
    await it.page.evaluate(() => (location.hash = "#help=numerical-tolerance"));
    await it.page.locator("#word-numerical-tolerance[data-asked]").waitFor();
    await expect.poll(focusedText).toContain("numerical tolerance");
    expect(await it.page.locator("#word-numerical-tolerance").boundingBox()).toMatchObject({
      y: expect.toSatisfy((y: number) => y > 0 && y < 900),
    });
    expect(await it.plainText("#word-numerical-tolerance .note >> nth=1")).toBe("JCGM 101:2008, 3.20 and 7.9.2");
    await it.page.locator("#glossary-de").click();
    await it.page.locator("#word-numerical-tolerance dt a", { hasText: "numerische Toleranz" }).waitFor();
    expect(await it.page.locator("#glossary").getAttribute("lang")).toBe("de");
    await it.page.locator("#find-word").fill("coverage factor");
    await it.page.locator("#words-found", { hasText: /\d+ of \d+ words/ }).waitFor();
    expect(await it.text("#glossary")).toContain("Erweiterungsfaktor");
    await it.page.locator("#find-word").fill("xyzzy");
    await it.page.locator("#words-found", { hasText: "No word has all of this" }).waitFor();
  });

  test("passes the accessibility rules, and has no sideways scroll at 360 pixels", LONG, async () => {
    await it.page.goto(`${it.home}#help=endpoint`);
    await it.page.locator("#word-endpoint").waitFor();
    expect(await violationsInBothThemes(it.page)).toEqual([]);
    await it.page.setViewportSize({ width: 360, height: 800 });
    expect(await sticksOut(it.page, 360)).toEqual([]);
  });
});
