import { describe, expect, test } from "vitest";
import { fixed } from "../../../viewer/present/numbers.ts";
import { skipBrowser } from "./chromium.ts";
import { RECORDS } from "./fixed-records.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { LONG } from "../../setup/long.ts";

const cold = RECORDS["harrowfen/cold-store-4"]!;
const mass = RECORDS["published/mass-calibration"]!;

describe.skipIf(skipBrowser)("working with the page", () => {
  const it = pageUnderTest();
  const openStudy = async (id: string): Promise<void> => {
    await it.page.goto(it.home);
    await it.page.getByRole("link", { name: RECORDS[id]!.study.title, exact: true }).click();
    await it.page.locator("#run").waitFor();
  };

  test("says what it is and what to do before anything is chosen", async () => {
    await it.page.goto(it.home);
    expect((await it.text(".empty p")).match(/\.(?=\s|$)/g)).toHaveLength(2);
    expect(await it.page.locator(".starts strong").allInnerTexts()).toEqual([
      "Import a budget table",
      "Fill in a budget",
      "Evaluate a bath survey",
    ]);
    await it.page.getByRole("link", { name: cold.study.title, exact: true }).waitFor();
  });

  test("runs a chosen study and shows the record's own figures", async () => {
    await openStudy("harrowfen/cold-store-4");
    expect(new URL(it.page.url()).hash).toBe("#study=harrowfen/cold-store-4");
    await it.page.locator("#run").click();
    await it.page.locator("#cancel").waitFor();
    it.server.finish();
    await it.page.locator("#verdict-sentence").waitFor();
    const { linear, monteCarlo, validation } = cold.measurands.error!;
    expect(await it.text("#verdict-sentence")).toBe(validation.sentence);
    expect(await it.text(".stamp")).toBe("Validated");
    // y = −0.009 092 °C and U = 0.009 913 °C to two digits of U (GUM 7.2.6).
    expect(await it.plainText("#result-linear .result-line")).toBe("e = (−0.0091 ± 0.0099) °C");
    expect(await it.plainText("#result-linear .beside")).toBe("that is (−9.1 ± 9.9) mK");
    expect(await it.plainText("#result-linear .facts")).toContain("p = 95.45 %");
    const table = await it.plainText(".side-by-side");
    for (const value of [
      linear.estimate,
      linear.standardUncertainty,
      ...linear.interval,
      ...monteCarlo.intervals.symmetric,
    ]) {
      // One place past that of δ = 0.0005 °C, one significant digit of u (JCGM 101, 7.9.2).
      expect(table).toContain(fixed(value, 5));
    }
    const shares = await it.page.locator(".budget tbody .share .value").allInnerTexts();
    expect(shares).toHaveLength(Object.keys(cold.inputs).length);
    expect(await it.text(".command")).toBe(
      "npx trialband run examples/harrowfen/cold-store-4.json --seed harrowfen-cold-store-4 --trials 70000",
    );
    await it.page.locator("#panel-cautions").getByText("Hot fluid burns").waitFor();
    await it.heard("Finished. The linear budget is validated");
    const address = it.page.url();
    await it.page.goto("about:blank");
    await it.page.goto(address);
    expect(await it.text("#verdict-sentence")).toBe(validation.sentence);
  });

  test("shows a run as it goes, and cancels it", async () => {
    await openStudy("published/mass-calibration");
    await it.page.locator("#run").click();
    await it.heard("waits for its turn");
    const cancelAt = async (): Promise<number> => (await it.page.locator("#cancel").boundingBox())!.y;
    const before = await cancelAt();
    it.server.advance(10);
    await it.page.locator(".progress-words", { hasText: /100.000 trials so far of 1.000.000/ }).waitFor();
    // What the figures bring stands below it: a press meets the button.
    await it.page.locator("#panel-verdict").waitFor();
    expect(await cancelAt()).toBe(before);
    expect(await it.text(".stamp")).toBe("Not validated, so far");
    expect(await it.page.locator(".standing").count()).toBe(0);
    const narrow = await it.page.locator(".panel-distributions .trials-area").last().getAttribute("d");
    it.server.advance(20);
    await it.heard("25 % of the trials");
    expect(await it.page.locator("progress").evaluate((bar: HTMLProgressElement) => bar.value)).toBeCloseTo(0.3, 12);
    expect(await it.page.locator(".panel-distributions .trials-area").last().getAttribute("d")).not.toBe(narrow);
    await it.page.locator("#cancel").click();
    await it.page.locator(".run-strip", { hasText: "Cancelled after" }).waitFor();
    expect(it.server.newestState).toBe("cancelled");
    await it.page.locator(".stamp", { hasText: "No verdict" }).waitFor();
    expect(await it.page.locator("#panel-why, #panel-figures").count()).toBe(0);
    await it.heard(/cancelled after 300.000 trials/);
  });

  test("puts the budget in another order, and opens a row, by moving what is there", LONG, async () => {
    const id = it.server.addFinished("harrowfen/cold-store-4");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#sort-estimate").waitFor();
    await it.page.evaluate(() =>
      document.querySelectorAll<HTMLElement>(".budget tbody tr").forEach((row) => (row.dataset.mark = "same")),
    );
    const order = (): Promise<(string | undefined)[]> =>
      it.page
        .locator(".budget tbody tr[data-input]")
        .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.input));
    const marked = (): Promise<number> => it.page.locator(".budget tbody tr[data-mark]").count();
    const inputs = Object.values(cold.measurands.error!.linear.contributions);
    await it.page.locator("#sort-estimate").focus();
    await it.page.keyboard.press("Enter");
    expect(await order()).toEqual(inputs.toSorted((a, b) => b.estimate - a.estimate).map(({ input }) => input));
    await it.page.keyboard.press("Enter");
    expect((await order())[0]).toBe(inputs.toSorted((a, b) => a.estimate - b.estimate)[0]!.input);
    expect(await it.page.locator("[aria-sort=ascending]").innerText()).toContain("Estimate");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("sort-estimate");
    expect(await marked()).toBe(inputs.length);
    await it.page.locator("#open-bathAxial").click();
    await it.page.locator("#behind-bathAxial").waitFor();
    expect(await it.page.locator("tr[data-input=bathAxial] + #behind-bathAxial").count()).toBe(1);
    // Only the row that was opened is another.
    expect(await marked()).toBe(inputs.length - 1);
    await it.page.locator("#sort-share").click();
    expect(await it.page.locator("tr[data-input=bathAxial] + #behind-bathAxial").count()).toBe(1);
    await it.page.locator("#open-bathAxial").click();
    await it.page.locator("#behind-bathAxial").waitFor({ state: "detached" });
    expect(await order()).toHaveLength(inputs.length);
  });

  test("takes a run up again after the server was away", LONG, async () => {
    await openStudy("published/mass-calibration");
    await it.page.locator("#run").click();
    await it.page.locator("#cancel").waitFor();
    it.server.advance(10);
    await it.page.locator(".progress-words", { hasText: "100" }).waitFor();
    it.server.goDown();
    await it.page.locator(".cut").waitFor();
    await it.heard("connection to the server is lost");
    it.server.comeBack();
    await it.page.locator(".cut").waitFor({ state: "detached" });
    it.server.advance(40);
    await it.page.locator(".progress-words", { hasText: /500.000 trials/ }).waitFor();
    it.server.finish();
    await it.page.locator("#run-again").waitFor();
    expect(await it.text(".stamp")).toBe("Not validated");
  });

  test("tells why a run failed", async () => {
    await openStudy("published/mass-calibration");
    await it.page.locator("#run").click();
    await it.page.locator("#cancel").waitFor();
    it.server.fail({
      code: "model-not-finite",
      message: "The model gave no finite number.",
      problems: [{ place: "inputs.airDensity", value: "-3", accepted: "a density above 0" }],
    });
    await it.page.locator(".run-strip", { hasText: "The model gave no finite number." }).waitFor();
    expect(await it.plainText(".problems")).toBe("inputs.airDensity got -3 expected a density above 0");
  });

  test("says on the sheet and in the list that a run could not be kept", LONG, async () => {
    await openStudy("published/mass-calibration");
    await it.page.locator("#run").click();
    await it.page.locator("#cancel").waitFor();
    it.server.finish("The disk is full.");
    await it.page.locator("#not-kept", { hasText: "This run is not kept. The disk is full." }).waitFor();
    await it.page.locator("#verdict-sentence").waitFor();
    await it.page.locator("#all-runs").click();
    await it.page.locator(".listing .remark", { hasText: "Not kept. The disk is full." }).waitFor();
  });

  test("names what is wrong with a file and loses nothing", LONG, async () => {
    const id = it.server.addFinished("harrowfen/cold-store-4");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#verdict-sentence").waitFor();
    await it.page.setInputFiles("#study-file", {
      name: "draft.json",
      mimeType: "application/json",
      buffer: Buffer.from('{\n  "model": bath\n}'),
    });
    await it.page.locator("#trouble").waitFor();
    expect(await it.plainText(".problems")).toContain("not JSON from line 2, column 12");
    expect(await it.text("#verdict-sentence")).toBe(cold.measurands.error!.validation.sentence);

    const { immersion: _left, ...inputs } = cold.study.inputs;
    await it.page.setInputFiles("#study-file", {
      name: "short.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify({ ...cold.study, inputs })),
    });
    await it.page.locator(".kind", { hasText: "short.json" }).waitFor();
    await it.page.locator("#run").click();
    await it.page.locator("#trouble").waitFor();
    expect(await it.plainText(".problems")).toBe(
      "inputs.immersion got nothing expected a distribution for δt_imm, heat conducted along the probe's stem, in °C",
    );
    expect(await it.text("h1")).toBe(cold.study.title);
    await it.page.locator("#dismiss").click();
    await it.page.locator("#trouble").waitFor({ state: "detached" });
    await it.page.goBack();
    await it.page.locator("#verdict-sentence").waitFor();
  });

  test("opens a study file that is dropped on it", async () => {
    await it.page.goto(it.home);
    await it.page.getByRole("link", { name: cold.study.title, exact: true }).waitFor();
    await it.page.evaluate((study) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([study], "dropped.json", { type: "application/json" }));
      dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    }, JSON.stringify(cold.study));
    await it.page.locator(".kind", { hasText: "dropped.json" }).waitFor();
    expect(await it.text("h1")).toBe(cold.study.title);
  });

  test("tells of an unknown run and of a server that is away", async () => {
    await it.page.goto(`${it.home}#run=gone`);
    await it.page.locator("#trouble", { hasText: "There is no run gone." }).waitFor();
    it.server.goDown();
    await it.page.evaluate(() => (location.hash = "#study=harrowfen/cold-store-4"));
    await it.page.locator("#trouble", { hasText: "does not answer" }).waitFor();
  });

  test("starts the keyboard at the link that skips to the sheet", async () => {
    const id = it.server.addFinished("harrowfen/cold-store-4");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#run-again").waitFor();
    await it.page.keyboard.press("Tab");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("skip");
  });

  test("can be worked from the keyboard alone", LONG, async () => {
    await it.page.goto(it.home);
    const link = it.page.getByRole("link", { name: mass.study.title, exact: true });
    await link.waitFor();
    for (let i = 0; i < 80 && !(await link.evaluate((node) => node === document.activeElement)); i += 1)
      await it.page.keyboard.press("Tab");
    await it.page.keyboard.press("Enter");
    await it.page.locator("#run").waitFor();
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("sheet-title");
    await it.page.keyboard.press("Control+Enter");
    await it.page.locator("#cancel").waitFor();
    it.server.finish();
    await it.page.locator("#run-again").waitFor();

    const reader = it.page.locator("#bin-reader");
    for (let i = 0; i < 80 && !(await reader.evaluate((node) => node === document.activeElement)); i += 1)
      await it.page.keyboard.press("Tab");
    await it.page.keyboard.press("Home");
    await it.page.keyboard.press("ArrowRight");
    expect(await reader.getAttribute("aria-valuenow")).toBe("2");
    const { counts, low, width } = mass.measurands.deviation!.monteCarlo.histogram;
    expect(await it.text("#bin-readout")).toContain(`${counts[1]} trials`);
    expect(await it.text("#bin-readout")).toContain(fixed(low + width, 4));
    expect(await it.page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle)).toBe("solid");

    await it.page.locator("#sort-estimate").focus();
    await it.page.keyboard.press("Enter");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("sort-estimate");
    const estimates = await it.page
      .locator(".budget tbody tr")
      .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.input!));
    const byEstimate = Object.keys(mass.inputs).sort((a, b) => mass.inputs[b]!.estimate - mass.inputs[a]!.estimate);
    expect(estimates).toEqual(byEstimate);
    await it.page.keyboard.press("Enter");
    expect(await it.page.locator("th.of-estimate").getAttribute("aria-sort")).toBe("ascending");
  });

  test("lets the reader choose between several measurands", LONG, async () => {
    const id = it.server.addFinished("harrowfen/two-measurands");
    await it.page.goto(`${it.home}#run=${id}`);
    await it.page.locator("#measurand-second").click();
    await it.page.locator("#result-linear", { hasText: "2.23" }).waitFor();
    expect(new URL(it.page.url()).hash).toBe(`#run=${id}&measurand=second`);
    expect(await it.page.locator("#measurand-second").getAttribute("aria-current")).toBe("true");
    expect(await it.plainText(".correlation")).toContain("r = 0.50 34.5 %");
  });

  test("a missing source is marked", LONG, async () => {
    const record = RECORDS["published/additive-one-dominant"]!;
    const id = it.server.addFinished("published/additive-one-dominant");
    await it.page.route("**/api/runs/*", async (route) => {
      const answer = await route.fetch();
      const run = (await answer.json()) as { record: typeof record };
      const inputs = Object.fromEntries(
        Object.entries(run.record.inputs).map(([name, input]) => [
          name,
          name === "x2" ? { ...input, source: null } : input,
        ]),
      );
      await route.fulfill({ response: answer, json: { ...run, record: { ...run.record, inputs } } });
    });
    await it.page.goto(`${it.home}#run=${id}`);
    expect(await it.text("[data-input=x2] .missing")).toBe("no source stated");
    expect(await it.page.locator("[data-input] .missing").count()).toBe(1);
  });
});
