import { existsSync, readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";

/** Where modules are kept as they were transformed, each under the digest of its text and of how it is transformed. */
export const MODULE_CACHE = join(import.meta.dirname, "../../node_modules/.cache/trialband-tests");

const WEEK = 7 * 24 * 3600 * 1000;

/** A text that changed leaves its old module behind: those of more than a week go, and what is still used is made again. */
export function forgetOldModules(): void {
  if (!existsSync(MODULE_CACHE)) return;
  for (const name of readdirSync(MODULE_CACHE)) {
    const file = join(MODULE_CACHE, name);
    // Another run of the tests may remove it at the same time.
    const made = statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    if (Date.now() - made > WEEK) rmSync(file, { recursive: true, force: true });
  }
}
