import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import type { Page } from "playwright-core";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { FAULTS } from "../../../server/errors.ts";
import { documentOf } from "../../../server/openapi/document.ts";
import { interfacePage } from "../../../server/openapi/page.ts";
import { everyOperation } from "../../../server/routes/operations.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { violationsInBothThemes } from "../../viewer/page/axe.ts";
import { BUILT_PAGE, newPage, skipBrowser } from "../../viewer/page/chromium.ts";
import { sticksOut } from "../../viewer/page/sideways.ts";
import { LONG } from "../../setup/long.ts";

const operations = everyOperation();
const described = documentOf(operations);
const app = createApp({
  runs: new Runs(() => Promise.reject(new Error("nothing runs here")), openStore({ folder: null })),
  shelf: studyShelf(new URL("../../../examples", import.meta.url).pathname),
  workers: 1,
  page: BUILT_PAGE,
  hosts: new Set(["127.0.0.1"]),
});

describe("the page of the interface", () => {
  const text = interfacePage(described);

  test("has every route, parameter, schema and fault of the document", () => {
    for (const { method, path, described: own } of operations) {
      const name = `${method.toUpperCase()} ${path.replaceAll(/:(\w+)/g, "{$1}")}`;
      expect(text).toContain(`<article id="${own.id}"`);
      expect(text.split(`<code>${name}</code>`).length, name).toBeGreaterThan(2);
    }
    for (const code of Object.keys(FAULTS)) expect(text).toContain(`<code id="fault-${code}">${code}</code>`);
    const titles = new Set(Object.keys(FAULTS).map((code) => `/api/problems/${code}`));
    for (const [name, schema] of Object.entries(described.components?.schemas ?? {})) {
      const { properties } = schema as { properties?: { type?: { const?: string } } };
      if (titles.has(properties?.type?.const ?? "")) continue;
      expect(text).toContain(`<article id="schema-${name}"`);
    }
  });

  test("has a place for each of its links, and each place once", () => {
    const places = Array.from(text.matchAll(/ id="([^"]+)"/g), ([, id]) => id!);
    expect(new Set(places).size).toBe(places.length);
    const links = new Set(Array.from(text.matchAll(/href="#([^"]+)"/g), ([, id]) => id!));
    expect(links.size).toBeGreaterThan(80);
    expect([...links].filter((link) => !places.includes(link))).toEqual([]);
  });

  test("is led to from the page of studies", () => {
    expect(readFileSync(join(BUILT_PAGE, "index.html"), "utf8")).toContain('<a href="./api"');
  });

  test("needs no script and no style within it", () => {
    expect(text).not.toMatch(/<script|<style| style=| on\w+=/);
  });

  test("escapes what the document says", () => {
    const hostile = { ...described, info: { ...described.info, title: "<b>&" } };
    expect(interfacePage(hostile)).toContain("&lt;b&gt;&amp;");
    expect(interfacePage(hostile)).not.toContain("<b>");
  });

  test("is served as HTML under the server's policy; with a stroke at its end it leads to its address", async () => {
    const answer = await request(app).get("/api").set("host", "127.0.0.1").expect(200).expect("content-type", /html/);
    expect(answer.headers["content-security-policy"]).toContain("default-src 'self'");
    expect(answer.text).toContain("The interface of Trialband");
    await request(app).get("/api/").set("host", "127.0.0.1").expect(308).expect("location", "/api");
  });
});

describe.skipIf(skipBrowser)("in a browser", () => {
  let server: Server;
  let page: Page;
  const refused: string[] = [];
  beforeAll(async () => {
    server = createServer(app);
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    page = await newPage({ viewport: { width: 1440, height: 900 } });
    page.on("console", (message) => refused.push(message.text()));
    page.on("requestfailed", (asked) => refused.push(asked.url()));
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/api`);
  });
  afterAll(async () => {
    await page.context().close();
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });

  test("has its style, and nothing is refused", async () => {
    expect(await page.evaluate(() => getComputedStyle(document.querySelector("table")!).borderCollapse)).toBe(
      "collapse",
    );
    expect(refused).toEqual([]);
  });

  test("breaks no rule of accessibility", LONG, async () => {
    expect(await violationsInBothThemes(page)).toEqual([]);
  });

  test.each([1440, 768, 360])("does not reach beyond a page of %d px", async (width) => {
    await page.setViewportSize({ width, height: 900 });
    expect(await sticksOut(page, width)).toEqual([]);
  });

  test("the first stop of the keyboard leads past the contents", async () => {
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("routes");
  });
});
