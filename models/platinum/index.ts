/**
 * Platinum resistance thermometers as plain functions: the curves and classes of IEC 60751 (temperatures in °C), the ITS-90
 * with its reference functions and sub-ranges (T₉₀ in K), fits of both, and the measuring chain. Resistances are in Ω. Each
 * function says what it takes, returns and throws.
 *
 * @module
 */
export * as callendarVanDusen from "./callendar-van-dusen.ts";
export * as iec60751 from "./iec60751.ts";
export { fitCoefficients, jointCovariance } from "./fit.ts";
export { interpolatedTemperature } from "./interpolation.ts";
export { leastSquares } from "./least-squares.ts";
export { classTolerance } from "./class-tolerance.ts";
export {
  RANGES_NOTE,
  resistorClassNames,
  resistorTolerance,
  tolerance,
  toleranceClasses,
  toleranceInOhms,
} from "./tolerance-class.ts";
export { acceptance } from "./its90/acceptance.ts";
export { deviationCoefficients } from "./its90/deviation-coefficients.ts";
export { fixedPoint, fixedPoints } from "./its90/fixed-points.ts";
export {
  approximateInverse,
  referenceTemperature,
  temperatureOf as temperatureFromReferenceRatio,
} from "./its90/inverse.ts";
export { propagatedUncertainty, propagation } from "./its90/propagation.ts";
export { referenceRatio, referenceSlope } from "./its90/reference-function.ts";
export { coefficientNames, deviation, subRangeOf, subRanges } from "./its90/sub-ranges.ts";
export { ratioAt, standardTemperature, temperatureFromRatio } from "./its90/thermometer.ts";
export { bridgeResistance } from "./chain/bridge.ts";
export { sensorTemperature } from "./chain/hydrostatic-head.ts";
export { fourWire, leadAt, threeWire, twoWire, withoutShunt } from "./chain/lead-resistance.ts";
export { atZeroCurrent, squaredCurrentRatio } from "./chain/self-heating.ts";
export { standardResistance } from "./chain/standard-resistor.ts";
export { driftedTriplePoint, interpolatedDrift } from "./chain/triple-point-drift.ts";

export type { AlphaDeltaBeta, Coefficients } from "./callendar-van-dusen.ts";
export type { ComparisonPoint, FitOptions, PointEffect, ProbeFit } from "./fit.ts";
export type { InterpolatedTemperature } from "./interpolation.ts";
export type { Propagation } from "./its90/propagation.ts";
export type { DeviationCoefficients, SubRange } from "./its90/sub-ranges.ts";
export type { StandardThermometer } from "./its90/thermometer.ts";
