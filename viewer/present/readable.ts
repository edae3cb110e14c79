import type {
  AssessmentRecord,
  ConformityRecord,
  ExplanationRecord,
  LinearRecord,
  MeasurandRecord,
  MonteCarloRecord,
  SecondOrderRecord,
  ValidationRecord,
} from "../../engine/index.ts";
import { decimalsFor, exponentOf, raised } from "./numbers.ts";
import { conversionTo } from "./units.ts";

/** From this many decimal places on, a result is read better with a power of ten taken out. */
const MANY_PLACES = 6;

/** What a reader takes the size of a result from: U, or what the trials give where the budget finds none. */
const spreadOf = ({ linear, monteCarlo }: MeasurandRecord): number =>
  linear.expandedUncertainty || (monteCarlo.standardUncertainty ?? monteCarlo.histogram.width);

/**
 * The measurand in the unit the reader chose, and with a power of ten taken out (a multiple of three) where its figures
 * would else begin with a row of zeros: −0.0002392 ± 0.0000037 becomes (−239.2 ± 3.7) × 10⁻⁶. Others are returned as
 * they are.
 *
 * @param unit a unit that `unitsFor` offers for this measurand; another, or none, leaves the record's
 * @param like the measurand whose spread decides on the power of ten: itself, or the one it was made from
 */
export function readable(record: MeasurandRecord, unit: string | null = null, like = record): MeasurandRecord {
  const conversion = unit === null ? null : conversionTo(record, unit);
  const measurand =
    conversion === null ? record : inUnit(record, conversion.factor, conversion.unit, conversion.offset);
  const spread = spreadOf(like) * (conversion?.factor ?? 1);
  if (!(spread > 0) || decimalsFor(spread, 2) < MANY_PLACES) return measurand;
  const power = 3 * Math.floor(exponentOf(spread, 2) / 3);
  return inUnit(
    measurand,
    Number(`1e${-power}`),
    `×\u00a010${raised(power)}${measurand.unit === "1" ? "" : `\u00a0${measurand.unit}`}`,
  );
}

const orNull = <T, R>(value: T | null, change: (value: T) => R): R | null => (value === null ? null : change(value));

type Pairs = readonly (readonly [number, number])[];

/** @param offset added to values, not to differences of values */
function inUnit(measurand: MeasurandRecord, factor: number, unit: string, offset = 0): MeasurandRecord {
  /** A difference of two values: u, U, δ, a distance. */
  const d = (value: number): number => value * factor;
  const f = (value: number): number => value * factor + offset;
  const both = ([low, high]: readonly [number, number]): readonly [number, number] => [f(low), f(high)];
  const apart = ([low, high]: readonly [number, number]): readonly [number, number] => [d(low), d(high)];
  const figures = <K extends string>(
    values: Readonly<Record<K, number | null>>,
    change: (name: K, value: number) => number,
  ): Readonly<Record<K, number | null>> =>
    Object.fromEntries(
      Object.entries<number | null>(values).map(([name, value]) => [name, orNull(value, (v) => change(name as K, v))]),
    ) as Record<K, number | null>;
  // A density is per unit: it falls as its variable grows.
  const density = (curve: Pairs): Pairs => curve.map(([x, height]) => [f(x), height / factor]);

  const linear = (record: LinearRecord): LinearRecord => ({
    ...record,
    estimate: f(record.estimate),
    standardUncertainty: d(record.standardUncertainty),
    expandedUncertainty: d(record.expandedUncertainty),
    interval: both(record.interval),
    // A sensitivity coefficient stays in the units of model and input, where it may well be large.
    contributions: record.contributions.map((line) => ({ ...line, contribution: d(line.contribution) })),
    correlatedTerms: record.correlatedTerms.map((line) => ({ ...line, term: d(d(line.term)) })),
    curve: density(record.curve),
  });

  const monteCarlo = (record: MonteCarloRecord): MonteCarloRecord => ({
    ...record,
    estimate: orNull(record.estimate, f),
    standardUncertainty: orNull(record.standardUncertainty, d),
    intervals: { symmetric: both(record.intervals.symmetric), shortest: both(record.intervals.shortest) },
    least: f(record.least),
    greatest: f(record.greatest),
    standardErrors: {
      estimate: orNull(record.standardErrors.estimate, d),
      standardUncertainty: orNull(record.standardErrors.standardUncertainty, d),
      symmetric: apart(record.standardErrors.symmetric),
      shortest: orNull(record.standardErrors.shortest, apart),
    },
    histogram: { ...record.histogram, low: f(record.histogram.low), width: d(record.histogram.width) },
    distributionFunction: record.distributionFunction.map(([probability, value]) => [probability, f(value)]),
    settling: {
      ...record.settling,
      limit: d(record.settling.limit),
      doubled: figures(record.settling.doubled, (_, value) => d(value)),
      points: record.settling.points.map((point) => ({
        ...point,
        averages: figures(point.averages, (name, value) => (name === "standardUncertainty" ? d(value) : f(value))),
        doubled: figures(point.doubled, (_, value) => d(value)),
      })),
    },
  });

  const validation = (record: ValidationRecord): ValidationRecord => ({
    ...record,
    numericalTolerance: d(record.numericalTolerance),
    dLow: d(record.dLow),
    dHigh: d(record.dHigh),
    atDigits: record.atDigits.map((at) => ({ ...at, numericalTolerance: d(at.numericalTolerance) })),
  });

  const secondOrder = (record: SecondOrderRecord): SecondOrderRecord => ({
    ...record,
    bias: d(record.bias),
    standardUncertainty: d(record.standardUncertainty),
    terms: record.terms.map((line) => ({ ...line, term: d(d(line.term)) })),
    interval: both(record.interval),
    dLow: d(record.dLow),
    dHigh: d(record.dHigh),
  });

  const explanation = (record: ExplanationRecord): ExplanationRecord => ({
    ...record,
    difference: apart(record.difference),
    parts: Object.fromEntries(
      Object.entries(record.parts).map(([cause, part]) => [
        cause,
        { ...part, shapley: apart(part.shapley), alone: apart(part.alone) },
      ]),
    ) as unknown as ExplanationRecord["parts"],
    interplay: apart(record.interplay),
    remainder: apart(record.remainder),
  });

  const limits = <T extends { readonly lower: number | null; readonly upper: number | null }>(record: T): T => ({
    ...record,
    lower: orNull(record.lower, f),
    upper: orNull(record.upper, f),
  });
  const assessment = (record: AssessmentRecord): AssessmentRecord => ({
    ...record,
    estimate: f(record.estimate),
    standardUncertainty: orNull(record.standardUncertainty, d),
    expandedUncertainty: d(record.expandedUncertainty),
    guardBand: d(record.guardBand),
    acceptance: orNull(record.acceptance, limits),
  });
  const conformity = (record: ConformityRecord): ConformityRecord => ({
    ...record,
    tolerance: limits(record.tolerance),
    linear: assessment(record.linear),
    monteCarlo: assessment(record.monteCarlo),
  });

  // A record of an older version has none of the later parts.
  return {
    ...measurand,
    unit,
    linear: linear(measurand.linear),
    monteCarlo: monteCarlo(measurand.monteCarlo),
    validation: validation(measurand.validation),
    secondOrder: orNull(measurand.secondOrder ?? null, secondOrder),
    explanation: orNull(measurand.explanation ?? null, explanation),
    conformity: orNull(measurand.conformity ?? null, conformity),
  };
}
