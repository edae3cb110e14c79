import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { openDatabase } from "../../../server/store/database.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { RunHead } from "../../../viewer/api/runs.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { violationsInBothThemes } from "./axe.ts";
import { BUILT_PAGE, bytesOf, newPage, skipBrowser } from "./chromium.ts";
import { LONG } from "../../setup/long.ts";

const example = (path: string): string => new URL(`../../../examples/${path}`, import.meta.url).pathname;
const COLD = "Cold-store probe HF-021 at 4 °C";

/** The page as it is built, the server as it is run, and the runs in a folder that a restart finds again. */
describe.skipIf(skipBrowser)("the library, over the real server", () => {
  let folder: string;
  let serving: Serving;
  let page: Page;
  let complaints: string[];
  const start = (port = 0): Promise<Serving> =>
    serve({ host: "127.0.0.1", port, workers: 2, store: folder, warn: () => undefined, page: BUILT_PAGE });
  const plainText = async (selector: string): Promise<string> =>
    (await page.locator(selector).innerText()).replace(/\s+/g, " ").trim();
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? "");
  const tabTo = async (id: string, most = 250): Promise<void> => {
    for (let i = 0; i < most && (await focused()) !== id; i += 1) await page.keyboard.press("Tab");
    expect(await focused()).toBe(id);
  };
  /** Runs a study without the page; returns the run's id. */
  const finished = async (study: string | object, trials = 20_000): Promise<string> => {
    const answer = await fetch(`${serving.url}api/runs`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ study, trials }),
    });
    const { id } = (await answer.json()) as { id: string };
    await new Promise<void>((resolve) => {
      serving.runs.follow(id, ({ type }) => {
        if (type !== "progress" && type !== "snapshot") resolve();
      });
    });
    return id;
  };
  const coldWith = async (changes: object): Promise<object> => ({
    ...(JSON.parse(await readFile(example("harrowfen/cold-store-4.json"), "utf8")) as object),
    ...changes,
  });

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "trialband-page-"));
    serving = await start();
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

  test("a run whose title was altered in the store is named, and the others are there", LONG, async () => {
    const [broken, sound] = [await finished("published/additive-normal"), await finished("published/additive-normal")];
    await serving.close();
    const database = openDatabase(join(folder, "trialband.db"));
    database.run("UPDATE runs SET title = '{' WHERE id = ?", [broken]);
    database.close();
    serving = await start();
    await page.goto(`${serving.url}#runs`);
    await page.waitForSelector(`#kept-${sound}`);
    expect(await plainText(`tr:has(#kept-${broken}) .remark`)).toBe(
      "Cannot be read in the store: title. A backup has it.",
    );
  });

  test("runs a study, lists it with its verdict, finds it, notes it, removes it and brings it back", async () => {
    await page.goto(`${serving.url}#runs`);
    await page.locator("#no-runs").waitFor();
    // The example is one click away, whether it was run before or not.
    await page.locator("#home").click();
    await page.locator("button#start-example").click();
    await page.locator("#print").waitFor();
    await page.locator("#home").click();
    await page.locator("a#start-example", { hasText: "not validated" }).click();
    await page.locator("#verdict-sentence").waitFor();
    await serving.runs.remove(serving.runs.list()[0]!.id);
    await page.locator("#find-study").fill("hf-021 4");
    await page.locator("#shelf").getByRole("link", { name: COLD, exact: true }).click();
    await page.locator("#run").click();
    await page.locator("#verdict-sentence").waitFor();
    expect(await page.locator(".command").innerText()).toContain("examples/harrowfen/cold-store-4.json");
    await page.reload();
    await page.locator("#verdict-sentence").waitFor();
    expect(await page.locator(".command").innerText()).toContain("examples/harrowfen/cold-store-4.json");

    await finished("published/mass-calibration");
    await page.goto("about:blank");
    await page.goto(`${serving.url}#runs`);
    await page.locator("#find-run").fill("vaccine");
    await page.getByText("No run has all of these words").waitFor();
    await page.locator("#find-run").fill("hf-021");
    await page.locator("#runs-found", { hasText: "1 of 2 found" }).waitFor();
    expect(await plainText(".listing tbody tr")).toContain(
      "validated Cold-store probe HF-021 at 4 °C bath-comparison finished",
    );
    await page.locator(".listing tbody input").check();
    await page.locator("#run-note").fill("with the old reference");
    await page.keyboard.press("Enter");
    await page.locator(".remark", { hasText: "with the old reference" }).waitFor();

    // Somebody else writes a note meanwhile: it is not written over unseen.
    await serving.runs.annotate(serving.runs.list().find(({ title }) => title === COLD)!.id, "of another reader");
    await page.locator("#run-note").fill("mine");
    await page.keyboard.press("Enter");
    await page.locator("#trouble", { hasText: "Read it again before you write over it" }).waitFor();
    await page.locator(".remark", { hasText: "of another reader" }).waitFor();
    await page.locator("#dismiss").click();

    await page.locator("#remove").click();
    await page.locator("#runs-found", { hasText: "0 of 1 found" }).waitFor();
    expect(serving.runs.list().map(({ title }) => title)).toEqual(["Mass calibration (JCGM 101, 9.3)"]);
    // The way back takes the focus in the next frame; a key before that would go elsewhere.
    await page.locator("#undo-removal:focus").waitFor();
    await page.keyboard.press("Enter");
    await page.locator("#runs-found", { hasText: "1 of 2 found" }).waitFor();
    await page.locator(".remark", { hasText: "of another reader" }).waitFor();
  });

  test("starts a study from another, saves it as a file, and finds the one before among the drafts", LONG, async () => {
    await page.goto(`${serving.url}#new`);
    await page.locator("#in-title").fill("Half written");
    await page.goto(`${serving.url}#study=harrowfen/cold-store-4`);
    await page.locator("#write-from").click();
    await page.locator("#ready").waitFor();
    const [download] = await Promise.all([page.waitForEvent("download"), page.locator("#save-draft").click()]);
    const saved = JSON.parse((await bytesOf(download)).toString("utf8")) as { inputs: object };
    const original = JSON.parse(await readFile(example("harrowfen/cold-store-4.json"), "utf8")) as { inputs: object };
    expect(saved.inputs).toEqual(original.inputs);
    await page.locator("#all-drafts").click();
    await page.locator("#drafts").getByRole("link", { name: "Half written" }).click();
    await expect.poll(() => page.locator("#in-title").inputValue()).toBe("Half written");
  });

  test(
    "a draft that was typed a moment ago is on the list at once, before the pause in typing has sent it",
    LONG,
    async () => {
      await page.goto(`${serving.url}#new`);
      await page.locator("#in-title").fill("Typed a moment ago");
      await page.locator("#all-drafts").click();
      await page.locator("#drafts").getByRole("link", { name: "Typed a moment ago" }).waitFor();
    },
  );

  test("refuses a file that is none of its kinds, with the reason, and keeps what was shown", LONG, async () => {
    await page.goto(`${serving.url}#study=harrowfen/cold-store-4`);
    await page.locator("#run").waitFor();
    await page.setInputFiles("#study-file", {
      name: "photo.json",
      mimeType: "image/png",
      buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10]),
    });
    await page.locator("#trouble", { hasText: "a picture" }).waitFor();
    expect(await page.locator(".problems").innerText()).toContain("a budget as a table (CSV, XLSX or pasted cells)");
    await page.setInputFiles("#study-file", {
      name: "r.json",
      mimeType: "",
      buffer: Buffer.from('{"format": "trialband-record/2", "study": 5}'),
    });
    await page.locator("#trouble .place", { hasText: "study" }).waitFor();
    expect(await page.locator("h1").innerText()).toBe(COLD);
    // A table is shown whatever it holds, with where it would fit.
    await page.setInputFiles("#study-file", {
      name: "log.csv",
      mimeType: "text/csv",
      buffer: Buffer.from("time;T1\n10:00:00;4.01\n10:00:10;4.02\n10:00:20;4.01\n10:00:30;4.02\n"),
    });
    await page.locator(".import-question", { hasText: "looks like a log" }).waitFor();
  });

  test("reads a budget table, shows what each column was taken for, and runs it", LONG, async () => {
    await page.goto(serving.url);
    await page.setInputFiles("#study-file", example("survey/budget-72.csv"));
    await page.locator("#import-result").waitFor();
    expect(await page.locator(".import-preview tbody tr").count()).toBe(11);
    expect(await page.locator("#import-column-F").inputValue()).toBe("divisor");
    expect(serving.runs.list()).toEqual([]);
    // What cannot be is said at its cells, and undone.
    await page.locator("#import-column-I").selectOption("howStated");
    await page.locator("#import-complaints-title").waitFor();
    expect(await page.locator("#import-run").isDisabled()).toBe(true);
    await page.locator("#import-undo").click();
    await page.locator("#import-status", { hasText: "Nothing is left open" }).waitFor();
    await page.locator("#import-title").fill("Probe HF-034");
    await page.locator("#import-run").click();
    await page.locator("#verdict-sentence").waitFor();
    expect(await page.locator("h1").innerText()).toBe("Probe HF-034");
    // The table's own last row says 7.88 mK.
    expect(await plainText("#result-linear .facts")).toContain("= 0.0079 °C");
  });

  test("shows a record from a file read-only, with what its digests say", LONG, async () => {
    const id = await finished("harrowfen/cold-store-4");
    const { record } = await serving.runs.read(id);
    const text = JSON.stringify(record);
    await page.goto(serving.url);
    await page.setInputFiles("#study-file", {
      name: "filed.json",
      mimeType: "application/json",
      buffer: Buffer.from(text),
    });
    await page.locator("#verdict-sentence").waitFor();
    expect(await page.locator(".kind").innerText()).toBe("Record from the file filed.json, not a run kept here");
    expect(await page.locator("#seal").innerText()).toContain("it is as it was written");
    expect(await page.locator("#verdict-sentence").innerText()).toBe(record!.measurands["error"]!.validation.sentence);
    expect(serving.runs.list()).toHaveLength(1);
    const altered = text.replace('"seed":"', '"seed":"x');
    await page.setInputFiles("#study-file", {
      name: "altered.json",
      mimeType: "application/json",
      buffer: Buffer.from(altered),
    });
    await page.locator("#seal", { hasText: "altered" }).waitFor();
  });

  test("sets two runs side by side, chosen by the keyboard, at an address of their own", LONG, async () => {
    const first = await finished("harrowfen/cold-store-4");
    const cold = (await coldWith({ seed: "other" })) as { inputs: Record<string, object> };
    const second = await finished({
      ...cold,
      inputs: { ...cold.inputs, bathAxial: { distribution: "rectangular", estimate: 0, halfWidth: 0.02 } },
    });
    await page.goto(`${serving.url}#runs`);
    await page.locator(`#pick-${first}`).waitFor();
    await tabTo(`pick-${second}`);
    await page.keyboard.press("Space");
    await page.getByText("choose one more to compare the two").waitFor();
    await tabTo(`pick-${first}`);
    await page.keyboard.press("Space");
    await page.locator("#compare").waitFor();
    await page.keyboard.press("Shift+Tab");
    for (let i = 0; i < 20 && (await focused()) !== "compare"; i += 1) await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Enter");
    await page.locator(".overlay svg").waitFor();
    expect(new URL(page.url()).hash).toBe(`#compare=${second}&with=${first}`);
    // The older run stands first, whichever was chosen first.
    expect(await page.locator("#to-run-0").getAttribute("href")).toBe(`#run=${first}`);
    expect(await focused()).toBe("sheet-title");
    await page.reload();
    await page.locator(".overlay svg").waitFor();
    const differing = page.locator(".pairs.inputs tr[data-standing=differs]");
    expect(await differing.count()).toBe(1);
    expect((await differing.innerText()).replace(/\s+/g, " ")).toContain("half-width 0.02");
    // Only what differs is shown, until the rest is asked for.
    expect(await page.locator(".pairs.inputs tbody tr:visible").count()).toBe(1);
    await page.locator(".pairs.inputs strong", { hasText: "half-width 0.02" }).waitFor();
    await page.locator("#only-differing").uncheck();
    expect(await page.locator(".pairs.inputs tbody tr:visible").count()).toBeGreaterThan(5);
    const { record } = await serving.runs.read(second);
    const { histogram, trials } = record!.measurands["error"]!.monteCarlo;
    // Filled and open outline have a step for every bin of their histogram.
    const steps = (await page.locator(".overlay .trials-area").getAttribute("d"))!.match(/H/g)!.length;
    expect(steps).toBeLessThanOrEqual(histogram.counts.length);
    expect(steps).toBeGreaterThan(20);
    expect(trials).toBe(20_000);
    await page.goto(`${serving.url}#compare=${second}&with=gone`);
    await page.locator("#trouble", { hasText: "There is no run gone" }).waitFor();
  });

  test("takes two choices made before the page is drawn again", LONG, async () => {
    const ids = [await finished("published/additive-normal"), await finished("harrowfen/cold-store-4")];
    await page.goto(`${serving.url}#runs`);
    await page.locator(`#pick-${ids[1]}`).waitFor();
    await page.evaluate((picked) => {
      for (const id of picked) document.getElementById(`pick-${id}`)!.click();
    }, ids);
    await page.locator("#compare").waitFor();
  });

  test("a run that goes on when the server stops goes on with the next, before the reader's eyes", LONG, async () => {
    const kept = await finished("published/additive-normal");
    await page.goto(serving.url);
    await page.setInputFiles("#study-file", {
      name: "long.json",
      mimeType: "",
      buffer: Buffer.from(JSON.stringify(await coldWith({ trials: 20_000_000 }))),
    });
    await page.locator("#run").click();
    await page.locator("progress").waitFor();
    await page.locator(".stamp").waitFor();
    const port = Number(new URL(serving.url).port);
    await serving.close();
    await page.locator(".run-strip", { hasText: "connection to the server is lost" }).waitFor();
    const [{ trials }] = openStore({ folder })
      .unfinished()
      .map(({ head }) => head) as [RunHead];
    expect(trials).toBeGreaterThan(0);
    serving = await start(port);
    await page.locator(".run-strip", { hasNotText: "is lost", hasText: "trials so far" }).waitFor();
    expect(serving.runs.list().map(({ state }) => state)).toEqual(["running", "finished"]);
    expect(serving.runs.list()[0]!.trials).toBeGreaterThanOrEqual(trials);
    await page.locator("#cancel").click();
    await page.locator(".run-strip", { hasText: "Cancelled after" }).waitFor();
    await page.goto(`${serving.url}#run=${kept}`);
    await page.locator("#verdict-sentence").waitFor();
  });

  test("passes the accessibility rules in both themes, and has no sideways scroll at 360 pixels", LONG, async () => {
    const [first, second] = [await finished("harrowfen/cold-store-4"), await finished("verdicts/another-factor")];
    const views: readonly (readonly [string, () => Promise<void>])[] = [
      ["#runs", async () => page.locator(`#pick-${first}`).check()],
      [`#compare=${first}&with=${second}`, async () => page.locator(".overlay svg").waitFor()],
      [
        "#study=harrowfen/cold-store-4",
        async () => {
          await page.locator("#write-from").click();
          await page.locator("#cell-bathAxial-first").fill("wide");
          await page.locator("#open-bathAxial").click();
          for (const part of ["cautions", "correlations", "conformity", "sweep", "settings"])
            await page.locator(`#${part}-summary`).click();
          await page.locator("#add-correlation").click();
          await page.locator("#add-sweep").click();
          await page.locator("#add-change-0").click();
          await page.locator("#cell-bathAxial-first-problem", { hasText: "wide" }).waitFor();
        },
      ],
      [
        "#study=published/end-gauge",
        async () => {
          await page.setInputFiles("#study-file", example("survey/budget-72.csv"));
          await page.locator("#import-result").waitFor();
        },
      ],
    ];
    for (const [hash, prepare] of views) {
      await page.goto("about:blank");
      await page.goto(`${serving.url}${hash}`);
      await prepare();
      expect(await violationsInBothThemes(page), hash).toEqual([]);
      await page.setViewportSize({ width: 360, height: 800 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), hash).toBeLessThanOrEqual(360);
      await page.setViewportSize({ width: 1280, height: 900 });
    }
  });
});
