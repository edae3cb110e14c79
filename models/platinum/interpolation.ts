import { refuse } from "../../engine/index.ts";
import { ratioAt, slopeAt, temperatureAt } from "./callendar-van-dusen.ts";
import type { ProbeFit } from "./fit.ts";

/** A temperature found with fitted coefficients. */
export interface InterpolatedTemperature {
  /** °C */
  readonly temperature: number;
  /** °C, from the coefficients alone. */
  readonly fromCoefficients: number;
  /** °C, from the resistance in use alone. */
  readonly fromResistance: number;
  /** °C, both together, taken as independent. */
  readonly standardUncertainty: number;
  /** ∂t/∂(R0, A, B, C) in the order of the fit's names. */
  readonly sensitivities: readonly number[];
}

/**
 * t in use from a resistance, by a probe's fitted coefficients, with the coefficients' covariance carried through to
 * first order (JCGM 100, 5.2.2). The route by Monte Carlo is the model `probe-fit`.
 *
 * @param resistance Ω, in use
 * @param resistanceUncertainty standard uncertainty of it, Ω, independent of the calibration
 * @throws {InputError} a resistance the thermometer does not reach, an uncertainty below 0, or a fit without covariance
 */
export function interpolatedTemperature(
  fit: ProbeFit,
  resistance: number,
  resistanceUncertainty = 0,
): InterpolatedTemperature {
  if (!(resistanceUncertainty >= 0 && resistanceUncertainty < Infinity)) {
    refuse("resistanceUncertainty", resistanceUncertainty, "a standard uncertainty in Ω, at least 0");
  }
  const { R0, coefficients, covariance, names } = fit;
  if (covariance === null)
    return refuse(
      "fit.covariance",
      "none",
      "a fit with the covariance of its points, or with more points than coefficients",
    );
  const t = temperatureAt(coefficients, R0, resistance);
  const perOhm = 1 / (R0 * slopeAt(coefficients, t));
  // R = R₀·r(t; A, B, C) held fixed: ∂t/∂p = −(∂R/∂p)/(∂R/∂t). Without C of its own, C is a constant.
  const slopes = { R0: ratioAt(coefficients, t), A: R0 * t, B: R0 * t * t, C: t < 0 ? R0 * (t - 100) * t * t * t : 0 };
  const sensitivities = names.map((name) => -slopes[name] * perOhm);
  let variance = 0;
  sensitivities.forEach((c, j) => sensitivities.forEach((d, k) => (variance += c * d * covariance[j]![k]!)));
  const fromCoefficients = Math.sqrt(Math.max(0, variance));
  const fromResistance = resistanceUncertainty * perOhm;
  return {
    temperature: t,
    fromCoefficients,
    fromResistance,
    standardUncertainty: Math.sqrt(fromCoefficients * fromCoefficients + fromResistance * fromResistance),
    sensitivities,
  };
}
