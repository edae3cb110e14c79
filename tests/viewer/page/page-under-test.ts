import type { Page } from "playwright-core";
import { afterEach, beforeEach, expect } from "vitest";
import { BUILT_PAGE, newPage } from "./chromium.ts";
import { FixedServer } from "./fixed-server.ts";

/** The page in a window of its own, with the real app over fixed runs behind it; new for every test. */
export interface PageUnderTest {
  page: Page;
  server: FixedServer;
  /** Address of the page, ending in a slash. */
  home: string;
  /** Text of an element as it is seen. */
  text(selector: string): Promise<string>;
  /** The same with every run of white space as one space. */
  plainText(selector: string): Promise<string>;
  /** Waits until the page has announced these words since it was loaded, whatever it announced after them. */
  heard(words: string | RegExp): Promise<void>;
}

/** Keeps every announcement: the next one takes its place in the page, at once if there is news in two frames. */
function recordAnnouncements(): void {
  const announced: string[] = [];
  Object.assign(window, { announced });
  document.addEventListener("DOMContentLoaded", () => {
    const announcer = document.getElementById("announcer");
    if (announcer === null) return;
    const record = (): void => void announced.push(announcer.textContent ?? "");
    new MutationObserver(record).observe(announcer, { childList: true, characterData: true, subtree: true });
  });
}

/** Opens the page anew for each test of the describing block; the page must raise no error and keep to its policy. */
export function pageUnderTest(): PageUnderTest {
  let complaints: string[];
  const it = {
    text: (selector) => it.page.locator(selector).innerText(),
    heard: async (words) => {
      const pattern = typeof words === "string" ? words.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&") : words.source;
      await it.page.waitForFunction(
        (source) => (window as unknown as { announced: string[] }).announced.some((said) => RegExp(source).test(said)),
        pattern,
      );
    },
    plainText: async (selector) => (await it.text(selector)).replace(/\s+/g, " "),
  } as PageUnderTest;

  beforeEach(async () => {
    it.server = new FixedServer(BUILT_PAGE);
    it.home = await it.server.listen();
    it.page = await newPage({ viewport: { width: 1280, height: 900 } });
    await it.page.addInitScript(recordAnnouncements);
    complaints = [];
    it.page.on("pageerror", (error) => complaints.push(String(error)));
    it.page.on("console", (message) => {
      if (message.text().includes("Content Security Policy")) complaints.push(message.text());
    });
  });

  afterEach(async () => {
    await it.page.close();
    await it.server.close();
    expect(complaints).toEqual([]);
  });

  return it;
}
