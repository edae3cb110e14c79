import { prepare, readStudy, type ReportedRecord, type StudyDocument } from "../../engine/index.ts";
import { linearCurve } from "../../engine/internal.ts";
import { calibratedPoint, type CalibratedPoint } from "./calibrated-point.ts";
import { calibrationPoints, errorName } from "./calibration-points.ts";
import type { Calibration } from "./document.ts";
import { composePoints } from "./composed-points.ts";
import { observed } from "./fit-of-points.ts";
import { fittedPoints, fitWithCovariance } from "./point-covariance.ts";
import { repeatsOf, type Repeat } from "./repeats.ts";
import { zeroChangeOf, type ZeroChange } from "./zero-resistance.ts";
import { studyOf } from "./to-study.ts";

/** A fitted coefficient; R_0 and R(0.01 °C) in Ω, A in 1/°C, B in 1/°C², C in 1/°C⁴, those of ITS-90 of unit 1. */
export interface Coefficient {
  readonly name: string;
  readonly estimate: number;
  /** By the linear budget, and of the distribution (`null` if it has none). */
  readonly standardUncertainty: number;
  readonly distributionUncertainty: number | null;
}

/** The curve between the points, and what it would claim if the points were taken as independent. */
export interface BandPoint {
  readonly at: number;
  readonly error: number;
  readonly halfWidth: number;
  /** Coverage interval of the distribution. */
  readonly interval: readonly [low: number, high: number];
  readonly halfWidthIfIndependent: number;
}

/**
 * Coefficients fitted to all points of one instrument (IEC 60751, clause 4, or ITS-90), with their joint covariance, how well they
 * fit and the band of the curve between the points. Temperatures and errors are in °C; coefficients have the units of
 * `Coefficient`.
 */
export interface CalibrationFit {
  /** Sub-range of ITS-90 and its deviation function; `null` for the form of IEC 60751. */
  readonly deviation: { readonly subRange: string; readonly equation: string } | null;
  readonly coefficients: readonly Coefficient[];
  /** Covariance and correlation of the coefficients by the linear budget, in their order. */
  readonly covariance: readonly (readonly number[])[];
  readonly correlation: readonly (readonly number[])[];
  /** Observed less fitted at each point, °C. */
  readonly residuals: readonly number[];
  /**
   * Lack of fit: χ² of the residuals with the joint covariance of the points, and the probability of one at least as
   * great if the stated uncertainties hold; `null` without degrees of freedom.
   */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly probability: number | null;
  readonly band: readonly BandPoint[];
  /** Least and greatest share by which the band would be too narrow if the points were taken as independent. */
  readonly tooNarrow: readonly [least: number, greatest: number];
}

/** What a calibration found of one instrument. */
export interface CalibrationResult {
  readonly instrument: string;
  readonly description: string | null;
  readonly nominalResistance: number;
  readonly coverageProbability: number;
  /** Trials of the run. */
  readonly trials: number;
  /** By rising temperature; points at one temperature in the order in which they were measured. */
  readonly points: readonly CalibratedPoint[];
  /** Correlation of the errors by the linear budget, in the order of `points`. */
  readonly correlation: readonly (readonly number[])[];
  readonly fit: CalibrationFit | null;
  /** Whether all points conform at once; `null` if no tolerance is stated, or for one point alone. */
  readonly conformity: NonNullable<NonNullable<ReportedRecord["joint"]>["conformity"]> | null;
  readonly repeats: readonly Repeat[];
  /** R(0 °C) before and after; `null` without two points at 0 °C. */
  readonly zero: ZeroChange | null;
}

/** What a result takes from the statements alone: lack of fit, and the band as if every point had inputs of its own. */
export interface StatedFit extends Pick<
  CalibrationFit,
  "deviation" | "chiSquare" | "degreesOfFreedom" | "probability"
> {
  /** Half-widths by the linear budget, in the order of the band. */
  readonly independent: readonly number[];
}

/**
 * Finds what a result takes from the statements alone, which can be done while trials are drawn.
 *
 * @param document the study that `studyOf` made for this instrument
 * @returns `null` if nothing is fitted
 */
export function statedFit(calibration: Calibration, id: string, document: StudyDocument): StatedFit | null {
  const { fit } = composePoints(document.parameters ?? {}).parameters;
  const independent = fit === null ? null : independentBand(calibration, id);
  if (fit === null || independent === null) return null;
  const points = fittedPoints(document);
  const { chiSquare, degreesOfFreedom, probability } = fitWithCovariance(points, fit.fitC);
  const { subRange } = points;
  return {
    deviation: subRange === null ? null : { subRange: subRange.number, equation: subRange.equation },
    chiSquare,
    degreesOfFreedom,
    probability,
    independent,
  };
}

/**
 * Puts together what a calibration found of one instrument from its record: figures of the record as they are, and what
 * follows from its study by the linear budget.
 *
 * @param record of the study that `studyOf` made for this instrument
 * @param stated what follows from that study alone, if it was found before
 */
export function calibrationResult(
  calibration: Calibration,
  id: string,
  record: ReportedRecord,
  stated: StatedFit | null = statedFit(calibration, id, record.study as StudyDocument),
): CalibrationResult {
  const instrument = calibration.instruments.find((each) => each.id === id)!;
  const composed = composePoints(record.study.parameters ?? {});
  const estimates = Object.fromEntries(Object.entries(record.inputs).map(([name, { estimate }]) => [name, estimate]));
  const at = observed(composed, estimates);
  const order = calibration.points
    .map(({ nominal }, i) => ({ nominal, i }))
    .toSorted((a, b) => a.nominal - b.nominal || a.i - b.i)
    .map(({ i }) => i);
  const all = calibration.points.map((_, i) =>
    calibratedPoint(calibration, composed.parameters.points[i]!.name, i, at[i]!, record),
  );
  const correlation = record.joint?.linear.correlation ?? [[1]];
  return {
    instrument: id,
    description: instrument.description ?? null,
    nominalResistance: instrument.nominalResistance,
    coverageProbability: record.coverage.probability,
    trials: record.trials.count,
    points: order.map((i) => all[i]!),
    correlation: order.map((i) => order.map((j) => correlation[i]![j]!)),
    fit: stated === null ? null : fitOf(record, stated),
    conformity: record.joint?.conformity ?? null,
    repeats: repeatsOf(
      order.map((i) => all[i]!),
      record,
    ),
    zero: zeroChangeOf(all, instrument.nominalResistance, composed.point.shownRatio, record),
  };
}

function fitOf(record: ReportedRecord, { independent, ...stated }: StatedFit): CalibrationFit | null {
  const { joint, calibrationCurve: curve, measurands } = record;
  if (curve === null || curve === undefined || joint === null) return null;
  const names = joint.measurands.filter((name) => !name.startsWith(errorName("")));
  const places = names.map((name) => joint.measurands.indexOf(name));
  const block = (matrix: readonly (readonly number[])[]): number[][] =>
    places.map((i) => places.map((j) => matrix[i]![j]!));
  const band = curve.points.map(({ at, linear, monteCarlo }, i): BandPoint => ({
    at,
    error: linear.estimate,
    halfWidth: (linear.interval[1] - linear.interval[0]) / 2,
    interval: monteCarlo.interval,
    halfWidthIfIndependent: independent[i]!,
  }));
  const shares = band.map(({ halfWidth, halfWidthIfIndependent }) => 1 - halfWidthIfIndependent / halfWidth);
  return {
    ...stated,
    coefficients: names.map((name) => {
      const { linear, monteCarlo } = measurands[name]!;
      return {
        name,
        estimate: linear.estimate,
        standardUncertainty: linear.standardUncertainty,
        distributionUncertainty: monteCarlo.standardUncertainty,
      };
    }),
    covariance: block(joint.linear.covariance),
    correlation: block(joint.linear.correlation),
    residuals: curve.fit?.residuals ?? [],
    band,
    tooNarrow: [Math.min(...shares), Math.max(...shares)],
  };
}

/** Half-widths of the band by the linear budget as if every point had inputs of its own; `null` without a curve. */
function independentBand(calibration: Calibration, id: string): number[] | null {
  const study = readStudy(studyOf(calibration, id, true));
  const prepared = prepare(calibrationPoints.build(study.parameters ?? {}), study);
  return linearCurve(prepared)?.map(({ linear: { interval } }) => (interval[1] - interval[0]) / 2) ?? null;
}
