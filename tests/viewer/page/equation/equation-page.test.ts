// A typed equation from the keyboard to the sheet, over the real server.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { RunRecord } from "../../../../engine/index.ts";
import { loadStudyFile } from "../../../../server/shelves/study.ts";
import { runStudy } from "../../../../server/runs/run-study.ts";
import { serve, type Serving } from "../../../../server/serve.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, bytesOf, newPage, skipBrowser } from "../chromium.ts";
import { LONG } from "../../../setup/long.ts";

const FIELD = "in-parameters-equation";

describe.skipIf(skipBrowser)("a typed equation in the page", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  const complaints: string[] = [];
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string, most = 250): Promise<void> => {
    for (let i = 0; i < most && (await focused()) !== id; i += 1) await page.keyboard.press("Tab");
    expect(await focused()).toBe(id);
  };
  const field = () => page.locator(`#${FIELD}`);
  const typed = (): Promise<string> => field().inputValue();
  const write = async (text: string): Promise<void> => {
    await field().focus();
    await page.keyboard.press("Control+A");
    await page.keyboard.type(text);
  };

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-equation-"));
    serving = await serve({
      host: "127.0.0.1",
      port: 0,
      workers: 1,
      store: folder,
      warn: () => undefined,
      page: BUILT_PAGE,
    });
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    page.on("pageerror", (error) => complaints.push(String(error)));
    page.on("console", (message) => {
      if (message.text().includes("Content Security Policy")) complaints.push(message.text());
    });
    await page.goto(serving.url);
    await page.locator("#write-study").first().click();
    await page.locator("#in-model").selectOption("equation");
    await field().waitFor();
  });
  afterAll(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test("what is wrong is marked in the text, told in words with its place, and one key away", async () => {
    await write("e = log(R_X) + x");
    const told = page.locator(`#${FIELD}-problems`);
    await told.getByText("At character 5: got function log; expected ln or lg").waitFor();
    expect(await page.locator(".equation-marks mark").innerText()).toBe("log(R_X)");
    expect(await field().getAttribute("aria-invalid")).toBe("true");
    expect(await field().getAttribute("aria-describedby")).toContain(`${FIELD}-problems`);
    await page.keyboard.press("Tab");
    expect(await focused()).toBe(`${FIELD}-to-0`);
    await page.keyboard.press("Enter");
    await page.keyboard.type("lg(R_X)");
    expect(await typed()).toBe("e = lg(R_X) + x");
    await page.locator(`#${FIELD}-mathematics`).waitFor();
    expect(await told.innerText()).toBe("");
    expect(await field().getAttribute("aria-invalid")).toBeNull();
    await write("e = a +");
    await told.getByText("At character 8: got the end of the text").waitFor();
    expect(await page.locator(".equation-marks mark.missing").count()).toBe(1);
  });

  test("names are offered: arrow keys choose, Enter takes, Escape leaves, and undo takes back", async () => {
    await write("e = R_X − t_S + ar");
    const options = page.locator(`#${FIELD}-names [role=option]`);
    expect((await options.allInnerTexts()).map((text) => text.split(" ")[0])).toEqual([
      "arcsin(",
      "arccos(",
      "arctan(",
    ]);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    expect(await field().getAttribute("aria-activedescendant")).toBe(`${FIELD}-names-1`);
    expect(await page.locator(`#${FIELD}-names [aria-selected=true]`).innerText()).toContain("arccos(");
    await page.keyboard.press("Enter");
    expect(await typed()).toBe("e = R_X − t_S + arccos(");
    await page.keyboard.press("Control+Z");
    expect(await typed()).toBe("e = R_X − t_S + ar");
    await page.keyboard.type("c");
    await page.keyboard.press("Escape");
    expect(await options.count()).toBe(0);
    // A quantity that stands in the text already.
    await page.keyboard.press("Control+A");
    await page.keyboard.type("e = R_X − t_S + R_");
    expect(await options.first().innerText()).toContain("R_X");
    await page.keyboard.press("Escape");
  });

  test("axe finds nothing, with the list open and with mistakes", LONG, async () => {
    await write("e = log(R_X) + ar");
    await page.locator(`#${FIELD}-problems li`).first().waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.keyboard.press("Escape");
  });

  test(
    "by the keyboard alone to the sheet, with the figures of the saved TypeScript model, bit for bit",
    LONG,
    async () => {
      await page.locator("h1").focus();
      await tabTo("in-title");
      await page.keyboard.type("Platinum probe in the bath");
      await tabTo(FIELD);
      await page.keyboard.press("Control+A");
      await page.keyboard.type("e = t(R_X + d_R, R_0) - (t_S + d_ax)");
      await page.keyboard.press("Escape");
      // The equation's inputs have rows in the table.
      await page.locator("#cell-d_ax-how").waitFor();
      const figure = async (name: string, kind: string, value: string, width = ""): Promise<void> => {
        await tabTo(`cell-${name}-value`);
        await page.keyboard.type(value);
        await tabTo(`cell-${name}-how`);
        await page.keyboard.type(kind);
        if (width === "") return;
        await page.keyboard.press("Tab");
        await page.keyboard.type(width);
      };
      await figure("R_X", "standard", "127.7", "0.002");
      await figure("d_R", "rect", "0", "0.003");
      await figure("R_0", "exact", "100");
      await figure("t_S", "standard", "71.8", "0.004");
      await figure("d_ax", "rect", "0", "0.01");
      await tabTo("settings-summary");
      await page.keyboard.press("Enter");
      await tabTo("in-trials-custom");
      await page.keyboard.type("a num");
      await tabTo("in-trials");
      await page.keyboard.press("Control+A");
      await page.keyboard.type("20000");
      await page.locator("#ready").waitFor();
      await page.locator("h1").focus();
      await tabTo(`${FIELD}-typescript`);
      const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
      expect(download.suggestedFilename()).toBe("platinum-probe-in-the-bath.ts");
      const model = (await bytesOf(download)).toString("utf8");

      await page.keyboard.press("Control+Enter");
      await page.locator("#print").waitFor();
      const sheet = page.locator("#record-equation math");
      await sheet.waitFor();
      expect(await sheet.getAttribute("aria-label")).toBe("e = t(R_X + d_R, R_0) − (t_S + d_ax)");
      const { record } = await serving.runs.read(serving.runs.list()[0]!.id);

      await writeFile(join(folder, "model.ts"), model);
      const { parameters: _, ...rest } = record!.study;
      await writeFile(join(folder, "study.json"), JSON.stringify({ ...rest, model: "./model.ts" }));
      const written = await runStudy(await loadStudyFile(join(folder, "study.json")), {});
      const figures = ({ measurands }: Pick<RunRecord, "measurands">): unknown => {
        const { linear, monteCarlo, validation } = measurands["e"]!;
        return JSON.parse(JSON.stringify({ linear, monteCarlo, validation }));
      };
      expect(figures(written.record)).toEqual(figures(record!));
      written.release();
      // √(0.002²·2.63² + …): the slope of IEC 60751 at 72 °C is 0.380 Ω/°C, JCGM 100, 5.1.2.
      expect(record!.measurands["e"]!.linear.standardUncertainty).toBeCloseTo(
        Math.sqrt((0.002 / 0.3796) ** 2 + (0.003 / 0.3796) ** 2 / 3 + 0.004 ** 2 + 0.01 ** 2 / 3),
        4,
      );
    },
  );
});
