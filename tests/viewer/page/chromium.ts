import { join } from "node:path";
import {
  chromium,
  type Browser,
  type BrowserContextOptions,
  type Download,
  type FileChooser,
  type Page,
} from "playwright-core";
import { inject } from "vitest";

/** Where the shared browser answers; `null` without one. */
const endpoint = inject("browser");

/** Without a browser these tests are skipped; the set-up has said so, and fails on a machine that is meant to have one. */
export const skipBrowser = endpoint === null;

let connection: Promise<Browser> | undefined;

/**
 * A page in a window of its own, in the browser that all test files share; a worker keeps its connection for all its files.
 * On a busy machine a step may take many times as long as on a quiet one: only a test as a whole has a limit that is felt.
 */
export async function newPage(options: BrowserContextOptions = {}): Promise<Page> {
  connection ??= chromium.connect(endpoint!);
  const page = await (await connection).newPage(options);
  page.setDefaultTimeout(100_000);
  // Has the browser hand over choosers from now on: asked for with the key that opens one, it comes too late for that key.
  page.on("filechooser", () => undefined);
  await slowDown(page);
  return page;
}

/**
 * With TRIALBAND_SLOW=150 every request takes at least 150 ms and the page's processor a third of its speed, so that a test
 * which counts on an answer, or on the frame after it, fails every time and not once in a hundred.
 */
async function slowDown(page: Page): Promise<void> {
  const latency = Number(process.env["TRIALBAND_SLOW"] ?? 0);
  if (!(latency > 0)) return;
  const session = await page.context().newCDPSession(page);
  await session.send("Network.enable");
  await session.send("Network.emulateNetworkConditions", {
    offline: false,
    latency,
    downloadThroughput: -1,
    uploadThroughput: -1,
  });
  await session.send("Emulation.setCPUThrottlingRate", { rate: 3 });
}

/** The page as the set-up built it. */
export const BUILT_PAGE = join(import.meta.dirname, "../../../dist/viewer");

/** The bytes of a download: the browser belongs to another process, so that its path alone says nothing. */
export async function bytesOf(download: Download): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of await download.createReadStream()) parts.push(part as Buffer);
  return Buffer.concat(parts);
}

/** Opens the chooser of the file field that has the focus, by the keyboard. */
export async function fileChooserByEnter(page: Page): Promise<FileChooser> {
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Enter")]);
  return chooser;
}
