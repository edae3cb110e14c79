// What a page must not do: lose a press, run what nobody asked for, say what is no longer true, hide what is chosen.
import { describe, expect, test } from "vitest";
import { violationsOn } from "./axe.ts";
import { skipBrowser } from "./chromium.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { sticksOut } from "./sideways.ts";
import { LONG } from "../../setup/long.ts";

const STUDY = "harrowfen/cold-store-4";

describe.skipIf(skipBrowser)("the page on its own", () => {
  const it = pageUnderTest();

  const startRun = async (): Promise<void> => {
    await it.page.goto(`${it.home}#study=${STUDY}`);
    await it.page.locator("#run:enabled").click();
    await it.page.locator("#cancel").waitFor();
  };
  const focused = (): Promise<string> => it.page.evaluate(() => document.activeElement?.id ?? "");

  test("keeps the button that cancels, where it is, while figures arrive", async () => {
    await startRun();
    it.server.advance(1);
    await it.page.locator("#panel-verdict").waitFor();
    const button = await it.page.locator("#cancel").elementHandle();
    const places = new Set<string>();
    for (let batch = 0; batch < 4; batch += 1) {
      const said = await it.text(".progress-words");
      it.server.advance(1);
      await expect.poll(() => it.text(".progress-words")).not.toBe(said);
      const { x, y } = (await button!.boundingBox())!;
      places.add(`${Math.round(x)} ${Math.round(y)}`);
    }
    expect([...places]).toHaveLength(1);
    // Pressed before figures arrive and let go after: the press counts.
    const { x, y, width, height } = (await button!.boundingBox())!;
    await it.page.mouse.move(x + width / 2, y + height / 2);
    await it.page.mouse.down();
    const before = await it.text(".progress-words");
    it.server.advance(1);
    await expect.poll(() => it.text(".progress-words")).not.toBe(before);
    await it.page.mouse.up();
    await expect.poll(() => it.server.newestState).toBe("cancelled");
  });

  test("counts a press on a link or a box that is released after its list was drawn anew", LONG, async () => {
    const other = it.server.addFinished("published/mass-calibration");
    await startRun();
    // The run that goes on stands above it.
    await it.page.locator("#shelf .runs li").nth(1).waitFor();
    const drawnBefore = await it.page.locator(`#run-${other}`).elementHandle();
    const { x, y, width, height } = (await drawnBefore!.boundingBox())!;
    await it.page.mouse.move(x + width / 2, y + height / 2);
    await it.page.mouse.down();
    // The end of the run comes into the list, too.
    it.server.finish();
    await it.page.locator("#run-again:enabled").waitFor();
    await it.page.mouse.up();
    await expect.poll(() => new URL(it.page.url()).hash).toBe(`#run=${other}`);
    await expect.poll(() => drawnBefore!.evaluate((node) => node.isConnected)).toBe(false);

    await it.page.evaluate(() => (location.hash = "#runs"));
    await it.page.locator(`#pick-${other}`).focus();
    await it.page.keyboard.down("Space");
    await it.page.evaluate(() => document.getElementById("order-title")!.click());
    // The frame in which the list would be drawn anew.
    await it.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(drawn)));
    await it.page.keyboard.up("Space");
    await it.page.locator(`#pick-${other}:checked`).waitFor();
    await it.page.locator("th.of-title[aria-sort]").waitFor();
  });

  test("shows the newest list, whichever answer comes last", LONG, async () => {
    const id = it.server.addFinished(STUDY);
    await it.page.goto(`${it.home}#runs`);
    await it.page.locator(`#pick-${id}`).check();
    let answer = (): void => undefined;
    const held = new Promise<void>((resolve) => (answer = resolve));
    let asked = 0;
    await it.page.route("**/api/runs", async (route) => {
      const late = (asked += 1) === 1;
      const response = await route.fetch();
      if (late) await held;
      await route.fulfill({ response });
    });
    // Read before the removal, and answered after it.
    await it.page.evaluate(() => (location.hash = "#own"));
    await it.page.evaluate(() => (location.hash = "#runs"));
    await expect.poll(() => asked).toBeGreaterThan(1);
    await it.page.locator("#remove").click();
    await it.page.locator("#no-runs").waitFor();
    const late = it.page.waitForResponse("**/api/runs");
    answer();
    await (await late).finished();
    // A turn of the page's own, in which the late answer would be drawn.
    await it.page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn))));
    expect(await it.page.locator("#no-runs").isVisible()).toBe(true);
  });

  test(
    "runs a study that was written once, however often that is asked for before the run is there",
    LONG,
    async () => {
      let answer = (): void => undefined;
      const held = new Promise<void>((resolve) => (answer = resolve));
      await it.page.goto(`${it.home}#study=${STUDY}`);
      await it.page.locator("#write-from").click();
      await it.page.locator("#ready").waitFor();
      await it.page.locator("#in-title").focus();
      // The draft is put away once its study was run.
      await it.page.route("**/api/drafts/*", async (route) => {
        await held;
        await route.continue();
      });
      await it.page.keyboard.press("Control+Enter");
      await expect.poll(() => it.server.list().length).toBe(1);
      await it.page.keyboard.press("Control+Enter");
      answer();
      await it.page.locator("#cancel").waitFor();
      expect(it.server.list()).toHaveLength(1);
    },
  );

  test("leads the first Tab of a fresh load to the skip link, and runs nothing", async () => {
    const id = it.server.addFinished(STUDY);
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#run-again").waitFor();
    await it.page.keyboard.press("Tab");
    expect(await focused()).toBe("skip");
    await it.page.keyboard.press("Enter");
    await expect.poll(focused).toBe("sheet");
    await it.page.keyboard.press("Enter");
    expect(it.server.list()).toHaveLength(1);
  });

  test("code that does not come is asked for again, and then the page says so", LONG, async () => {
    let refused = 0;
    await it.page.route(/\/assets\/page-.*\.js$/, (route) => {
      refused += 1;
      return refused > 1 ? route.continue() : route.abort();
    });
    await it.page.goto(`${it.home}#study=${STUDY}`);
    await it.page.locator("#run:enabled").waitFor();
    expect(refused).toBe(2);
    await it.page.unroute(/\/assets\/page-.*\.js$/);
    await it.page.route(/\/assets\/page-.*\.js$/, (route) => route.abort());
    await it.page.reload();
    await it.page.locator("#not-loaded", { hasText: "The page could not be loaded." }).waitFor();
    expect(await it.page.locator("#loading").count()).toBe(0);
    await it.page.unroute(/\/assets\/page-.*\.js$/);
    await it.page.locator("#load-again").click();
    await it.page.locator("#run:enabled").waitFor();
    expect(await it.page.locator("#not-loaded").count()).toBe(0);
  });

  test("says that it is being read while the network is slow, and shows nothing else meanwhile", LONG, async () => {
    const id = it.server.addFinished(STUDY);
    let answer = (): void => undefined;
    const held = new Promise<void>((resolve) => (answer = resolve));
    await it.page.route(`**/api/runs/${id}`, async (route) => {
      await held;
      await route.continue();
    });
    await it.page.goto(`${it.home}#run=${id}`);
    await expect.poll(() => it.text("#sheet-title")).toBe("Reading…");
    expect(await it.page.locator("#sheet").getAttribute("aria-busy")).toBe("true");
    expect(await it.page.locator(".starts").count()).toBe(0);
    expect(await violationsOn(it.page)).toEqual([]);
    answer();
    await it.page.locator("#run-again").waitFor();
    expect(await it.page.locator("#sheet").getAttribute("aria-busy")).toBe("false");
  });

  test("takes back what it said of the server once it answers again", LONG, async () => {
    it.server.addFinished(STUDY);
    await it.page.goto(it.home);
    // The lists are there: every view asks for them again.
    await it.page.locator("#shelf .runs li").waitFor();
    it.server.goDown();
    await it.page.evaluate(() => (location.hash = "#runs"));
    await it.page.locator("#trouble").waitFor();
    it.server.comeBack();
    await expect.poll(() => it.page.locator("#trouble").allInnerTexts()).toEqual([]);
  });

  test("says in its title how far a run has come, and how it ended where nobody looked", LONG, async () => {
    await startRun();
    await expect.poll(() => it.page.title()).toMatch(/^waiting · .* · Trialband$/);
    it.server.advance(2);
    await expect.poll(() => it.page.title()).toMatch(/^\d+ % · .* · Trialband$/);
    await it.page.evaluate(() => Object.defineProperty(document, "hidden", { value: true, configurable: true }));
    it.server.finish();
    await expect.poll(() => it.page.title()).toMatch(/^finished · .* · Trialband$/);
    await it.page.evaluate(() => {
      Object.defineProperty(document, "hidden", { value: false, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    });
    await expect.poll(() => it.page.title()).not.toMatch(/^finished/);
  });

  test("counts no trials of a run that has none", LONG, async () => {
    await startRun();
    await it.page.goto(`${it.home}#runs`);
    await it.page.locator(".listing .of-trials[data-label]").waitFor();
    expect(await it.text(".listing tbody .of-trials")).toBe("–");
    expect(await it.text("#shelf .runs")).not.toMatch(/\b0 trials/);
  });

  test("has contents on a long sheet, which lead to its parts by the keyboard", LONG, async () => {
    const id = it.server.addFinished(STUDY);
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#contents-summary").click();
    const parts = await it.page.locator(".panels > section > h2").allInnerTexts();
    expect(await it.page.locator("#contents li").allInnerTexts()).toEqual(parts);
    await it.page.locator("#contents li:last-child button").focus();
    await it.page.keyboard.press("Enter");
    await expect.poll(() => it.page.evaluate(() => document.activeElement?.textContent)).toBe(parts.at(-1));
    expect(new URL(it.page.url()).hash).toBe(`#run=${id}`);
    expect(await violationsOn(it.page)).toEqual([]);
  });

  test("keeps its budgets within the page at every width between a tablet and a desk", LONG, async () => {
    for (const study of ["published/mass-calibration", "harrowfen/cold-store-4", "published/thermometer-line"]) {
      const id = it.server.addFinished(study);
      await it.page.goto("about:blank");
      await it.page.goto(`${it.home}#run=${id}`);
      await it.page.locator(".budget").waitFor();
      for (let width = 960; width <= 1300; width += 34) {
        await it.page.setViewportSize({ width, height: 900 });
        await expect.poll(() => sticksOut(it.page, width), { message: `${study} at ${width}` }).toEqual([]);
      }
    }
  });

  test("keeps shares, choices and the current item apart in forced colours", LONG, async () => {
    const id = it.server.addFinished(STUDY);
    await it.page.emulateMedia({ forcedColors: "active" });
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator(".budget .bar").first().waitFor();
    const style = (selector: string, property: string): Promise<string> =>
      it.page
        .locator(selector)
        .first()
        .evaluate((node, name) => getComputedStyle(node).getPropertyValue(name), property);
    expect(await style(".share .bar", "background-image")).toContain("linear-gradient");
    const ground = "background-color";
    expect(await style(".theme input:checked + label", ground)).not.toBe(
      await style(".theme input:not(:checked) + label", ground),
    );
    expect(await style(".switch input:checked + label", ground)).not.toBe(
      await style(".switch input:not(:checked) + label", ground),
    );
    expect(await style("#shelf [aria-current]", "outline-style")).toBe("solid");
  });
});
