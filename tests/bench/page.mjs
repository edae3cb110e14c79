// What the page takes: first paint of a finished run, answer to a key or a click with 200 bins and 60 inputs, and the
// size of its JavaScript. Every time is the browser's own (performance entries). Run after a build:
//
//     node tests/bench/page.mjs
import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";

const root = join(import.meta.dirname, "../..");
const BROWSER = process.env.TRIALBAND_CHROMIUM ?? "/usr/bin/chromium";
const INPUTS = 60;
const BINS = 200;
/** Loads and acts measured; the figures are their medians and their greatest. */
const TIMES = 7;

if (!existsSync(BROWSER)) {
  console.log("The page is not measured: no Chromium; name one in TRIALBAND_CHROMIUM.");
  process.exit(0);
}

const names = Array.from({ length: INPUTS }, (_, i) => `term${i + 1}`);
const study = {
  title: `A budget of ${INPUTS} inputs`,
  model: "additive",
  parameters: { coefficients: Object.fromEntries(names.map((name, i) => [name, 1 + i / 100])) },
  inputs: Object.fromEntries(
    names.map((name, i) => [
      name,
      i % 3 === 0 ? { distribution: "normal", estimate: i, standardUncertainty: 1 } : { distribution: i % 3 === 1 ? "rectangular" : "triangular", estimate: i, halfWidth: 2, source: "invented" },
    ]),
  ),
  trials: 200_000,
  seed: "page",
};

const data = await mkdtemp(join(tmpdir(), "trialband-bench-"));
const server = spawn(process.execPath, [join(root, "bin.mjs"), "serve", "--port", "0", "--data", data], { stdio: ["ignore", "pipe", "inherit"] });
const browser = await chromium.launch({ executablePath: BROWSER, args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"] });
try {
  const [line] = await once(server.stdout.setEncoding("utf8"), "data");
  const home = /http:\S+/.exec(line)[0];
  const sent = await fetch(`${home}api/runs`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ study }) });
  const { id } = await sent.json();
  for (let state = ""; state !== "finished"; ) {
    ({ state } = await (await fetch(`${home}api/runs/${id}`)).json());
    if (state === "failed") throw new Error("the run failed");
    await new Promise((resolve) => setTimeout(resolve, 100));
  }

  const size = { gzip: 0, raw: 0, worker: 0 };
  const assets = join(root, "dist/viewer/assets");
  for (const name of (await readdir(assets)).filter((file) => file.endsWith(".js"))) {
    const code = await readFile(join(assets, name));
    // A worker's code is fetched only once a reader plays with an input.
    if (name.startsWith("worker")) size.worker += gzipSync(code, { level: 9 }).length;
    else {
      size.gzip += gzipSync(code, { level: 9 }).length;
      size.raw += code.length;
    }
  }

  const paints = [];
  const lasts = [];
  const answers = new Map();
  for (let i = 0; i < TIMES; i += 1) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    await page.addInitScript(() => {
      globalThis.answers = [];
      new PerformanceObserver((list) => {
        for (const { name, duration, interactionId } of list.getEntries()) if (interactionId > 0) globalThis.answers.push({ name, duration });
      }).observe({ type: "event", durationThreshold: 16, buffered: true });
      // The frame that follows the verdict's coming is the first paint of the finished run.
      const watch = new MutationObserver(() => {
        if (document.querySelector("#verdict-sentence") === null) return;
        watch.disconnect();
        requestAnimationFrame(() => requestAnimationFrame(() => performance.mark("verdict-painted")));
      });
      watch.observe(document, { childList: true, subtree: true });
    });
    await page.goto(`${home}#run=${id}&bins=${BINS}`);
    await page.waitForFunction(() => performance.getEntriesByName("verdict-painted").length > 0);
    const [first, last] = await page.evaluate(() => [performance.getEntriesByName("first-contentful-paint")[0].startTime, performance.getEntriesByName("verdict-painted")[0].startTime]);
    paints.push(first);
    lasts.push(last);
    await page.waitForTimeout(500);
    // A first act warms the paths that run once alone; what follows is what a reader meets all the time.
    for (const [words, act] of [
      ["warm", () => page.locator("#sort-symbol").click()],
      ["sort the budget", () => page.locator("#sort-estimate").click()],
      ["sort it back", () => page.locator("#sort-share").click()],
      ["read the next bin by key", () => page.locator("#bin-reader").press("ArrowRight")],
    ]) {
      await page.evaluate(() => (globalThis.answers.length = 0));
      await act();
      await page.waitForTimeout(250);
      const durations = await page.evaluate(() => globalThis.answers.map(({ duration }) => duration));
      if (words === "warm") continue;
      // An answer too quick for the browser to list took less than its threshold.
      answers.set(words, [...(answers.get(words) ?? []), Math.max(16, ...durations)]);
    }
    await context.close();
  }

  const sorted = (values) => values.toSorted((a, b) => a - b);
  const tell = (words, values, unit, target) =>
    console.log(`${words.padEnd(44)} median ${Math.round(sorted(values)[values.length >> 1])} ${unit}, greatest ${Math.round(Math.max(...values))} ${unit}   (target ${target})`);
  console.log(`The page, with ${INPUTS} inputs and ${BINS} bins; ${TIMES} loads in ${await browser.version()}`);
  tell("first contentful paint", paints, "ms", "≤ 1000 ms");
  tell("verdict of the finished run painted", lasts, "ms", "≤ 1000 ms");
  for (const [words, values] of answers) tell(`answer: ${words}`, values, "ms", "≤ 50 ms");
  console.log(`${"JavaScript of the page, gzip".padEnd(44)} ${(size.gzip / 1000).toFixed(1)} kB of ${(size.raw / 1000).toFixed(1)} kB   (target ≤ 150 kB); on demand ${(size.worker / 1000).toFixed(1)} kB more`);
} finally {
  await browser.close();
  server.kill("SIGTERM");
  await once(server, "exit");
  await rm(data, { recursive: true });
}
