import { english } from "../../../viewer/present/numbers.ts";
// One record in three media and two languages: the same figures, to the same places, in all of them.
import pico from "picocolors";
import { describe, expect, test } from "vitest";
import { budgetRows } from "../../../viewer/present/budget.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { fixed, freedom, numbersWith, withUnit } from "../../../viewer/present/numbers.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { ENGLISH, type Speech } from "../../../viewer/present/statement.ts";
import { comparisonTable } from "../../../viewer/present/tables/comparison.ts";
import { conformityTable } from "../../../viewer/present/tables/conformity.ts";
import { curveTable } from "../../../viewer/present/tables/curve.ts";
import { correlationTable, factorTable } from "../../../viewer/present/tables/joint.ts";
import { leftOutTable } from "../../../viewer/present/tables/left-out.ts";
import { resultTable } from "../../../viewer/present/tables/results.ts";
import { secondOrderTable } from "../../../viewer/present/tables/second-order.ts";
import { sensitivityTable } from "../../../viewer/present/tables/sensitivity.ts";
import { sweepTable, sweptResults } from "../../../viewer/present/tables/sweep.ts";
import { textOfCell, type Table } from "../../../viewer/present/tables/table.ts";
import { reportHtml } from "../../../viewer/report/report-html.ts";
import { summaryOf } from "../../../viewer/terminal/summary.ts";
import type { RunRecord } from "../../../engine/index.ts";
import { skipBrowser } from "../page/chromium.ts";
import { RECORDS } from "../page/fixed-records.ts";
import { pageUnderTest } from "../page/page-under-test.ts";
import { textOf } from "../report/report-records.ts";
import { LONG } from "../../setup/long.ts";

/** One with a requirement, one not validated, one with correlated inputs, one of a calibration curve, one over a range. */
const STUDIES = [
  "harrowfen/pasteuriser-72",
  "verdicts/curvature",
  "published/polar-010-correlated",
  "published/thermometer-line",
  "harrowfen/range",
] as const;

const reportOf = (record: RunRecord, language: "en" | "de"): string =>
  reportHtml(record, { messages: languages[language], command: "npx trialband verify record.json", digest: "0" });
const terminalOf = (record: RunRecord): string => summaryOf(record, null, pico.createColors(false), 200);
/** Spaces of every kind as one, so that a line break of a medium is none of its figures. */
const flat = (text: string): string => text.replace(/[\s\u202f]+/g, " ");
/** German figures with the decimal sign of English ones. */
const inEnglish = (text: string): string => text.replace(/(?<=\d),(?=\d)/g, ".");

/** What all three media print of a measurand: the result, both intervals, the comparison, and every row of the budget. */
function figuresOf(record: RunRecord, name: string): readonly string[] {
  const measurand = readable(record.measurands[name]!);
  const { linear, monteCarlo, validation, places, reported } = measurand;
  const at = (value: number): string => fixed(value, places);
  return [
    fixed(linear.estimate, reported),
    fixed(linear.expandedUncertainty, reported),
    fixed(linear.coverageFactor, 2),
    freedom(linear.effectiveDegreesOfFreedom),
    ...[...linear.interval, ...monteCarlo.intervals[record.coverage.interval]].map(at),
    at(linear.standardUncertainty),
    at(validation.dLow),
    at(validation.dHigh),
    ...budgetRows(record, measurand, english).flatMap((row) => [
      row.estimate.digits,
      row.uncertainty.digits,
      row.freedom,
      row.sensitivity.digits,
      row.contribution,
      row.share,
    ]),
  ].map(flat);
}

const SPEECH: Readonly<Record<"en" | "de", Speech>> = {
  en: ENGLISH,
  de: {
    messages: languages.de,
    numbers: numbersWith(languages.de.decimalSign, languages.de.separator, languages.de.to),
    translate: (text) => text,
  },
};

/** Every table of a record that all three media show. */
function tablesOf(record: RunRecord, speech: Speech): readonly Table[] {
  const { joint, calibrationCurve = null, sweep } = record;
  const own = Object.entries(record.measurands).flatMap(([name, of]) => {
    const measurand = readable(of);
    const { conformity, sensitivity } = measurand;
    const secondOrder = secondOrderTable(measurand, speech);
    return [
      resultTable(measurand, record, speech),
      comparisonTable(measurand, speech),
      ...(secondOrder === null ? [] : [secondOrder]),
      ...(conformity === null ? [] : [conformityTable(measurand, conformity, speech)]),
      ...(sensitivity === null ? [] : [sensitivityTable(measurand, sensitivity, record, speech)]),
      ...(sweep === null ? [] : [sweepTable(record, name, sweptResults(record, name), speech)]),
    ];
  });
  const leftOut = leftOutTable(record, speech);
  return [
    ...own,
    ...(joint === null
      ? []
      : [correlationTable, factorTable].map((tableOf) => tableOf(joint, record.measurands, speech))),
    ...(calibrationCurve === null ? [] : [curveTable(calibrationCurve, speech)]),
    ...(leftOut === null ? [] : [leftOut]),
  ];
}

/** The cells of a table: all of them, or those that a terminal has room for. */
const cellsOf = ({ columns, rows, below, total = [] }: Table, narrow = false): readonly string[] =>
  [...rows, ...(below?.rows ?? []), ...total]
    .filter(({ fine }) => !(narrow && fine === true))
    .flatMap(({ cells }) => cells.filter((_, j) => !(narrow && columns[j + 1]!.fine === true)))
    .map(textOfCell);

describe.each(STUDIES)("%s", (study) => {
  const record = RECORDS[study]!;

  test("terminal and English report print the same figures", () => {
    const [terminal, report] = [flat(terminalOf(record)), flat(textOf(reportOf(record, "en")))];
    for (const name of Object.keys(record.measurands)) {
      const figures = figuresOf(record, name);
      expect(figures.filter((figure) => !terminal.includes(figure))).toEqual([]);
      expect(figures.filter((figure) => !report.includes(figure))).toEqual([]);
    }
  });

  test("rows of results, comparison, conformity, range, pairs and curve are alike in terminal and report", () => {
    const terminal = flat(terminalOf(record));
    for (const table of tablesOf(record, SPEECH.en)) {
      const cells = cellsOf(table, true).map(flat);
      expect(cells.length).toBeGreaterThan(0);
      expect(cells.filter((cell) => !terminal.includes(cell))).toEqual([]);
    }
    for (const language of ["en", "de"] as const) {
      const report = flat(textOf(reportOf(record, language)));
      const cells = tablesOf(record, SPEECH[language]).flatMap((table) => cellsOf(table).map(flat));
      expect(cells.filter((cell) => !report.includes(cell))).toEqual([]);
    }
  });

  test("every row has the same figures in German, with its own decimal sign", () => {
    const figures = (language: "en" | "de"): string[] =>
      tablesOf(record, SPEECH[language])
        .flatMap((table) => cellsOf(table))
        .filter((cell) => /^[^\p{L}]*\d/u.test(cell) && !/\p{L}{3}/u.test(cell));
    expect(figures("en").length).toBeGreaterThan(15);
    expect(figures("de").map((cell) => inEnglish(cell).replace(";", ","))).toEqual(figures("en"));
  });

  test("the German report has the English one's numbers, cell by cell, with its own decimal sign", () => {
    const cells = (language: "en" | "de"): string[] =>
      [...reportOf(record, language).matchAll(/<td class="number">\s*([^<]*)/g)]
        .map(([, cell]) => cell!.trim())
        .filter((cell) => /\d/.test(cell));
    const german = cells("de");
    expect(german.length).toBeGreaterThan(20);
    expect(german.map(inEnglish)).toEqual(cells("en"));
    expect(german.filter((cell) => cell.includes("."))).toEqual([]);
  });

  test("no medium shows the name of an input that has a symbol as its symbol", () => {
    const report = textOf(reportOf(record, "en"));
    for (const { symbol } of Object.values(record.inputs)) expect(report).toContain(symbol.split("_")[0]!);
    const budget = terminalOf(record)
      .split("\n")
      .map((line) => line.trim().split(/\s{2,}/)[0]!);
    for (const { symbol } of Object.values(record.inputs)) expect(budget).toContain(symbol);
  });
});

test("degrees of freedom read alike everywhere: one decimal below 100, ∞ for none (JCGM 100, G.4.2)", () => {
  expect([16.75, 99.94, 5875.55, null].map(freedom)).toEqual(["16.8", "99.9", "5875", "∞"]);
});

describe.skipIf(skipBrowser)("the page", () => {
  const it = pageUnderTest();

  test.each(STUDIES)("%s: prints what report and terminal print", LONG, async (study) => {
    const record = RECORDS[study]!;
    const run = it.server.addFinished(study);
    await it.page.goto("about:blank");
    await it.page.goto(`${it.home}#run=${run}`);
    await it.page.locator("#panel-provenance").waitFor();
    const name = Object.keys(record.measurands)[0]!;
    const text = flat((await it.page.locator("main").textContent())!);
    expect(figuresOf(record, name).filter((figure) => !text.includes(figure))).toEqual([]);
    const cells = tablesOf({ ...record, measurands: { [name]: record.measurands[name]! } }, SPEECH.en).flatMap(
      (table) => cellsOf(table).map(flat),
    );
    expect(cells.filter((cell) => !text.includes(cell))).toEqual([]);
    const { linear, unit, reported } = readable(record.measurands[name]!);
    expect(text).toContain(flat(withUnit(fixed(linear.expandedUncertainty, reported), unit)));
  });
});
