import { appendFileSync, mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { skipBrowser } from "../chromium.ts";
import { forms } from "../evidence-forms/forms-under-test.ts";
import { NOTHING_ASKED, queryOf, wrongFields } from "../../../../viewer/page/watch/asked.ts";
import { LONG } from "../../../setup/long.ts";

test("what is asked: decimal comma, nothing for what is empty, and every field that is no number", () => {
  expect(queryOf({ ...NOTHING_ASKED, criterion: "2,5", unit: "Ω" })).toBe("criterion=2.5&unit=%CE%A9");
  expect(wrongFields({ ...NOTHING_ASKED, criterion: "5 mK", time: "-1", r0: "100" })).toEqual(["criterion", "time"]);
});

describe.skipIf(skipBrowser)("a log as it grows, in the page", () => {
  const folder = mkdtempSync(join(tmpdir(), "trialband-watch-page-"));
  const log = join(folder, "bath.csv");
  const rows = (from: number, to: number): string =>
    Array.from({ length: to - from }, (_, i) => `${60 * (from + i)},${(37 + 0.001 * (i % 2)).toFixed(4)}\n`).join("");
  writeFileSync(log, `time / s,HS-1 / °C\n${rows(0, 25)}`);
  const it = forms([log]);
  afterAll(() => rmSync(folder, { recursive: true }));

  test(
    "says since when the criterion is met, how long it must still hold, and what becomes of the file",
    LONG,
    async () => {
      const { page } = it;
      await page.goto(`${it.serving.url}#evidence`);
      await page.locator("#begin-watch").waitFor();
      await it.tabTo("begin-watch");
      await page.keyboard.press("Enter");
      await page.locator("#watch-table").waitFor();
      await it.tabTo("watch-criterion");
      await it.type("2 mK");
      await page.locator("#watch-criterion-problem", { hasText: "greater than 0" }).waitFor();
      await it.type("2");
      const standing = page.locator("#watch-standing");
      // 25 readings, a minute each: 24 min and one reading's minute of the 30 min.
      await expect.poll(() => standing.innerText()).toContain("it must hold for another 5\u00a0min");
      appendFileSync(log, rows(25, 31));
      await expect.poll(() => standing.innerText()).toContain("since 29\u00a0min");
      renameSync(log, `${log}.old`);
      await expect.poll(() => standing.innerText()).toContain("The file is not there any more.");
      await it.looked("watch");
      await it.fits();
    },
  );
});
