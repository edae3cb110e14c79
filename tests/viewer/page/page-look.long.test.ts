// @module-tag long
import { describe, expect, test } from "vitest";
import { skipBrowser } from "./chromium.ts";
import { RECORDS } from "./fixed-records.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { sticksOut, WIDTHS } from "./sideways.ts";

describe.skipIf(skipBrowser)("opened at a width", () => {
  const it = pageUnderTest();

  test.each(WIDTHS)("%i pixels: no record scrolls sideways", async (width) => {
    await it.page.setViewportSize({ width, height: 800 });
    for (const study of Object.keys(RECORDS)) {
      const id = it.server.addFinished(study);
      await it.page.goto(`${it.home}#run=${id}`);
      await it.page.locator(".side-by-side").waitFor();
      expect(await sticksOut(it.page, width), study).toEqual([]);
    }
  });
});
