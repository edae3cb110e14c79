import { leastNotBelow } from "../distributions/discrete.ts";
import type { Atoms, Distribution } from "../distributions/distribution.ts";
import { normalDistribution } from "../distributions/normal.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import type { LinearTerm } from "./linear-term.ts";
import { partOf } from "./linear-term.ts";
import type { SumDistribution } from "./sum-distribution.ts";

const upperOf = (of: Distribution, x: number): number => of.upperTail?.(x) ?? 1 - of.distributionFunction(x);

/** Normal terms alone: a normal. */
export function normalSum(standardDeviation: number): SumDistribution {
  const of = normalDistribution(0, standardDeviation);
  return {
    mean: 0,
    standardDeviation,
    discrete: false,
    density: of.density,
    distributionFunction: of.distributionFunction,
    upperTail: (d) => upperOf(of, d),
    quantile: of.quantile,
    upperQuantile: (q) => -of.quantile(q),
  };
}

/** One continuous term alone: its own distribution, scaled. */
export function loneTerm(term: LinearTerm): SumDistribution {
  const { distribution, coefficient: c, centre } = term;
  const part = partOf(term);
  const at = (p: number): number => c * (distribution.quantile(p) - centre);
  /** The x with P(X > x) = q: for a small q the quantile's own digits end at 2^-53 of 1. */
  const upperAt = (q: number): number => {
    const start = distribution.quantile(1 - q);
    if (distribution.upperTail === undefined || q > 0.5 || !(distribution.support[1] === Infinity))
      return c * (start - centre);
    let step = distribution.standardDeviation! / 2 ** 10;
    let [low, high] = [start - step, start + step];
    while (upperOf(distribution, low) < q) low -= step *= 2;
    while (upperOf(distribution, high) > q) high += step *= 2;
    const found = monotoneInverse((x) => -upperOf(distribution, x), distribution.density, -q, low, high, start);
    return c * (found - centre);
  };
  return {
    mean: part.mean,
    standardDeviation: part.standardDeviation,
    discrete: false,
    density: part.density,
    distributionFunction: part.below,
    upperTail: part.above,
    quantile: c > 0 ? at : upperAt,
    upperQuantile: c > 0 ? upperAt : at,
  };
}

/** A discrete quantity of these values. */
export function atomsDistribution({ values, probabilities }: Atoms): SumDistribution {
  const n = values.length;
  const below = new Float64Array(n);
  const above = new Float64Array(n);
  let sum = 0;
  for (let i = 0; i < n; i++) below[i] = sum += probabilities[i]!;
  sum = 0;
  for (let i = n - 1; i >= 0; i--) {
    above[i] = sum;
    sum += probabilities[i]!;
  }
  // The last probability that rounding left over belongs to the last value.
  below[n - 1] = 1;
  /** Number of values that are at most d. */
  const upTo = (d: number): number => {
    const i = leastNotBelow(values, d);
    return i < n && values[i] === d ? i + 1 : i;
  };
  const { mean, standardDeviation } = momentsOf({ values, probabilities });
  return {
    mean,
    standardDeviation,
    discrete: true,
    density(d) {
      const i = leastNotBelow(values, d);
      return i < n && values[i] === d ? probabilities[i]! : 0;
    },
    distributionFunction: (d) => (upTo(d) === 0 ? 0 : below[upTo(d) - 1]!),
    upperTail: (d) => (upTo(d) === 0 ? 1 : above[upTo(d) - 1]!),
    quantile: (p) => values[Math.min(n - 1, leastNotBelow(below, p))]!,
    upperQuantile(q) {
      // The least value with at most q above it.
      let [from, to] = [0, n - 1];
      while (from < to) {
        const middle = (from + to) >>> 1;
        if (above[middle]! <= q) to = middle;
        else from = middle + 1;
      }
      return values[from]!;
    },
  };
}

export function momentsOf({ values, probabilities }: Atoms): { mean: number; standardDeviation: number } {
  let mean = 0;
  for (let i = 0; i < values.length; i++) mean += probabilities[i]! * values[i]!;
  let variance = 0;
  for (let i = 0; i < values.length; i++) variance += probabilities[i]! * (values[i]! - mean) * (values[i]! - mean);
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/**
 * The sum of independent discrete quantities, every combination of values once, equal ones merged.
 *
 * @returns `null` if there are more than `most` combinations
 */
export function sumOfAtoms(parts: readonly Atoms[], most: number): Atoms | null {
  let sum: Atoms = { values: Float64Array.of(0), probabilities: Float64Array.of(1) };
  for (const part of parts) {
    if (sum.values.length * part.values.length > most) return null;
    const pairs: (readonly [number, number])[] = [];
    sum.values.forEach((a, i) =>
      part.values.forEach((b, j) => pairs.push([a + b, sum.probabilities[i]! * part.probabilities[j]!])),
    );
    pairs.sort(([a], [b]) => a - b);
    const merged: [number, number][] = [];
    for (const [value, probability] of pairs) {
      const last = merged.at(-1);
      if (last !== undefined && last[0] === value) last[1] += probability;
      else merged.push([value, probability]);
    }
    sum = {
      values: Float64Array.from(merged, ([value]) => value),
      probabilities: Float64Array.from(merged, ([, probability]) => probability),
    };
  }
  return sum;
}

/** The sum of a continuous quantity and a discrete one: Σ P_a·F(d − a). */
export function withAtoms(continuous: SumDistribution, atoms: Atoms): SumDistribution {
  const { values, probabilities } = atoms;
  const n = values.length;
  const discrete = momentsOf(atoms);
  const weighted = (f: (d: number) => number, d: number): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += probabilities[i]! * f(d - values[i]!);
    return sum;
  };
  const density = (d: number): number => weighted(continuous.density, d);
  const below = (d: number): number => weighted(continuous.distributionFunction, d);
  const above = (d: number): number => weighted(continuous.upperTail, d);
  // Every value's own quantile is between these.
  const [least, greatest] = [values[0]!, values[n - 1]!];
  const quantile = (p: number): number => {
    const at = continuous.quantile(p);
    return n === 1 ? at + least : monotoneInverse(below, density, p, at + least, at + greatest);
  };
  const upperQuantile = (q: number): number => {
    const at = continuous.upperQuantile(q);
    return n === 1 ? at + least : monotoneInverse((d) => -above(d), density, -q, at + least, at + greatest);
  };
  return {
    mean: continuous.mean + discrete.mean,
    standardDeviation: Math.sqrt(
      continuous.standardDeviation * continuous.standardDeviation +
        discrete.standardDeviation * discrete.standardDeviation,
    ),
    discrete: false,
    density,
    distributionFunction: below,
    upperTail: above,
    quantile: (p) => (p <= 0.5 ? quantile(p) : upperQuantile(1 - p)),
    upperQuantile: (q) => (q <= 0.5 ? upperQuantile(q) : quantile(1 - q)),
  };
}
