import type { GeneratorComparison, IndexRecord, RunRecord, SensitivityRecord } from "../../engine/index.ts";
import { budgetRows, distributionWords } from "../present/budget.ts";
import { commandLine } from "../present/command.ts";
import { missingPlaces } from "../present/entries.ts";
import { en } from "../present/messages/en/index.ts";
import { afterNumber, decimalsFor, english, overUnit, withUnit, type Entry } from "../present/numbers.ts";
import { readable, type Readable } from "../present/readable.ts";
import { labelText } from "../present/pictures/label.ts";
import { correlationRows, regionRows, type Row } from "../present/tables.ts";
import { symbolOf } from "../present/symbol.ts";
import type { stylesFor } from "./style.ts";
import { displayWidth, tableLines, wrap, type Column } from "./table.ts";

const { fixed } = english;

type Styles = ReturnType<typeof stylesFor>;

/**
 * The result of a run for a terminal: what was found, the verdict, the budget, and how to repeat it.
 *
 * @param source the study's file, or `null` where the study was never filed
 */
export function summaryOf(record: RunRecord, source: string | null, styles: Styles, width: number): string {
  const { study, model } = record;
  const parts: string[] = [
    styles.bold(study.title),
    ...(study.laboratory === undefined ? [] : [study.laboratory]),
    `${model.title} (${model.id})`,
    ...(model.equation === null ? [] : [styles.dim(wrap(model.equation, width, "    "))]),
  ];
  for (const [name, measurand] of Object.entries(record.measurands)) {
    parts.push("", ...measurandLines(record, name, readable(measurand), styles, width));
  }
  parts.push(...jointLines(record, styles), ...sweepLines(record, styles));
  if (record.remarks.length > 0)
    parts.push("", styles.bold(en.sections.remarks), ...record.remarks.map((text) => wrap(`- ${text}`, width, "  ")));
  if (record.cautions.length > 0)
    parts.push("", styles.bold(en.sections.cautions), ...record.cautions.map((text) => wrap(`- ${text}`, width, "  ")));
  parts.push(
    "",
    wrap(
      `${english.whole(record.trials.count)} trials (${en.provenance[record.trials.stop]}), seed ${JSON.stringify(study.seed)}, generator ${record.generator.id}, trialband ${record.engine.version}`,
      width,
    ),
    ...(source === null ? [] : [`To repeat: ${commandLine(record, source)}`]),
  );
  return `${parts.join("\n")}\n`;
}

const markOf = ({ firm, validated, nothingVaries }: Readable["validation"]): string =>
  nothingVaries ? "NOTHING VARIES" : !firm ? "NOT DECIDED" : validated ? "VALIDATED" : "NOT VALIDATED";

function measurandLines(record: RunRecord, name: string, measurand: Readable, styles: Styles, width: number): string[] {
  const { linear, monteCarlo, validation, symbol, meaning, unit, places, reported } = measurand;
  const { coverage } = record;
  const at = (value: number | null): string => (value === null ? en.none : fixed(value, places));
  const interval = ([low, high]: readonly [number, number]): string => english.interval([at(low), at(high)]);
  const result = (value: number): string => withUnit(fixed(value, reported), unit);
  const p = english.probability(coverage.probability);
  const freedom = english.freedom(linear.effectiveDegreesOfFreedom);
  const kind = en.result[coverage.interval];
  const mark = styles.bold(markOf(validation));
  return [
    styles.bold(`${symbol}  ${meaning}`) + (name === symbol ? "" : styles.dim(`  (${name})`)),
    `   ${symbol} = ${result(linear.estimate)},  U = ${result(linear.expandedUncertainty)}  (k = ${fixed(linear.coverageFactor, 2)}, ν_eff${/^\D/.test(freedom) && freedom !== "∞" ? ` ${freedom}` : ` = ${freedom}`}, p = ${p})`,
    "",
    ...tableLines(
      [
        { heading: "", align: "left" },
        { heading: "estimate", align: "right" },
        { heading: "u", align: "right" },
        { heading: overUnit(`${p} interval`, unit), align: "right" },
      ],
      [
        ["linear budget", at(linear.estimate), at(linear.standardUncertainty), interval(linear.interval)],
        [
          `Monte Carlo, ${kind}`,
          at(monteCarlo.estimate),
          at(monteCarlo.standardUncertainty),
          interval(monteCarlo.intervals[coverage.interval]),
        ],
        ["difference d_low, d_high", "", "", `${at(validation.dLow)}, ${at(validation.dHigh)}`],
        ...(measurand.secondOrder === null || measurand.secondOrder.terms.length === 0
          ? []
          : [
              [
                "with second-order terms",
                at(linear.estimate + measurand.secondOrder.bias),
                at(measurand.secondOrder.standardUncertainty),
                interval(measurand.secondOrder.interval),
              ],
            ]),
        [
          `numerical tolerance δ, ${validation.significantDigits} digit${validation.significantDigits === 1 ? "" : "s"}`,
          "",
          "",
          at(validation.numericalTolerance),
        ],
      ],
    ).map((line) => `   ${line}`),
    "",
    `${mark}`,
    wrap(validation.sentence, width),
    ...(measurand.explanation === null
      ? []
      : [
          "",
          styles.bold("Why"),
          wrap(measurand.explanation.sentence, width),
          "",
          styles.bold(en.validation.followsHead),
          wrap(measurand.explanation.recommendation.sentence, width),
        ]),
    "",
    ...(measurand.conformity === null
      ? []
      : [styles.bold("Conformity"), wrap(measurand.conformity.sentence, width), ""]),
    ...budgetLines(record, measurand, width),
    ...(measurand.sensitivity === null ? [] : ["", ...sensitivityLines(measurand.sensitivity, record, styles, width)]),
  ];
}

/** Marks of a bar that stands for all of u². */
const BAR = 10;

/** Columns that the name of a distribution keeps, however narrow the terminal is. */
const LEAST_NAME = 12;

const INDENT = 3;

const cut = (text: string, longest: number): string =>
  text.length > longest ? `${text.slice(0, longest - 1).trimEnd()}…` : text;

function budgetLines(record: RunRecord, measurand: Readable, width: number): string[] {
  const { inputs, study } = record;
  const rows = budgetRows(record, measurand).toSorted((a, b) => b.line.share - a.line.share);
  /** Digits flush right on their decimal signs. */
  const digits = (of: (row: (typeof rows)[number]) => Entry): string[] => {
    const texts = rows.map((row) => of(row).digits);
    return missingPlaces(texts).map((missing, i) => texts[i]! + " ".repeat(missing.length));
  };
  const [estimates, uncertainties, coefficients] = [
    digits(({ estimate }) => estimate),
    digits(({ uncertainty }) => uncertainty),
    digits(({ sensitivity }) => sensitivity),
  ];
  const columns: readonly Column[] = [
    { heading: "input", align: "left" },
    { heading: "distribution", align: "left" },
    { heading: "estimate", align: "right" },
    { heading: "u(x)", align: "right" },
    { heading: "unit", align: "left" },
    { heading: "ν", align: "right" },
    { heading: "c", align: "right" },
    { heading: overUnit("c·u(x)", measurand.unit), align: "right" },
    { heading: "share of u²", align: "left" },
  ];
  const tableWith = (bars: boolean, longestName = Infinity): string[] =>
    tableLines(
      columns,
      rows.map(({ name, input, line, estimate, freedom, contribution, share }, i) => [
        input.symbol,
        cut(distributionWords(study.inputs[name]!.distribution, input.distribution, en), longestName),
        estimates[i]!,
        uncertainties[i]!,
        afterNumber(estimate.unit),
        freedom,
        coefficients[i]!,
        contribution,
        `${share.padStart(7)}${bars ? ` ${"▪".repeat(Math.max(0, Math.round(line.share * BAR)))}` : ""}`,
      ]),
    );
  const excess = (lines: readonly string[]): number => Math.max(...lines.map(displayWidth)) + INDENT - width;
  // If the table is too wide it loses its bars first, then the ends of long names.
  let table = tableWith(true);
  if (excess(table) > 0) table = tableWith(false);
  if (excess(table) > 0) {
    const names = rows.map(({ name, input }) =>
      displayWidth(distributionWords(study.inputs[name]!.distribution, input.distribution, en)),
    );
    table = tableWith(false, Math.max(LEAST_NAME, Math.max(...names) - excess(table)));
  }
  const correlated = measurand.linear.correlatedTerms.map(
    ({ between, coefficient, share }) =>
      `${between.map((name) => symbolOf(inputs, name)).join(" with ")}, r = ${fixed(coefficient, 4)}: ${english.percent(share)} of u²`,
  );
  return [...table, ...correlated].map((line) => `   ${line}`);
}

/** Shares of u² that do not rest on a linear model, beside those of the budget. */
function sensitivityLines(
  { factors, interaction, sentence }: SensitivityRecord,
  { inputs }: RunRecord,
  styles: Styles,
  width: number,
): string[] {
  const { percent } = english;
  const index = (found: IndexRecord | null): string =>
    found === null ? "none" : `${percent(found.value)} ± ${percent(1.96 * found.standardError)}`;
  const table = tableLines(
    [
      { heading: "input", align: "left" },
      { heading: "budget", align: "right" },
      { heading: "by itself", align: "right" },
      { heading: "with others", align: "right" },
    ],
    factors
      .toSorted((a, b) => (b.total?.value ?? b.linearShare) - (a.total?.value ?? a.linearShare))
      .map(({ inputs: members, linearShare, firstOrder, total }) => [
        members.map((member) => symbolOf(inputs, member)).join(", "),
        percent(linearShare),
        index(firstOrder),
        index(total),
      ]),
  );
  const together = interaction === null ? [] : [`only together: ${index(interaction)}`];
  return [
    styles.bold("Sensitivity without linearity (first-order and total index, 95 %)"),
    ...[...table, ...together].map((line) => `   ${line}`),
    wrap(sentence, width),
  ];
}

/** Several measurands together: their correlation, and the factors of their common regions. */
function jointLines({ joint, measurands: quantities }: RunRecord, styles: Styles): string[] {
  if (joint === null) return [];
  const line = ({ head, cells }: Row): string[] => [labelText(head), ...cells];
  const table = (heading: string, first: string, rows: readonly Row[]): string[] =>
    rows.length === 0
      ? []
      : [
          `   ${heading}`,
          ...tableLines(
            [
              { heading: "", align: "left" },
              { heading: first, align: "right" },
              { heading: en.joint.monteCarlo, align: "right" },
            ],
            rows.map(line),
          ).map((text) => `   ${text}`),
        ];
  return [
    "",
    styles.bold(en.sections.joint),
    ...table(en.joint.correlation, en.joint.linear, correlationRows(joint, quantities, en)),
    ...table(
      en.joint.factors.replace("{p}", english.probability(joint.probability)),
      en.joint.normal,
      regionRows(joint, quantities, en),
    ),
  ];
}

/** The result at every point of a sweep. */
function sweepLines({ sweep, measurands }: RunRecord, styles: Styles): string[] {
  if (sweep === null) return [];
  return Object.entries(measurands).flatMap(([name, { symbol, unit }]) => {
    const table = tableLines(
      [
        { heading: overUnit(sweep.quantity, sweep.unit), align: "point" },
        { heading: overUnit(symbol, unit), align: "point" },
        { heading: overUnit("U", unit), align: "point" },
        { heading: "k", align: "right" },
        { heading: "Monte Carlo interval", align: "right" },
        { heading: "k needed", align: "right" },
        { heading: "budget", align: "left" },
      ],
      sweep.points.map(({ at, measurands: found }) => {
        const { linear, monteCarlo, validated, coverageFactorNeeded } = found[name]!;
        const decimals = decimalsFor(linear.expandedUncertainty, 2);
        return [
          english.plain(at),
          fixed(linear.estimate, decimals),
          fixed(linear.expandedUncertainty, decimals),
          fixed(linear.coverageFactor, 2),
          english.interval([fixed(monteCarlo.interval[0], decimals + 1), fixed(monteCarlo.interval[1], decimals + 1)]),
          coverageFactorNeeded === null ? en.none : fixed(coverageFactorNeeded, 2),
          validated ? en.validation.validated : en.validation.notValidated,
        ];
      }),
    );
    return ["", styles.bold(`Over the range: ${symbol}`), ...table.map((line) => `   ${line}`)];
  });
}

/** Two runs with unrelated generators beside one another. */
export function generatorSummary({ first, second, figures, limit, agree }: GeneratorComparison): string {
  const table = tableLines(
    [
      { heading: "measurand", align: "left" },
      { heading: "figure", align: "left" },
      { heading: "first", align: "right" },
      { heading: "second", align: "right" },
      { heading: "standard error", align: "right" },
      { heading: "difference in standard errors", align: "right" },
    ],
    figures.map((row) => {
      const decimals = decimalsFor(row.standardError, 2);
      return [
        row.measurand,
        row.figure,
        fixed(row.first, decimals),
        fixed(row.second, decimals),
        english.significant(row.standardError, 2),
        fixed(row.ratio, 2),
      ];
    }),
  );
  const verdict = agree
    ? `The two agree: no difference exceeds ${fixed(limit, 2)} standard errors, which chance does once in a thousand such comparisons.`
    : `The two differ by more than ${fixed(limit, 2)} standard errors, which chance does once in a thousand such comparisons. Repeat with another seed; if they differ again, do not use the result.`;
  return `First:  ${first}\nSecond: ${second}\n\n${table.join("\n")}\n\n${verdict}\n`;
}
