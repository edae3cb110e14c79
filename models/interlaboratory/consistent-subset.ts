import {
  chiSquareAbove,
  weightedMean,
  type LaboratoryResult,
  type ResultCorrelation,
  type WeightedMean,
} from "./reference-value.ts";

/** The largest subset of results that agree with one another. */
export interface ConsistentSubset extends WeightedMean {
  /** Names of the results in it, in their order, and of those that count but are left out. */
  readonly members: readonly string[];
  readonly excluded: readonly string[];
  /** Whether it holds more than half of the results that count: fewer than that are no consensus. */
  readonly majority: boolean;
}

/** Most subsets that are tried where results are correlated: half a second. */
const MOST_SUBSETS = 60_000;

/**
 * The largest consistent subset of M. G. Cox, Metrologia 44 (2007) 187–200: of the subsets of the results that count which
 * pass the χ² test, the one with most members; of equally large ones the one with the least χ². Its weighted mean is the
 * reference value; a laboratory outside it is not correlated with that value, unless it is with members.
 *
 * For results without correlation the search is exact for any number of them. For a given value μ the k results with the
 * least (x − μ)²/u² are the k that agree best with it, so that the best subset of k is found among the k nearest to some
 * μ; which are the nearest changes only where two of these parabolas cross.
 *
 * @returns `null` if no two results are consistent, or if there are too many subsets of correlated results to try
 */
export function largestConsistentSubset(
  results: readonly LaboratoryResult[],
  correlations: readonly ResultCorrelation[],
  significance: number,
): ConsistentSubset | null {
  const counting = results.map((_, i) => i).filter((i) => results[i]!.inReference);
  const correlated = correlations.some(
    ({ between, coefficient }) =>
      coefficient !== 0 && between.every((name) => counting.some((i) => results[i]!.name === name)),
  );
  const members = correlated
    ? amongAll(results, counting, correlations, significance)
    : amongNearest(results, counting, significance);
  if (members === null) return null;
  const inside = new Set(members);
  const named = (places: readonly number[]): string[] => places.map((i) => results[i]!.name);
  return {
    ...meanOf(results, members, correlations),
    members: named(members),
    excluded: named(counting.filter((i) => !inside.has(i))),
    majority: 2 * members.length > counting.length,
  };
}

/** The weighted mean of some results, with a weight of 0 for each of the others. */
function meanOf(
  results: readonly LaboratoryResult[],
  members: readonly number[],
  correlations: readonly ResultCorrelation[],
): WeightedMean {
  const inside = new Set(members);
  return weightedMean(
    results.map((result, i) => ({ ...result, inReference: inside.has(i) })),
    correlations,
  );
}

function amongNearest(
  results: readonly LaboratoryResult[],
  counting: readonly number[],
  significance: number,
): readonly number[] | null {
  // Nearly equal values would lose their last digits.
  const shift = results[counting[0]!]!.value;
  const x = counting.map((i) => results[i]!.value - shift);
  const w = counting.map((i) => 1 / (results[i]!.standardUncertainty * results[i]!.standardUncertainty));
  const n = x.length;
  /** Least χ² of each size, and its members as places among those that count. */
  const best: { chiSquare: number; members: readonly number[] }[] = Array.from({ length: n + 1 }, () => ({
    chiSquare: Infinity,
    members: [],
  }));
  for (const μ of betweenCrossings(x, w)) {
    const nearest = x
      .map((value, i) => [w[i]! * (value - μ) * (value - μ), i] as const)
      .toSorted(([a], [b]) => a - b)
      .map(([, i]) => i);
    let [sum, mean, chiSquare] = [0, 0, 0];
    // χ² as members join, by the recurrence of a weighted sum of squares about its mean, which subtracts nothing.
    nearest.forEach((i, before) => {
      const joint = sum + w[i]!;
      const off = x[i]! - mean;
      chiSquare += ((sum * w[i]!) / joint) * off * off;
      mean += (w[i]! / joint) * off;
      sum = joint;
      const size = before + 1;
      if (chiSquare < best[size]!.chiSquare) best[size] = { chiSquare, members: nearest.slice(0, size) };
    });
  }
  for (let size = n; size >= 2; size--) {
    const { chiSquare, members } = best[size]!;
    if (chiSquareAbove(chiSquare, size - 1) >= significance)
      return members.map((k) => counting[k]!).toSorted((a, b) => a - b);
  }
  return null;
}

/** A value in each stretch in which the order of (x − μ)²·w stays as it is. */
function betweenCrossings(x: readonly number[], w: readonly number[]): readonly number[] {
  const roots = w.map(Math.sqrt);
  const crossings = new Set<number>();
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      const [a, b] = [roots[i]!, roots[j]!];
      // √w_i·(x_i − μ) = ±√w_j·(x_j − μ): between the two values, and beyond them unless the weights are equal.
      crossings.add((a * x[i]! + b * x[j]!) / (a + b));
      if (a !== b) crossings.add((a * x[i]! - b * x[j]!) / (a - b));
    }
  }
  const ordered = [...crossings].toSorted((a, b) => a - b);
  const middles = ordered.slice(1).map((value, i) => ordered[i]! / 2 + value / 2);
  return [ordered[0]! - 1, ...middles, ordered.at(-1)! + 1];
}

function amongAll(
  results: readonly LaboratoryResult[],
  counting: readonly number[],
  correlations: readonly ResultCorrelation[],
  significance: number,
): readonly number[] | null {
  let tried = 0;
  for (let size = counting.length; size >= 2; size--) {
    tried += combinations(counting.length, size);
    if (tried > MOST_SUBSETS) return null;
    let best: { readonly chiSquare: number; readonly members: readonly number[] } | null = null;
    for (const members of subsets(counting, size)) {
      const { chiSquare, probability } = meanOf(results, members, correlations);
      if (probability >= significance && (best === null || chiSquare < best.chiSquare)) best = { chiSquare, members };
    }
    if (best !== null) return best.members;
  }
  return null;
}

const combinations = (n: number, k: number): number => {
  let count = 1;
  for (let i = 1; i <= n - k; i++) count *= (k + i) / i;
  return count;
};

function* subsets(items: readonly number[], size: number): Generator<readonly number[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let i = 0; i <= items.length - size; i++)
    for (const rest of subsets(items.slice(i + 1), size - 1)) yield [items[i]!, ...rest];
}
