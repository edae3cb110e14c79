// The panel of the linearised model, and what "what if" computes without trials.
import { describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../../engine/index.ts";
import { linearisedRecord } from "../../../../engine/internal.ts";
import { numericalTolerance } from "../../../../engine/validation/numerical-tolerance.ts";
import { bathComparison } from "../../../../models/index.ts";
import { changedStudy, readChange } from "../../../../viewer/page/what-if/study-change.ts";
import { violationsInBothThemes } from "../axe.ts";
import { skipBrowser } from "../chromium.ts";
import { RECORDS } from "../fixed-records.ts";
import { pageUnderTest } from "../page-under-test.ts";
import { differenceFrom } from "./baseline.ts";
import { LONG } from "../../../setup/long.ts";

const STUDY = "verdicts/another-factor";
const record = RECORDS[STUDY]!;
const measurand = record.measurands["error"]!;
/** The input whose distribution the advice names. */
const TRIED = "bathAxial:normal:1";

/** A figure of the page: a minus sign and digits that may be grouped by thin spaces. */
const figureOf = (text: string): number => Number(text.replaceAll(/\s/g, "").replace("\u2212", "-"));
/** Half a unit of the last place that a figure is printed with. */
const halfPlace = (text: string): number => 0.5 * 10 ** -(text.trim().split(".")[1]?.length ?? 0);

describe.skipIf(skipBrowser)("the linearised model with the stated distributions", () => {
  const it = pageUnderTest();
  const open = async (study: string, reading = ""): Promise<void> => {
    const id = it.server.addFinished(study);
    await it.page.goto(`${it.home}#run=${id}${reading}`);
    await it.page.locator("#panel-provenance").waitFor();
  };
  /** The cells of each row of a table, without its heads. */
  const cellsOf = (id: string): Promise<string[][]> =>
    it.page
      .locator(`${id} tbody tr`)
      .evaluateAll((rows) =>
        rows
          .map((row) => [...row.querySelectorAll("td")].map((cell) => cell.textContent ?? ""))
          .filter((row) => row.length > 0),
      );
  const expectFigures = (cells: readonly string[], values: readonly number[]): void => {
    expect(cells).toHaveLength(values.length);
    // Half a unit of the last place, and what a fixture's eight digits may be off.
    cells.forEach((cell, i) =>
      expect(Math.abs(figureOf(cell) - values[i]!), cell).toBeLessThanOrEqual(1.001 * halfPlace(cell)),
    );
  };

  test("its panel has the record's sentence, figures and three distributions", LONG, async () => {
    await open(STUDY);
    const { linear, linearised: found, monteCarlo, validation } = measurand;
    if (found?.kind !== "distribution") throw new Error("got no linearised distribution; expected one");
    const kind = record.coverage.interval;
    expect(await it.plainText("#linearised-sentence")).toBe(found.sentence.replaceAll(/(?<=[\p{L}\d])_/gu, ""));
    const rows = await cellsOf("#linearised-table");
    const expected = [
      [linear.estimate, found.estimate, monteCarlo.estimate!],
      [linear.standardUncertainty, found.standardUncertainty, monteCarlo.standardUncertainty!],
      ...([0, 1] as const).map((end) => [
        linear.interval[end],
        found.intervals[kind][end],
        monteCarlo.intervals[kind][end],
      ]),
      [linear.coverageFactor, found.coverageFactor!, validation.coverageFactorNeeded!],
    ];
    expect(rows).toHaveLength(expected.length);
    rows.forEach((cells, i) => expectFigures(cells, expected[i]!));
    const picture = it.page.locator("#panel-linearised .three-densities svg[role=img]");
    const name = (await picture.getAttribute("aria-label"))!;
    // The picture's own name tells its three intervals: the ends as the table prints them.
    for (const end of [2, 3]) for (const cell of rows[end]!) expect(name).toContain(cell);
  });

  test("the verdict's sentence keeps its width beside what paired trials say", LONG, async () => {
    await open(STUDY);
    const width = async (id: string): Promise<number> => (await it.page.locator(id).boundingBox())!.width;
    expect(await it.plainText("#paired-sentence")).toBe(measurand.paired!.sentence);
    expect(await width("#verdict-sentence")).toBeGreaterThan((await width("#panel-verdict")) / 2);
  });

  test("a record without it has no such panel", LONG, async () => {
    await open("published/mass-calibration");
    expect(await it.page.locator("#panel-linearised").count()).toBe(0);
  });

  test(
    "what if: the table is what the engine computes for the changed study, and the trials join the picture",
    LONG,
    async () => {
      await open(STUDY, `&tries=${TRIED}`);
      await it.page.locator("#preview-table").waitFor();
      const change = readChange(TRIED, undefined, record);
      const [stated, changed] = [record.study, changedStudy(record, change)].map((study) => {
        const {
          linear,
          source,
          correlations,
          coverage,
          study: read,
        } = prepare(bathComparison as never, readStudy(study));
        const budget = linear["error"]!;
        const tolerance = numericalTolerance(budget.standardUncertainty, read.significantDigits);
        const { probability, interval } = coverage;
        const found = linearisedRecord(budget, source.groups, correlations, { probability, tolerance }, false);
        if (found.kind !== "distribution") throw new Error("got no linearised distribution; expected one");
        return [
          budget.estimate,
          budget.standardUncertainty,
          budget.expandedUncertainty,
          ...budget.interval,
          ...found.intervals[interval],
          budget.coverageFactor,
          found.coverageFactor!,
        ];
      }) as [number[], number[]];
      // Figures without a unit stand below a head of their own; the last row is the verdict of the preview.
      const rows = (await cellsOf("#what-if-computed-table")).filter((cells) => cells.length > 0);
      expect(rows).toHaveLength(stated.length + 1);
      rows.slice(0, -1).forEach((cells, i) => expectFigures(cells, [stated[i]!, changed[i]!]));
      expect(rows.at(-1)![0]).toMatch(/not validated$/);
      expect(rows.at(-1)![1]).toMatch(/validated|decided/);
      // A normal in place of the rectangular that dominates widens what covers 95 %.
      expect(changed[8]! - stated[8]!).toBeGreaterThan(0.05);
      const name = await it.page.locator("#what-if-computed .three-densities svg[role=img]").getAttribute("aria-label");
      for (const end of [3, 4, 5, 6]) expect(name).toContain(rows[end]![1]);
    },
  );

  test("both pass the accessibility rules in light and dark", LONG, async () => {
    await open(STUDY, `&tries=${TRIED}`);
    await it.page.locator("#preview-table").waitFor();
    expect(await violationsInBothThemes(it.page)).toEqual([]);
  });

  test("both look as their baselines", LONG, async () => {
    await it.page.setViewportSize({ width: 900, height: 900 });
    await it.page.emulateMedia({ colorScheme: "light" });
    await open(STUDY, `&tries=${TRIED}`);
    await it.page.locator("#preview-mark", { hasText: "200 000 trials" }).waitFor();
    await it.page.waitForLoadState("networkidle");
    await it.page.evaluate(() => document.fonts.ready);
    // Where a panel begins, to a part of a pixel, is up to those above it: they make room here.
    await it.page
      .locator("#sheet .panel:not(#panel-linearised, #panel-what-if)")
      .evaluateAll((others) => others.forEach((other) => ((other as HTMLElement).hidden = true)));
    for (const [name, selector] of [
      ["another-factor-linearised", "#panel-linearised"],
      ["another-factor-what-if-computed", "#what-if-computed"],
    ] as const) {
      // As the panels' baselines: one pixel in two hundred.
      await expect
        .poll(async () => differenceFrom(it.page, name, it.page.locator(selector)))
        .toBeLessThanOrEqual(0.005);
    }
  });
});
