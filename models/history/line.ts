import { chiSquareAbove } from "../interlaboratory/reference-value.ts";
import { leastSquares } from "../platinum/least-squares.ts";

/** A calibration's result of one quantity. */
export interface CalibratedValue {
  /** Days since the first calibration. */
  readonly day: number;
  readonly value: number;
  /** Without what all calibrations share. */
  readonly standardUncertainty: number;
}

/** A straight line through the calibrations, by least squares with their uncertainties. */
export interface DriftLine {
  /** Value at day 0 and change per day. */
  readonly value: number;
  readonly slope: number;
  /** Covariance of both, excess scatter included, the shared uncertainty too. */
  readonly covariance: readonly (readonly number[])[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** `null` for two calibrations, which always lie on a line. */
  readonly probability: number | null;
  /** Standard deviation of the scatter about the line that the stated uncertainties do not explain; 0 if χ² is accepted. */
  readonly excess: number;
  /** Observed less fitted. */
  readonly residuals: readonly number[];
}

/** Enough for any start: Newton's steps on a falling convex function from below never overshoot. */
const MOST_STEPS = 200;

/**
 * The straight line by generalised least squares. Where the χ² test fails at the level α, every calibration gets a variance
 * τ² in addition, for which χ² is its degrees of freedom: the condition of Mandel and Paule, for a line in place of a mean.
 *
 * @param shared standard uncertainty that all calibrations have in common
 * @throws {InputError} calibrations that determine no line
 */
export function driftLine(points: readonly CalibratedValue[], shared: number, significance: number): DriftLine {
  const first = fitted(points, 0);
  const { chiSquare, degreesOfFreedom } = first;
  const probability = degreesOfFreedom === 0 ? null : chiSquareAbove(chiSquare, degreesOfFreedom);
  const excess2 = probability === null || probability >= significance ? 0 : excessOf(points, degreesOfFreedom);
  const fit = excess2 === 0 ? first : fitted(points, excess2);
  return {
    value: fit.parameters[0]!,
    slope: fit.parameters[1]!,
    // What all share moves every value alike: the line's height, not its slope.
    covariance: fit.covariance.map((row, i) => row.map((c, j) => (i === 0 && j === 0 ? c + shared * shared : c))),
    chiSquare,
    degreesOfFreedom,
    probability,
    excess: Math.sqrt(excess2),
    residuals: fit.residuals,
  };
}

function fitted(points: readonly CalibratedValue[], excess2: number) {
  const covariance = points.map(({ standardUncertainty: u }, i) =>
    points.map((_, j) => (i === j ? u * u + excess2 : 0)),
  );
  return leastSquares(
    points.map(({ day }) => [1, day]),
    points.map(({ value }) => value),
    { covariance },
  );
}

function excessOf(points: readonly CalibratedValue[], wanted: number): number {
  let excess2 = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const { chiSquare, residuals } = fitted(points, excess2);
    if (chiSquare <= wanted) return excess2;
    // dχ²/dτ² at the minimum: the parameters' own change counts in the second order alone.
    const fall = points.reduce((sum, { standardUncertainty: u }, i) => {
      const v = u * u + excess2;
      return sum + (residuals[i]! * residuals[i]!) / (v * v);
    }, 0);
    const next = excess2 + (chiSquare - wanted) / fall;
    if (next === excess2) return excess2;
    excess2 = next;
  }
  return excess2;
}

/** Value of the line at a day, and its standard uncertainty; of what the quantity is then, with the scatter about the line. */
export function onLine(
  { value, slope, covariance: C, excess }: DriftLine,
  day: number,
): { readonly value: number; readonly line: number; readonly standardUncertainty: number } {
  const variance = C[0]![0]! + 2 * day * C[0]![1]! + day * day * C[1]![1]!;
  const line = Math.sqrt(Math.max(0, variance));
  return { value: value + slope * day, line, standardUncertainty: Math.sqrt(Math.max(0, variance) + excess * excess) };
}
