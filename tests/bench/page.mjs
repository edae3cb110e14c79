// What the page takes: first paint of a finished run, answer to a key or a click with 200 bins and 60 inputs, the first
// answer to a slider of "what if", and the size of its JavaScript. Every time is the browser's own (performance
// entries). Run after a build:
//
//     node tests/bench/page.mjs [--json FILE]
import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { cpus, loadavg, tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { parseArgs } from "node:util";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";

const { values: options } = parseArgs({ options: { json: { type: "string" } } });
const root = join(import.meta.dirname, "../..");
const BROWSER = process.env.TRIALBAND_CHROMIUM ?? "/usr/bin/chromium";
const INPUTS = 60;
const BINS = 200;
/** Loads measured, and slider steps; the figures are their medians. */
const TIMES = 9;
/** The study whose inputs are changed: fifteen of them. */
const FLAGSHIP = "harrowfen/steriliser-134";

if (!existsSync(BROWSER)) {
  console.log("The page is not measured: no Chromium; name one in TRIALBAND_CHROMIUM.");
  process.exit(0);
}

const names = Array.from({ length: INPUTS }, (_, i) => `term${i + 1}`);
const wide = {
  title: `A budget of ${INPUTS} inputs`,
  model: "additive",
  parameters: { coefficients: Object.fromEntries(names.map((name, i) => [name, 1 + i / 100])) },
  inputs: Object.fromEntries(
    names.map((name, i) => [
      name,
      i % 3 === 0
        ? { distribution: "normal", estimate: i, standardUncertainty: 1 }
        : { distribution: i % 3 === 1 ? "rectangular" : "triangular", estimate: i, halfWidth: 2, source: "invented" },
    ]),
  ),
  trials: 200_000,
  seed: "page",
};

/** What a reader does meanwhile; the first of each pair undoes nothing, so that every act changes the page. */
const ACTS = [
  ["sort the budget", (page) => page.locator("#sort-estimate").click()],
  ["sort it back", (page) => page.locator("#sort-share").click()],
  ["open a row of the budget", (page) => page.locator("#open-term60").click()],
  ["close it again", (page) => page.locator("#open-term60").click()],
  ["read the next bin by key", (page) => page.locator("#bin-reader").press("ArrowRight")],
  ["write the result with one digit", (page) => page.locator("label[for=digits-1]").click()],
  ["see the distribution function", (page) => page.locator("label[for=pictured-distribution]").click()],
];

const rows = [];
const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
function add(words, values, unit, limit) {
  const rounded = values.map((value) => Math.round(10 * value) / 10);
  const median = middle(rounded);
  rows.push({
    words,
    median,
    least: Math.min(...rounded),
    greatest: Math.max(...rounded),
    unit,
    limit,
    met: limit === null ? null : median <= limit,
    values: rounded,
  });
}

async function run(home, study) {
  const sent = await fetch(`${home}api/runs`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ study }),
  });
  const { id } = await sent.json();
  for (;;) {
    const { state } = await (await fetch(`${home}api/runs/${id}`)).json();
    if (state === "finished") return id;
    if (state === "failed") throw new Error("the run failed");
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** Paints of a finished run, then the answers to what a reader does, in a fresh page each time. */
async function measureSheet(browser, address) {
  const paints = { first: [], verdict: [] };
  const answers = new Map(ACTS.map(([words]) => [words, []]));
  for (let i = 0; i < TIMES; i += 1) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    await page.addInitScript(() => {
      globalThis.answers = [];
      new PerformanceObserver((list) => {
        for (const { name, duration, interactionId } of list.getEntries())
          if (interactionId > 0) globalThis.answers.push({ name, duration });
      }).observe({ type: "event", durationThreshold: 16, buffered: true });
      // The frame that follows the verdict's coming is the first paint of the finished run.
      const watch = new MutationObserver(() => {
        if (document.querySelector("#verdict-sentence") === null) return;
        watch.disconnect();
        requestAnimationFrame(() => requestAnimationFrame(() => performance.mark("verdict-painted")));
      });
      watch.observe(document, { childList: true, subtree: true });
    });
    await page.goto(address);
    await page.waitForFunction(() => performance.getEntriesByName("verdict-painted").length > 0);
    const [first, last] = await page.evaluate(() => [
      performance.getEntriesByName("first-contentful-paint")[0].startTime,
      performance.getEntriesByName("verdict-painted")[0].startTime,
    ]);
    paints.first.push(first);
    paints.verdict.push(last);
    await page.waitForTimeout(500);
    // A first act warms the paths that run once alone; what follows is what a reader meets all the time.
    await page.locator("#sort-symbol").click();
    await page.waitForTimeout(250);
    for (const [words, act] of ACTS) {
      await page.evaluate(() => (globalThis.answers.length = 0));
      await act(page);
      await page.waitForTimeout(250);
      const durations = await page.evaluate(() => globalThis.answers.map(({ duration }) => duration));
      // An answer too quick for the browser to list took less than its threshold.
      answers.get(words).push(Math.max(16, ...durations));
    }
    await context.close();
  }
  add("first contentful paint", paints.first, "ms", 1000);
  add("verdict of the finished run painted", paints.verdict, "ms", 1000);
  for (const [words, durations] of answers) add(`answer: ${words}`, durations, "ms", 50);
}

/** From a width that is taken to the frame that shows the first preview of it: what the page itself records. */
async function measureWhatIf(browser, address) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(address);
  await page.locator("#try-open").click();
  await page.locator("#preview-table").waitFor();
  await page.locator("#try-width-bathAxial").focus();
  // The first steps warm the worker's code.
  for (let i = 0; i < TIMES + 2; i += 1) {
    await page.keyboard.press("Control+A");
    await page.keyboard.type(i % 2 === 0 ? "×1.1" : "×1.2");
    await page.keyboard.press("Enter");
    await page.waitForTimeout(600);
  }
  const durations = await page.evaluate(() =>
    performance.getEntriesByName("what-if answer").map(({ duration }) => duration),
  );
  await page.close();
  add("first answer to a width of “what if”", durations.slice(-TIMES), "ms", 100);
}

async function measureSize() {
  const assets = join(root, "dist/viewer/assets");
  const scripts = (await readdir(assets)).filter((file) => file.endsWith(".js"));
  const texts = new Map(
    await Promise.all(scripts.map(async (name) => [name, await readFile(join(assets, name), "utf8")])),
  );
  // What a script imports at once is loaded with it; the set grows while it is walked.
  const first = new Set(scripts.filter((name) => /^(index|page)-/.test(name)));
  for (const name of first)
    for (const [, imported] of texts.get(name).matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) first.add(imported);
  const kilobytes = (of) => of.reduce((sum, name) => sum + gzipSync(texts.get(name), { level: 9 }).length, 0) / 1000;
  add("JavaScript loaded at first, gzip", [kilobytes([...first])], "kB", 130);
  add(
    "more, for other views",
    [kilobytes(scripts.filter((name) => !first.has(name) && !name.startsWith("worker")))],
    "kB",
    null,
  );
  add("more, once an input is changed", [kilobytes(scripts.filter((name) => name.startsWith("worker")))], "kB", null);
}

const data = await mkdtemp(join(tmpdir(), "trialband-bench-"));
const server = spawn(process.execPath, [join(root, "bin.mjs"), "serve", "--port", "0", "--store", data], {
  stdio: ["ignore", "pipe", "inherit"],
});
const browser = await chromium.launch({
  executablePath: BROWSER,
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
});
try {
  const [line] = await once(server.stdout.setEncoding("utf8"), "data");
  const home = /http:\S+/.exec(line)[0];
  await measureSheet(browser, `${home}#run=${await run(home, wide)}&bins=${BINS}`);
  await measureWhatIf(browser, `${home}#run=${await run(home, FLAGSHIP)}`);
  await measureSize();
  const machine = {
    browser: browser.version(),
    node: process.version,
    processor: cpus()[0].model,
    processors: cpus().length,
    load: Math.round(10 * loadavg()[0]) / 10,
  };
  console.log(
    `The page with ${INPUTS} inputs and ${BINS} bins, “what if” with ${FLAGSHIP}: medians of ${TIMES}, in Chromium ${machine.browser}; load of the machine ${machine.load} on ${machine.processors} processors`,
  );
  const number = (value) => value.toFixed(value < 100 && value % 1 !== 0 ? 1 : 0).padStart(7);
  console.log(`${"".padEnd(44)}  median    least greatest     limit`);
  for (const { words, median, least, greatest, unit, limit, met } of rows) {
    console.log(
      `${words.padEnd(44)} ${number(median)}  ${number(least)}  ${number(greatest)}  ${(limit === null ? "" : `≤ ${limit}`).padStart(8)} ${unit}${met === false ? "   missed" : ""}`,
    );
  }
  if (options.json !== undefined) {
    await mkdir(dirname(options.json), { recursive: true });
    await writeFile(
      options.json,
      `${JSON.stringify({ machine, inputs: INPUTS, bins: BINS, times: TIMES, rows }, null, 2)}\n`,
    );
  }
} finally {
  await browser.close();
  server.kill("SIGTERM");
  await once(server, "exit");
  await rm(data, { recursive: true });
}
