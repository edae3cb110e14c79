import type { MeasurandRecord } from "../../engine/index.ts";

/** The distribution a linear budget stands for, standardised: normal, or t with whole ν (JCGM 100, G.4.1 cuts ν_eff). */
export interface StandardDistribution {
  distributionFunction(z: number): number;
  quantile(probability: number): number;
}

/** Past these degrees of freedom a t is as good as normal: the quantiles differ by less than 1e-4 of themselves. */
const AS_GOOD_AS_NORMAL = 20_000;

const density = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Φ(z): by its series near the middle, by its continued fraction in the tails (Abramowitz and Stegun, 26.2.11, 26.2.14). */
function normalDistributionFunction(z: number): number {
  if (z < 0) return 1 - normalDistributionFunction(-z);
  if (z > 4) {
    let fraction = z;
    for (let k = 60; k >= 1; k -= 1) fraction = z + k / fraction;
    return 1 - density(z) / fraction;
  }
  let term = z;
  let sum = z;
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
    term *= (z * z) / k;
    sum += term;
  }
  return 0.5 + density(z) * sum;
}

/** P(T ≤ t) for whole ν: the finite sums of Abramowitz and Stegun, 26.7.3 and 26.7.4. */
function tDistributionFunction(t: number, ν: number): number {
  const θ = Math.atan(t / Math.sqrt(ν));
  const [sine, square] = [Math.sin(θ), Math.cos(θ) ** 2];
  let term = ν % 2 === 1 ? Math.cos(θ) : 1;
  let sum = ν === 1 ? 0 : term;
  for (let k = ν % 2 === 1 ? 2 : 1; k <= ν - 3; k += 2) {
    term *= (square * k) / (k + 1);
    sum += term;
  }
  const inside = ν % 2 === 1 ? (2 / Math.PI) * (θ + sine * sum) : sine * sum;
  return 0.5 + inside / 2;
}

/** The quantile of a symmetric distribution by halving an interval: exact to the bits that matter in a picture. */
function quantileOf(distributionFunction: (z: number) => number, probability: number): number {
  if (probability === 0.5) return 0;
  if (probability < 0.5) return -quantileOf(distributionFunction, 1 - probability);
  let [low, high] = [0, 1];
  while (distributionFunction(high) < probability && high < 1e9) high *= 2;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (distributionFunction(middle) < probability) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** @param ν effective degrees of freedom; `null` for infinitely many */
export function standardDistribution(ν: number | null): StandardDistribution {
  // As the budget's k takes them: a rounding error below a whole number counts as that number.
  const degrees = ν === null ? Infinity : Math.floor(ν + Math.min(1e-7 * ν, 1e-3)) || ν;
  const distributionFunction =
    degrees > AS_GOOD_AS_NORMAL ? normalDistributionFunction : (z: number): number => tDistributionFunction(z, degrees);
  return { distributionFunction, quantile: (probability) => quantileOf(distributionFunction, probability) };
}

/** The standardised distribution of a budget: a fixed factor claims a normal one, whatever ν_eff is. */
export const distributionOfBudget = (
  { linear }: MeasurandRecord,
  custom: "probability" | "factor",
): StandardDistribution => standardDistribution(custom === "factor" ? null : linear.effectiveDegreesOfFreedom);
