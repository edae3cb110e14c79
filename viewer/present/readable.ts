import type {
  AssessmentRecord,
  ConformityRecord,
  ExplanationRecord,
  LinearisedRecord,
  LinearRecord,
  MeasurandRecord,
  MonteCarloRecord,
  PairedRecord,
  SecondOrderRecord,
  SensitivityRecord,
  ValidationRecord,
} from "../../engine/index.ts";
import { powerFor } from "./entries.ts";
import { decimalsFor, fixed, unitWithPower } from "./numbers.ts";
import { conversionTo } from "./units.ts";

/** A measurand whose unit may have a power of ten before it, "10⁻⁶ m", and whose figures are in that unit. */
export interface Readable extends MeasurandRecord {
  /** The unit without the power of ten, and the power's exponent: 0 where none is taken out. */
  readonly bareUnit: string;
  readonly exponent: number;
  /** Decimal places of a reported result: two significant digits of U, the most that JCGM 100, 7.2.6 has. */
  readonly reported: number;
  /**
   * Decimal places of figures that the two methods are compared in: one past that of δ, so that it can be checked, and more
   * where an endpoint differs by so nearly δ that the two would read alike.
   */
  readonly places: number;
  /** Decimal places of contributions: one past that of u(y) with two digits, so that they add up. */
  readonly contributionPlaces: number;
  /** Decimal places of 2·s_z beside δ/5: one more than the comparison, so that the two can be compared. */
  readonly settlingPlaces: number;
}

/** What a reader takes the size of a result from: U, or half the interval of the trials where the budget finds none. */
const spreadOf = ({ linear, monteCarlo: { intervals } }: MeasurandRecord): number =>
  linear.expandedUncertainty || (intervals.symmetric[1] - intervals.symmetric[0]) / 2;

/** Decimal places of a result with this many significant digits of U. */
export const placesOfResult = (measurand: MeasurandRecord, digits: 1 | 2): number =>
  decimalsFor(spreadOf(measurand), digits);

/**
 * The measurand in the unit the reader chose, and with a power of ten taken out (a multiple of three) where its figures
 * would else begin or end with a row of zeros: −0.0000002392 ± 0.0000000037 m becomes (−239.2 ± 3.7) × 10⁻⁹ m.
 *
 * @param unit a unit that `unitsFor` offers for this measurand; another, or none, leaves the record's
 * @param like the measurand whose figures decide on the power of ten: itself, or the one it was made from
 */
export function readable(record: MeasurandRecord, unit: string | null = null, like = record): Readable {
  const conversion = unit === null ? null : conversionTo(record, unit);
  const converted = (of: MeasurandRecord): MeasurandRecord =>
    conversion === null ? of : inUnit(of, conversion.factor, conversion.unit, conversion.offset, conversion.factor);
  const [measurand, model] = [converted(record), converted(like)];
  const spread = spreadOf(model);
  const exponent = powerFor(Math.max(Math.abs(model.linear.estimate), spread), spread);
  const shown =
    exponent === 0 ? measurand : inUnit(measurand, Number(`1e${-exponent}`), unitWithPower(exponent, measurand.unit));
  const { linear, monteCarlo, validation } = shown;
  const [low, high] = monteCarlo.intervals.symmetric;
  const u = linear.standardUncertainty || (monteCarlo.standardUncertainty ?? (high - low) / 4);
  const places = placesApart(validation, Math.max(0, decimalsFor(validation.numericalTolerance || u, 1) + 1));
  return {
    ...shown,
    bareUnit: measurand.unit,
    exponent,
    reported: placesOfResult(shown, 2),
    places,
    contributionPlaces:
      linear.standardUncertainty === 0 ? 0 : Math.max(0, decimalsFor(linear.standardUncertainty, 2) + 1),
    settlingPlaces: places + 1,
  };
}

/** Places that a difference close to δ may take up. */
const MOST_FURTHER = 4;

/** Decimal places at which every d and δ that differ are printed as different figures. */
function placesApart({ dLow, dHigh, atDigits }: ValidationRecord, least: number): number {
  const alike = (places: number): boolean =>
    atDigits.some(({ numericalTolerance: δ }) =>
      [dLow, dHigh].some((d) => d !== δ && d !== 0 && fixed(d, places) === fixed(δ, places)),
    );
  let places = least;
  while (places < least + MOST_FURTHER && alike(places)) places += 1;
  return places === least + MOST_FURTHER ? least : places;
}

const orNull = <T, R>(value: T | null, change: (value: T) => R): R | null => (value === null ? null : change(value));

type Pairs = readonly (readonly [number, number])[];

/**
 * @param offset added to values, not to differences of values
 * @param slope factor of sensitivity coefficients: that of a chosen unit, so that c·u(x) is the contribution; a power of
 *   ten is not theirs, since they may well be large where the result is small
 */
function inUnit(measurand: MeasurandRecord, factor: number, unit: string, offset = 0, slope = 1): MeasurandRecord {
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
    contributions: record.contributions.map((line) => ({
      ...line,
      sensitivityCoefficient: line.sensitivityCoefficient * slope,
      contribution: d(line.contribution),
    })),
    correlatedTerms: record.correlatedTerms.map((line) => ({ ...line, term: d(d(line.term)) })),
    curve: density(record.curve),
  });

  const linearised = (record: LinearisedRecord): LinearisedRecord =>
    record.kind === "unavailable"
      ? record
      : {
          ...record,
          estimate: f(record.estimate),
          standardUncertainty: d(record.standardUncertainty),
          intervals: { symmetric: both(record.intervals.symmetric), shortest: both(record.intervals.shortest) },
          error: apart(record.error),
          curve: density(record.curve),
        };

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

  const paired = (record: PairedRecord): PairedRecord =>
    record.kind === "unavailable"
      ? record
      : {
          ...record,
          estimate: f(record.estimate),
          standardUncertainty: orNull(record.standardUncertainty, d),
          interval: both(record.interval),
          standardErrors: {
            estimate: d(record.standardErrors.estimate),
            standardUncertainty: orNull(record.standardErrors.standardUncertainty, d),
            interval: [d(record.standardErrors.interval[0]), d(record.standardErrors.interval[1])],
          },
          dLow: d(record.dLow),
          dHigh: d(record.dHigh),
        };

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
    ...(record.guardBands === undefined
      ? {}
      : { guardBands: { lower: d(record.guardBands.lower), upper: d(record.guardBands.upper) } }),
    acceptance: orNull(record.acceptance, limits),
    posterior: orNull(record.posterior, (of) => ({
      ...of,
      estimate: f(of.estimate),
      standardUncertainty: d(of.standardUncertainty),
    })),
  });
  const conformity = (record: ConformityRecord): ConformityRecord => ({
    ...record,
    tolerance: limits(record.tolerance),
    prior: orNull(record.prior, (of) => ({
      ...of,
      mean: f(of.mean),
      standardDeviation: d(of.standardDeviation),
    })),
    linear: assessment(record.linear),
    monteCarlo: assessment(record.monteCarlo),
  });

  const sensitivity = (record: SensitivityRecord): SensitivityRecord => ({
    ...record,
    standardUncertainty: orNull(record.standardUncertainty, d),
    standardUncertaintyOneAtATime: orNull(record.standardUncertaintyOneAtATime, d),
    factors: record.factors.map((of) => ({
      ...of,
      alone: {
        ...of.alone,
        standardUncertainty: orNull(of.alone.standardUncertainty, d),
        standardError: orNull(of.alone.standardError, d),
        shift: orNull(of.alone.shift, d),
        sensitivityCoefficient: orNull(of.alone.sensitivityCoefficient, (c) => c * slope),
      },
    })),
    conditional: Object.fromEntries(
      Object.entries(record.conditional).map(([input, { bins, points }]) => [
        input,
        {
          bins: bins.map((bin) => ({
            ...bin,
            mean: orNull(bin.mean, f),
            standardError: orNull(bin.standardError, d),
            low: f(bin.low),
            high: f(bin.high),
          })),
          points: points.map(([x, y]) => [x, f(y)] as const),
        },
      ]),
    ),
  });

  // A record of an older version has none of the later parts.
  return {
    ...measurand,
    unit,
    linear: linear(measurand.linear),
    ...(measurand.linearised === undefined ? {} : { linearised: linearised(measurand.linearised) }),
    monteCarlo: monteCarlo(measurand.monteCarlo),
    validation: validation(measurand.validation),
    ...(measurand.paired === undefined ? {} : { paired: paired(measurand.paired) }),
    secondOrder: orNull(measurand.secondOrder ?? null, secondOrder),
    explanation: orNull(measurand.explanation ?? null, explanation),
    sensitivity: orNull(measurand.sensitivity ?? null, sensitivity),
    conformity: orNull(measurand.conformity ?? null, conformity),
  };
}
