import { type MeasurandRecord, type ReportedRecord } from "../../../engine/index.ts";
import { coverageOf } from "../../../engine/internal.ts";
import { distributionWords } from "../../../viewer/present/budget.ts";
import { fillText } from "../../../viewer/present/fill.ts";
import { quotientUnit } from "../../../viewer/present/numbers.ts";
import type { Speech } from "../../../viewer/present/statement.ts";
import { symbolText } from "../../../viewer/present/symbol.ts";
import { standingOf, standingWords } from "../../../viewer/present/verdict.ts";
import { figure, place, text, type Cell, type Sheet } from "./cell.ts";
import { estimatedTogether } from "./together.ts";

/** Columns of the budget's table, in their order. */
const SYMBOL = 0;
const MEANING = 1;
const SHAPE = 2;
const X = 3;
const UNIT = 4;
const U = 5;
const TYPE = 6;
const FREEDOM = 7;
const C = 8;
const C_UNIT = 9;
const CU = 10;
const SQUARED = 11;
const SHARE = 12;
const ALONG = 13;
const WEIGHT = 14;
const PART = 15;
const WIDTHS = [26, 34, 20, 20, 10, 20, 8, 12, 20, 12, 20, 20, 14, 20, 20, 20, 40, 60];
const INFINITE = "∞";
/**
 * Degrees of freedom beyond which spreadsheets find the quantile of t badly, and two terms of its expansion about that of
 * the normal distribution are exact to 15 digits (Abramowitz and Stegun, 26.7.5).
 */
const MANY = 100_000;

/** The budget of one measurand, with formulas that compute it again, and the Monte Carlo result beside it as values. */
export function budgetSheet(record: ReportedRecord, measurand: MeasurandRecord, name: string, speech: Speech): Sheet {
  const { messages, translate } = speech;
  const words = messages.workbook;
  const y = symbolText(measurand.symbol);
  const { linear, unit } = measurand;
  const rows: Cell[][] = [];
  const push = (...cells: Cell[]): number => rows.push(cells) - 1;
  const fillY = (message: string): string => fillText(message, { y });

  push(text(fillText(words.title, { symbol: y, meaning: translate(measurand.meaning) }), "title"));
  push(text(record.study.title));
  push(text(fillY(words.live)));
  push(text(words.evidenceOnly));
  push();
  push(
    ...[
      messages.budget.quantity,
      words.meaning,
      messages.inputs.distribution,
      "x",
      messages.budget.unit,
      "u(x)",
      messages.budget.evaluation,
      "ν",
      "c",
      fillText(messages.budget.sensitivityUnit, { c: "c" }),
      `${words.contribution} / ${unit}`,
      words.squared,
      fillY(words.share),
      words.along,
      fillY(words.weight),
      words.part,
      words.source,
      words.evidence,
    ].map((head) => text(head, "head")),
  );

  // Where everything stands, since formulas lead both ways.
  const first = rows.length;
  const count = linear.contributions.length;
  const last = first + count - 1;
  const rowOf = (input: string): number => first + linear.contributions.findIndex((line) => line.input === input);
  const terms = linear.correlatedTerms;
  const firstTerm = last + 4;
  const results = (terms.length === 0 ? last + 2 : firstTerm + terms.length + 1) + 2;
  const [estimateRow, uRow, freedomRow, probabilityRow, kRow, expandedRow, lowRow, highRow] = Array.from(
    { length: 8 },
    (_, i) => results + i,
  ) as [number, number, number, number, number, number, number, number];
  const computed = (row: number): string => place(1, row, true);
  const range = (column: number): string => `${place(column, first)}:${place(column, last)}`;
  const u = computed(uRow);

  // What the formulas give, by plain arithmetic: what a program that does not compute shows.
  const cu = linear.contributions.map((line) => line.sensitivityCoefficient * line.standardUncertainty);
  const along = [...cu];
  for (const { between, coefficient } of terms) {
    const [a, b] = between.map((input) => rowOf(input) - first) as [number, number];
    along[a]! += coefficient * cu[b]!;
    along[b]! += coefficient * cu[a]!;
  }
  const termOf = ({ between: [a, b], coefficient }: (typeof terms)[number]): number =>
    2 * cu[rowOf(a) - first]! * cu[rowOf(b) - first]! * coefficient;
  const variance = Math.max(0, sum(cu.map((value) => value * value)) + sum(terms.map(termOf)));
  const uValue = Math.sqrt(variance);
  const weights = cu.map((value, i) => (variance === 0 ? 0 : (value * along[i]!) / variance));
  const sets = estimatedTogether(record, linear);
  const partOf = (i: number): number | null => {
    const members = sets.flatMap((set, j) => (set === sets[i] ? [j] : []));
    if (members[0] !== i) return null;
    const ν = linear.contributions[i]!.degreesOfFreedom;
    const share = sum(members.map((j) => weights[j]!));
    return ν === null ? 0 : (share * share) / ν;
  };
  const parts = cu.map((_, i) => partOf(i));

  linear.contributions.forEach((line, i) => {
    const input = record.inputs[line.input]!;
    const row = rows.length;
    const at = (column: number): string => place(column, row);
    const correlated = terms.flatMap(({ between: [a, b] }, t) =>
      a === line.input || b === line.input
        ? [`${place(2, firstTerm + t, true)}*${place(CU, rowOf(a === line.input ? b : a), true)}`]
        : [],
    );
    const members = sets.flatMap((set, j) => (set === sets[i] ? [place(WEIGHT, first + j)] : []));
    const cells: Cell[] = [];
    cells[SYMBOL] = text(symbolText(input.symbol));
    cells[MEANING] = text(translate(input.meaning), "wrapped");
    cells[SHAPE] = text(distributionWords(record.study.inputs[line.input]!.distribution, input.distribution, messages));
    cells[X] = figure(line.estimate);
    cells[UNIT] = text(input.unit);
    cells[U] = figure(line.standardUncertainty);
    cells[TYPE] = text(line.evaluation);
    cells[FREEDOM] = figure(line.degreesOfFreedom, INFINITE);
    cells[C] = figure(line.sensitivityCoefficient);
    cells[C_UNIT] = text(quotientUnit(unit, input.unit));
    cells[CU] = { formula: `${at(C)}*${at(U)}`, value: cu[i]! };
    cells[SQUARED] = { formula: `${at(CU)}^2`, value: cu[i]! * cu[i]! };
    cells[SHARE] = {
      formula: `IF(${u}=0,0,${at(SQUARED)}/${u}^2)`,
      value: variance === 0 ? 0 : (cu[i]! * cu[i]!) / variance,
    };
    cells[ALONG] = { formula: [at(CU), ...correlated].join("+"), value: along[i]! };
    cells[WEIGHT] = { formula: `IF(${u}=0,0,${at(CU)}*${at(ALONG)}/${u}^2)`, value: weights[i]! };
    const part = parts[i]!;
    cells[PART] =
      part === null
        ? null
        : { formula: `IF(ISNUMBER(${at(FREEDOM)}),(${members.join("+")})^2/${at(FREEDOM)},0)`, value: part };
    cells.push(text(input.source ?? "", "wrapped"), text(evidenceText(input.evidence), "wrapped"));
    push(...cells);
  });

  push();
  if (terms.length > 0) {
    push(text(words.correlations, "head"));
    push(
      ...[words.first, words.second, words.coefficient, words.term, words.together].map((head) => text(head, "head")),
    );
    for (const term of terms) {
      const row = rows.length;
      const [a, b] = term.between;
      push(
        text(symbolText(record.inputs[a]!.symbol)),
        text(symbolText(record.inputs[b]!.symbol)),
        figure(term.coefficient),
        {
          formula: `2*${place(2, row)}*${place(CU, rowOf(a))}*${place(CU, rowOf(b))}`,
          value: termOf(term),
        },
        text(sets[rowOf(a) - first] === sets[rowOf(b) - first] ? words.yes : words.no),
      );
    }
    push();
  }

  const { coverage } = record;
  const fixed = coverage.custom === "factor";
  const ν = sum(parts.map((part) => part ?? 0)) === 0 ? null : 1 / sum(parts.map((part) => part ?? 0));
  const p = coverage.probability;
  const tooFew = ν !== null && wholeOf(ν) < 1;
  const k = fixed || tooFew ? linear.coverageFactor : coverageOf(record.study.coverage).factor(ν ?? Infinity);
  const expanded = k * uValue;
  const squares = `SUM(${range(SQUARED)})`;
  const covariances =
    terms.length === 0 ? "" : `+SUM(${place(3, firstTerm)}:${place(3, firstTerm + terms.length - 1)})`;
  const allParts = `SUM(${range(PART)})`;
  const whole = `INT(${computed(freedomRow)}+MIN(0.0000001*${computed(freedomRow)},0.001))`;
  const z = `_xlfn.NORM.S.INV((1+${computed(probabilityRow)})/2)`;
  const expansion = `${z}+(${z}^3+${z})/(4*${whole})+(5*${z}^5+16*${z}^3+3*${z})/(96*${whole}^2)`;
  push(text(words.results, "head"));
  push(
    ...["", words.recomputed, words.recorded, words.difference, messages.budget.unit, ""].map((head) =>
      text(head, "head"),
    ),
  );
  const result = (label: string, cell: Cell, recorded: number | null, of: string, note = ""): void => {
    const row = rows.length;
    const [here, there] = [place(1, row), place(2, row)];
    const value = cell === null || "text" in cell ? null : "number" in cell ? cell.number : cell.value;
    push(
      text(label),
      cell,
      figure(recorded, INFINITE),
      {
        formula: `IF(ISNUMBER(${here}),IF(${there}=0,${here},${here}/${there}-1),0)`,
        value: typeof value !== "number" || recorded === null ? 0 : recorded === 0 ? value : value / recorded - 1,
      },
      text(of),
      text(note),
    );
  };
  const [yCell, uCell, kCell, UCell] = [estimateRow, uRow, kRow, expandedRow].map(computed) as [
    string,
    string,
    string,
    string,
  ];
  result(fillY(words.estimate), figure(linear.estimate), linear.estimate, unit);
  result(
    fillY(words.uncertainty),
    { formula: `SQRT(MAX(0,${squares}${covariances}))`, value: uValue },
    linear.standardUncertainty,
    unit,
  );
  result(
    words.freedom,
    { formula: `IF(${allParts}=0,"${INFINITE}",1/${allParts})`, value: ν ?? INFINITE },
    linear.effectiveDegreesOfFreedom,
    "1",
  );
  result(words.probability, figure(p), p, "1");
  result(
    words.factor,
    fixed || tooFew
      ? figure(linear.coverageFactor)
      : {
          formula: `IF(ISNUMBER(${computed(freedomRow)}),IF(${whole}>${MANY},${expansion},_xlfn.T.INV.2T(1-${computed(probabilityRow)},${whole})),${z})`,
          value: k,
        },
    linear.coverageFactor,
    "1",
    fixed ? words.fixed : tooFew ? words.belowOne : words.fromT,
  );
  result(fillY(words.expanded), { formula: `${kCell}*${uCell}`, value: expanded }, linear.expandedUncertainty, unit);
  result(
    fillY(words.low),
    { formula: `${yCell}-${UCell}`, value: linear.estimate - expanded },
    linear.interval[0],
    unit,
  );
  result(
    fillY(words.high),
    { formula: `${yCell}+${UCell}`, value: linear.estimate + expanded },
    linear.interval[1],
    unit,
  );
  push();

  const trials = rows.length;
  for (const line of trialRows(measurand, speech, y)) push(...line);
  push();
  const compared = trials + (coverage.interval === "symmetric" ? SYMMETRIC : SHORTEST);
  for (const line of comparisonRows(
    measurand,
    speech,
    [lowRow, highRow].map((row, i) => `${computed(row)}-${computed(compared + i)}`),
    computed(rows.length + 1),
  ))
    push(...line);
  return { name: fillText(words.budgetSheet, { name }), widths: WIDTHS, rows };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

/** Degrees of freedom as k takes them, as the formula of the sheet does: `wholeDegreesOfFreedom` of the engine. */
const wholeOf = (ν: number): number => Math.floor(ν + Math.min(1e-7 * ν, 1e-3));

const evidenceText = (evidence: ReportedRecord["inputs"][string]["evidence"]): string =>
  evidence === null
    ? ""
    : [evidence.method, ...evidence.files.map(({ name, sha256 }) => `${name} ${sha256}`)].join("\n");

/** Rows of `trialRows` from its head on where the endpoints of each interval begin. */
const [SYMMETRIC, SHORTEST] = [4, 6];

function trialRows({ monteCarlo, unit }: MeasurandRecord, { messages }: Speech, y: string): Cell[][] {
  const words = messages.workbook;
  const { intervals, standardErrors: errors } = monteCarlo;
  const row = (label: string, value: number | null, error: number | null | undefined): Cell[] => [
    text(label),
    figure(value, words.none),
    figure(error ?? null, messages.notApplicable),
    null,
    text(unit),
  ];
  return [
    [text(words.trials, "head")],
    ["", words.method, words.standardError, "", messages.budget.unit].map((head) => text(head, "head")),
    row(fillText(words.estimate, { y }), monteCarlo.estimate, errors.estimate),
    row(fillText(words.uncertainty, { y }), monteCarlo.standardUncertainty, errors.standardUncertainty),
    row(words.symmetricLow, intervals.symmetric[0], errors.symmetric[0]),
    row(words.symmetricHigh, intervals.symmetric[1], errors.symmetric[1]),
    row(words.shortestLow, intervals.shortest[0], errors.shortest?.[0]),
    row(words.shortestHigh, intervals.shortest[1], errors.shortest?.[1]),
    [text(words.count), figure(monteCarlo.trials)],
  ];
}

/**
 * @param differences linear less Monte Carlo endpoint, lower and upper, as formulas
 * @param tolerance the cell of δ, in the second of the rows
 */
function comparisonRows(
  { validation, unit }: MeasurandRecord,
  { messages }: Speech,
  differences: readonly string[],
  tolerance: string,
): Cell[][] {
  const words = messages.workbook;
  const δ = validation.numericalTolerance;
  return [
    [text(words.comparison, "head")],
    [
      text(fillText(words.tolerance, { digits: String(validation.significantDigits) })),
      figure(δ),
      null,
      null,
      text(unit),
    ],
    ...([0, 1] as const).map((i): Cell[] => {
      const d = i === 0 ? validation.dLow : validation.dHigh;
      const distance = `ABS(${differences[i]})`;
      return [
        text(i === 0 ? "d_low" : "d_high"),
        { formula: distance, value: d },
        figure(d),
        {
          formula: `IF(${distance}<=${tolerance},"${words.within}","${words.beyond}")`,
          value: d <= δ ? words.within : words.beyond,
        },
        text(unit),
      ];
    }),
    [text(words.verdict), text(standingWords(standingOf(validation), messages)), text(validation.sentence)],
  ];
}
