import {
  decimalsFor,
  roundResult,
  toDecimals,
  type GeneratorComparison,
  type IndexRecord,
  type MeasurandRecord,
  type RunRecord,
  type SensitivityRecord,
} from "../../engine/index.ts";
import type { stylesFor } from "./style.ts";
import { tableLines, wrap } from "./table.ts";

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
    parts.push("", ...measurandLines(record, name, measurand, styles, width));
  }
  parts.push(...jointLines(record, styles), ...sweepLines(record, styles));
  if (record.remarks.length > 0)
    parts.push("", styles.bold("To be known"), ...record.remarks.map((text) => wrap(`- ${text}`, width, "  ")));
  if (record.cautions.length > 0)
    parts.push("", styles.bold("Work safely"), ...record.cautions.map((text) => wrap(`- ${text}`, width, "  ")));
  const trials = study.trials === "adaptive" ? "adaptive" : String(record.trials.count);
  parts.push(
    "",
    `${record.trials.count} trials (${STOPS[record.trials.stop]}), seed ${JSON.stringify(study.seed)}, generator ${record.generator.id}, trialband ${record.engine.version}`,
    ...(source === null
      ? []
      : [`Again: npx trialband run ${quote(source)} --seed ${quote(study.seed)} --trials ${trials}`]),
  );
  return `${parts.join("\n")}\n`;
}

const STOPS = {
  fixed: "the number asked for",
  settled: "stopped when the figures had settled to δ/5",
  limit: "stopped at the limit, before the figures had settled to δ/5",
} as const;

const quote = (text: string): string =>
  /^[\w./@:+-]+$/.test(text) ? text : `'${text.replaceAll("'", String.raw`'\''`)}'`;

function measurandLines(
  record: RunRecord,
  name: string,
  measurand: MeasurandRecord,
  styles: Styles,
  width: number,
): string[] {
  const { linear, monteCarlo, validation, symbol, meaning } = measurand;
  const unit = measurand.unit === "1" ? "" : ` ${measurand.unit}`;
  const { coverage } = record;
  const decimals = decimalsFor(validation.numericalTolerance || linear.standardUncertainty, 1) + 1;
  const at = (value: number | null): string => (value === null ? "none" : toDecimals(value, decimals));
  const interval = ([low, high]: readonly [number, number]): string => `[${at(low)}, ${at(high)}]`;
  const rounded = roundResult(linear.estimate, linear.expandedUncertainty, 2);
  const ν = linear.effectiveDegreesOfFreedom;
  const p = `${Number((100 * coverage.probability).toFixed(2))} %`;
  const kind = coverage.interval === "symmetric" ? "probabilistically symmetric" : "shortest";
  const mark = styles.bold(validation.validated ? "VALIDATED" : "NOT VALIDATED");
  return [
    styles.bold(`${symbol}  ${meaning}`) + (name === symbol ? "" : styles.dim(`  (${name})`)),
    `   ${symbol} = ${rounded.estimate}${unit},  U = ${rounded.uncertainty}${unit}  (k = ${linear.coverageFactor.toFixed(2)}, ν_eff = ${ν === null ? "∞" : ν.toFixed(1)}, p = ${p})`,
    "",
    ...tableLines(
      [
        { heading: "", align: "left" },
        { heading: "estimate", align: "right" },
        { heading: "u", align: "right" },
        { heading: `${p} interval${unit}`, align: "right" },
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
          styles.bold("What follows"),
          wrap(measurand.explanation.recommendation.sentence, width),
        ]),
    "",
    ...(measurand.conformity === null
      ? []
      : [styles.bold("Conformity"), wrap(measurand.conformity.sentence, width), ""]),
    ...budgetLines(record, measurand),
    ...(measurand.sensitivity === null ? [] : ["", ...sensitivityLines(measurand.sensitivity, styles, width)]),
  ];
}

function budgetLines(record: RunRecord, { linear }: MeasurandRecord): string[] {
  const rows = linear.contributions.toSorted((a, b) => b.share - a.share);
  const table = tableLines(
    [
      { heading: "input", align: "left" },
      { heading: "distribution", align: "left" },
      { heading: "estimate", align: "point" },
      { heading: "u(x)", align: "right" },
      { heading: "ν", align: "right" },
      { heading: "c", align: "right" },
      { heading: "c·u(x)", align: "right" },
      { heading: "share of u²", align: "left" },
    ],
    rows.map((row) => {
      const input = record.inputs[row.input]!;
      const bar = "▪".repeat(Math.round(row.share * 20));
      return [
        row.input,
        input.distribution,
        String(Number(row.estimate.toPrecision(9))),
        figure(row.standardUncertainty),
        row.degreesOfFreedom === null ? "∞" : String(Number(row.degreesOfFreedom.toPrecision(4))),
        figure(row.sensitivityCoefficient),
        figure(row.contribution),
        `${(100 * row.share).toFixed(1).padStart(5)} % ${bar}`,
      ];
    }),
  );
  const correlated = linear.correlatedTerms.map(
    ({ between, coefficient, share }) =>
      `${between.join(" with ")}, r = ${figure(coefficient)}: ${(100 * share).toFixed(1)} % of u²`,
  );
  return [...table, ...correlated].map((line) => `   ${line}`);
}

/** Shares of u² that do not rest on a linear model, beside those of the budget. */
function sensitivityLines(
  { factors, interaction, sentence }: SensitivityRecord,
  styles: Styles,
  width: number,
): string[] {
  const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;
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
      .map(({ name, linearShare, firstOrder, total }) => [name, percent(linearShare), index(firstOrder), index(total)]),
  );
  const together = interaction === null ? [] : [`only together: ${index(interaction)}`];
  return [
    styles.bold("Sensitivity without linearity (first-order and total index, 95 %)"),
    ...[...table, ...together].map((line) => `   ${line}`),
    wrap(sentence, width),
  ];
}

/** Several measurands together: their correlation, and the factors of their common regions. */
function jointLines({ joint }: RunRecord, styles: Styles): string[] {
  if (joint === null) return [];
  const { measurands, monteCarlo, linear, ellipsoid, rectangle, probability } = joint;
  const p = `${Number((100 * probability).toFixed(2))} %`;
  const rows = measurands.flatMap((a, i) =>
    measurands.slice(i + 1).map((b, k) => {
      const j = i + 1 + k;
      return [
        `r(${a}, ${b})`,
        linear.correlation[i]![j]!.toFixed(4),
        monteCarlo === null ? "none" : monteCarlo.correlation[i]![j]!.toFixed(4),
      ];
    }),
  );
  if (ellipsoid !== null)
    rows.push([`k_p of the ${p} ellipsoid`, ellipsoid.normalFactor.toFixed(3), ellipsoid.factor.toFixed(3)]);
  if (rectangle !== null)
    rows.push([`k_q of the ${p} hyper-rectangle`, rectangle.normalFactor.toFixed(3), rectangle.factor.toFixed(3)]);
  const table = tableLines(
    [
      { heading: "", align: "left" },
      { heading: "linear", align: "right" },
      { heading: "Monte Carlo", align: "right" },
    ],
    rows,
  );
  return ["", styles.bold("The measurands together (JCGM 102)"), ...table.map((line) => `   ${line}`)];
}

/** The result at every point of a sweep. */
function sweepLines({ sweep, measurands }: RunRecord, styles: Styles): string[] {
  if (sweep === null) return [];
  return Object.entries(measurands).flatMap(([name, { symbol, unit }]) => {
    const table = tableLines(
      [
        { heading: `${sweep.quantity}, ${sweep.unit}`, align: "point" },
        { heading: symbol, align: "point" },
        { heading: `U, ${unit}`, align: "point" },
        { heading: "k", align: "right" },
        { heading: "Monte Carlo interval", align: "right" },
        { heading: "k needed", align: "right" },
        { heading: "budget", align: "left" },
      ],
      sweep.points.map(({ at, measurands: found }) => {
        const { linear, monteCarlo, validated, coverageFactorNeeded } = found[name]!;
        const decimals = decimalsFor(linear.expandedUncertainty, 2);
        return [
          String(at),
          toDecimals(linear.estimate, decimals),
          toDecimals(linear.expandedUncertainty, decimals),
          linear.coverageFactor.toFixed(2),
          `[${monteCarlo.interval.map((end) => toDecimals(end, decimals + 1)).join(", ")}]`,
          coverageFactorNeeded === null ? "none" : coverageFactorNeeded.toFixed(2),
          validated ? "validated" : "not validated",
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
        toDecimals(row.first, decimals),
        toDecimals(row.second, decimals),
        row.standardError.toPrecision(2),
        row.ratio.toFixed(2),
      ];
    }),
  );
  const verdict = agree
    ? `The two agree: no difference exceeds ${limit.toFixed(2)} standard errors, which chance does once in a thousand such comparisons.`
    : `The two differ by more than ${limit.toFixed(2)} standard errors, which chance does once in a thousand such comparisons. Repeat with another seed; if they differ again, do not use the result.`;
  return `First:  ${first}\nSecond: ${second}\n\n${table.join("\n")}\n\n${verdict}\n`;
}

const figure = (value: number): string => (value === 0 ? "0" : value.toPrecision(3));
