import { elementary, refuse } from "../../../engine/index.ts";
import type { FixedPointName } from "./fixed-points.ts";

const { ln } = elementary;

/** One term of a deviation function: what its coefficient multiplies, and the derivative of that in W. */
export interface Term {
  readonly coefficient: string;
  readonly value: (W: number) => number;
  readonly slope: (W: number) => number;
}

/**
 * A sub-range of ITS-90 (Metrologia 27 (1990) 3–10, 3.3 and table 5). Its `number` is the customary label, which the
 * scale itself does not print.
 */
export interface SubRange {
  readonly number: SubRangeNumber;
  readonly clause: string;
  /** Ends, K. */
  readonly low: number;
  readonly high: number;
  /** Fixed points beside the triple point of water, one a coefficient, in the order the coefficients are found. */
  readonly points: readonly FixedPointName[];
  readonly terms: readonly Term[];
  /** Degree in W − 1 if all terms are powers of it and there are no others; else 0. */
  readonly powers: number;
  /** W − W_r in symbols. */
  readonly equation: string;
  /**
   * Sub-range 6 alone: above the freezing point of aluminium a term d·(W − W(Al))² is added, with d from silver and
   * a, b, c as found from tin, zinc and aluminium.
   */
  readonly aboveAluminium: boolean;
}

export type SubRangeNumber = "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "10" | "11";

/** xⁿ for whole n ≥ 0. */
function whole(x: number, n: number): number {
  let product = 1;
  for (let i = 0; i < n; i++) product *= x;
  return product;
}

const power = (coefficient: string, n: number): Term => ({
  coefficient,
  value: (W) => whole(W - 1, n),
  slope: (W) => n * whole(W - 1, n - 1),
});

const logarithm = (coefficient: string, n: number): Term => ({
  coefficient,
  value: (W) => whole(ln(W), n),
  slope: (W) => (n * whole(ln(W), n - 1)) / W,
});

const product: Term = {
  coefficient: "b",
  value: (W) => (W - 1) * ln(W),
  slope: (W) => ln(W) + (W - 1) / W,
};

const a = power("a", 1);
const b = power("b", 2);
const c = power("c", 3);

const subRange = (
  number: SubRangeNumber,
  clause: string,
  [low, high]: readonly [number, number],
  points: readonly FixedPointName[],
  terms: readonly Term[],
  equation: string,
  aboveAluminium = false,
): SubRange => ({
  number,
  clause,
  low,
  high,
  points,
  terms,
  powers: !aboveAluminium && terms.every((term, i) => term === [a, b, c][i]) ? terms.length : 0,
  equation,
  aboveAluminium,
});

/** Every sub-range for platinum: limits, fixed points and deviation functions of table 5. */
export const subRanges: Readonly<Record<SubRangeNumber, SubRange>> = {
  "1": subRange(
    "1",
    "3.3.1",
    [13.8033, 273.16],
    ["H2", "H2_17K", "H2_20K", "Ne", "O2", "Ar", "Hg"],
    [a, b, ...[1, 2, 3, 4, 5].map((i) => logarithm(`c${i}`, i + 2))],
    "a(W − 1) + b(W − 1)² + Σ cᵢ(ln W)^(i+2), i = 1…5",
  ),
  "2": subRange(
    "2",
    "3.3.1.1",
    [24.5561, 273.16],
    ["H2", "Ne", "O2", "Ar", "Hg"],
    [a, b, ...[1, 2, 3].map((i) => logarithm(`c${i}`, i))],
    "a(W − 1) + b(W − 1)² + Σ cᵢ(ln W)^i, i = 1…3",
  ),
  "3": subRange(
    "3",
    "3.3.1.2",
    [54.3584, 273.16],
    ["O2", "Ar", "Hg"],
    [a, b, logarithm("c1", 2)],
    "a(W − 1) + b(W − 1)² + c₁(ln W)²",
  ),
  "4": subRange("4", "3.3.1.3", [83.8058, 273.16], ["Ar", "Hg"], [a, product], "a(W − 1) + b(W − 1)·ln W"),
  "5": subRange("5", "3.3.3", [234.3156, 302.9146], ["Hg", "Ga"], [a, b], "a(W − 1) + b(W − 1)²"),
  "6": subRange(
    "6",
    "3.3.2",
    [273.15, 1234.93],
    ["Sn", "Zn", "Al", "Ag"],
    [a, b, c],
    "a(W − 1) + b(W − 1)² + c(W − 1)³ + d(W − W(Al))², d only above Al",
    true,
  ),
  "7": subRange("7", "3.3.2.1", [273.15, 933.473], ["Sn", "Zn", "Al"], [a, b, c], "a(W − 1) + b(W − 1)² + c(W − 1)³"),
  "8": subRange("8", "3.3.2.2", [273.15, 692.677], ["Sn", "Zn"], [a, b], "a(W − 1) + b(W − 1)²"),
  "9": subRange("9", "3.3.2.3", [273.15, 505.078], ["In", "Sn"], [a, b], "a(W − 1) + b(W − 1)²"),
  "10": subRange("10", "3.3.2.4", [273.15, 429.7485], ["In"], [a], "a(W − 1)"),
  "11": subRange("11", "3.3.2.5", [273.15, 302.9146], ["Ga"], [a], "a(W − 1)"),
};

/** The sub-range of this number. @throws {InputError} placed at `place` */
export function subRangeOf(number: unknown, place = "subRange"): SubRange {
  const key = String(number);
  if (!Object.hasOwn(subRanges, key)) refuse(place, number, `a sub-range of ITS-90 from "1" to "11"`);
  return subRanges[key as SubRangeNumber];
}

/** The coefficients of a thermometer in the order of the sub-range's terms; for sub-range 6 followed by d and W(Al). */
export type DeviationCoefficients = ArrayLike<number>;

/** Names of the coefficients, in the order of `DeviationCoefficients`. */
export const coefficientNames = ({ terms, aboveAluminium }: SubRange): readonly string[] => [
  ...terms.map(({ coefficient }) => coefficient),
  ...(aboveAluminium ? ["d", "ratioAtAl"] : []),
];

/** W − W_r of a thermometer at W. */
export function deviation({ terms, aboveAluminium }: SubRange, coefficients: DeviationCoefficients, W: number): number {
  let sum = 0;
  for (let k = 0; k < terms.length; k++) sum += coefficients[k]! * terms[k]!.value(W);
  return aboveAluminium ? sum + silverTerm(coefficients, terms.length, W) : sum;
}

/** d(W − W_r)/dW. */
export function deviationSlope(
  { terms, aboveAluminium }: SubRange,
  coefficients: DeviationCoefficients,
  W: number,
): number {
  let sum = 0;
  for (let k = 0; k < terms.length; k++) sum += coefficients[k]! * terms[k]!.slope(W);
  const above = aboveAluminium ? W - coefficients[terms.length + 1]! : 0;
  return above > 0 ? sum + 2 * coefficients[terms.length]! * above : sum;
}

function silverTerm(coefficients: DeviationCoefficients, from: number, W: number): number {
  const above = W - coefficients[from + 1]!;
  return above > 0 ? coefficients[from]! * above * above : 0;
}
