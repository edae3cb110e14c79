import { describe, expect, test } from "vitest";
import { xlsxSheets } from "../../../../server/intake/xlsx.ts";
import { fixed, percent } from "../../../../viewer/present/numbers.ts";
import { violationsInBothThemes } from "../axe.ts";
import { bytesOf, skipBrowser } from "../chromium.ts";
import { RECORDS } from "../fixed-records.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { differenceFrom } from "./baseline.ts";
import { LONG } from "../../../setup/long.ts";

const probe = RECORDS["harrowfen/pasteuriser-72"]!;
const mass = RECORDS["published/mass-calibration"]!;
const bent = RECORDS["verdicts/curvature"]!;
const range = RECORDS["harrowfen/range"]!;
const pair = RECORDS["published/polar-010-correlated"]!;

/** A sentence as the page's text has it: a subscript stands where the underscore of a symbol was. */
const inPrint = (sentence: string): string => sentence.replaceAll(/(?<=[\p{L}\d])_/gu, "");

describe.skipIf(skipBrowser)("the panels of a finished run", () => {
  const it = pageUnderTest();
  const open = async (study: string, reading = ""): Promise<void> => {
    const id = it.server.addFinished(study);
    await it.page.goto("about:blank");
    await it.page.goto(`${it.home}#run=${id}${reading}`);
    await it.page.locator("#panel-provenance").waitFor();
  };
  /** Waits until the page's typefaces are there, and no figure still comes from the server. */
  const settled = async (): Promise<void> => {
    await it.page.waitForLoadState("networkidle");
    await it.page.evaluate(() => document.fonts.ready);
  };
  const hash = (): Promise<string> => it.page.evaluate(() => location.hash);

  test("digits and unit of the result follow their switches, and the address keeps them", LONG, async () => {
    await open("harrowfen/pasteuriser-72");
    const { estimate, expandedUncertainty: U } = probe.measurands.error!.linear;
    await it.page.locator("label[for=digits-1]").click();
    expect(await it.plainText("#result-linear .result-line")).toBe(`e = (${fixed(estimate, 2)} ± ${fixed(U, 2)}) °C`);
    await it.page.locator("label[for=unit-mK]").click();
    expect(await it.plainText("#result-linear .result-line")).toBe(
      `e = (${fixed(estimate * 1000, -1)} ± ${fixed(U * 1000, -1)}) mK`,
    );
    await it.page.waitForFunction(() => location.hash.includes("unit=mK"));
    expect(await hash()).toContain("digits=1");
    const address = it.page.url();
    await it.page.goto("about:blank");
    await it.page.goto(address);
    expect(await it.plainText("#result-linear .result-line")).toContain("mK");
  });

  test("coverage probability asks the server, and says where the interval is from", LONG, async () => {
    await open("harrowfen/pasteuriser-72");
    await it.page.locator("#probability").focus();
    await it.page.keyboard.press("End");
    await it.page.locator("#at-other", { hasText: "from the whole sample" }).waitFor();
    expect(await it.text("#at-other")).toContain("At 99.9");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("probability");
    await it.page.locator("#own-values").click();
    await it.page.locator("#at-other").waitFor({ state: "detached" });
  });

  test("the three views and both tails are reached from the keyboard", LONG, async () => {
    await open("verdicts/curvature");
    await it.page.locator("#pictured-density").focus();
    await it.page.keyboard.press("ArrowRight");
    await it.page.locator("svg[aria-label^='Distribution function']").waitFor();
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("pictured-distribution");
    await it.page.keyboard.press("ArrowRight");
    await it.page.locator("svg[aria-label^='Quantiles']").waitFor();
    await it.page.locator("#bin-reader").focus();
    await it.page.keyboard.press("Home");
    expect(await it.text("#bin-readout")).toContain("the budget claims");
    await it.page.locator("#zoom-whole").focus();
    await it.page.keyboard.press("ArrowLeft");
    await it.page.waitForFunction(() => location.hash.includes("zoom=low"));
  });

  test("why they differ, conformity, range, indices and pairs show the record's own figures", async () => {
    await open("verdicts/curvature");
    const { explanation, sensitivity, secondOrder, linear } = bent.measurands.lethality!;
    expect(await it.text("#why-sentence")).toBe(inPrint(explanation!.sentence));
    expect(await it.text("#recommendation")).toContain(inPrint(explanation!.recommendation.sentence));
    expect(await it.text("#why-table")).toContain(`+${fixed(explanation!.parts.curvature.shapley[0], 2)}`);
    expect(await it.text("#second-order")).toContain(fixed(linear.estimate + secondOrder!.bias, 2));
    const reading = sensitivity!.factors.find(({ name }) => name === "reading")!;
    expect(await it.text("#sensitivity-table")).toContain(percent(reading.firstOrder!.value));
    await open("harrowfen/pasteuriser-72");
    expect(await it.text("#conformity-sentence")).toBe(probe.measurands.error!.conformity!.sentence);
    expect(await it.text("#decision")).toContain("Both methods: accepted");
    await open("harrowfen/range");
    const table = await it.text("#sweep-table");
    for (const { measurands } of range.sweep!.points)
      expect(table).toContain(fixed(measurands.error!.linear.estimate, 4));
    await open("published/polar-010-correlated");
    expect(await it.text("#correlation-monte-carlo")).toContain(fixed(pair.joint!.monteCarlo!.correlation[0]![1]!, 4));
    expect(await it.text("#joint-factors")).toContain(fixed(pair.joint!.rectangle!.factor, 3));
  });

  test("a row of the budget opens to what was stated and to output against input", LONG, async () => {
    await open("harrowfen/pasteuriser-72");
    await it.page.locator("#open-probeResistance").focus();
    await it.page.keyboard.press("Enter");
    expect(await it.page.evaluate(() => document.activeElement?.id)).toBe("open-probeResistance");
    expect(await it.page.locator("#behind-probeResistance .reading-dot").count()).toBe(
      (probe.study.inputs.probeResistance as { readonly values: readonly number[] }).values.length,
    );
    expect(await it.text("#behind-probeResistance")).toContain('"sensitivity": {}');
    await open("verdicts/curvature", "&open=reading");
    await it.page.locator("#behind-reading svg.conditional").waitFor();
  });

  test("an opened row gives a figure the unit that its distribution declares for it", async () => {
    const [first, second] = Object.keys(mass.inputs);
    await open("harrowfen/unitless-fields", `&open=${first}%20${second}`);
    await it.page.locator(`#behind-${first}`, { hasText: "0.5 °C" }).waitFor();
    const stated = async (input: string): Promise<string> =>
      (await it.text(`#behind-${input} .stated`)).replaceAll("\u00a0", " ");
    // A number of objects counted and a ratio of widths are of dimension one (JCGM 101, 6.4.11 and 6.4.4).
    expect(await stated(first!)).toMatch(/count\s*7\s*scale\s*0\.5 °C/);
    expect(await stated(second!)).toMatch(
      /estimate\s*20 °C\s*half-width\s*2 °C\s*width of the top over that of the base\s*0\.25(?! °C)/,
    );
  });

  test("what if: a change is previewed beside the study as stated, and kept as a run of its own", LONG, async () => {
    await open("harrowfen/pasteuriser-72");
    await it.page.locator("#try-open").click();
    await it.page.locator("#preview-mark").waitFor();
    await it.page.locator("#try-width-bathAxial").focus();
    await it.page.keyboard.type("×5");
    await it.page.keyboard.press("Enter");
    await it.page.locator("#preview-changes", { hasText: "half-width" }).waitFor();
    await it.page.locator("#keep:enabled").waitFor();
    await it.page.locator("tr.differs", { hasText: "Lower endpoint (Monte Carlo)" }).waitFor();
    expect(await it.text("#preview-mark")).toContain("Preview");
    const posted = it.page.waitForRequest((request) => request.method() === "POST");
    await it.page.locator("#keep").click();
    const { study } = (await posted).postDataJSON() as {
      study: { inputs: Record<string, { halfWidth?: number }>; notes: string };
    };
    expect(study.inputs.bathAxial!.halfWidth).toBeCloseTo(
      5 * (probe.study.inputs.bathAxial as { halfWidth: number }).halfWidth,
      10,
    );
    expect(study.notes).toMatch(/Changed: .*half-width .* → /);
  });

  test("pictures and tables can be taken away", LONG, async () => {
    await open("verdicts/curvature");
    await it.page.locator("#take-why-summary").click();
    const take = async (id: string): Promise<Buffer> => {
      const [download] = await Promise.all([it.page.waitForEvent("download"), it.page.locator(id).click()]);
      return bytesOf(download);
    };
    const svg = (await take("#take-why-svg-0")).toString("utf8");
    expect(svg).toContain('xmlns="http://www.w3.org/2000/svg"');
    expect(svg).not.toContain("class=");
    // Alone it tells what it shows, in which lines, of which study and record.
    for (const words of ["Why the two methods differ", "linear budget", "Monte Carlo trials", bent.study.title])
      expect(svg).toContain(words);
    // PNG's signature (ISO/IEC 15948, 5.2).
    expect([...(await take("#take-why-png-0")).subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    const csv = (await take("#take-why-csv-0")).toString("utf8");
    // Every digit that the record has.
    expect(csv).toContain(String(bent.measurands.lethality!.explanation!.difference[1]));
    const sheets = await xlsxSheets(await take("#take-why-xlsx-0"), "why.xlsx");
    expect(sheets.sheets.map(({ name }) => name)).toEqual(["Why the two methods differ", "About"]);
    expect(sheets.sheets[0]!.rows.flatMap(({ cells }) => cells)).toContain(
      bent.measurands.lethality!.explanation!.difference[1],
    );
    expect(sheets.sheets[1]!.rows[0]!.cells).toEqual(["Study", bent.study.title]);
  });

  test("the points of a picture are saved with every digit, under the study's name", LONG, async () => {
    await open("verdicts/curvature");
    const { monteCarlo } = bent.measurands.lethality!;
    const saved = async (id: string): Promise<{ readonly name: string; readonly rows: number[][] }> => {
      await it.page.locator(`#${id}-summary`).click();
      const [download] = await Promise.all([it.page.waitForEvent("download"), it.page.locator(`#${id}-csv`).click()]);
      const [, ...lines] = (await bytesOf(download)).toString("utf8").trimEnd().split("\r\n");
      return { name: download.suggestedFilename(), rows: lines.map((line) => line.split(",").map(Number)) };
    };
    const bins = await saved("bins");
    const { low, width, counts } = monteCarlo.histogram;
    expect(bins.rows.map(([from, to, count]) => [from, to, count])).toEqual(
      counts.map((count, i) => [low + i * width, low + (i + 1) * width, count]),
    );
    expect(bins.name).toMatch(/^refused-for-curvature-[a-z-]+-numbers-what-the-trials-show-[a-z-]*\.csv$/);
    const course = await saved("course");
    expect(course.rows.map(([trials, average]) => [trials, average])).toEqual(
      monteCarlo.settling.points.map(({ trials, averages }) => [trials, averages.estimate]),
    );
    await open("verdicts/curvature", "&view=distribution");
    expect((await saved("points")).rows).toEqual(monteCarlo.distributionFunction.map((point) => [...point]));
  });

  test.each([
    ["verdicts/curvature", "&open=reading&view=quantiles&tries=reading:stated:2"],
    ["harrowfen/pasteuriser-72", "&open=probeResistance&view=distribution&p=0.99"],
    ["harrowfen/range", ""],
    ["published/polar-010-correlated", ""],
    ["published/thermometer-line", "&curve=deviation"],
  ])("every panel of %s passes the accessibility rules in light and dark", LONG, async (study, reading) => {
    await open(study, reading);
    if (reading.includes("tries")) await it.page.locator("#preview-table").waitFor();
    await it.page.locator("#take-distributions-summary").click();
    expect(await violationsInBothThemes(it.page)).toEqual([]);
  });

  test("nothing scrolls sideways at 360 pixels with rows open and a preview drawn", LONG, async () => {
    await it.page.setViewportSize({ width: 360, height: 800 });
    await open("verdicts/curvature", "&open=reading&tries=reading:stated:2&view=quantiles");
    await it.page.locator("#preview-table").waitFor();
    expect(await it.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });

  test("every panel looks as its baseline", LONG, async () => {
    await it.page.setViewportSize({ width: 900, height: 900 });
    await it.page.emulateMedia({ colorScheme: "light" });
    const panels = [
      ["verdicts/curvature", "&open=reading", ["verdict", "distributions", "why", "budget", "sensitivity", "figures"]],
      [
        "harrowfen/pasteuriser-72",
        "&view=distribution&zoom=low",
        ["distributions", "conformity", "settling", "remarks", "cautions"],
      ],
      ["harrowfen/range", "&view=quantiles", ["distributions", "sweep", "what-if"]],
      ["published/polar-010-correlated", "", ["joint"]],
      ["published/thermometer-line", "", ["curve"]],
      ["harrowfen/steep-curve", "", ["curve"]],
    ] as const;
    const differing: string[] = [];
    for (const [study, reading, ids] of panels) {
      await open(study, reading);
      for (const id of ids) {
        const name = `${study.split("/")[1]}-${id}`;
        await settled();
        let share = 1;
        const compare = async (): Promise<number> =>
          (share = await differenceFrom(it.page, name, it.page.locator(`#panel-${id}`)));
        // One pixel in two hundred: smoothing of glyphs and lines, never a moved word or a missing mark. What has just
        // come from the server or from a worker is drawn in a frame to come.
        await expect
          .poll(compare)
          .toBeLessThanOrEqual(0.005)
          .catch(() => differing.push(`${name}: ${percent(share)}`));
      }
    }
    expect(differing).toEqual([]);
  });
});
