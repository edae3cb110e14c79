import { join } from "node:path";
import { chromium, type Browser, type Download } from "playwright-core";
import { inject } from "vitest";

/** Where the shared browser answers; `null` without one. */
const endpoint = inject("browser");

/** Without a browser these tests are skipped; the set-up has said so, and fails on a machine that is meant to have one. */
export const skipBrowser = endpoint === null;

/** Connects to the browser that all test files share; what is opened over a connection closes with it. */
export const connect = (): Promise<Browser> => chromium.connect(endpoint!);

/** The page as the set-up built it. */
export const BUILT_PAGE = join(import.meta.dirname, "../../../dist/viewer");

/** The bytes of a download: the browser belongs to another process, so that its path alone says nothing. */
export async function bytesOf(download: Download): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of await download.createReadStream()) parts.push(part as Buffer);
  return Buffer.concat(parts);
}
