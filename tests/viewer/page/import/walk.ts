import { readFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { serve, type Serving } from "../../../../server/serve.ts";
import { significant } from "../../../../viewer/present/numbers.ts";
import { BUDGETS, type KeptBudget } from "../../../server/intake/ten-budgets.ts";
import { BUILT_PAGE, fileChooserByEnter, newPage } from "../chromium.ts";

const figures = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../../reference/budgets.json"), "utf8"),
) as Readonly<Record<string, { readonly standardUncertainty: number }>>;

/** The page over a server of its own, which can be ended and begun anew in the middle. */
export interface ImportBench {
  readonly page: Page;
  readonly serving: () => Serving;
  restart(): Promise<void>;
  end(): Promise<void>;
}

export async function importBench(): Promise<ImportBench> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-import-"));
  const start = (port: number): Promise<Serving> =>
    serve({ host: "127.0.0.1", port, workers: 1, store: folder, warn: () => undefined, page: BUILT_PAGE });
  let serving = await start(0);
  const page = await newPage({ viewport: { width: 1280, height: 900 } });
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  return {
    page,
    serving: () => serving,
    restart: async () => {
      const port = Number(new URL(serving.url).port);
      await serving.close();
      serving = await start(port);
    },
    end: async () => {
      await page.close();
      await serving.close();
      await rm(folder, { recursive: true });
      expect(complaints).toEqual([]);
    },
  };
}

const focused = (page: Page): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");

/** Goes to an element by the tabulator alone. */
export async function tabTo(page: Page, id: string): Promise<void> {
  for (let i = 0; i < 200 && (await focused(page)) !== id; i += 1) await page.keyboard.press("Tab");
  expect(await focused(page)).toBe(id);
}

/** Chooses a file as a person without a mouse does. */
export async function chooseByKeyboard(page: Page, path: string): Promise<void> {
  await tabTo(page, "import-file");
  await (await fileChooserByEnter(page)).setFiles(path);
}

/** Imports a kept budget by the keyboard alone, answers what is asked, and runs it. */
export async function walk(
  { page, serving }: Pick<ImportBench, "page" | "serving">,
  { file, answers }: KeptBudget,
): Promise<void> {
  await page.goto("about:blank");
  await page.goto(`${serving().url}#import`);
  // Nothing of an import before it: a page loaded anew takes that up again.
  await page.evaluate(() => {
    sessionStorage.clear();
    localStorage.clear();
  });
  await page.reload();
  await page.locator("#import-file").waitFor();
  // Past the list of studies by the link for that.
  await tabTo(page, "skip");
  await page.keyboard.press("Enter");
  await chooseByKeyboard(page, join(BUDGETS, file));
  for (const [question, answer] of answers) {
    const asked = page.locator(".import-question", { has: page.locator("legend", { hasText: question }) });
    const button = asked.getByRole("button", { name: answer, exact: true });
    await tabTo(page, (await button.getAttribute("id"))!);
    await page.keyboard.press("Enter");
    await asked.waitFor({ state: "detached" });
  }
  await page.locator("#import-run:not([disabled])").waitFor();
  expect(await page.locator("#import-result").innerText()).toContain(
    significant(figures[file]!.standardUncertainty, 4),
  );
  await tabTo(page, "import-run");
  await page.keyboard.press("Enter");
  // The linear result stands on the sheet as soon as the first trials do.
  await page.locator("#result-linear").waitFor();
  expect(serving().runs.list().length).toBeGreaterThan(0);
}
