import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeEach, expect } from "vitest";
import { BUILT_PAGE, newPage } from "./chromium.ts";
import { FixedServer } from "./fixed-server.ts";

/** The page in a window of its own, with the real app over fixed runs behind it. */
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

const VIEWPORT = { width: 1280, height: 900 };

/**
 * The page for each test of the describing block, as if it were opened for the first time; it must raise no error and keep to
 * its policy. The tests share one window, since a second load of the page costs half of the first one's time.
 *
 * @param options.anew a window for each test: for one that changes what its scripts find or what it is permitted
 */
export function pageUnderTest({ anew = false } = {}): PageUnderTest {
  const complaints: string[] = [];
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
  let open = false;

  const begin = async (): Promise<void> => {
    it.server = new FixedServer(BUILT_PAGE);
    it.home = await it.server.listen();
    it.page = await newPage({ viewport: VIEWPORT });
    await it.page.addInitScript(recordAnnouncements);
    it.page.on("pageerror", (error) => complaints.push(String(error)));
    it.page.on("console", (message) => {
      if (message.text().includes("Content Security Policy")) complaints.push(message.text());
    });
    open = true;
  };
  const end = async (): Promise<void> => {
    if (!open) return;
    open = false;
    await it.page.close();
    await it.server.close();
  };
  /** Leaves nothing of the test before: on the server, in the browser, in how the page is looked at. */
  const renew = async (): Promise<void> => {
    await it.page.unrouteAll({ behavior: "ignoreErrors" });
    it.server.renew();
    // A document of the same origin, which may empty what the page kept, without the page's scripts.
    await it.page.goto(`${it.home}nothing-there`);
    await it.page.evaluate(() => {
      localStorage.clear();
      sessionStorage.clear();
    });
    await it.page.emulateMedia({ media: null, colorScheme: null, reducedMotion: null, forcedColors: null });
    await it.page.setViewportSize(VIEWPORT);
    await it.page.mouse.move(0, 0);
    complaints.length = 0;
  };

  beforeEach(() => (open ? renew() : begin()));
  afterEach(async ({ task }) => {
    // What a test that failed has left is unknown.
    if (anew || task.result?.state === "fail") await end();
    expect(complaints.splice(0)).toEqual([]);
  });
  afterAll(end);

  return it;
}
