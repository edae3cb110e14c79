import { elementary, refuse } from "../../../engine/index.ts";
import { inverseTable } from "./inverse-table.ts";
import {
  HIGHEST,
  LOWEST,
  lowerLogarithm,
  lowerLogarithmSlope,
  OVERSHOOT,
  polynomial,
  referenceRatio,
  TRIPLE_POINT,
  upperRatio,
  upperSlope,
} from "./reference-function.ts";

const { exp, ln } = elementary;

/** B₀…B₁₅ of equation (9b), stated accurate to 0.1 mK. */
export const B: readonly number[] = [
  0.183324722, 0.240975303, 0.209108771, 0.190439972, 0.142648498, 0.077993465, 0.012475611, -0.032267127, -0.075291522,
  -0.05647067, 0.076201285, 0.123893204, -0.029201193, -0.091173542, 0.001317696, 0.026025526,
];

/** D₀…D₉ of equation (10b), stated accurate to 0.13 mK; the largest error is in fact 0.134 mK, near 861 °C. */
export const D: readonly number[] = [
  439.932854, 472.41802, 37.684494, 7.472018, 2.920828, 0.005184, -0.963864, -0.188732, 0.191203, 0.049025,
];

const lowerStart = polynomial(B);
/** Equation (10b) in x = (T − 754.15 K)/481 K, the argument of equation (10a). */
const upperStart = polynomial([D[0]! + 273.15 - 754.15, ...D.slice(1)].map((d) => d / 481));

/** Where the upper branch begins: W_r(273.16 K) by equation (10a). */
const UPPER_START = referenceRatio(TRIPLE_POINT);
/** Where the lower branch ends: its limit as T rises to 273.16 K. */
const LOWER_END = exp(lowerLogarithm(0));
const LOWEST_RATIO = referenceRatio(LOWEST - OVERSHOOT);
const HIGHEST_RATIO = referenceRatio(HIGHEST + OVERSHOOT);

/**
 * T in K from W_r by the published approximate inverses, equations (9b) and (10b): within 0.0956 mK below 273.16 K and
 * 0.1342 mK above. NaN outside the range.
 */
export function approximateInverse(Wr: number): number {
  if (!(Wr >= LOWEST_RATIO && Wr <= HIGHEST_RATIO)) return Number.NaN;
  if (Wr >= UPPER_START) return 481 * upperStart((Wr - 2.64) * (1 / 1.64)) + 754.15;
  return TRIPLE_POINT * lowerStart((exp(ln(Wr) / 6) - 0.65) / 0.35);
}

/**
 * T in K from W_r, exact to rounding (better than 1e-10 K from 14 K up): a step of Newton's on the reference function
 * from a table made with it. Stands in the inner loop, so it does not throw: NaN more than 0.1 K beyond 13.8033 K to
 * 1234.93 K.
 *
 * A W_r in the gap between the branches, 0.99999999000 to 0.99999999535, gives 273.16 K: the inverse is then continuous
 * and never falls.
 */
export function temperatureOf(Wr: number): number {
  if (!(Wr >= LOWEST_RATIO && Wr <= HIGHEST_RATIO)) return Number.NaN;
  return Wr >= UPPER_START ? upper(Wr) : Wr >= LOWER_END ? TRIPLE_POINT : lower(Wr);
}

/** W_r from which on the lower branch has a table; below it bends too much for one. */
const TABLE_FROM = 0.1;
const upperTable = inverseTable(UPPER_START, HIGHEST_RATIO, 512, solveUpper);
const lowerTable = inverseTable(TABLE_FROM, LOWER_END, 1024, solveLower);

/** By equation (10a), which the table reaches a little below 273.15 K too. On its argument x = (T − 754.15 K)/481 K. */
export function upper(Wr: number): number {
  const { low, cells, width, density, parabolas } = upperTable;
  const cell = Math.min(cells - 1, ((Wr - low) * density) | 0);
  const d = Wr - (low + (cell + 0.5) * width);
  const slope = parabolas[3 * cell + 1]!;
  const bend = parabolas[3 * cell + 2]!;
  const x = parabolas[3 * cell]! + d * (slope + d * bend);
  return 481 * (x - (upperRatio(x) - Wr) * (slope + 2 * bend * d)) + 754.15;
}

/** By equation (9a), which the table reaches a little above 273.16 K too. */
export function lower(Wr: number): number {
  if (Wr < TABLE_FROM) return solveLower(Wr);
  const { low, cells, width, density, parabolas } = lowerTable;
  const cell = Math.min(cells - 1, ((Wr - low) * density) | 0);
  const d = Wr - (low + (cell + 0.5) * width);
  const slope = parabolas[3 * cell + 1]!;
  const bend = parabolas[3 * cell + 2]!;
  const T = parabolas[3 * cell]! + d * (slope + d * bend);
  return T - (exp(lowerLogarithm(ln(T / TRIPLE_POINT))) - Wr) * (slope + 2 * bend * d);
}

/** x from W_r by Newton's steps from equation (10b), within 0.14 mK: two leave nothing. */
function solveUpper(Wr: number): number {
  let x = upperStart((Wr - 2.64) * (1 / 1.64));
  for (let step = 0; step < 2; step++) x -= (upperRatio(x) - Wr) / upperSlope(x);
  return x;
}

/** T in K from W_r by Newton's steps from equation (9b). */
function solveLower(Wr: number): number {
  const logarithm = ln(Wr);
  const T = TRIPLE_POINT * lowerStart((exp(logarithm / 6) - 0.65) / 0.35);
  // In u = ln(T/273.16 K) the reference function is a polynomial: one logarithm, and none in the steps.
  const start = ln(T / TRIPLE_POINT);
  const slope = lowerLogarithmSlope(start);
  let d = (logarithm - lowerLogarithm(start)) / slope;
  // One step leaves less than 1e-11 K above 60 K; the curve is steeper below.
  d += (logarithm - lowerLogarithm(start + d)) / slope;
  // e^d for |d| < 1e-5.
  return T + T * d * (1 + d * (0.5 + d / 6));
}

/**
 * T in K from W_r.
 *
 * @throws {InputError} W_r outside the platinum part of the scale
 */
export function referenceTemperature(Wr: number): number {
  const T = temperatureOf(Wr);
  if (!(T >= LOWEST - 1e-6 && T <= HIGHEST + 1e-6)) {
    refuse(
      "Wr",
      Wr,
      `a ratio from ${referenceRatio(LOWEST).toPrecision(8)} to ${referenceRatio(HIGHEST).toPrecision(9)}, ITS-90 from ${LOWEST} K to ${HIGHEST} K`,
    );
  }
  return T;
}
