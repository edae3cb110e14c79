import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { guardedApp, PASSWORD, setUser, type Guarded } from "../../server/access/people.ts";
import { violationsOn } from "./axe.ts";
import { newPage, skipBrowser } from "./chromium.ts";
import { FixedRuns } from "./fixed-runs.ts";
import { sticksOut } from "./sideways.ts";
import { LONG } from "../../setup/long.ts";

describe.skipIf(skipBrowser)("a page that asks people to sign in", () => {
  let guarded: Guarded;
  let server: Server;
  let home: string;
  let page: Page;
  const runs = new FixedRuns();
  beforeAll(async () => {
    guarded = await guardedApp({ runs, hosts: new Set(["127.0.0.1"]) });
    server = createServer(guarded.app);
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    home = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  });
  afterEach(() => page.close());
  afterAll(async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });

  const enter = async (name: string): Promise<void> => {
    await page.fill("#name", name);
    await page.fill("#password", PASSWORD);
    await page.keyboard.press("Enter");
    await page.waitForSelector("#signed-in:not([hidden])");
  };

  test("leads there and back to what the address names, by keyboard alone", async () => {
    page = await newPage();
    await page.goto(`${home}#study=published/additive-normal`);
    expect(new URL(page.url()).pathname).toBe("/sign-in");
    await page.waitForSelector("#name:focus");
    await page.keyboard.type("ada");
    await page.keyboard.press("Tab");
    await page.keyboard.type(PASSWORD);
    await page.keyboard.press("Enter");
    await page.waitForSelector("#run");
    expect(page.url()).toBe(`${home}#study=published/additive-normal`);
    expect(await page.innerText("#signed-in")).toMatch(/^Signed in as ada, may read, run and remove\s+Sign out$/);
    expect(await violationsOn(page)).toEqual([]);
  });

  test("without script: a wrong password says so and keeps the name, the right one lets in", LONG, async () => {
    page = await newPage({ javaScriptEnabled: false });
    await page.goto(home);
    await page.fill("#name", "rosa");
    await page.fill("#password", "not the one");
    await page.click("button");
    expect(await page.innerText("#wrong")).toBe("The name or the password is wrong.");
    expect(await page.inputValue("#name")).toBe("rosa");
    expect(await page.inputValue("#password")).toBe("");
    await page.fill("#password", PASSWORD);
    await page.click("button");
    expect(page.url()).toBe(home);
    expect(await page.title()).toBe("Trialband");
  });

  test.each([
    [1440, "light", "en-GB", "The name or the password is wrong."],
    [768, "dark", "de-AT", "Name oder Passwort ist falsch."],
    [360, "dark", "de-DE", "Name oder Passwort ist falsch."],
    [360, "light", "fr-FR", "The name or the password is wrong."],
  ] as const)(
    "is readable at %d px, %s, in the browser's language (%s)",
    LONG,
    async (width, colorScheme, locale, wrong) => {
      page = await newPage({ viewport: { width, height: 800 }, colorScheme, locale });
      await page.goto(home);
      await page.fill("#name", "nobody");
      await page.fill("#password", "x");
      await page.click("button");
      expect(await page.innerText("#wrong")).toBe(wrong);
      expect(await violationsOn(page)).toEqual([]);
      expect(await sticksOut(page, width)).toEqual([]);
    },
  );

  test("does not offer a reader what they may not do, and says why", LONG, async () => {
    page = await newPage();
    await page.goto(`${home}#study=published/additive-normal`);
    await enter("rosa");
    await page.waitForSelector("#write-from");
    expect(await page.isVisible("#run")).toBe(false);
    expect(await page.innerText("[data-lacks=run]")).toContain("Your role is to read.");
    // The keyboard's way is refused by the server, in words.
    await page.keyboard.press("Control+Enter");
    await page.waitForSelector("#trouble");
    expect(await page.innerText("#trouble")).toContain("This needs the role “run”; rosa has the role “read”.");
    expect(await violationsOn(page)).toEqual([]);
  });

  test("puts a removed run back from the list of removed ones, for those who may", LONG, async () => {
    const id = runs.addFinished("published/additive-one-dominant");
    page = await newPage();
    await page.goto(`${home}#runs`);
    await enter("ada");
    await page.click(`#pick-${id}`);
    await page.click("#remove");
    // It was the only one: the list is empty, and the way back is there.
    await page.waitForSelector("#no-runs:not([hidden])");
    await page.waitForSelector("#undo-removal");
    await page.reload();
    await page.waitForSelector("#no-runs:not([hidden])");
    await page.click("#removed-summary");
    await page.waitForSelector(`#put-back-${id}`);
    expect(await violationsOn(page)).toEqual([]);
    await page.click(`#put-back-${id}`);
    await page.waitForSelector(`#pick-${id}`);
    expect(await page.innerText("#removed-said")).toMatch(/^“.*” stands in the list again\.$/);
    await page.waitForFunction(() => document.activeElement?.id === "removed-summary");
  });

  test("says when the session has ended, keeps what is typed, and goes on after another sign-in", LONG, async () => {
    page = await newPage();
    await page.goto(`${home}#new`);
    await enter("egon");
    await page.waitForSelector("#field-title, #title, [id*=title] input, #sheet-title");
    await setUser(guarded.file, "egon", "run");
    await page.evaluate(() => (location.hash = "#surveys"));
    await page.waitForSelector("#signed-out:not([hidden])");
    expect(await page.innerText("#signed-out")).toMatch(/You are signed out; what you typed is still here\./);
    expect(await violationsOn(page)).toEqual([]);
    const [other] = await Promise.all([page.context().waitForEvent("page"), page.click("#sign-in-again")]);
    await other.fill("#name", "egon");
    await other.fill("#password", PASSWORD);
    await other.click("button");
    await other.waitForSelector("#signed-in:not([hidden])");
    await other.close();
    await page.evaluate(() => dispatchEvent(new Event("focus")));
    await page.waitForSelector("#signed-out", { state: "hidden" });
  });

  test("signs out, after which the way back leads to the sign-in", LONG, async () => {
    page = await newPage();
    await page.goto(home);
    await enter("rosa");
    await page.click("#sign-out");
    await page.waitForURL(`${home}sign-in`);
    await page.goto(home);
    expect(new URL(page.url()).pathname).toBe("/sign-in");
  });
});
