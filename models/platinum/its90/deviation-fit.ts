import chiSquareCdf from "@stdlib/stats-base-dists-gamma-cdf";
import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import type { ComparisonPoint } from "../fit.ts";
import { choleskyFactorOf, leastSquares } from "../least-squares.ts";
import { LinearRefit } from "../linear-refit.ts";
import { branchOf, type Branch } from "./branch.ts";
import { coefficientNames, deviation, deviationSlope, type SubRange } from "./sub-ranges.ts";
import { ratioFrom } from "./thermometer.ts";

const ZERO_CELSIUS = 273.15;
/** Where a point may lie beyond the ends of its sub-range, K: a bath is seldom at a fixed point. */
export const BEYOND = 0.05;
/**
 * Rounds of the fit. It is linear but for W = R/R(273.16 K) in the terms, whose slopes are some 1e-4: each round gains
 * about four digits.
 */
const ROUNDS = 4;

/**
 * R(273.16 K) and the coefficients of the deviation function of ITS-90 in one sub-range (Metrologia 27 (1990) 3–10, table
 * 5), determined from a comparison at n points by generalised least squares.
 */
export interface DeviationFit {
  /** "Rtp", then the coefficients of the sub-range. */
  readonly names: readonly string[];
  /** R(273.16 K) in Ω, then the coefficients. */
  readonly parameters: readonly number[];
  /** Covariance of `parameters` from that of the points; `null` without one. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Observed less fitted, Ω. */
  readonly residuals: readonly number[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Probability of a χ² at least as great if the stated uncertainties hold; `null` without them or without ν. */
  readonly probability: number | null;
}

/** What a comparison determines in a sub-range: R(273.16 K) and every coefficient. */
export const fittedNames = (subRange: SubRange): readonly string[] => ["Rtp", ...coefficientNames(subRange)];

/** Ends of a sub-range for points of a comparison, °C. */
export const rangeInCelsius = ({ low, high }: SubRange): readonly [low: number, high: number] => [
  low - ZERO_CELSIUS,
  high - ZERO_CELSIUS,
];

/**
 * The fit once a trial. It minimises the squares of L⁻¹r with rᵢ = Rᵢ − R(273.16 K)·[W_r(Tᵢ) + Σ c_k·f_k(Wᵢ)],
 * Wᵢ = Rᵢ/R(273.16 K).
 */
export class DeviationRefit {
  /** In: temperatures, °C. */
  readonly temperatures: Float64Array;
  /** In: resistances, Ω. */
  readonly resistances: Float64Array;
  /** Out: R(273.16 K) and the coefficients. */
  readonly parameters: Float64Array;
  readonly #subRange: SubRange;
  readonly #branch: Branch;
  readonly #linear: LinearRefit;
  readonly #ratios: Float64Array;

  /** @param factor L of the points' joint covariance LLᵀ, Ω; `null` if all count alike */
  constructor(points: number, subRange: SubRange, factor: readonly (readonly number[])[] | null) {
    this.#subRange = subRange;
    this.#branch = branchOf(subRange);
    this.temperatures = new Float64Array(points);
    this.resistances = new Float64Array(points);
    this.#ratios = new Float64Array(points);
    this.parameters = new Float64Array(1 + subRange.terms.length);
    this.#linear = new LinearRefit(points, this.parameters.length, factor);
  }

  /** Fits the points now in place. False if they do not determine the coefficients. */
  solve(): boolean {
    const { temperatures, resistances, parameters } = this;
    const { terms } = this.#subRange;
    const linear = this.#linear;
    const ratios = this.#ratios;
    const n = temperatures.length;
    let triplePoint = 0;
    for (let i = 0; i < n; i++) {
      ratios[i] = this.#branch.ratio(temperatures[i]! + ZERO_CELSIUS);
      triplePoint += resistances[i]! / ratios[i]! / n;
    }
    for (let round = 0; round < ROUNDS; round++) {
      for (let i = 0; i < n; i++) {
        const W = resistances[i]! / triplePoint;
        linear.design[i] = ratios[i]!;
        for (let k = 0; k < terms.length; k++) linear.design[(k + 1) * n + i] = terms[k]!.value(W);
        linear.observed[i] = resistances[i]!;
      }
      if (!linear.solve()) return false;
      triplePoint = linear.parameters[0]!;
      if (!(triplePoint > 0)) return false;
    }
    parameters[0] = triplePoint;
    for (let k = 1; k < parameters.length; k++) parameters[k] = linear.parameters[k]! / triplePoint;
    return true;
  }
}

/** R in Ω at t in °C of a thermometer with these parameters: R(273.16 K) and the coefficients. */
export const resistanceOf = (
  subRange: SubRange,
  [triplePoint, ...coefficients]: readonly number[],
  t: number,
): number => triplePoint! * ratioFrom(subRange, coefficients, branchOf(subRange).ratio(t + ZERO_CELSIUS));

/** dR/dt in Ω/°C of a thermometer with these parameters, at t in °C. */
export function slopeOf(subRange: SubRange, [triplePoint, ...coefficients]: readonly number[], t: number): number {
  const T = t + ZERO_CELSIUS;
  const branch = branchOf(subRange);
  const W = ratioFrom(subRange, coefficients, branch.ratio(T));
  return (triplePoint! * branch.slope(T)) / (1 - deviationSlope(subRange, coefficients, W));
}

/**
 * R(273.16 K) and the deviation coefficients of a standard thermometer from a comparison.
 *
 * @param covariance joint covariance of the points, Ω²; without it all count alike
 * @throws {InputError} sub-range 6, points outside the sub-range, too few of them, or those that determine no coefficients
 */
export function fitDeviation(
  points: readonly ComparisonPoint[],
  subRange: SubRange,
  covariance?: readonly (readonly number[])[],
): DeviationFit {
  const names = fittedNames(subRange);
  checkPoints(points, subRange, names);
  const refit = new DeviationRefit(
    points.length,
    subRange,
    covariance === undefined ? null : choleskyFactorOf(covariance, "covariance"),
  );
  refit.temperatures.set(points.map(({ temperature }) => temperature));
  refit.resistances.set(points.map(({ resistance }) => resistance));
  if (!refit.solve()) refuse("points", `${points.length} points`, `points that determine ${names.join(", ")}`);
  const parameters = [...refit.parameters];
  const [triplePoint, ...coefficients] = parameters as [number, ...number[]];
  const { ratio } = branchOf(subRange);
  const residuals = points.map(({ temperature, resistance }) => {
    const W = resistance / triplePoint;
    return triplePoint * (W - ratio(temperature + ZERO_CELSIUS) - deviation(subRange, coefficients, W));
  });
  // ∂R/∂(R(273.16 K), c): what the residuals' covariance becomes, to first order.
  const jacobian = points.map(({ temperature }) => {
    const W = ratioFrom(subRange, coefficients, ratio(temperature + ZERO_CELSIUS));
    const stretch = triplePoint / (1 - deviationSlope(subRange, coefficients, W));
    return [W, ...subRange.terms.map((term) => stretch * term.value(W))];
  });
  const found = leastSquares(jacobian, residuals, { covariance });
  const degreesOfFreedom = points.length - names.length;
  return {
    names,
    parameters,
    covariance: covariance === undefined ? null : found.covariance,
    residuals,
    chiSquare: found.chiSquare,
    degreesOfFreedom,
    probability:
      degreesOfFreedom === 0 || covariance === undefined
        ? null
        : 1 - chiSquareCdf(found.chiSquare, degreesOfFreedom / 2, 0.5),
  };
}

function checkPoints(points: readonly ComparisonPoint[], subRange: SubRange, names: readonly string[]): void {
  if (subRange.aboveAluminium)
    refuse("subRange", subRange.number, "a sub-range other than 6, whose d needs the freezing point of silver");
  const [low, high] = rangeInCelsius(subRange);
  const problems: Problem[] = points.flatMap(({ temperature, resistance }, i) => [
    ...(temperature >= low - BEYOND && temperature <= high + BEYOND
      ? []
      : [
          {
            place: `points.${i}.temperature`,
            value: show(temperature),
            accepted: `a temperature from ${Number(low.toFixed(4))} °C to ${Number(high.toFixed(4))} °C, sub-range ${subRange.number} of ITS-90`,
          },
        ]),
    ...(resistance > 0 && resistance < Infinity
      ? []
      : [{ place: `points.${i}.resistance`, value: show(resistance), accepted: "a resistance greater than 0 Ω" }]),
  ]);
  if (problems.length > 0) throw new InputError(problems);
  if (points.length < names.length)
    refuse("points", points.length, `at least ${names.length} points for ${names.join(", ")}`);
}
