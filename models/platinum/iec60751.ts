/**
 * The resistance of an industrial platinum thermometer by IEC 60751 and its inverse.
 *
 * R(t) = R₀(1 + At + Bt²) for 0 ≤ t ≤ 850 °C, and R₀(1 + At + Bt² + C(t − 100)t³) for −200 ≤ t < 0 °C
 * (IEC 60751, clause 4). The second derivative is continuous at 0 °C, so neither route of propagation meets a corner.
 *
 * @module
 */

import { refuse } from "../../engine/index.ts";

/** A of the standard, 1/°C. */
export const A = 3.9083e-3;
/** B of the standard, 1/°C². */
export const B = -5.775e-7;
/** C of the standard, 1/°C⁴; it counts below 0 °C alone. */
export const C = -4.183e-12;

/** Lowest temperature of the standard, °C. */
export const LOWEST = -200;
/** Highest temperature of the standard, °C. */
export const HIGHEST = 850;

/** R(t)/R₀ of IEC 60751; t in °C. Not checked for range. */
export function resistanceRatio(t: number): number {
  const upper = 1 + t * (A + t * B);
  return t >= 0 ? upper : upper + C * (t - 100) * t * t * t;
}

/** Derivative of R(t)/R₀ with respect to t, 1/°C. */
export function ratioSlope(t: number): number {
  const upper = A + 2 * B * t;
  return t >= 0 ? upper : upper + C * t * t * (4 * t - 300);
}

// A small slack, so that R(−200 °C) and R(850 °C) themselves are taken.
const LOWEST_RATIO = resistanceRatio(LOWEST) * (1 - 1e-12);
const HIGHEST_RATIO = resistanceRatio(HIGHEST) * (1 + 1e-12);

/**
 * t in °C from R/R₀: the closed form from 0 °C up, two Newton steps from a starting polynomial below. Exact to about
 * 1e-12 °C. Stands in the inner loop, so it does not throw: NaN outside the range of the standard.
 */
export function temperatureOf(ratio: number): number {
  if (ratio >= 1) {
    if (ratio > HIGHEST_RATIO) return Number.NaN;
    // 2(r − 1)/(A + √…) is the closed form without the cancellation of (−A + √…)/2B near 0 °C.
    const x = ratio - 1;
    return (2 * x) / (A + Math.sqrt(A * A + 4 * B * x));
  }
  return belowZero(ratio);
}

/** Apart, so that the branch above 0 °C is short enough to be built into a model. */
function belowZero(ratio: number): number {
  if (!(ratio >= LOWEST_RATIO)) return Number.NaN;
  let t = startBelowZero(ratio - 1);
  t -= (resistanceRatio(t) - ratio) / ratioSlope(t);
  t -= (resistanceRatio(t) - ratio) / ratioSlope(t);
  return t;
}

/** t in °C from R/R₀ − 1 below 0 °C: the polynomial of ASTM E1137, within 1.7 mK of the inverse. */
export function startBelowZero(x: number): number {
  return x * (255.819 + x * (9.1455 + x * (-2.92363 + x * 1.7909)));
}

/**
 * t in °C of many ratios R/R₀ at once, written to `out`; NaN if a ratio is outside the range of the standard.
 *
 * @throws {InputError} an `out` shorter than `ratios`
 */
export function temperaturesOf(ratios: ArrayLike<number>, out: Float64Array): Float64Array {
  if (out.length < ratios.length) refuse("out", out.length, `an array of at least ${ratios.length} numbers`);
  for (let i = 0; i < ratios.length; i++) out[i] = temperatureOf(ratios[i]!);
  return out;
}

/**
 * R(t) in ohms.
 *
 * @param t temperature, °C
 * @param nominal R₀, Ω: 100 for a Pt100, 1000 for a Pt1000, or a thermometer's own
 * @throws {InputError} outside −200 °C to 850 °C, or R₀ not greater than 0
 */
export function resistance(t: number, nominal = 100): number {
  checkNominal(nominal);
  if (!(t >= LOWEST && t <= HIGHEST)) {
    refuse("t", t, `a temperature from ${LOWEST} °C to ${HIGHEST} °C, the range of IEC 60751`);
  }
  return nominal * resistanceRatio(t);
}

/**
 * t(R) in °C.
 *
 * @param r resistance, Ω
 * @param nominal R₀, Ω
 * @throws {InputError} outside the range of the standard, or R₀ not greater than 0
 */
export function temperature(r: number, nominal = 100): number {
  checkNominal(nominal);
  const t = temperatureOf(r / nominal);
  if (Number.isNaN(t)) {
    const [low, high] = [LOWEST_RATIO, HIGHEST_RATIO].map((ratio) => (nominal * ratio).toPrecision(6));
    refuse("R", r, `a resistance from ${low} Ω to ${high} Ω, IEC 60751 from ${LOWEST} °C to ${HIGHEST} °C`);
  }
  return t;
}

/** dR/dt in Ω/°C. @throws {InputError} as `resistance` */
export function resistanceSlope(t: number, nominal = 100): number {
  resistance(t, nominal);
  return nominal * ratioSlope(t);
}

function checkNominal(nominal: number): void {
  if (!(nominal > 0 && nominal < Infinity)) refuse("R0", nominal, "a resistance greater than 0 Ω");
}
