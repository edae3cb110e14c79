import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { chromium, type BrowserServer } from "playwright-core";

const PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];
const FLAGS = [
  "--no-sandbox",
  // Pages of one server after another stay in a process that is there: a new one for each takes a sixth of the browser's time.
  "--disable-site-isolation-trials",
  "--process-per-site",
  "--renderer-process-limit=2",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  // Text comes out of the same pixels whatever the screen of the machine is.
  "--font-render-hinting=none",
  "--disable-lcd-text",
  "--force-color-profile=srgb",
];

const found = (): string | undefined =>
  [process.env["TRIALBAND_CHROMIUM"] ?? "", ...PLACES].find((path) => path !== "" && existsSync(path));

/**
 * Finds the browser for the page's tests: one that is installed, or Debian's if this process may install it. Starts it
 * once for all test files, which read its path from TRIALBAND_CHROMIUM. Without a browser those tests are skipped with a
 * message, and under CI=true they fail.
 */
export async function startBrowser(): Promise<BrowserServer | null> {
  let browser = found();
  if (browser === undefined && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("No Chromium here: installing Debian's for the page's tests…");
    const quiet = { stdio: "ignore" } as const;
    spawnSync("apt-get", ["update"], quiet);
    spawnSync("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], quiet);
    browser = found();
  }
  if (browser === undefined) {
    console.warn(
      "No Chromium found: the page's tests are skipped. Install it (Debian: apt-get install chromium), or name it in TRIALBAND_CHROMIUM.",
    );
    if (process.env["CI"] === "true") throw new Error("CI needs a Chromium for the page's tests");
    return null;
  }
  process.env["TRIALBAND_CHROMIUM"] = browser;
  return chromium.launchServer({ executablePath: browser, args: FLAGS });
}
