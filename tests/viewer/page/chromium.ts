import { existsSync } from "node:fs";
import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Browser } from "playwright-core";
import { build } from "vite";

/** Where the browser is. */
export const BROWSER = process.env.TRIALBAND_CHROMIUM ?? "/usr/bin/chromium";

/** Without a browser these tests are skipped, except where a machine is meant to have one: there they fail. */
export const skipBrowser = !existsSync(BROWSER) && process.env.CI !== "true";

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: BROWSER,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });

const root = join(import.meta.dirname, "../../..");

/**
 * Builds the page into a folder of its own, so that the tests see the sources as they are now and no other build can
 * take it away. Whoever asked removes it.
 */
export async function buildPage(): Promise<string> {
  const outDir = await mkdtemp(join(tmpdir(), "trialband-page-"));
  await build({
    configFile: join(root, "vite.config.ts"),
    root: join(root, "viewer/page"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  return outDir;
}
