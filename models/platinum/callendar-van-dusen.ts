/**
 * The curve of an industrial platinum thermometer with coefficients of its own, in the form of IEC 60751, clause 4, and in the
 * older form of Callendar and Van Dusen.
 *
 * @module
 */

import { refuse } from "../../engine/index.ts";
import * as iec from "./iec60751.ts";

/** R(t)/R₀ = 1 + At + Bt² + C(t − 100)t³ (the last term for t < 0 only): units 1/°C, 1/°C², 1/°C⁴. */
export interface Coefficients {
  readonly A: number;
  readonly B: number;
  readonly C: number;
}

/** The same curve in the older form: R/R₀ = 1 + α[t − δ(t/100)(t/100 − 1) − β(t/100)³(t/100 − 1)], β for t < 0 only. */
export interface AlphaDeltaBeta {
  /** 1/°C: mean slope from 0 °C to 100 °C. */
  readonly alpha: number;
  /** °C */
  readonly delta: number;
  /** °C */
  readonly beta: number;
}

/** The coefficients of IEC 60751, clause 4. */
export const IEC_60751: Coefficients = { A: iec.A, B: iec.B, C: iec.C };

/** A, B, C from α, δ, β. @throws {InputError} α not greater than 0, or a figure that is not finite */
export function fromAlphaDeltaBeta({ alpha, delta, beta }: AlphaDeltaBeta): Coefficients {
  checkAlpha(alpha);
  if (!Number.isFinite(delta)) refuse("delta", delta, "a number in °C");
  if (!Number.isFinite(beta)) refuse("beta", beta, "a number in °C");
  return { A: alpha * (1 + delta / 100), B: -1e-4 * alpha * delta, C: -1e-8 * alpha * beta };
}

/** α, δ, β from A, B, C. @throws {InputError} A + 100·B, which is α, not greater than 0 */
export function toAlphaDeltaBeta({ A, B, C }: Coefficients): AlphaDeltaBeta {
  const alpha = A + 100 * B;
  checkAlpha(alpha);
  return { alpha, delta: (-1e4 * B) / alpha, beta: (-1e8 * C) / alpha };
}

/** R(t)/R₀ of a thermometer's own coefficients; t in °C. Not checked for range. */
export function ratioAt({ A, B, C }: Coefficients, t: number): number {
  const upper = 1 + t * (A + t * B);
  return t >= 0 ? upper : upper + C * (t - 100) * t * t * t;
}

/** Derivative of R(t)/R₀ with respect to t, 1/°C. */
export function slopeAt({ A, B, C }: Coefficients, t: number): number {
  const upper = A + 2 * B * t;
  return t >= 0 ? upper : upper + C * t * t * (4 * t - 300);
}

/**
 * t in °C from R/R₀: the closed form from 0 °C up, Newton steps below. Exact to about 1e-12 °C for industrial
 * platinum. Stands in the inner loop, so it does not throw: NaN outside −200 °C to 850 °C, or if the coefficients
 * give no such temperature.
 */
export function temperatureFromRatio(coefficients: Coefficients, ratio: number): number {
  return temperatureFrom(ratio - 1, coefficients.A, coefficients.B, coefficients.C);
}

/** `temperatureFromRatio` from R/R₀ − 1 with the coefficients as plain numbers. */
export function temperatureFrom(x: number, A: number, B: number, C: number): number {
  let t: number;
  if (x >= 0) {
    t = (2 * x) / (A + Math.sqrt(A * A + 4 * B * x));
  } else {
    // Scaled by the slope at 0 °C the polynomial for IEC 60751 is within 0.5 °C for platinum of any purity; each Newton
    // step squares the error (times 1.5e-4 per °C), so three leave less than 1e-13 °C and the fourth is for odd curves.
    t = iec.startBelowZero((x * iec.A) / A);
    for (let step = 0; step < 4; step++) {
      const cubic = C * t * t;
      t -= (t * (A + t * B) + cubic * t * (t - 100) - x) / (A + 2 * B * t + cubic * (4 * t - 300));
    }
  }
  return t >= iec.LOWEST - 1e-9 && t <= iec.HIGHEST + 1e-9 ? t : Number.NaN;
}

/**
 * R(t) in ohms of a thermometer with its own R₀ and coefficients.
 *
 * @throws {InputError} R₀ not greater than 0, or t outside −200 °C to 850 °C
 */
export function resistanceAt(coefficients: Coefficients, R0: number, t: number): number {
  checkR0(R0);
  if (!(t >= iec.LOWEST && t <= iec.HIGHEST))
    refuse("t", t, `a temperature from ${iec.LOWEST} °C to ${iec.HIGHEST} °C`);
  return R0 * ratioAt(coefficients, t);
}

/**
 * t(R) in °C of a thermometer with its own R₀ and coefficients.
 *
 * @throws {InputError} R₀ not greater than 0, or a resistance these coefficients do not reach
 */
export function temperatureAt(coefficients: Coefficients, R0: number, R: number): number {
  checkR0(R0);
  const t = temperatureFromRatio(coefficients, R / R0);
  if (Number.isNaN(t)) {
    const [low, high] = [iec.LOWEST, iec.HIGHEST].map((limit) => (R0 * ratioAt(coefficients, limit)).toPrecision(6));
    refuse(
      "R",
      R,
      `a resistance from ${low} Ω to ${high} Ω, this thermometer from ${iec.LOWEST} °C to ${iec.HIGHEST} °C`,
    );
  }
  return t;
}

function checkR0(R0: number): void {
  if (!(R0 > 0 && R0 < Infinity)) refuse("R0", R0, "a resistance greater than 0 Ω");
}

function checkAlpha(alpha: number): void {
  if (!(alpha > 0 && alpha < Infinity))
    refuse("alpha", alpha, "a number greater than 0, about 3.9e-3 per °C for platinum");
}
