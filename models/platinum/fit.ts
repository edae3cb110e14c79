import chiSquareCdf from "@stdlib/stats-base-dists-gamma-cdf";
import { InputError, refuse, show, type Problem } from "../../engine/index.ts";
import { IEC_60751, ratioAt, slopeAt, type Coefficients } from "./callendar-van-dusen.ts";
import { HIGHEST, LOWEST } from "./iec60751.ts";
import { leastSquares, type LeastSquaresOptions } from "./least-squares.ts";

/** A probe's resistance at a temperature known from a comparison. */
export interface ComparisonPoint {
  /** °C */
  readonly temperature: number;
  /** Ω */
  readonly resistance: number;
}

/** One cause of uncertainty of the points, and how it joins them. */
export interface PointEffect {
  /** °C of the temperature, Ω of the resistance, or 1 for a part of the resistance. */
  readonly unit: "°C" | "Ω" | "1";
  /** Standard uncertainty: one figure for all points, or one a point (signed if a common cause acts both ways). */
  readonly standardUncertainty: number | readonly number[];
  /** True for one error that moves all points together (the reference's certificate, the bridge's linearity). */
  readonly common: boolean;
}

/** What a fit determines. Without C of its own, the term below 0 °C keeps the value of IEC 60751. */
export type FittedName = "R0" | "A" | "B" | "C";

/**
 * What `fitCoefficients` found: R₀, Ω, and the coefficients of the curve (IEC 60751, clause 4), with their covariance and how
 * well they fit. Lists go by the points in their order, `names` by the coefficients that are fitted.
 */
export interface ProbeFit {
  readonly names: readonly FittedName[];
  readonly R0: number;
  readonly coefficients: Coefficients;
  /** Covariance of the coefficients in the order of `names`; R0 in Ω, A in 1/°C, B in 1/°C², C in 1/°C⁴. `null`
   * if neither a covariance of the points nor degrees of freedom give one.
   */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly correlation: readonly (readonly number[])[];
  /** √(χ²/ν): of a point in Ω if no covariance was given, else in units of its stated uncertainty. `null` without ν. */
  readonly residualDeviation: number | null;
  /** Observed less fitted, Ω and °C. */
  readonly residuals: readonly number[];
  readonly residualsInCelsius: readonly number[];
  readonly leverage: readonly number[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Probability of a χ² at least as great if the stated uncertainties hold; `null` without them or without ν. */
  readonly probability: number | null;
}

/** How the points of a fit are weighed, and which coefficients it determines. */
export interface FitOptions {
  /** Joint covariance of the points, Ω²: see `jointCovariance`. Without one, all points count alike with a u that their
   * residuals give: s² = Σw·r²/(n − p) scales the covariance of the coefficients, which needs more points than coefficients.
   */
  readonly covariance?: readonly (readonly number[])[] | undefined;
  /** Weights other than the inverse covariance, one a point. */
  readonly weights?: readonly number[] | undefined;
  /** Whether C is determined too; by default if a point lies below 0 °C. */
  readonly fitC?: boolean | undefined;
}

/**
 * The joint covariance of the points in Ω² (JCGM 100, 5.2.2): each effect turned into ohms by the probe's slope, common
 * effects joining every pair of points.
 *
 * @throws {InputError} an uncertainty that is missing, not finite, or negative if it is not common
 */
export function jointCovariance(points: readonly ComparisonPoint[], effects: readonly PointEffect[]): number[][] {
  const n = points.length;
  const V = points.map(() => Array.from({ length: n }, () => 0));
  effects.forEach((effect, e) => {
    const u = points.map((point, i) => {
      const given =
        typeof effect.standardUncertainty === "number" ? effect.standardUncertainty : effect.standardUncertainty[i];
      if (given === undefined || !Number.isFinite(given) || (!effect.common && given < 0)) {
        refuse(
          `effects.${e}.standardUncertainty`,
          given,
          `a standard uncertainty in ${effect.unit} for each of the ${n} points`,
        );
      }
      return given * perUnit(effect.unit, point);
    });
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) if (effect.common || i === j) V[i]![j]! += u[i]! * u[j]!;
    }
  });
  return V;
}

/** Ω per unit of an effect. The slope is that of IEC 60751 scaled to this probe: within 1 % for any platinum. */
function perUnit(unit: PointEffect["unit"], { temperature, resistance }: ComparisonPoint): number {
  if (unit === "Ω") return 1;
  if (unit === "1") return resistance;
  return (resistance / ratioAt(IEC_60751, temperature)) * slopeAt(IEC_60751, temperature);
}

/** The term that C multiplies: (t − 100)t³ below 0 °C. */
const cubicTerm = (t: number): number => (t < 0 ? (t - 100) * t * t * t : 0);

/**
 * R₀, A, B and C of a probe from comparison points, by least squares with the points' joint covariance. Linear in R₀,
 * R₀A, R₀B, R₀C; the covariance is carried to A, B, C by their derivatives.
 *
 * @throws {InputError} points outside −200 °C to 850 °C, resistances not greater than 0, fewer points than
 *   coefficients, points that do not determine them, or a covariance that is not positive definite
 */
export function fitCoefficients(points: readonly ComparisonPoint[], options: FitOptions = {}): ProbeFit {
  checkPoints(points);
  const fitC = options.fitC ?? points.some(({ temperature }) => temperature < 0);
  const names: readonly FittedName[] = fitC ? ["R0", "A", "B", "C"] : ["R0", "A", "B"];
  if (points.length < names.length) {
    refuse("points", points.length, `at least ${names.length} points for ${names.join(", ")}`);
  }
  if (fitC && !points.some(({ temperature }) => temperature < 0)) {
    refuse("points", "none below 0 °C", "a point below 0 °C, which C needs");
  }
  const design = points.map(({ temperature: t }) =>
    fitC ? [1, t, t * t, cubicTerm(t)] : [1 + IEC_60751.C * cubicTerm(t), t, t * t],
  );
  const found = leastSquares(
    design,
    points.map(({ resistance }) => resistance),
    asVariances(options, points.length),
  );
  const [R0, ...products] = found.parameters as [number, ...number[]];
  if (!(R0 > 0)) refuse("points", `R0 = ${R0}`, "points of a platinum thermometer: R₀ greater than 0 Ω");
  const [A, B, C] = [products[0]! / R0, products[1]! / R0, fitC ? products[2]! / R0 : IEC_60751.C];
  const coefficients = { A, B, C };
  const { chiSquare, degreesOfFreedom } = found;
  // Without a covariance of the points, that of the coefficients is known up to the variance of one of them.
  const estimated = options.covariance === undefined;
  const variance = !estimated ? 1 : degreesOfFreedom === 0 ? null : chiSquare / degreesOfFreedom;
  const relative = toRatios(found.covariance, R0, products);
  const covariance = variance === null ? null : relative.map((row) => row.map((value) => value * variance));
  return {
    names,
    R0,
    coefficients,
    covariance,
    correlation: relative.map((row, j) =>
      row.map((value, k) => value / Math.sqrt(relative[j]![j]! * relative[k]![k]!)),
    ),
    residualDeviation: degreesOfFreedom === 0 ? null : Math.sqrt(chiSquare / degreesOfFreedom),
    residuals: found.residuals,
    residualsInCelsius: found.residuals.map((r, i) => r / (R0 * slopeAt(coefficients, points[i]!.temperature))),
    leverage: found.leverage,
    chiSquare,
    degreesOfFreedom,
    // χ² with ν degrees of freedom is a gamma distribution of shape ν/2 and rate ½.
    probability: degreesOfFreedom === 0 || estimated ? null : 1 - chiSquareCdf(chiSquare, degreesOfFreedom / 2, 0.5),
  };
}

/** Weights alone stand for variances in their inverse proportion; beside a covariance they stay weights. */
function asVariances({ covariance, weights }: FitOptions, n: number): LeastSquaresOptions {
  if (covariance !== undefined || weights === undefined || weights.length !== n || weights.some((w) => !(w > 0)))
    return { covariance, weights };
  return { covariance: weights.map((w, i) => weights.map((_, j) => (i === j ? 1 / w : 0))) };
}

/** Covariance of (R₀, R₀A, …) carried to (R₀, A, …): ∂A/∂R₀ = −A/R₀, ∂A/∂(R₀A) = 1/R₀. */
function toRatios(covariance: readonly (readonly number[])[], R0: number, products: readonly number[]): number[][] {
  const p = covariance.length;
  const J = Array.from({ length: p }, (_, j) =>
    Array.from({ length: p }, (__, k) =>
      j === 0 ? (k === 0 ? 1 : 0) : k === 0 ? -products[j - 1]! / (R0 * R0) : j === k ? 1 / R0 : 0,
    ),
  );
  const left = J.map((row) =>
    covariance.map((_, k) => row.reduce((sum, value, i) => sum + value * covariance[i]![k]!, 0)),
  );
  return left.map((row) => J.map((other) => row.reduce((sum, value, k) => sum + value * other[k]!, 0)));
}

function checkPoints(points: readonly ComparisonPoint[]): void {
  const problems: Problem[] = points.flatMap(({ temperature, resistance }, i) => [
    ...(temperature >= LOWEST && temperature <= HIGHEST
      ? []
      : [
          {
            place: `points.${i}.temperature`,
            value: show(temperature),
            accepted: `a temperature from ${LOWEST} °C to ${HIGHEST} °C`,
          },
        ]),
    ...(resistance > 0 && resistance < Infinity
      ? []
      : [{ place: `points.${i}.resistance`, value: show(resistance), accepted: "a resistance greater than 0 Ω" }]),
  ]);
  if (problems.length > 0) throw new InputError(problems);
}
