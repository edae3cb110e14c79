import { refuse } from "../../../engine/index.ts";
import { temperatureOf as inverse } from "./inverse.ts";
import { OVERSHOOT, referenceRatio } from "./reference-function.ts";
import {
  coefficientNames,
  deviation,
  deviationSlope,
  type DeviationCoefficients,
  type SubRange,
} from "./sub-ranges.ts";

/**
 * T₉₀ in K of a thermometer at W = R(T₉₀)/R(273.16 K): the inverse reference function at W less the deviation. Stands
 * in the inner loop: NaN more than 0.1 K outside the sub-range.
 */
export function temperatureFromRatio(subRange: SubRange, coefficients: DeviationCoefficients, W: number): number {
  if (!(W > 0)) return Number.NaN;
  const { powers } = subRange;
  // Most sub-ranges are a polynomial of degree 1 or 2 in W − 1: written out here, for speed.
  const w = W - 1;
  const departure =
    powers === 2
      ? w * (coefficients[0]! + w * coefficients[1]!)
      : powers === 1
        ? w * coefficients[0]!
        : deviation(subRange, coefficients, W);
  const T = inverse(W - departure);
  return T >= subRange.low - OVERSHOOT && T <= subRange.high + OVERSHOOT ? T : Number.NaN;
}

/** W of a thermometer at T₉₀ in K: Newton on W − deviation(W) = W_r(T). NaN outside the reference function. */
export const ratioAt = (subRange: SubRange, coefficients: DeviationCoefficients, T: number): number =>
  ratioFrom(subRange, coefficients, referenceRatio(T));

/** W of a thermometer where the reference function is W_r. */
export function ratioFrom(subRange: SubRange, coefficients: DeviationCoefficients, Wr: number): number {
  let W = Wr;
  // The deviation is some 1e-4 and nearly straight: each step gains about 8 digits.
  for (let step = 0; step < 3; step++) {
    W -= (W - deviation(subRange, coefficients, W) - Wr) / (1 - deviationSlope(subRange, coefficients, W));
  }
  return W;
}

/** A standard platinum resistance thermometer as its certificate gives it. */
export interface StandardThermometer {
  readonly subRange: SubRange;
  readonly coefficients: DeviationCoefficients;
  /** R(273.16 K), Ω. */
  readonly triplePointResistance: number;
}

/**
 * t₉₀ in °C of a standard thermometer at a resistance in Ω.
 *
 * @throws {InputError} R(273.16 K) or R not greater than 0, coefficients that are not those of the sub-range, or a
 *   temperature outside it
 */
export function standardTemperature(thermometer: StandardThermometer, R: number): number {
  const { subRange, coefficients, triplePointResistance } = thermometer;
  if (!(triplePointResistance > 0 && triplePointResistance < Infinity)) {
    refuse("triplePointResistance", triplePointResistance, "a resistance greater than 0 Ω");
  }
  const names = coefficientNames(subRange);
  if (coefficients.length !== names.length) {
    refuse(
      "coefficients",
      coefficients.length,
      `${names.length} numbers for sub-range ${subRange.number}: ${names.join(", ")}`,
    );
  }
  if (!(R > 0)) refuse("R", R, "a resistance greater than 0 Ω");
  const W = R / triplePointResistance;
  const T = temperatureFromRatio(subRange, coefficients, W);
  if (!(T >= subRange.low - 1e-6 && T <= subRange.high + 1e-6)) {
    const [low, high] = [subRange.low, subRange.high].map((end) => ratioAt(subRange, coefficients, end).toFixed(6));
    refuse(
      "R",
      R,
      `a resistance with R/R(273.16 K) from ${low} to ${high}, sub-range ${subRange.number} of ITS-90 from ${subRange.low} K to ${subRange.high} K (here ${W.toPrecision(7)})`,
    );
  }
  return T - 273.15;
}
