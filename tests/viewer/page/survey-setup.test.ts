import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { serve, type Serving } from "../../../server/serve.ts";
import type { EvaluatedSurvey } from "../../../viewer/api/surveys.ts";
import { violationsInBothThemes } from "./axe.ts";
import { fileChooserByEnter, BUILT_PAGE, newPage, skipBrowser } from "./chromium.ts";
import { LONG } from "../../setup/long.ts";

const example = (path: string): Promise<string> =>
  readFile(new URL(`../../../examples/${path}`, import.meta.url), "utf8");

/** The log of the bath at 4 °C as a logger would leave it: its own lines above, an overload, a line half-written. */
async function bareLog(): Promise<string> {
  const [head, ...rows] = (await example("survey/cold-store-4.csv")).trim().split(/\r?\n/);
  const [row, ...later] = rows;
  return [
    "Logger of the bath room",
    "Serial,HL-7",
    "",
    head!,
    row!.replace(/[^;]*$/, "OVLD"),
    ...later,
    later.at(-1)!.slice(0, 21),
  ].join("\n");
}

const PLACES = [
  ["centre", "280", "0", ""],
  ["high", "260", "0", ""],
  ["low", "300", "0", ""],
  ["east", "280", "30", "east"],
  ["west", "280", "30", "west"],
] as const;

describe.skipIf(skipBrowser)("a survey set up in the page, over the real server", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  let complaints: string[];
  const start = async (port = 0): Promise<void> => {
    serving = await serve({
      host: "127.0.0.1",
      port,
      workers: 1,
      store: folder,
      warn: () => undefined,
      page: BUILT_PAGE,
    });
  };
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string, most = 250, key = "Tab"): Promise<void> => {
    for (let i = 0; i < most && (await focused()) !== id; i += 1) await page.keyboard.press(key);
    expect(await focused()).toBe(id);
  };
  /** Types into the field that has the focus, in the place of what is there. */
  const type = async (text: string): Promise<void> => {
    await page.keyboard.press("Control+A");
    await page.keyboard.type(text);
  };
  const chooseFile = async (name: string, text: string): Promise<void> => {
    await (await fileChooserByEnter(page)).setFiles({ name, mimeType: "text/csv", buffer: Buffer.from(text) });
  };
  const keptAs = (words: string): Promise<void> => page.locator("#setup-kept", { hasText: words }).waitFor();
  const looked = async (name: string): Promise<void> => {
    const to = process.env["TRIALBAND_LOOK"];
    if (to !== undefined) await page.screenshot({ path: join(to, `${name}.png`), fullPage: true });
  };

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-setup-"));
    await start();
    page = await newPage({ viewport: { width: 1280, height: 900 } });
    complaints = [];
    page.on("pageerror", (error) => complaints.push(String(error)));
  });
  afterEach(async () => {
    await page.close();
    await serving.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  test(
    "from a bare log to a study of one's own, by the keyboard alone, with the server restarted in the middle",
    LONG,
    async () => {
      const own = {
        ...(JSON.parse(await example("harrowfen/cold-store-4.json")) as object),
        title: "Our own cold store",
      };
      const started = await fetch(`${serving.url}api/runs`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ study: own, trials: 20_000 }),
      });
      expect(started.status).toBe(202);

      await page.goto(`${serving.url}#surveys`);
      await page.locator("#set-up-survey").waitFor();
      await tabTo("set-up-survey");
      await page.keyboard.press("Enter");
      await page.locator("#setup-title").waitFor();
      expect(await focused()).toBe("sheet-title");
      await tabTo("setup-title");
      await type("Our bath at 4 °C");
      await tabTo("setup-files");
      await chooseFile("logger.csv", await bareLog());
      await page.locator("#setup-thermometer-1-name").waitFor();
      await page.locator(".setup-log").waitFor();
      const notes = await page.locator("#setup-log-notes").innerText();
      expect(notes).toContain("below 2 lines of the instrument");
      expect(notes).toContain("1 × OVLD, no reading");
      expect(notes).toContain("the last, ends half-written and was left out");

      for (const [k, [name, depth, radius, direction]] of PLACES.entries()) {
        await tabTo("setup-position-add", 80, k === 0 ? "Tab" : "Tab");
        await page.keyboard.press("Enter");
        expect(await focused()).toBe(`setup-position-${k}-name`);
        await type(name);
        for (const text of [depth, radius, direction]) {
          await page.keyboard.press("Tab");
          await type(text);
        }
      }
      await keptAs("Draft kept.");

      // The server is stopped while something is typed: it stays in this browser, and is kept once the server is back.
      const port = Number(new URL(serving.url).port);
      await serving.close();
      await tabTo("setup-setTemperature", 80);
      await type("4");
      await keptAs("in this browser only");
      await start(port);
      await keptAs("Draft kept.");
      const address = page.url();
      expect(new URL(address).hash).toMatch(/^#survey-setup=[0-9a-f-]{36}$/);
      await page.goto("about:blank");
      await page.goto(address);
      await page.locator(".setup-log").waitFor();
      expect(await page.locator("#setup-setTemperature").inputValue()).toBe("4");
      expect(await page.locator("#setup-title").inputValue()).toBe("Our bath at 4 °C");
      expect(await page.locator("#setup-position-4-direction").inputValue()).toBe("west");

      await tabTo("setup-step-propose");
      await page.keyboard.press("Enter");
      await page.locator("#setup-step-8-from").waitFor();
      // Every other step has the pair swapped: the first thermometer at the position, then the second.
      const at: [string, string][] = [
        ["centre", "centre"],
        ...["high", "low", "east", "west"].flatMap((place): [string, string][] => [
          [place, "centre"],
          ["centre", place],
        ]),
      ];
      for (const [k, [first, second]] of at.entries()) {
        await tabTo(`setup-step-${k}-at-0`, 30);
        await page.keyboard.type(first);
        await page.keyboard.press("Tab");
        await page.keyboard.type(second);
      }
      // An end that was proposed a little late is typed to where it belongs.
      const end = page.locator("#setup-step-0-to");
      await tabTo("setup-step-0-to", 60, "Shift+Tab");
      await type((await end.inputValue()).replace(/\d\d:\d\d$/, "13:30"));
      await tabTo("setup-evaluate", 120);
      await page.keyboard.press("Enter");
      // What is missing is asked for where it is stated.
      expect(await focused()).toBe("setup-calibrationMinutes");
      await type("25");
      await looked("setup-filled");
      await tabTo("setup-evaluate", 60);
      await page.keyboard.press("Enter");
      await page.locator("#panel-survey-origin .provenance").waitFor();
      await looked("setup-evaluated");

      const id = new URL(page.url()).hash.replace("#survey=", "");
      const evaluated = (await (await fetch(`${serving.url}api/surveys/${id}`)).json()) as EvaluatedSurvey;
      const { evaluation: known } = (await (
        await fetch(`${serving.url}api/surveys/cold-store-4`)
      ).json()) as EvaluatedSurvey;
      // The steps of the description by hand begin and end half a minute elsewhere at most.
      for (const axis of ["axial", "radial"] as const)
        expect(evaluated.evaluation[axis]!.quantity.halfWidth).toBeCloseTo(known[axis]!.quantity.halfWidth, 3);
      expect(evaluated.evaluation.stability.halfWidth).toBeCloseTo(known.stability.halfWidth, 3);

      await tabTo("survey-into", 400);
      await page.keyboard.type("Our own cold store");
      expect(await page.locator("#survey-into").inputValue()).toMatch(/^own:/);
      await tabTo("survey-run", 20);
      await page.keyboard.press("Enter");
      await page.locator("#print").waitFor();
      await page.locator("#verdict-sentence").waitFor();
      const head = serving.runs.list()[0]!;
      expect(head.title).toBe("Our own cold store");
      const { record } = await serving.runs.read(head.id);
      const inputs = record!.study.inputs as Record<string, unknown>;
      for (const [name, statement] of Object.entries(evaluated.statements)) expect(inputs[name]).toEqual(statement);

      // Behind the budget's rows stands the version that was evaluated, also after another start of the server.
      await serving.close();
      await start(port);
      await page.goto(`${serving.url}#surveys`);
      await page.locator("#own-surveys", { hasText: "Our bath at 4 °C" }).waitFor();
      await page.goto(`${serving.url}#survey=${id}`);
      await page.locator("#to-setup").waitFor();
    },
  );

  test(
    "is opened again with everything it was set up with; boundaries are dragged, positions clicked, complaints stand at their fields",
    LONG,
    async () => {
      const log = await example("survey/pasteuriser-72.csv");
      const kept = (await (
        await fetch(`${serving.url}api/evidence-files?name=pasteuriser-72.csv`, {
          method: "POST",
          headers: { "content-type": "application/octet-stream" },
          body: log,
        })
      ).json()) as { sha256: string };
      const document = JSON.parse(await example("survey/pasteuriser-72.json")) as { steps: { to: number }[] };
      const { id } = (await (
        await fetch(`${serving.url}api/evidence`, {
          method: "POST",
          headers: { "content-type": "application/json" },
          body: JSON.stringify({
            kind: "survey",
            document,
            files: [{ name: "pasteuriser-72.csv", sha256: kept.sha256 }],
          }),
        })
      ).json()) as { id: string };
      const draftNow = async (): Promise<{ steps: { to: number }[]; positions: Record<string, unknown> }> =>
        ((await (await fetch(`${serving.url}api/evidence/${id}`)).json()) as { document: never }).document;
      await page.goto(`${serving.url}#survey-setup=${id}`);
      await page.locator(".setup-log").waitFor();
      await page.locator("#setup-status", { hasText: "Everything that is needed is there." }).waitFor();

      for (const width of [1280, 768, 360]) {
        await page.setViewportSize({ width, height: 900 });
        await looked(`setup-${width}`);
        expect(await page.evaluate(() => window.document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        if (width !== 768) expect(await violationsInBothThemes(page), String(width)).toEqual([]);
      }
      await page.setViewportSize({ width: 1280, height: 900 });

      // The end of the first step, 75 min in, is drawn out to the left by a tenth of the picture.
      const end = page.locator(".step-end").nth(1);
      await end.scrollIntoViewIfNeeded();
      const box = (await end.boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + 60);
      await page.mouse.down();
      await page.mouse.move(box.x - 40, box.y + 60, { steps: 3 });
      await page.mouse.up();
      const typed = Number(await page.locator("#setup-step-0-to").inputValue());
      expect(typed).toBeLessThan(document.steps[0]!.to - 200);
      expect(typed).toBeGreaterThan(document.steps[0]!.to - 1500);

      await page.locator(".bath-section").click({ position: { x: 100, y: 100 } });
      expect(await focused()).toBe("setup-position-5-name");
      expect(Number(await page.locator("#setup-position-5-depth").inputValue())).toBeGreaterThan(0);
      await keptAs("Draft kept.");
      expect((await draftNow()).steps[0]!.to).toBe(typed);
      expect(Object.keys((await draftNow()).positions)).toHaveLength(6);

      await page.locator("#setup-step-1-to").fill("4500");
      await page.locator("#setup-zoneRadius").fill("thirty");
      await page.locator("#setup-evaluate").click();
      await page.locator("#setup-zoneRadius-problem", { hasText: "thirty" }).waitFor();
      expect(await focused()).toBe("setup-zoneRadius");
      await page.locator("#setup-zoneRadius").fill("30");
      await page.locator("#setup-evaluate").click();
      await page.locator("#setup-step-1-to-problem", { hasText: "a moment after" }).waitFor();
      const said = await page.locator("#setup-problems").innerText();
      expect(said).toContain("Step 2, end");
      expect(said).not.toMatch(/steps\.\d|zone\.radius/);
      await page.locator("#setup-step-1-to").fill("5270");
      await page.locator("#setup-evaluate").click();
      await page.locator("#panel-survey-origin .provenance").waitFor();

      // Another log of the same bath, read and evaluated as the one before.
      await page.locator("#to-setup").click();
      await page.locator(".setup-log").waitFor();
      await page.evaluate(
        (text) => {
          const dataTransfer = new DataTransfer();
          dataTransfer.items.add(new File([text], "later.csv"));
          dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
        },
        log.replace(/^20,/m, "20.5,"),
      );
      await page.locator(".log-file h3", { hasText: "later.csv" }).waitFor();
      expect(await page.locator("#setup-step-8-to").inputValue()).not.toBe("");
      await page.locator(".setup-log").waitFor();
      await page.locator("#setup-evaluate").click();
      await page.locator("#panel-survey-origin .provenance", { hasText: "later.csv" }).waitFor();
    },
  );
});
