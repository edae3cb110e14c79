import { elementary, InputError, refuse, type Statement } from "../../engine/index.ts";
import { normalQuantile, tQuantile } from "../../engine/internal.ts";
import { daysBetween } from "../evaluation/text/document.ts";
import type { HistoryDocument, HistoryQuantity } from "./document.ts";
import { dueDates, type Due } from "./due.ts";
import { driftLine, onLine, type DriftLine, type CalibratedValue } from "./line.ts";

/** A calibration beside the line, and beside what the calibrations before it had predicted. */
export interface HistoryEntry extends CalibratedValue {
  readonly date: string;
  readonly source: string | null;
  /** k·u of the result. */
  readonly expanded: number;
  /** Result less the line. */
  readonly residual: number;
  /** Result less prediction from the earlier ones over its expanded uncertainty; `null` for the first two. */
  readonly surprise: number | null;
}

/** What the history of one quantity says. */
export interface QuantityHistory {
  readonly name: string;
  readonly unit: string;
  readonly entries: readonly HistoryEntry[];
  readonly line: DriftLine;
  /** k of all expanded uncertainties here: of the normal, or of t where the scatter had to be estimated. */
  readonly coverageFactor: number;
  /** Change a year, with its standard uncertainty, and whether it is more than its expanded one. */
  readonly perYear: { readonly value: number; readonly standardUncertainty: number; readonly significant: boolean };
  /** The value on the day of use. */
  readonly prediction: { readonly value: number; readonly standardUncertainty: number; readonly expanded: number };
  /** Change from the last calibration to the day of use. */
  readonly drift: {
    readonly days: number;
    readonly value: number;
    readonly standardUncertainty: number;
    /** With the result of the last calibration, which the line rests on as well. */
    readonly correlation: number;
  };
  readonly limit: number | null;
  /** When the change since the last calibration reaches the limit; `null` without a limit. */
  readonly due: Due | null;
  /** Input quantity that the statements are for. */
  readonly input: string | null;
  /** For a study: the value on the day of use, in place of the last certificate and a drift beside it. */
  readonly valueStatement: Statement;
  /** For a study: the drift beside the last certificate. */
  readonly driftStatement: Statement;
}

export interface HistoryEvaluation {
  readonly subject: string;
  readonly use: string;
  readonly probability: number;
  readonly quantities: readonly QuantityHistory[];
}

const { hypot } = elementary;

/** Days of a year. */
export const YEAR = 365.25;

/**
 * The drift of every quantity of a history with its uncertainty at the next use, and when a calibration is due.
 *
 * The line is that of generalised least squares with the calibrations' own uncertainties; if they do not explain the scatter
 * (χ² test), an excess is added to each, and the value at use scatters by it too. k is then the quantile of t with the
 * line's degrees of freedom, since the excess was found from them.
 *
 * @throws {InputError} fewer than two calibrations of a quantity, a day of use before the last one
 */
export function evaluateHistory(history: HistoryDocument): HistoryEvaluation {
  const problems: InputError["problems"][number][] = [];
  const quantities = history.quantities.flatMap((quantity, i) => {
    try {
      return [quantityHistory(history, quantity, `quantities.${i}`)];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      return [];
    }
  });
  if (problems.length > 0) throw new InputError(problems);
  return { subject: history.subject, use: history.use, probability: history.coverageProbability, quantities };
}

function quantityHistory(history: HistoryDocument, quantity: HistoryQuantity, place: string): QuantityHistory {
  const { coverageProbability: p, significance } = history;
  const dated = history.calibrations
    .flatMap(({ date, source, results }) => {
      const result = results[quantity.name];
      return result === undefined ? [] : [{ date, source: source ?? null, result }];
    })
    .toSorted((a, b) => (a.date < b.date ? -1 : 1));
  if (dated.length < 2)
    return refuse(place, `${dated.length} calibrations of ${quantity.name}`, "two or more, on different days");
  const start = dated[0]!.date;
  const points = dated.map(({ date, result }): CalibratedValue => ({
    day: daysBetween(start, date),
    value: result.value,
    standardUncertainty: result.standardUncertainty ?? result.expandedUncertainty! / result.coverageFactor!,
  }));
  const last = points.at(-1)!;
  const use = daysBetween(start, history.use);
  if (use < last.day)
    return refuse("use", history.use, `a day from the last calibration of ${quantity.name}, ${dated.at(-1)!.date}, on`);
  const shared = quantity.shared ?? 0;
  const line = driftLine(points, shared, significance);
  const k = factorOf(line, p);
  const at = onLine(line, use);
  const days = use - last.day;
  const C = line.covariance;
  const slopeVariance = C[1]![1]!;
  const drift = Math.sqrt(days * days * slopeVariance + line.excess * line.excess);
  // cov(b, y_n) of least squares is the slope's row of the parameters' covariance times the observation's own row.
  const withLast = days * (C[1]![0]! + C[1]![1]! * last.day);
  const ofLast = hypot(hypot(last.standardUncertainty, line.excess), shared);
  const slope = Math.sqrt(slopeVariance);
  const statement = (estimate: number, u: number, words: string): Statement => ({
    ...stated(estimate, u, line, words),
    unit: quantity.unit,
  });
  const basis = `${history.subject}, ${quantity.name}: ${points.length} calibrations, ${start} to ${dated.at(-1)!.date}, continued to ${history.use}`;
  return {
    name: quantity.name,
    unit: quantity.unit,
    line,
    coverageFactor: k,
    entries: points.map((point, i): HistoryEntry => ({
      ...point,
      date: dated[i]!.date,
      source: dated[i]!.source,
      expanded: k * hypot(point.standardUncertainty, shared),
      residual: line.residuals[i]!,
      surprise: i < 2 ? null : surpriseOf(points.slice(0, i), point, significance, p),
    })),
    perYear: {
      value: line.slope * YEAR,
      standardUncertainty: slope * YEAR,
      significant: Math.abs(line.slope) > k * slope,
    },
    prediction: { value: at.value, standardUncertainty: at.standardUncertainty, expanded: k * at.standardUncertainty },
    drift: {
      days,
      value: line.slope * days,
      standardUncertainty: drift,
      correlation: drift === 0 ? 0 : withLast / (drift * ofLast),
    },
    limit: quantity.limit ?? null,
    due: quantity.limit === undefined ? null : dueDates(line, dated.at(-1)!.date, quantity.limit, k),
    input: quantity.input ?? null,
    valueStatement: statement(at.value, at.standardUncertainty, basis),
    driftStatement: statement(line.slope * days, drift, `change since the last calibration: ${basis}`),
  };
}

/** Factor for both sides together holding p. */
const factorOf = ({ excess, degreesOfFreedom: ν }: DriftLine, p: number): number =>
  excess > 0 ? tQuantile((1 + p) / 2, ν) : normalQuantile((1 + p) / 2);

/** Normalised difference of a result from what those before it predict; what all share is no part of it. */
function surpriseOf(
  before: readonly CalibratedValue[],
  point: CalibratedValue,
  significance: number,
  p: number,
): number {
  const line = driftLine(before, 0, significance);
  const { value, standardUncertainty } = onLine(line, point.day);
  return (point.value - value) / (factorOf(line, p) * hypot(standardUncertainty, point.standardUncertainty));
}

function stated(estimate: number, u: number, { excess, degreesOfFreedom }: DriftLine, source: string): Statement {
  if (u === 0) return { distribution: "constant", value: estimate, source } as Statement;
  return (
    excess > 0
      ? { distribution: "t", estimate, standardUncertainty: u, degreesOfFreedom, evaluation: "A", source }
      : { distribution: "normal", estimate, standardUncertainty: u, source }
  ) as Statement;
}
