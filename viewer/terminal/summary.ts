import type { RunRecord } from "../../engine/index.ts";
import { budgetHeads, budgetRows, distributionWords } from "../present/budget.ts";
import { resultToReport } from "../present/certificate-statement.ts";
import { commandLine } from "../present/command.ts";
import { missingPlaces } from "../present/entries.ts";
import { fillText } from "../present/fill.ts";
import { en } from "../present/messages/en/index.ts";
import { afterNumber, english, plusMinus, type Entry } from "../present/numbers.ts";
import { labelText } from "../present/pictures/label.ts";
import { readable, type Readable } from "../present/readable.ts";
import { ENGLISH } from "../present/statement.ts";
import { symbolOf } from "../present/symbol.ts";
import { comparisonTable } from "../present/tables/comparison.ts";
import { conformityTable } from "../present/tables/conformity.ts";
import { curveTable } from "../present/tables/curve.ts";
import { correlationTable, factorTable, regionTable } from "../present/tables/joint.ts";
import { leftOutTable } from "../present/tables/left-out.ts";
import { resultTable } from "../present/tables/results.ts";
import { linearisedTable } from "../present/tables/linearised.ts";
import { secondOrderTable } from "../present/tables/second-order.ts";
import { sensitivityTable } from "../present/tables/sensitivity.ts";
import { gridTable, sweepSentence, sweepTable, sweptResults } from "../present/tables/sweep.ts";
import type { Table } from "../present/tables/table.ts";
import { toReport } from "../present/to-report.ts";
import { standingOf, standingWords } from "../present/verdict.ts";
import { harmless } from "./harmless.ts";
import { presentedLines } from "./presented.ts";
import { contributionLines, digitsLines } from "./pictures.ts";
import type { stylesFor } from "./style.ts";
import { displayWidth, tableLines, wrap, type Column } from "./table.ts";

const { fixed } = english;

type Styles = ReturnType<typeof stylesFor>;

/** What a summary has beside what it always has. */
export interface SummaryParts {
  /** The contributions and the endpoints against δ, drawn with characters. */
  readonly pictures?: boolean;
}

/**
 * The result of a run for a terminal: what was found, the verdict, the budget, and how to repeat it.
 *
 * @param source the study's file, or `null` if the study was never filed
 */
export function summaryOf(
  given: RunRecord,
  source: string | null,
  styles: Styles,
  width: number,
  { pictures = false }: SummaryParts = {},
): string {
  const record = harmless(given);
  const { study, model } = record;
  const parts: string[] = [
    styles.bold(wrap(study.title, width)),
    ...(study.laboratory === undefined ? [] : [study.laboratory]),
    wrap(`${model.title} (${model.id})`, width),
    ...(model.equation === null ? [] : [styles.dim(wrap(model.equation, width, "    "))]),
  ];
  for (const [name, measurand] of Object.entries(record.measurands)) {
    parts.push("", ...measurandLines(record, name, readable(measurand), styles, width, pictures));
  }
  parts.push(
    ...jointLines(record, styles, width),
    ...curveLines(record, styles, width),
    ...sweepLines(record, styles, width),
    ...leftOutLines(record, styles, width),
  );
  if (record.remarks.length > 0)
    parts.push("", styles.bold(en.sections.remarks), ...record.remarks.map((text) => wrap(`- ${text}`, width, "  ")));
  if (record.cautions.length > 0)
    parts.push("", styles.bold(en.sections.cautions), ...record.cautions.map((text) => wrap(`- ${text}`, width, "  ")));
  parts.push(
    "",
    wrap(
      fillText(en.terminal.run, {
        trials: english.whole(record.trials.count),
        stop: en.provenance[record.trials.stop],
        seed: JSON.stringify(study.seed),
        generator: record.generator.id,
        version: record.engine.version,
      }),
      width,
    ),
    ...(source === null ? [] : [fillText(en.terminal.repeat, { command: commandLine(record, source) })]),
  );
  return `${parts.join("\n")}\n`;
}

/** The result that is to be reported, with its k and coverage probability. */
function headline(measurand: Readable, { coverage }: RunRecord): string {
  const words = en.toReport;
  const { symbol, linear } = measurand;
  const found = toReport(measurand);
  const result = resultToReport(measurand, { coverage }, ENGLISH);
  const p = english.probability(coverage.probability);
  if (found.kind === "open" || result === null) return fillText(words.headlineOpen, { y: symbol });
  if (found.kind === "monteCarlo") return fillText(words.headlineInterval, { y: symbol, range: result, p });
  const k = fixed(found.coverageFactor, 2);
  const freedom = english.freedom(linear.effectiveDegreesOfFreedom);
  return fillText(words.headline, {
    y: symbol,
    result,
    p,
    k: found.fitted
      ? fillText(words.fromDistribution, { k })
      : `k = ${k}, ν_eff${freedom.startsWith(">") ? ` ${freedom}` : ` = ${freedom}`}`,
  });
}

/** What the linear budget would state, if that is not what is to be reported. */
function besideHeadline(measurand: Readable): string[] {
  const { symbol, linear, unit, reported, validation } = measurand;
  const found = toReport(measurand);
  if (found.kind === "linear" && !found.fitted) return [];
  return [
    ...(found.kind === "linear" ? [en.toReport.precedent] : []),
    fillText(standingOf(validation) === "undecided" ? en.result.unclear : en.result.instead, {
      result: `${symbol} = ${plusMinus(fixed(linear.estimate, reported), fixed(linear.expandedUncertainty, reported), unit)}`,
      kSymbol: "k",
      kValue: fixed(linear.coverageFactor, 2),
    }),
  ];
}

function measurandLines(
  record: RunRecord,
  name: string,
  measurand: Readable,
  styles: Styles,
  width: number,
  pictures: boolean,
): string[] {
  const drawn = (of: typeof contributionLines | typeof digitsLines): string[] => {
    const lines = pictures ? of(record, measurand, ENGLISH, width - INDENT) : [];
    return lines.length === 0 ? [] : ["", ...lines.map((line) => `   ${line}`)];
  };
  const { validation, symbol, meaning } = measurand;
  const indented = (table: Table): string[] => presentedLines(table, width - INDENT).map((line) => `   ${line}`);
  const sentence = (heading: string, text: string): string[] => ["", styles.bold(heading), wrap(text, width)];
  const { paired, explanation, linearised, conformity, sensitivity } = measurand;
  const secondOrder = secondOrderTable(measurand, ENGLISH);
  return [
    styles.bold(`${symbol}  ${meaning}`) + (name === symbol ? "" : styles.dim(`  (${name})`)),
    wrap(`   ${headline(measurand, record)}`, width),
    ...besideHeadline(measurand).map((text) => styles.dim(wrap(`   ${text}`, width))),
    "",
    ...indented(resultTable(measurand, record, ENGLISH)),
    "",
    ...indented(comparisonTable(measurand, ENGLISH)),
    "",
    styles.bold(standingWords(standingOf(validation), en).toUpperCase()),
    wrap(validation.sentence, width),
    ...drawn(digitsLines),
    ...(paired === undefined || paired.sentence === "" ? [] : sentence(en.validation.pairedHead, paired.sentence)),
    ...(explanation === null
      ? []
      : [
          ...sentence(en.validation.whyHead, explanation.sentence),
          ...sentence(en.validation.followsHead, explanation.recommendation.sentence),
        ]),
    ...(secondOrder === null ? [] : ["", styles.bold(en.sections.secondOrder), ...indented(secondOrder)]),
    ...(conformity === null
      ? []
      : [
          ...sentence(en.sections.conformity, conformity.sentence),
          ...indented(conformityTable(measurand, conformity, ENGLISH)),
        ]),
    ...(linearised === undefined
      ? []
      : [
          ...sentence(en.sections.linearised, linearised.sentence),
          ...(linearised.kind === "distribution"
            ? indented(linearisedTable(measurand, linearised, record, ENGLISH))
            : []),
        ]),
    "",
    ...budgetLines(record, measurand, width),
    ...drawn(contributionLines),
    ...(sensitivity === null
      ? []
      : [
          ...sentence(en.sections.sensitivity, sensitivity.sentence),
          ...indented(sensitivityTable(measurand, sensitivity, record, ENGLISH)),
        ]),
  ];
}

/** Marks of a bar that stands for all of u². */
const BAR = 10;

const INDENT = 3;

function budgetLines(record: RunRecord, measurand: Readable, width: number): string[] {
  const { inputs, study } = record;
  const rows = budgetRows(record, measurand, english).toSorted((a, b) => b.line.share - a.line.share);
  /** Digits flush right on their decimal signs. */
  const digits = (of: (row: (typeof rows)[number]) => Entry): string[] => {
    const texts = rows.map((row) => of(row).digits);
    return missingPlaces(texts, english).map((missing, i) => texts[i]! + " ".repeat(missing.length));
  };
  const [estimates, uncertainties, coefficients] = [
    digits(({ estimate }) => estimate),
    digits(({ uncertainty }) => uncertainty),
    digits(({ sensitivity }) => sensitivity),
  ];
  const heads = budgetHeads(measurand, en);
  const columns: readonly Column[] = [
    { heading: heads.quantity, align: "left" },
    { heading: heads.distribution, align: "left" },
    { heading: heads.estimate, align: "right" },
    { heading: heads.uncertainty, align: "right" },
    { heading: heads.unit, align: "left" },
    { heading: heads.freedom, align: "right" },
    { heading: heads.sensitivity, align: "right" },
    { heading: heads.contribution, align: "right" },
    { heading: heads.share, align: "left" },
  ].map(({ heading, align }) => ({ heading: labelText(heading), align }) as Column);
  const tableWith = (bars: boolean): string[] =>
    tableLines(
      columns,
      rows.map(({ name, input, line, estimate, freedom, contribution, share }, i) => [
        input.symbol,
        distributionWords(study.inputs[name]!.distribution, input.distribution, en),
        estimates[i]!,
        uncertainties[i]!,
        afterNumber(estimate.unit),
        freedom,
        coefficients[i]!,
        contribution,
        `${share.padStart(7)}${bars ? ` ${"▪".repeat(Math.max(0, Math.round(line.share * BAR)))}` : ""}`,
      ]),
      width - INDENT,
      !bars,
    );
  // A table that is too wide for its bars loses them before its heads and names are broken.
  const wide = Math.max(...tableWith(true).map(displayWidth)) + INDENT > width;
  const table = tableWith(!wide);
  const correlated = measurand.linear.correlatedTerms.map(
    ({ between, coefficient, share }) =>
      `${between.map((name) => symbolOf(inputs, name)).join(" with ")}, r = ${fixed(coefficient, 4)}: ${english.percent(share)} of u²`,
  );
  return [...table, ...correlated].map((line) => `   ${line}`);
}

/** Several measurands together: their correlation, and the factors of their common regions. */
function jointLines({ joint, measurands: quantities }: RunRecord, styles: Styles, width: number): string[] {
  if (joint === null) return [];
  const lines = (table: Table): string[] =>
    table.rows.length === 0
      ? []
      : [...wrap(labelText(table.caption), width - INDENT).split("\n"), ...presentedLines(table, width - INDENT)].map(
          (line) => `   ${line}`,
        );
  return [
    "",
    styles.bold(en.sections.joint),
    ...[correlationTable, factorTable, regionTable].flatMap((tableOf) => lines(tableOf(joint, quantities, ENGLISH))),
  ];
}

/** The result at every point of a sweep. */
function sweepLines(record: RunRecord, styles: Styles, width: number): string[] {
  if (record.sweep === null) return [];
  return Object.entries(record.measurands).flatMap(([name, { symbol }]) => {
    const swept = sweptResults(record, name);
    const grid = record.sweep?.second !== undefined;
    const table = (grid ? gridTable : sweepTable)(record, name, swept, ENGLISH);
    return [
      "",
      styles.bold(`${en.sections.sweep}: ${symbol}`),
      wrap(sweepSentence(record, swept, ENGLISH), width),
      // What stands across a grid is said by its caption alone.
      ...(grid ? [wrap(labelText(table.caption), width)] : []),
      ...presentedLines(table, width - INDENT).map((line) => `   ${line}`),
    ];
  });
}

/** The curve at some of its arguments. */
function curveLines({ calibrationCurve = null }: RunRecord, styles: Styles, width: number): string[] {
  if (calibrationCurve === null) return [];
  return [
    "",
    styles.bold(en.sections.calibrationCurve),
    ...presentedLines(curveTable(calibrationCurve, ENGLISH), width - INDENT).map((line) => `   ${line}`),
  ];
}

/** What the study takes as zero, and why. */
function leftOutLines(record: RunRecord, styles: Styles, width: number): string[] {
  const table = leftOutTable(record, ENGLISH);
  if (table === null) return [];
  return ["", styles.bold(en.leftOut.title), ...presentedLines(table, width - INDENT).map((line) => `   ${line}`)];
}
