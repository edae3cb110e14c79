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

interface Opened {
  readonly page: Page;
  readonly server: FixedServer;
  readonly home: string;
  /** Errors that the page raised, and what its policy refused. */
  readonly complaints: string[];
}

/** The window that a worker keeps for all its files: a first load of the page takes twice as long as a later one. */
let kept: Opened | null = null;

async function open(): Promise<Opened> {
  const complaints: string[] = [];
  const server = new FixedServer(BUILT_PAGE);
  const home = await server.listen();
  const page = await newPage({ viewport: VIEWPORT });
  await page.addInitScript(recordAnnouncements);
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.text().includes("Content Security Policy")) complaints.push(message.text());
  });
  return { page, server, home, complaints };
}

async function close({ page, server }: Opened): Promise<void> {
  await page.close();
  await server.close();
}

/** Leaves nothing of the test before: on the server, in the browser, in how the page is looked at. */
async function renew({ page, server, home, complaints }: Opened): Promise<void> {
  await page.unrouteAll({ behavior: "ignoreErrors" });
  server.renew();
  // A document of the same origin, which may empty what the page kept, without the page's scripts.
  await page.goto(`${home}nothing-there`);
  await page.evaluate(() => {
    localStorage.clear();
    sessionStorage.clear();
  });
  await page.emulateMedia({ media: null, colorScheme: null, reducedMotion: null, forcedColors: null });
  await page.setViewportSize(VIEWPORT);
  await page.mouse.move(0, 0);
  complaints.length = 0;
}

/** One for the next test; what is kept is taken, so that a test which cannot begin leaves none. */
async function taken(anew: boolean): Promise<Opened> {
  if (anew || kept === null) return open();
  const found = kept;
  kept = null;
  await renew(found);
  return found;
}

/**
 * The page for each test of the describing block, as if it were opened for the first time; it must raise no error and keep to
 * its policy.
 *
 * @param options.anew a window for each test: for one that changes what its scripts find or what it is permitted
 */
export function pageUnderTest({ anew = false } = {}): PageUnderTest {
  let opened: Opened | null = null;
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
    opened = null;
    opened = await taken(anew);
    const { page, server, home } = opened;
    Object.assign(it, { page, server, home });
  });
  afterEach(async ({ task }) => {
    if (opened === null) return;
    // What a test that failed has left is unknown.
    if (anew || task.result?.state === "fail") await close(opened);
    else kept = opened;
    expect(opened.complaints.splice(0)).toEqual([]);
  });
  // While other files have their turn, the page asks its server for nothing.
  afterAll(async () => {
    await kept?.page.goto(`${kept.home}nothing-there`);
  });

  return it;
}
