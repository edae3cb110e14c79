// Evidence in German: lists, evaluated surveys, the log that grows and the forms with their results have no English word.
// @module-tag long
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { violationsOn } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { englishOn, textsIn } from "../english-words.ts";
import { sticksOut } from "../sideways.ts";
import { example, forms } from "./forms-under-test.ts";

const EVALUATED = [
  "#setup-reasoning",
  "#setup-checks",
  "#setup-log-read",
  "#panel-survey-checks",
  "#panel-survey-origin",
]
  .map((part) => `${part} [lang=en]`)
  .join(", ");

describe.skipIf(skipBrowser)("evidence in German", () => {
  const folder = mkdtempSync(join(tmpdir(), "trialband-german-evidence-"));
  const log = join(folder, "bath.csv");
  const rows = Array.from({ length: 40 }, (_, i) => `${60 * i},${(37 + 0.001 * (i % 2)).toFixed(4)}`);
  writeFileSync(log, `time / s,HS-1 / °C\n${rows.join("\n")}\n`);
  const it = forms([log], "de-DE");
  afterAll(() => rmSync(folder, { recursive: true }));

  const speaksGerman = async (own: readonly string[]): Promise<void> => {
    const { page } = it;
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
    });
    await expect.poll(() => englishOn(page, own)).toEqual([]);
    // What the evaluation says of itself has German words too: nothing of it is marked as English.
    expect(await page.locator(EVALUATED).allInnerTexts()).toEqual([]);
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize({ width: 360, height: 780 });
    await expect.poll(() => sticksOut(page, 360)).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 900 });
  };
  /** What studies and surveys at hand call themselves. */
  const titles = async (): Promise<string[]> => {
    const lists = ["studies", "surveys"].map(async (list) => (await fetch(`${it.serving.url}api/${list}`)).json());
    const own = ["Harrowfen Calibration Room", "centre", "east", "west"];
    return [...own, ...textsIn(await Promise.all(lists)).filter((text) => text.length > 3)];
  };
  const open = async (address: string, shown: string): Promise<void> => {
    await it.page.goto("about:blank");
    await it.page.goto(`${it.serving.url}${address}`);
    await it.page.locator(shown).first().waitFor();
  };

  test.each(["#evidence", "#surveys", "#survey-setup", "#readings", "#immersion", "#certificate"])(
    "%s, with nothing in it",
    async (address) => {
      await open(address, "#sheet-title");
      await speaksGerman(await titles());
    },
  );

  test.each([
    { address: "#readings", file: "survey/readings-72.json", beside: ["survey/readings-72.csv"] },
    { address: "#immersion", file: "survey/immersion-134.json", beside: [] },
    { address: "#certificate", file: "survey/reference-HR-02.json", beside: [] },
  ])("$address, with the result of $file", async ({ address, file, beside }) => {
    await open(address, "#setup-open");
    const path = (name: string): string => new URL(`../../../../examples/${name}`, import.meta.url).pathname;
    await it.page.locator("#setup-open").setInputFiles(path(file));
    if (beside.length > 0) await it.page.locator("#setup-files").setInputFiles(beside.map(path));
    await it.page.locator("#setup-result-title").waitFor();
    await speaksGerman([...(await titles()), ...textsIn(await example(file)).filter((text) => text.length > 3)]);
  });

  test("an evaluated survey", async () => {
    const listed = (await (await fetch(`${it.serving.url}api/surveys`)).json()) as { readonly id: string }[];
    for (const { id } of listed) {
      await open(`#survey=${encodeURIComponent(id)}`, "#panel-survey-origin .provenance");
      await speaksGerman(await titles());
    }
  });

  test("a log as it grows, with a criterion", async () => {
    await open("#watch", "#watch-table");
    await it.page.locator("#watch-criterion").fill("2");
    await expect.poll(() => it.page.locator("#watch-standing").innerText()).toContain("HS-1");
    await speaksGerman([...(await titles()), "bath.csv"]);
    await it.page.locator("#watch-criterion").fill("2 mK");
    await it.page.locator("#watch-criterion-problem").waitFor();
    await speaksGerman([...(await titles()), "bath.csv"]);
  });
});
