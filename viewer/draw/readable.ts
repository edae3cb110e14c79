import type { LinearRecord, MeasurandRecord, MonteCarloRecord, ValidationRecord } from "../../engine/index.ts";
import { decimalsFor, exponentOf, raised } from "./numbers.ts";

/** From this many decimal places on, a result is read better with a power of ten taken out. */
const MANY_PLACES = 6;

/** What a reader takes the size of a result from: U, or what the trials give where the budget finds none. */
const spreadOf = ({ linear, monteCarlo }: MeasurandRecord): number =>
  linear.expandedUncertainty || (monteCarlo.standardUncertainty ?? monteCarlo.histogram.width);

/**
 * The measurand in a unit with a power of ten taken out (a multiple of three), where its figures would else begin with
 * a row of zeros: −0.0002392 ± 0.0000037 becomes (−239.2 ± 3.7) × 10⁻⁶. Others are returned as they are.
 */
export function readable(measurand: MeasurandRecord): MeasurandRecord {
  const spread = spreadOf(measurand);
  if (!(spread > 0) || decimalsFor(spread, 2) < MANY_PLACES) return measurand;
  const power = 3 * Math.floor(exponentOf(spread, 2) / 3);
  return inUnit(measurand, Number(`1e${-power}`), `×\u00a010${raised(power)}${measurand.unit === "1" ? "" : `\u00a0${measurand.unit}`}`);
}

const orNull = <T, R>(value: T | null, change: (value: T) => R): R | null => (value === null ? null : change(value));

type Pairs = readonly (readonly [number, number])[];

function inUnit(measurand: MeasurandRecord, factor: number, unit: string): MeasurandRecord {
  const f = (value: number): number => value * factor;
  const both = ([low, high]: readonly [number, number]): readonly [number, number] => [f(low), f(high)];
  const figures = <K extends string>(values: Readonly<Record<K, number | null>>): Readonly<Record<K, number | null>> =>
    Object.fromEntries(Object.entries<number | null>(values).map(([name, value]) => [name, orNull(value, f)])) as Record<K, number | null>;
  // A density is per unit: it falls as its variable grows.
  const density = (curve: Pairs): Pairs => curve.map(([x, height]) => [f(x), height / factor]);

  const linear = (record: LinearRecord): LinearRecord => ({
    ...record,
    estimate: f(record.estimate),
    standardUncertainty: f(record.standardUncertainty),
    expandedUncertainty: f(record.expandedUncertainty),
    interval: both(record.interval),
    // A sensitivity coefficient stays in the units of model and input, where it may well be large.
    contributions: record.contributions.map((line) => ({ ...line, contribution: f(line.contribution) })),
    correlatedTerms: record.correlatedTerms.map((line) => ({ ...line, term: f(f(line.term)) })),
    curve: density(record.curve),
  });

  const monteCarlo = (record: MonteCarloRecord): MonteCarloRecord => ({
    ...record,
    estimate: orNull(record.estimate, f),
    standardUncertainty: orNull(record.standardUncertainty, f),
    intervals: { symmetric: both(record.intervals.symmetric), shortest: both(record.intervals.shortest) },
    least: f(record.least),
    greatest: f(record.greatest),
    standardErrors: {
      estimate: orNull(record.standardErrors.estimate, f),
      standardUncertainty: orNull(record.standardErrors.standardUncertainty, f),
      symmetric: both(record.standardErrors.symmetric),
      shortest: orNull(record.standardErrors.shortest, both),
    },
    histogram: { ...record.histogram, low: f(record.histogram.low), width: f(record.histogram.width) },
    distributionFunction: record.distributionFunction.map(([probability, value]) => [probability, f(value)]),
    settling: {
      ...record.settling,
      limit: f(record.settling.limit),
      doubled: figures(record.settling.doubled),
      points: record.settling.points.map((point) => ({ ...point, averages: figures(point.averages), doubled: figures(point.doubled) })),
    },
  });

  const validation = (record: ValidationRecord): ValidationRecord => ({
    ...record,
    numericalTolerance: f(record.numericalTolerance),
    dLow: f(record.dLow),
    dHigh: f(record.dHigh),
    atDigits: record.atDigits.map((at) => ({ ...at, numericalTolerance: f(at.numericalTolerance) })),
  });

  return {
    ...measurand,
    unit,
    linear: linear(measurand.linear),
    monteCarlo: monteCarlo(measurand.monteCarlo),
    validation: validation(measurand.validation),
  };
}
