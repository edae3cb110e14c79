import { elementary } from "../../../engine/index.ts";
import { lower, temperatureOf, upper } from "./inverse.ts";
import {
  HIGHEST,
  LOWEST,
  lowerLogarithm,
  lowerLogarithmSlope,
  OVERSHOOT,
  referenceRatio,
  referenceSlope,
  TRIPLE_POINT,
  upperRatio,
  upperSlope,
} from "./reference-function.ts";
import type { SubRange } from "./sub-ranges.ts";

const { exp, ln } = elementary;

/** The reference function within one sub-range, with its slope and inverse; NaN outside. T in K. */
export interface Branch {
  ratio(T: number): number;
  slope(T: number): number;
  temperature(Wr: number): number;
}

const argument = (T: number): number => (T - 754.15) / 481;
const isUpper = (T: number): boolean => T >= 273.15 - OVERSHOOT && T <= HIGHEST + OVERSHOOT;
const isLower = (T: number): boolean => T >= LOWEST - OVERSHOOT && T <= TRIPLE_POINT + OVERSHOOT;

/**
 * Equation (10a) for sub-ranges from 273.15 K up, (9a) for those up to 273.16 K (Metrologia 27 (1990) 3–10, 3.3). The two
 * are 1.3 µK apart at 273.16 K, where a comparison has a point: taken from one to the other there, a smooth curve would
 * get a step.
 */
const UPPER: Branch = {
  ratio: (T) => (isUpper(T) ? upperRatio(argument(T)) : Number.NaN),
  slope: (T) => (isUpper(T) ? upperSlope(argument(T)) / 481 : Number.NaN),
  temperature(Wr) {
    const T = upper(Wr);
    return isUpper(T) ? T : Number.NaN;
  },
};
const LOWER: Branch = {
  ratio: (T) => (isLower(T) ? exp(lowerLogarithm(ln(T / TRIPLE_POINT))) : Number.NaN),
  slope(T) {
    if (!isLower(T)) return Number.NaN;
    const u = ln(T / TRIPLE_POINT);
    return (exp(lowerLogarithm(u)) * lowerLogarithmSlope(u)) / T;
  },
  temperature(Wr) {
    const T = Wr > 0 ? lower(Wr) : Number.NaN;
    return isLower(T) ? T : Number.NaN;
  },
};
const BOTH: Branch = { ratio: referenceRatio, slope: referenceSlope, temperature: temperatureOf };

export const branchOf = ({ low, high }: SubRange): Branch =>
  low >= 273.15 ? UPPER : high <= TRIPLE_POINT ? LOWER : BOTH;
