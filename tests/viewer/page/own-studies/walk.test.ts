import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serve, type Serving } from "../../../../server/serve.ts";
import { readExample } from "../../../read-example.ts";
import { violationsInBothThemes } from "../axe.ts";
import { BUILT_PAGE, newPage, skipBrowser } from "../chromium.ts";
import { sticksOut, WIDTHS } from "../sideways.ts";
import { LONG } from "../../../setup/long.ts";

const TITLE = "Probe of the filling line at 37 °C";

/** The page as it is built over the server as it is run, with the keyboard alone, and the server restarted in between. */
describe.skipIf(skipBrowser)("studies of one's own, over the real server", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  const complaints: string[] = [];
  const start = (port = 0): Promise<Serving> =>
    serve({ host: "127.0.0.1", port, workers: 1, store: folder, warn: () => undefined, page: BUILT_PAGE });
  const restart = async (): Promise<void> => {
    const port = Number(new URL(serving.url).port);
    await serving.close();
    serving = await start(port);
  };
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string): Promise<void> => {
    await page.locator(`[id="${id}"]`).waitFor();
    for (let i = 0; i < 250 && (await focused()) !== id; i += 1) await page.keyboard.press("Tab");
    expect(await focused()).toBe(id);
  };
  const press = async (id: string): Promise<void> => {
    await tabTo(id);
    await page.keyboard.press("Enter");
  };
  const type = async (id: string, text: string): Promise<void> => {
    await tabTo(id);
    await page.keyboard.press("Control+A");
    await page.keyboard.type(text);
  };
  const finished = (): Promise<void> => page.locator("#print").waitFor();
  const drafts = async (): Promise<{ title: string }[]> =>
    (await (await fetch(`${serving.url}api/drafts`)).json()) as { title: string }[];

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-own-"));
    serving = await start();
    const study = { ...readExample("verdicts/few-readings"), title: TITLE };
    await fetch(`${serving.url}api/runs`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ study, trials: 5000 }),
    });
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    page.on("pageerror", (error) => complaints.push(String(error)));
  });
  afterAll(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test("edit, run again, compare, go back: nothing is lost over a restart", LONG, async () => {
    await page.goto(`${serving.url}#run=${serving.runs.list()[0]!.id}`);
    await finished();
    await press("edit-study");
    await page.locator("#draft-becomes", { hasText: `a new version of ${TITLE}, which has one version` }).waitFor();
    await type("in-title", `${TITLE}, after service`);
    await page.locator("#draft-kept", { hasText: "Kept as a draft." }).waitFor();

    // What is typed while the server is away is kept here, and sent when it is back; a reload loses nothing.
    const port = Number(new URL(serving.url).port);
    await serving.close();
    await tabTo("in-laboratory");
    await page.keyboard.press("Control+A");
    await page.keyboard.type("Harrowfen");
    await page.locator("#draft-kept", { hasText: "The server does not answer" }).waitFor();
    serving = await start(port);
    await page.locator("#draft-kept", { hasText: "Kept as a draft." }).waitFor();
    await page.reload();
    await page.locator("#in-title").waitFor();
    expect(await page.locator("#in-title").inputValue()).toBe(`${TITLE}, after service`);
    expect(await page.locator("#in-laboratory").inputValue()).toBe("Harrowfen");
    expect(await drafts()).toMatchObject([{ title: `${TITLE}, after service` }]);

    await tabTo("in-title");
    await page.keyboard.press("Control+Enter");
    await finished();
    expect(await page.locator(".kind").innerText()).toBe("Evidence sheet, version 2 of its study");
    expect(await drafts()).toEqual([]);
    expect(serving.runs.list().map(({ studyVersion }) => studyVersion)).toEqual([2, 1]);

    // The way back leads to the form as it was, and forth to the sheet again.
    await page.goBack();
    await page.locator("#in-title").waitFor();
    expect(await page.locator("#in-title").inputValue()).toBe(`${TITLE}, after service`);
    await page.goForward();
    await finished();

    await restart();
    await press("own-of-run");
    await press("compare-version-2");
    await page.locator(".overlay svg").waitFor();
    expect(await page.locator("#to-run-0").innerText()).toBe(TITLE);
    expect(await page.locator("#to-run-1").innerText()).toBe(`${TITLE}, after service`);
    await page.goBack();
    await page.locator(".version").first().waitFor();
    expect(await page.locator(".version h3").allInnerTexts()).toEqual(["Version 2", "Version 1"]);
  });

  test("named and tagged, a study is found again; a copy is a study of its own", LONG, async () => {
    await page.goto(`${serving.url}#own`);
    await page.locator("#own-list a").first().focus();
    await page.keyboard.press("Enter");
    await type("own-name", "Filling line");
    await type("own-tags", "bath 3, customers, bath 3");
    await page.keyboard.press("Enter");
    await page.locator("#own-named", { hasText: "Kept." }).waitFor();
    expect(await page.locator("#sheet-title").innerText()).toBe("Filling line");
    await type("own-name", " ");
    await page.keyboard.press("Enter");
    await page.locator("#own-name-problem", { hasText: "Enter a name" }).waitFor();

    await press("copy-own");
    await page.locator("#draft-becomes", { hasText: "a study of its own beside Filling line" }).waitFor();
    await tabTo("in-title");
    await page.keyboard.press("Control+Enter");
    await finished();
    expect(await page.locator(".kind").innerText()).toBe("Evidence sheet, version 1 of its study");

    await restart();
    await page.goto(`${serving.url}#own`);
    await page.locator("#own-found", { hasText: "2 in all" }).waitFor();
    await type("find-own", "CUSTOM");
    await page.locator("#own-found", { hasText: "1 of 2 found" }).waitFor();
    expect(await page.locator("#own-list .tag").allInnerTexts()).toEqual(["bath 3", "customers"]);
  });

  test("several drafts are kept with their age until one is discarded, which can be undone", LONG, async () => {
    for (const title of ["First draft", "Second draft"]) {
      await page.goto(`${serving.url}#new`);
      await type("in-title", title);
      await page.locator("#draft-kept", { hasText: "Kept as a draft." }).waitFor();
    }
    await restart();
    await page.goto(serving.url);
    await page.locator("#drafts a").nth(1).waitFor();
    expect(await page.locator("#drafts a").allInnerTexts()).toEqual(["Second draft", "First draft"]);
    expect(await page.locator("#drafts time").first().innerText()).toMatch(/^changed (just now|1 minute ago)$/);
    const second = (await page.locator("#drafts button").first().getAttribute("id"))!;
    await press(second);
    await page.locator("#undo-discarding:focus").waitFor();
    expect(await drafts()).toMatchObject([{ title: "First draft" }]);
    await page.keyboard.press("Enter");
    await page.locator("#drafts a").nth(1).waitFor();
    await page.locator("#drafts a", { hasText: "First draft" }).focus();
    await page.keyboard.press("Enter");
    await page.locator("#in-title").waitFor();
    expect(await page.locator("#in-title").inputValue()).toBe("First draft");
  });

  test("what the laboratory states once, each new study begins with, in every browser", LONG, async () => {
    await page.goto(`${serving.url}#laboratory`);
    await type("laboratory-name", "Harrowfen Calibration Room");
    await type("laboratory-probability", "950");
    await page.keyboard.press("Enter");
    await page.locator("#laboratory-probability-problem", { hasText: "such as 95" }).waitFor();
    expect(await focused()).toBe("laboratory-probability");
    await type("laboratory-probability", "99,5");
    await page.keyboard.press("Enter");
    await page.locator("#laboratory-said", { hasText: "Kept." }).waitFor();
    const other = await newPage();
    await other.goto(`${serving.url}#new`);
    await other.locator("#in-laboratory").waitFor();
    expect(await other.locator("#in-laboratory").inputValue()).toBe("Harrowfen Calibration Room");
    expect(await other.locator("#in-coverage-probability").inputValue()).toBe("0.995");
    await other.close();
  });

  test("passes the accessibility rules in both themes, and has no sideways scroll at any width", LONG, async () => {
    const [own] = (await (await fetch(`${serving.url}api/own-studies`)).json()) as { id: string }[];
    for (const hash of ["", "#own", `#own=${own!.id}`, "#laboratory"]) {
      await page.goto("about:blank");
      await page.goto(`${serving.url}${hash}`);
      await page.locator(hash === "" ? "#drafts" : hash === "#own" ? "#own-list" : "form").waitFor();
      expect(await violationsInBothThemes(page), hash).toEqual([]);
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 900 });
        expect(await sticksOut(page, width), `${hash} at ${width}`).toEqual([]);
      }
      await page.setViewportSize({ width: 1280, height: 900 });
    }
  });
});
