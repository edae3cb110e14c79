import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface Axe {
  run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
}

/**
 * The accessibility rules that the page breaks as it stands, each with the first element that does.
 *
 * @param rules those to judge by; another colour scheme changes contrast alone
 */
export async function violationsOn(page: Page, rules: "all" | "contrast" = "all"): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(source);
  return page.evaluate(
    async (options) => {
      // What is still fading in has the contrast of neither its beginning nor its end.
      const ending = document.getAnimations().filter(({ effect }) => effect?.getTiming().iterations !== Infinity);
      await Promise.allSettled(ending.map(({ finished }) => finished));
      const { violations } = await (globalThis as unknown as { axe: Axe }).axe.run(options);
      return violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 300)}`);
    },
    rules === "all" ? {} : { runOnly: { type: "rule", values: ["color-contrast"] } },
  );
}

/** The same in light colours, then contrast in dark ones. */
export async function violationsInBothThemes(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: "light" });
  const light = await violationsOn(page);
  await page.emulateMedia({ colorScheme: "dark" });
  const dark = await violationsOn(page, "contrast");
  await page.emulateMedia({ colorScheme: null });
  return [...light, ...dark.map((found) => `in dark: ${found}`)];
}
