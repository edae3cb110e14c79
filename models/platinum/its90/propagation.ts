import { refuse } from "../../../engine/index.ts";
import { solveInPlace } from "./deviation-coefficients.ts";
import { fixedPoints, type FixedPointName } from "./fixed-points.ts";
import { referenceSlope } from "./reference-function.ts";
import { coefficientNames, deviationSlope, type DeviationCoefficients, type SubRange } from "./sub-ranges.ts";
import { ratioAt } from "./thermometer.ts";

/**
 * How the triple point of water enters: `common`, one R(273.16 K) in every ratio, that in use too; `remeasured`, the
 * ratio in use taken with an R(273.16 K) measured anew.
 */
export type TriplePoint = "common" | "remeasured";

/** How t in use answers to the calibration, to first order; K per K, dimension one. */
export interface Propagation {
  /** Change of t for a thermometer read 1 K too high (in terms of its resistance) at each fixed point. */
  readonly points: ReadonlyMap<FixedPointName, number>;
  /** The same for R(273.16 K) of the calibration, with all the ratios it stands in. */
  readonly triplePoint: number;
  /** The same for R(273.16 K) measured anew in use; 0 if one value serves for everything. */
  readonly triplePointInUse: number;
  /** The same for the reading in use: 1 by definition of the scale of each figure here. */
  readonly reading: number;
}

/**
 * Propagation of errors at the fixed points to T in use: differentiates the coefficients' equations, no refit needed.
 *
 * With W = W_r + Σ c_k·φ_k(W), an error δWᵢ at point i moves the coefficients by M⁻¹[(1 − dev′(Wᵢ))·δWᵢ], and the
 * temperature in use by [(1 − dev′(W))·δW − Σ φ_k(W)·δc_k]/W_r′. R(273.16 K) stands under every ratio: δWᵢ = −Wᵢ·δR/R,
 * so its error is one, fully correlated over all points.
 *
 * @param T temperature in use, K
 * @throws {InputError} T outside the sub-range
 */
export function propagation(
  subRange: SubRange,
  coefficients: DeviationCoefficients,
  T: number,
  triplePoint: TriplePoint = "common",
  realised: Readonly<Partial<Record<FixedPointName, number>>> = {},
): Propagation {
  if (!(T >= subRange.low - 1e-6 && T <= subRange.high + 1e-6)) {
    refuse(
      "T",
      T,
      `a temperature from ${subRange.low} K to ${subRange.high} K, sub-range ${subRange.number} of ITS-90`,
    );
  }
  if (coefficients.length !== coefficientNames(subRange).length) {
    refuse(
      "coefficients",
      coefficients.length,
      `${coefficientNames(subRange).length} numbers for sub-range ${subRange.number}`,
    );
  }
  const temperatures = subRange.points.map((name) => realised[name] ?? fixedPoints[name].temperature);
  const W = temperatures.map((Ti) => ratioAt(subRange, coefficients, Ti));
  const use = ratioAt(subRange, coefficients, T);
  const slack = (w: number): number => 1 - deviationSlope(subRange, coefficients, w);
  const perRatio = W.map((_, i) => changePerRatio(subRange, coefficients, W, i, use, slack) / referenceSlope(T));
  const inUse = slack(use) / referenceSlope(T);
  // W′(T) of this thermometer turns kelvins at a point into a change of its ratio.
  const slope = (w: number, Ti: number): number => referenceSlope(Ti) / slack(w);
  const perTriple = slope(1, fixedPoints.H2O.temperature);
  const calibration = -perRatio.reduce((sum, value, i) => sum + value * W[i]!, 0) * perTriple;
  const own = -inUse * use * perTriple;
  return {
    points: new Map(subRange.points.map((name, i) => [name, perRatio[i]! * slope(W[i]!, temperatures[i]!)])),
    triplePoint: triplePoint === "common" ? calibration + own : calibration,
    triplePointInUse: triplePoint === "common" ? 0 : own,
    reading: 1,
  };
}

/** −Σ φ_k(W)·∂c_k/∂Wᵢ at W in use: change of W_r in use for a change of the ratio at point i. */
function changePerRatio(
  subRange: SubRange,
  coefficients: DeviationCoefficients,
  W: readonly number[],
  i: number,
  use: number,
  slack: (w: number) => number,
): number {
  const { terms, aboveAluminium } = subRange;
  const n = terms.length;
  const shifts = new Float64Array(n);
  if (i < n) {
    shifts[i] = slack(W[i]!);
    const m = Float64Array.from({ length: n * n }, (_, j) => terms[j % n]!.value(W[Math.floor(j / n)]!));
    if (!solveInPlace(m, shifts, n)) refuse("coefficients", [...W], "ratios at different temperatures");
  }
  const through = (w: number): number => shifts.reduce((sum, shift, k) => sum + shift * terms[k]!.value(w), 0);
  if (!aboveAluminium) return -through(use);
  const aluminium = W[n - 1]!;
  if (use <= aluminium) return -through(use);
  const silver = W[n]!;
  const d = coefficients[n]!;
  const wide = silver - aluminium;
  // d follows from what is left at silver; W(Al) stands in its term as well.
  const moved = i === n - 1 ? 1 : 0;
  const left = (i === n ? slack(silver) : 0) - through(silver) + 2 * d * wide * moved;
  const change = (left / (wide * wide)) * (use - aluminium) * (use - aluminium) - 2 * d * (use - aluminium) * moved;
  return -through(use) - change;
}

/** Standard uncertainties of a calibration, K: each in terms of temperature at its point, independent of one another. */
export interface CalibrationUncertainties {
  readonly points: Readonly<Partial<Record<FixedPointName, number>>>;
  readonly triplePoint: number;
  /** Of R(273.16 K) measured anew in use. */
  readonly triplePointInUse?: number;
  /** Of the reading in use. */
  readonly reading?: number;
}

/**
 * u(t) in use in K from the uncertainties at the fixed points, the correlation through R(273.16 K) included.
 *
 * @throws {InputError} an uncertainty that is missing or negative
 */
export function propagatedUncertainty(found: Propagation, u: CalibrationUncertainties): number {
  let variance = 0;
  const add = (product: number): void => void (variance += product * product);
  for (const [name, factor] of found.points) add(factor * stated(`points.${name}`, u.points[name]));
  add(found.triplePoint * stated("triplePoint", u.triplePoint));
  if (found.triplePointInUse !== 0) add(found.triplePointInUse * stated("triplePointInUse", u.triplePointInUse));
  add(found.reading * stated("reading", u.reading ?? 0));
  return Math.sqrt(variance);
}

function stated(place: string, value: number | undefined): number {
  if (value === undefined || !(value >= 0 && value < Infinity)) {
    return refuse(place, value, "a standard uncertainty in K, at least 0");
  }
  return value;
}
