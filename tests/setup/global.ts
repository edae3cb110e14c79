import { spawnSync } from "node:child_process";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { startBrowser } from "./browser.ts";
import { forgetOldModules } from "./module-cache.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** Where test files reach the browser that they share; `null` without one. */
    browser: string | null;
  }
}

const root = join(import.meta.dirname, "../..");

/** Builds what is older than its sources, so that no test meets a `dist` of other sources than those it was written for. */
function buildIfStale(): void {
  const { status } = spawnSync(process.execPath, ["build.mjs", "--if-stale"], { cwd: root, stdio: "inherit" });
  if (status !== 0) throw new Error("the build before the tests failed");
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  buildIfStale();
  forgetOldModules();
  project.onTestsRerun(async () => buildIfStale());
  const browser = await startBrowser();
  project.provide("browser", browser?.wsEndpoint() ?? null);
  return async () => {
    await browser?.close();
  };
}
