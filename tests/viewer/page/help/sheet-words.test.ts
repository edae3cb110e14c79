// The words of a sheet lead to the glossary.
import { expect, test, describe } from "vitest";
import { glossary } from "../../../../viewer/present/glossary/index.ts";
import { skipBrowser } from "../chromium.ts";
import { pageUnderTest } from "../page-under-test.ts";

describe.skipIf(skipBrowser)("the words of a sheet", () => {
  const it = pageUnderTest();

  test("lead by keyboard to what they mean, and are left out of print", async () => {
    const id = it.server.addFinished("verdicts/another-factor");
    await it.page.goto(`${it.home}#run=${id}`);
    const links = it.page.locator("#sheet-words a");
    await links.first().waitFor();
    const known = new Set(glossary.map((word) => `#help=${word.id}`));
    const hrefs = await links.evaluateAll((all) => all.map((link) => link.getAttribute("href")!));
    expect(hrefs.filter((href) => !known.has(href))).toEqual([]);
    expect(hrefs.length).toBeGreaterThan(8);
    await it.page.emulateMedia({ media: "print" });
    expect(await it.page.locator("#sheet-words").isVisible()).toBe(false);
    await it.page.emulateMedia({ media: "screen" });
    await it.page.locator("#word-numerical-tolerance").focus();
    await it.page.keyboard.press("Enter");
    await it.page.locator("#glossary", { hasText: "numerical tolerance" }).waitFor();
    await it.page.goBack();
    await links.first().waitFor();
  });
});
