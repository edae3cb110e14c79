// The same study in Node, in Chromium and in Firefox: the same record, bit for bit, with and without generated code.
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import puppeteer from "puppeteer-core";
import { beforeAll, describe, expect, test } from "vitest";
import { readExample, runExample } from "../read-example.ts";
import { newPage, skipBrowser } from "../viewer/page/chromium.ts";
import { readStored } from "../../server/programs/stored.ts";
import { allEqual, comparedOnStudies, STUDIES_OF_PROGRAMS } from "../server/programs/compared.ts";
import { LONG } from "../setup/long.ts";

const FIREFOX = [process.env["TRIALBAND_FIREFOX"] ?? "", "/usr/bin/firefox-esr", "/usr/bin/firefox"].find(
  (path) => path !== "" && existsSync(path),
);
// Among them: both signs of the IEC 60751 inverse, a t, an arc sine, curvilinear trapezoids, a copula, and an exponential.
const CASES: readonly [string, Record<string, unknown>][] = [
  ["harrowfen/freezer-minus-40", { trials: 20_000 }],
  ["published/gauge-block", { trials: 20_000 }],
  ["published/polar-010-correlated", { trials: 20_000 }],
  ["verdicts/curvature", { trials: 20_000, sensitivity: null }],
];

let program: string;
beforeAll(async () => {
  const source = `
    import { propagate } from "./engine/index.ts";
    import { models } from "./models/index.ts";
    import { comparedOnStudies } from "./tests/server/programs/compared.ts";
    globalThis.comparePrograms = comparedOnStudies;
    globalThis.runCase = (json) => {
      const document = JSON.parse(json);
      const found = models.find(({ id }) => id === document.model);
      return JSON.stringify(propagate("build" in found ? found.build(document.parameters ?? {}) : found, document));
    };`;
  const root = new URL("../..", import.meta.url).pathname;
  const result = await build({
    stdin: { contents: source, resolveDir: root, loader: "ts" },
    bundle: true,
    write: false,
    format: "iife",
    platform: "browser",
    logLevel: "error",
  });
  program = result.outputFiles[0]!.text;
});

const document = (id: string, changes: Record<string, unknown>): string =>
  JSON.stringify({ ...readExample(id), ...changes });
const expected = (id: string, changes: Record<string, unknown>): string => JSON.stringify(runExample(id, changes));

describe.skipIf(skipBrowser)("Chromium", () => {
  test.each(["default-src * 'unsafe-inline' 'unsafe-eval'", "default-src * 'unsafe-inline'"])(
    "under the policy %s",
    LONG,
    async (policy) => {
      const page = await newPage();
      try {
        // If the policy forbids generated code, the engine's plain loop must return exactly the same figures.
        await page.route("http://127.0.0.1:1/", (route) =>
          route.fulfill({ contentType: "text/html", headers: { "content-security-policy": policy }, body: "<p>bits" }),
        );
        await page.goto("http://127.0.0.1:1/");
        await page.addScriptTag({ content: program });
        for (const [id, changes] of CASES) {
          const found = await page.evaluate(
            (json) => (globalThis as unknown as { runCase(json: string): string }).runCase(json),
            document(id, changes),
          );
          expect(found === expected(id, changes), id).toBe(true);
        }
      } finally {
        await page.close();
      }
    },
  );
});

/** Programs as the build keeps them, and a study of each. */
async function programsAndStudies() {
  const text = await readFile(new URL("../../dist/programs.json", import.meta.url), "utf8");
  const { models } = readStored(text, (JSON.parse(text) as { sources: string }).sources)!;
  return { models, documents: STUDIES_OF_PROGRAMS.map(readExample) };
}

test("programs of registered models in Node: the plain path's bits", async () => {
  const { models, documents } = await programsAndStudies();
  const found = comparedOnStudies(models, documents);
  expect(found).toEqual(allEqual(models));
});

test.skipIf(skipBrowser)("programs of registered models in Chromium: the plain path's bits", async () => {
  const { models, documents } = await programsAndStudies();
  const page = await newPage();
  try {
    await page.addScriptTag({ content: program });
    const found = await page.evaluate(
      ([programs, studies]) =>
        (globalThis as unknown as { comparePrograms: typeof comparedOnStudies }).comparePrograms(programs!, studies!),
      [models, documents] as const,
    );
    expect(found).toEqual(allEqual(models));
  } finally {
    await page.close();
  }
});

describe.skipIf(FIREFOX === undefined)("Firefox", () => {
  test("gives the bits of Node", async () => {
    const profile = mkdtempSync(join(tmpdir(), "trialband-firefox-"));
    const browser = await puppeteer.launch({
      browser: "firefox",
      executablePath: FIREFOX!,
      headless: true,
      userDataDir: profile,
    });
    try {
      const page = await browser.newPage();
      await page.setContent("<p>bits");
      await page.addScriptTag({ content: program });
      for (const [id, changes] of CASES) {
        const found = await page.evaluate(
          (json) => (globalThis as unknown as { runCase(json: string): string }).runCase(json),
          document(id, changes),
        );
        expect(found === expected(id, changes), id).toBe(true);
      }
    } finally {
      await browser.close();
      rmSync(profile, { recursive: true, force: true });
    }
  }, 120_000);
});
