import { describe, expect, test } from "vitest";
import type { CheckLine, SelfcheckEvent } from "../../../viewer/api/selfcheck.ts";
import { violationsInBothThemes } from "./axe.ts";
import { skipBrowser } from "./chromium.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { LONG } from "../../setup/long.ts";

const line = (group: string, what: string, passed = true, changes: Partial<CheckLine> = {}): SelfcheckEvent => ({
  type: "line",
  line: {
    group,
    what,
    source: "JCGM 101:2008, 9.3, table 6",
    published: [1.0834, 1.3825],
    obtained: [1.0842, 1.3834],
    unit: "mg",
    tolerance: { limit: 0.001, basis: "half a printed digit and five standard errors of both runs" },
    passed,
    shown: { published: "1.0834, 1.3825", obtained: "1.0842, 1.3834", tolerance: "± 0.016" },
    ...changes,
  },
});

const story = (failed: number): SelfcheckEvent[] => [
  { type: "group", id: "a", title: "Worked examples of JCGM 101:2008, clause 9" },
  { type: "step", title: "9.3, mass calibration", done: 0, all: 2 },
  line("a", "mass: shortest 95 % interval"),
  line("a", "loss at x₁ = 0.050, r = 0.9: u of the linear budget", true, {
    source: "JCGM 101:2008, 9.4.3",
    unit: "10⁻⁶",
  }),
  { type: "group", id: "b", title: "Records: reproduced exactly, and alterations detected" },
  { type: "step", title: "verifying", done: 1, all: 2 },
  line("b", "a record <b>as it is filed</b>", failed === 0, {
    unit: "",
    tolerance: { limit: null, basis: "reproduces exactly, bit for bit" },
  }),
  { type: "step", title: "", done: 2, all: 2 },
  {
    type: "done",
    report: {
      format: "trialband-selfcheck/1",
      seed: null,
      startedAt: "2026-03-02T09:30:00.000Z",
      seconds: 8.2,
      scope: "quick",
      passed: 3 - failed,
      failed,
      installation: {
        version: "0.1.0",
        folder: "/opt/trialband/a/rather/long/path/to/the/installation/of/the/laboratory",
        commit: null,
        engineDigest: "e".repeat(64),
        modelsDigest: "f".repeat(64),
        runtime: "Node.js v20",
        system: "linux",
        processor: "two cores",
        workers: 2,
      },
    },
  },
];

const stream = (events: readonly SelfcheckEvent[]): { status: number; contentType: string; body: string } => ({
  status: 200,
  contentType: "text/event-stream",
  body: events.map((event) => `data: ${JSON.stringify(event)}\n\n`).join(""),
});

describe.skipIf(skipBrowser)("the view that checks this installation", () => {
  const it = pageUnderTest();
  const answer = async (reply: object): Promise<void> => {
    await it.page.route("**/api/selfcheck?*", (route) => route.fulfill(reply));
  };
  const go = async (): Promise<void> => {
    await it.page.goto(`${it.home}#selfcheck`);
    await it.page.locator("#selfcheck-title").waitFor();
  };
  const check = async (): Promise<void> => {
    await go();
    await it.page.locator("#selfcheck-quick").click();
    await it.page.locator(".check-outcome > *").first().waitFor();
  };

  test("has an address and a link, names the page, and gives way to other views", async () => {
    await it.page.goto(it.home);
    await it.page.locator("h1").first().waitFor();
    expect(await it.page.locator("#selfcheck").count()).toBe(0);
    await it.page.locator("#to-selfcheck").click();
    await it.page.locator("#selfcheck-title").waitFor();
    expect(await it.page.title()).toBe("Selfcheck · Trialband");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("selfcheck-title");
    expect(await it.page.locator("h1:visible").count()).toBe(1);
    await it.page.goBack();
    await it.page.locator("#selfcheck").waitFor({ state: "hidden" });
    expect(await it.page.title()).not.toContain("Selfcheck");
    expect(await it.page.locator("h1:visible").count()).toBe(1);
  });

  test("asks for what the reader chose", LONG, async () => {
    const asked: string[] = [];
    await it.page.route("**/api/selfcheck?*", (route) => {
      asked.push(new URL(route.request().url()).search);
      return route.fulfill(stream(story(0)));
    });
    await check();
    await it.page.locator("#selfcheck-full").click();
    await expect.poll(() => asked).toEqual(["?quick=1", "?quick=0"]);
  });

  test("shows every line with its source and tolerance, and folds away what passed", async () => {
    await answer(stream(story(0)));
    await check();
    expect(await it.plainText(".check-outcome .stamp")).toMatch(/✓ 3 passed, 0 failed/);
    expect(await it.plainText("#check-a summary")).toMatch(/clause 9 ✓ 2 passed, 0 failed/);
    expect(await it.page.locator("#check-a").getAttribute("open")).toBeNull();
    await it.page.locator("#check-a summary").click();
    const text = await it.plainText("#check-a table");
    for (const part of [
      "✓ pass",
      "mass: shortest 95 % interval",
      "1.0834, 1.3825 mg",
      "1.0842, 1.3834 mg",
      "± 0.016",
      "half a printed digit",
      "Source: JCGM 101:2008, 9.3, table 6",
      "Source: JCGM 101:2008, 9.4.3",
      "× 10⁻⁶",
    ]) {
      expect(text).toContain(part);
    }
    expect(await it.plainText(".check-outcome .provenance")).toContain("e".repeat(64));
    expect(await it.text(".selfcheck pre")).toBe("npx trialband selfcheck --quick --out selfcheck.html");
    expect(await it.text(".selfcheck [role=status]")).toBe("The check has ended: 3 passed, 0 failed.");
  });

  test("puts what failed above, in words, and takes markup in it as text", async () => {
    await answer(stream(story(1)));
    await check();
    expect(await it.plainText(".check-outcome")).toContain("Do not use its results");
    expect(await it.plainText(".selfcheck [aria-label='What failed']")).toContain(
      "✗ FAIL a record <b>as it is filed</b>",
    );
    expect(await it.page.locator("#check-b").getAttribute("open")).toBe("");
    expect(await it.page.locator("#check-a").getAttribute("open")).toBeNull();
  });

  test("tells why the server refuses", async () => {
    await answer({
      status: 503,
      json: { code: "busy", detail: "A selfcheck is going on already; try again when it has ended.", problems: [] },
    });
    await check();
    expect(await it.text(".selfcheck .trouble")).toContain("going on already");
    expect(await it.page.locator("#selfcheck-quick").isEnabled()).toBe(true);
  });

  test("tells that the stream broke off, and keeps what it had found", LONG, async () => {
    await answer(stream(story(0).slice(0, 3)));
    await check();
    expect(await it.text(".selfcheck .trouble")).toContain("was lost before the check had ended");
    expect(await it.text("#check-a")).toContain("mass: shortest 95 % interval");
  });

  test("can be stopped", async () => {
    await it.page.route("**/api/selfcheck?*", () => undefined);
    await go();
    await it.page.locator("#selfcheck-full").click();
    await it.page.locator("#selfcheck-stop").waitFor();
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("selfcheck-stop");
    expect(await it.page.locator("#selfcheck-quick").isDisabled()).toBe(true);
    await it.page.keyboard.press("Enter");
    await it.page.locator(".selfcheck .trouble").waitFor();
    expect(await it.text(".selfcheck .trouble")).toContain("It was stopped.");
    expect(await it.page.locator("#selfcheck-stop").isVisible()).toBe(false);
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("selfcheck-quick");
  });

  test("passes the accessibility rules in light and dark, and has no sideways scroll", LONG, async () => {
    await answer(stream(story(1)));
    await check();
    await it.page.locator("#check-a summary").click();
    expect(await violationsInBothThemes(it.page)).toEqual([]);
    for (const width of [360, 820, 1440]) {
      await it.page.setViewportSize({ width, height: 800 });
      await it.page.waitForFunction((most) => innerWidth === most, width);
      expect(await it.page.evaluate(() => document.documentElement.scrollWidth), `${width}`).toBeLessThanOrEqual(width);
    }
  });

  test("prints every line, those folded away too, in light colours", LONG, async () => {
    await it.page.emulateMedia({ colorScheme: "dark" });
    await answer(stream(story(0)));
    await check();
    await it.page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    await it.page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await it.page.locator("#check-a tbody tr").first().isVisible()).toBe(true);
    expect(await it.page.locator("#selfcheck-quick").isVisible()).toBe(false);
    expect(await it.page.evaluate(() => getComputedStyle(document.documentElement).color)).toBe("rgb(24, 33, 38)");
    // The foot of its pages names it, not a sheet.
    expect(await it.page.evaluate(() => getComputedStyle(document.body).page)).toBe("selfcheck");
    await it.page.evaluate(() => dispatchEvent(new Event("afterprint")));
    expect(await it.page.locator("#check-a").getAttribute("open")).toBeNull();
  });
});
