import { rm } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect } from "vitest";
import { buildPage, launch } from "./chromium.ts";
import { FixtureServer } from "./fixture-server.ts";

/** The page in a browser of its own, with a fixture server behind it; new for every test. */
export interface PageUnderTest {
  page: Page;
  server: FixtureServer;
  /** Address of the page, ending in a slash. */
  home: string;
  /** Text of an element as it is seen. */
  text(selector: string): Promise<string>;
  /** The same with every run of white space as one space. */
  plainText(selector: string): Promise<string>;
}

/** Builds the page once and opens it anew for each test of the describing block; the page must raise no error. */
export function pageUnderTest(): PageUnderTest {
  let folder: string;
  let browser: Browser;
  let complaints: string[];
  const it = {
    text: (selector) => it.page.locator(selector).innerText(),
    plainText: async (selector) => (await it.text(selector)).replace(/\s+/g, " "),
  } as PageUnderTest;

  beforeAll(async () => {
    [folder, browser] = await Promise.all([buildPage(), launch()]);
  });

  afterAll(async () => {
    await browser.close();
    await rm(folder, { recursive: true });
  });

  beforeEach(async () => {
    it.server = new FixtureServer(folder);
    it.home = await it.server.listen();
    it.page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    complaints = [];
    it.page.on("pageerror", (error) => complaints.push(String(error)));
  });

  afterEach(async () => {
    await it.page.close();
    await it.server.close();
    expect(complaints).toEqual([]);
  });

  return it;
}
