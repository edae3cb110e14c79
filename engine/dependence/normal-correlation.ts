import type { Distribution } from "../distributions/distribution.ts";
import { sin } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { covarianceOf, hermiteExpansion, type Expansion } from "./hermite-expansion.ts";

/** One side of a pair: its distribution, and its expansion, computed once however many pairs it is in. */
export interface Marginal {
  readonly distribution: Distribution;
  readonly expansion: () => Expansion;
}

export function marginalOf(distribution: Distribution): Marginal {
  let made: Expansion | undefined;
  return { distribution, expansion: () => (made ??= hermiteExpansion(distribution)) };
}

/** The correlation of the normals behind two quantities that gives Spearman's rank correlation asked for. */
export const fromRanks = (coefficient: number): number => 2 * sin((Math.PI * coefficient) / 6);

/** The correlation of the values of two quantities over normals with correlation ρ. */
export function valueCorrelation(a: Marginal, b: Marginal): (ρ: number) => number {
  const covariance = covarianceOf(a.expansion(), b.expansion());
  const scale = a.distribution.standardDeviation! * b.distribution.standardDeviation!;
  return (ρ) => covariance(ρ) / scale;
}

/**
 * The correlation of the normals behind two quantities that gives the correlation of values asked for.
 *
 * @throws {InputError} a coefficient that no pair with these distributions has, with the range there is; or a quantity
 *   without a standard deviation, which has no correlation of values
 */
export function fromValues(coefficient: number, a: Marginal, b: Marginal, place: string): number {
  for (const { distribution } of [a, b]) {
    const s = distribution.standardDeviation;
    if (s === null || !Number.isFinite(s)) {
      refuse(
        place,
        coefficient,
        'a correlation that refers to ranks ("refersTo": "ranks"): one of the two has no standard deviation (ν ≤ 2)',
      );
    }
  }
  const correlation = valueCorrelation(a, b);
  const least = correlation(-1);
  const most = correlation(1);
  const slack = 1e-6;
  if (coefficient < least - slack || coefficient > most + slack) {
    refuse(
      place,
      coefficient,
      `a number from ${least.toFixed(4)} to ${most.toFixed(4)}, all that two quantities with these distributions can have`,
    );
  }
  let low = -1;
  let high = 1;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (correlation(middle) < coefficient) low = middle;
    else high = middle;
  }
  // Exactly ±1, not a value close to it, so that a fully correlated pair remains so.
  return high > 1 - 1e-9 ? 1 : low < -1 + 1e-9 ? -1 : (low + high) / 2;
}
