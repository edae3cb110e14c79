import { describe, expect, test } from "vitest";
import { skipBrowser } from "./chromium.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { LONG } from "../../setup/long.ts";

describe.skipIf(skipBrowser)("the link that reproduces the view", () => {
  const it = pageUnderTest({ anew: true });
  const open = async (): Promise<void> => {
    const id = it.server.addFinished("harrowfen/pasteuriser-72");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#copy-link").waitFor();
  };

  test("is copied with every choice made, said so, and brings the view back", LONG, async () => {
    await it.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
    await open();
    await it.page.locator("label[for=unit-mK]").click();
    await it.page.locator("#sort-estimate").click();
    await it.page.waitForFunction(() => location.hash.includes("order=estimate"));
    await it.page.locator("#copy-link").focus();
    await it.page.keyboard.press("Enter");
    await it.page.locator(".copied", { hasText: "The link is copied" }).waitFor();
    expect(await it.page.locator(".copied").getAttribute("role")).toBe("status");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("copy-link");
    const link = await it.page.evaluate(() => navigator.clipboard.readText());
    expect(link).toBe(it.page.url());
    const line = await it.plainText("#result-linear .result-line");
    await it.page.goto("about:blank");
    await it.page.goto(link);
    await it.page.locator("#panel-provenance").waitFor();
    expect(await it.plainText("#result-linear .result-line")).toBe(line);
    expect(await it.page.locator("[aria-sort]").innerText()).toContain("Estimate");
  });

  test(
    "stands ready to be copied by hand where the clipboard is refused, and goes when the view changes",
    LONG,
    async () => {
      await it.page.addInitScript(() => {
        Object.defineProperty(navigator, "clipboard", {
          value: { writeText: () => Promise.reject(new DOMException("denied", "NotAllowedError")) },
        });
      });
      await open();
      await it.page.locator("#copy-link").click();
      const field = it.page.locator("#link-field");
      await field.waitFor();
      expect(await field.inputValue()).toBe(it.page.url());
      expect(await it.page.evaluate(() => [document.activeElement?.id, getSelection()?.toString()])).toEqual([
        "link-field",
        it.page.url(),
      ]);
      expect(await it.page.locator("label[for=link-field]").innerText()).toContain("no access to the clipboard");
      await it.page.locator("label[for=digits-1]").click();
      await field.waitFor({ state: "detached" });
    },
  );

  test("does so too where a browser has no clipboard at all", async () => {
    await it.page.addInitScript(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
    await open();
    await it.page.locator("#copy-link").click();
    expect(await it.page.locator("#link-field").inputValue()).toBe(it.page.url());
  });
});
