import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

const found = (): string | undefined =>
  [process.env["TRIALBAND_CHROMIUM"] ?? "", ...PLACES].find((path) => path !== "" && existsSync(path));

/**
 * Finds the browser for the page's tests: one that is installed, or Debian's where this process may install it. Tests
 * read its path from TRIALBAND_CHROMIUM; without one they are skipped with a word, and under CI=true they fail.
 */
export default function setup(): void {
  let browser = found();
  if (browser === undefined && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("No Chromium here: installing Debian's for the page's tests…");
    const quiet = { stdio: "ignore" } as const;
    spawnSync("apt-get", ["update"], quiet);
    spawnSync("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], quiet);
    browser = found();
  }
  if (browser !== undefined) {
    process.env["TRIALBAND_CHROMIUM"] = browser;
    console.log(
      `Page tests use ${execFileSync(browser, ["--version"], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim()}`,
    );
    return;
  }
  console.warn(
    "No Chromium found: the page's tests are skipped. Install it (Debian: apt-get install chromium), or name it in TRIALBAND_CHROMIUM.",
  );
  if (process.env["CI"] === "true") throw new Error("CI needs a Chromium for the page's tests");
}
