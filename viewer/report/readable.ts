import type {
  ConformityRecord,
  ExplanationRecord,
  Interval,
  MeasurandRecord,
  SecondOrderRecord,
  SensitivityRecord,
} from "../../engine/index.ts";
import { decimalsFor } from "../../engine/index.ts";
import { exponentOfThousands, powerOfTen } from "./numbers.ts";

/** A measurand whose unit may have a power of ten before it, "10⁻⁶ m", and whose figures are in that unit. */
export interface Readable extends MeasurandRecord {
  /** The unit without the power of ten, and the power's exponent: 0 where none is taken out. */
  readonly bareUnit: string;
  readonly exponent: number;
  /** Decimal places for figures that the two methods are compared in: one past that of δ. */
  readonly places: number;
  /** Decimal places of a reported result (GUM 7.2.6). */
  readonly reported: number;
}

/** From this many decimal places on a power of ten is taken out of figures that all begin with zeros. */
const MANY_PLACES = 5;
const BEGINS_WITH_ZEROS = 0.1;
const VERY_LARGE = 1e7;

/** The power of ten, a multiple of three, to take out: 0 where the figures print well as they are. */
function powerFor({ linear, validation }: MeasurandRecord, spread: number): number {
  const size = Math.max(Math.abs(linear.estimate), spread);
  const small = decimalsFor(spread, 2) >= MANY_PLACES && size < BEGINS_WITH_ZEROS;
  if (!(spread > 0) || !(small || size >= VERY_LARGE)) return 0;
  const power = exponentOfThousands(size);
  // Zeros at the end would claim figures that the uncertainty does not leave.
  const places =
    Math.min(
      decimalsFor(linear.standardUncertainty || spread / 2, validation.significantDigits),
      decimalsFor(spread, 2),
    ) + power;
  return places < 0 ? power + 3 : power;
}

/**
 * A measurand in a unit in which its figures neither begin with a row of zeros nor end with one: −0.0000002392 m becomes
 * −239.2 in 10⁻⁹ m.
 */
export function readable(measurand: MeasurandRecord): Readable {
  const [low, high] = measurand.monteCarlo.intervals.symmetric;
  const power = powerFor(measurand, measurand.linear.expandedUncertainty || (high - low) / 2);
  const shown =
    power === 0
      ? measurand
      : scaled(
          measurand,
          Number(`1e${-power}`),
          `${powerOfTen(power)}${measurand.unit === "1" ? "" : `\u00a0${measurand.unit}`}`,
        );
  const { validation, linear, monteCarlo } = shown;
  const [from, to] = monteCarlo.intervals.symmetric;
  const size = linear.standardUncertainty || (monteCarlo.standardUncertainty ?? (to - from) / 4);
  return {
    ...shown,
    bareUnit: measurand.unit,
    exponent: power,
    places: Math.max(0, decimalsFor(validation.numericalTolerance || size, 1) + 1),
    // No place beyond the digits of u(y) that the study holds meaningful, nor beyond two digits of U.
    reported: Math.min(
      decimalsFor(size, validation.significantDigits),
      decimalsFor(linear.expandedUncertainty || (to - from) / 2, 2),
    ),
  };
}

type Pairs = readonly (readonly [number, number])[];

function scaled(measurand: MeasurandRecord, factor: number, unit: string): MeasurandRecord {
  const f = (value: number): number => value * factor;
  const orNull = (value: number | null): number | null => (value === null ? null : f(value));
  const both = ([low, high]: Interval): Interval => [f(low), f(high)];
  const values = <T extends Readonly<Record<string, number | null>>>(of: T): T =>
    Object.fromEntries(Object.entries(of).map(([key, value]) => [key, orNull(value)])) as T;
  // A density is per unit: it falls as its variable grows.
  const density = (curve: Pairs): Pairs => curve.map(([x, height]) => [f(x), height / factor]);
  const { linear, monteCarlo, validation, secondOrder, explanation, sensitivity, conformity } = measurand;
  return {
    ...measurand,
    unit,
    linear: {
      ...linear,
      estimate: f(linear.estimate),
      standardUncertainty: f(linear.standardUncertainty),
      expandedUncertainty: f(linear.expandedUncertainty),
      interval: both(linear.interval),
      contributions: linear.contributions.map((line) => ({
        ...line,
        sensitivityCoefficient: f(line.sensitivityCoefficient),
        contribution: f(line.contribution),
      })),
      correlatedTerms: linear.correlatedTerms.map((line) => ({ ...line, term: f(f(line.term)) })),
      curve: density(linear.curve),
    },
    monteCarlo: {
      ...monteCarlo,
      estimate: orNull(monteCarlo.estimate),
      standardUncertainty: orNull(monteCarlo.standardUncertainty),
      intervals: { symmetric: both(monteCarlo.intervals.symmetric), shortest: both(monteCarlo.intervals.shortest) },
      least: f(monteCarlo.least),
      greatest: f(monteCarlo.greatest),
      standardErrors: {
        estimate: orNull(monteCarlo.standardErrors.estimate),
        standardUncertainty: orNull(monteCarlo.standardErrors.standardUncertainty),
        symmetric: both(monteCarlo.standardErrors.symmetric),
        shortest: monteCarlo.standardErrors.shortest === null ? null : both(monteCarlo.standardErrors.shortest),
      },
      histogram: { ...monteCarlo.histogram, low: f(monteCarlo.histogram.low), width: f(monteCarlo.histogram.width) },
      distributionFunction: monteCarlo.distributionFunction.map(([probability, value]) => [probability, f(value)]),
      settling: {
        ...monteCarlo.settling,
        limit: f(monteCarlo.settling.limit),
        doubled: values(monteCarlo.settling.doubled),
        points: monteCarlo.settling.points.map((point) => ({
          ...point,
          averages: values(point.averages),
          doubled: values(point.doubled),
        })),
      },
    },
    validation: {
      ...validation,
      numericalTolerance: f(validation.numericalTolerance),
      dLow: f(validation.dLow),
      dHigh: f(validation.dHigh),
      atDigits: validation.atDigits.map((at) => ({ ...at, numericalTolerance: f(at.numericalTolerance) })),
    },
    secondOrder: secondOrder === null ? null : scaledSecondOrder(secondOrder, f, both),
    explanation: explanation === null ? null : scaledExplanation(explanation, both),
    sensitivity: sensitivity === null ? null : scaledSensitivity(sensitivity, f, orNull),
    conformity: conformity === null ? null : scaledConformity(conformity, f, orNull),
  };
}

type Scale = (value: number) => number;
type ScaleOrNull = (value: number | null) => number | null;

const scaledSecondOrder = (
  record: SecondOrderRecord,
  f: Scale,
  both: (ends: Interval) => Interval,
): SecondOrderRecord => ({
  ...record,
  bias: f(record.bias),
  standardUncertainty: f(record.standardUncertainty),
  terms: record.terms.map((term) => ({ ...term, term: f(f(term.term)) })),
  interval: both(record.interval),
  dLow: f(record.dLow),
  dHigh: f(record.dHigh),
});

const scaledExplanation = (record: ExplanationRecord, both: (ends: Interval) => Interval): ExplanationRecord => ({
  ...record,
  difference: both(record.difference),
  parts: Object.fromEntries(
    Object.entries(record.parts).map(([cause, part]) => [
      cause,
      { ...part, shapley: both(part.shapley), alone: both(part.alone) },
    ]),
  ) as ExplanationRecord["parts"],
  interplay: both(record.interplay),
  remainder: both(record.remainder),
});

const scaledSensitivity = (record: SensitivityRecord, f: Scale, orNull: ScaleOrNull): SensitivityRecord => ({
  ...record,
  standardUncertainty: orNull(record.standardUncertainty),
  standardUncertaintyOneAtATime: orNull(record.standardUncertaintyOneAtATime),
  factors: record.factors.map((factor) => ({
    ...factor,
    alone: {
      ...factor.alone,
      standardUncertainty: orNull(factor.alone.standardUncertainty),
      standardError: orNull(factor.alone.standardError),
      shift: orNull(factor.alone.shift),
      sensitivityCoefficient: orNull(factor.alone.sensitivityCoefficient),
    },
  })),
  conditional: Object.fromEntries(
    Object.entries(record.conditional).map(([input, { bins, points }]) => [
      input,
      {
        bins: bins.map((bin) => ({
          ...bin,
          mean: orNull(bin.mean),
          standardError: orNull(bin.standardError),
          low: f(bin.low),
          high: f(bin.high),
        })),
        points: points.map(([x, y]) => [x, f(y)] as const),
      },
    ]),
  ),
});

const scaledConformity = (record: ConformityRecord, f: Scale, orNull: ScaleOrNull): ConformityRecord => {
  const assessment = (of: ConformityRecord["linear"]): ConformityRecord["linear"] => ({
    ...of,
    estimate: f(of.estimate),
    standardUncertainty: orNull(of.standardUncertainty),
    expandedUncertainty: f(of.expandedUncertainty),
    guardBand: f(of.guardBand),
    acceptance:
      of.acceptance === null ? null : { lower: orNull(of.acceptance.lower), upper: orNull(of.acceptance.upper) },
    posterior:
      of.posterior === null
        ? null
        : {
            ...of.posterior,
            estimate: f(of.posterior.estimate),
            standardUncertainty: f(of.posterior.standardUncertainty),
          },
  });
  return {
    ...record,
    tolerance: { ...record.tolerance, lower: orNull(record.tolerance.lower), upper: orNull(record.tolerance.upper) },
    prior:
      record.prior === null
        ? null
        : { ...record.prior, mean: f(record.prior.mean), standardDeviation: f(record.prior.standardDeviation) },
    linear: assessment(record.linear),
    monteCarlo: assessment(record.monteCarlo),
  };
};
