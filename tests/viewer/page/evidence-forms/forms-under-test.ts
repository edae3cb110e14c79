import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect } from "vitest";
import { serve, type Serving } from "../../../../server/serve.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, newPage } from "../chromium.ts";

export const example = async (path: string): Promise<Record<string, unknown>> =>
  JSON.parse(await readFile(new URL(`../../../../examples/${path}`, import.meta.url), "utf8"));

/** The page over the real server, one for all tests of the describing block, with what a hand at the keyboard does. */
export interface Forms {
  page: Page;
  serving: Serving;
  tabTo(id: string, most?: number, key?: string): Promise<void>;
  /** Types into the field that has the focus, in the place of what is there. */
  type(text: string): Promise<void>;
  /** Pastes cells into a field. */
  paste(id: string, text: string): Promise<void>;
  /** Keeps pictures of the page, where TRIALBAND_LOOK names a folder. */
  looked(name: string): Promise<void>;
  /** No wider than the page, and no complaint of axe in either theme. */
  fits(): Promise<void>;
}

export function forms(watch: readonly string[] = [], locale = "en-GB"): Forms {
  let folder: string;
  const complaints: string[] = [];
  const it: Forms = {
    page: undefined as never,
    serving: undefined as never,
    tabTo: async (id, most = 120, key = "Tab") => {
      const focused = (): Promise<string> => it.page.evaluate(() => document.activeElement?.id ?? "");
      for (let i = 0; i < most && (await focused()) !== id; i += 1) await it.page.keyboard.press(key);
      expect(await focused()).toBe(id);
    },
    type: async (text) => {
      await it.page.keyboard.press("Control+A");
      await it.page.keyboard.type(text);
    },
    paste: (id, text) =>
      it.page.locator(`#${id}`).evaluate((field, cells) => {
        const clipboardData = new DataTransfer();
        clipboardData.setData("text/plain", cells);
        field.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
      }, text),
    looked: async (name) => {
      const to = process.env["TRIALBAND_LOOK"];
      if (to === undefined) return;
      for (const width of [1440, 768, 360]) {
        await it.page.setViewportSize({ width, height: 900 });
        await it.page.screenshot({ path: join(to, `${name}-${width}.png`), fullPage: true });
      }
      await it.page.setViewportSize({ width: 1280, height: 900 });
    },
    fits: async () => {
      for (const width of [1280, 360]) {
        await it.page.setViewportSize({ width, height: 900 });
        expect(await it.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      }
      expect(await violationsInBothThemes(it.page)).toEqual([]);
      await it.page.setViewportSize({ width: 1280, height: 900 });
    },
  };
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-forms-"));
    it.serving = await serve({
      host: "127.0.0.1",
      port: 0,
      workers: 1,
      store: folder,
      warn: () => undefined,
      page: BUILT_PAGE,
      watch,
    });
    it.page = await newPage({ viewport: { width: 1280, height: 900 }, locale });
    it.page.on("pageerror", (error) => complaints.push(String(error)));
  });
  afterAll(async () => {
    await it.page.close();
    await it.serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });
  return it;
}
