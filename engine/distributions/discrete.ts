import * as z from "zod";
import { refuse } from "../errors.ts";
import { guideTable } from "../random/guide-table.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/** Probabilities written with three decimals may miss 1 by this much. */
const SUM_TOLERANCE = 1e-3;

/**
 * A quantity that takes discrete values.
 *
 * @param values in any order; equal ones are merged
 * @param weights probabilities up to a common factor: not negative, not all 0
 */
export function discreteDistribution(values: readonly number[], weights: readonly number[]): Distribution {
  const { atoms, probabilities } = gather(values, weights);
  const n = atoms.length;
  const cumulative = new Float64Array(n);
  let sum = 0;
  for (let i = 0; i < n; i++) cumulative[i] = sum += probabilities[i]!;
  cumulative[n - 1] = 1;
  const place = guideTable(cumulative);
  // About the first value, so that a common offset costs no digits.
  const shift = atoms[0]!;
  let first = 0;
  for (let i = 0; i < n; i++) first += probabilities[i]! * (atoms[i]! - shift);
  const mean = shift + first;
  let second = 0;
  for (let i = 0; i < n; i++) second += probabilities[i]! * (atoms[i]! - mean) * (atoms[i]! - mean);
  return {
    mean,
    standardDeviation: Math.sqrt(second),
    support: [atoms[0]!, atoms[n - 1]!],
    discrete: true,
    atoms: () => ({ values: atoms, probabilities }),
    density(x) {
      const i = leastNotBelow(atoms, x);
      return i < n && atoms[i] === x ? probabilities[i]! : 0;
    },
    distributionFunction(x) {
      const i = leastNotBelow(atoms, x);
      return i < n && atoms[i] === x ? cumulative[i]! : i === 0 ? 0 : cumulative[i - 1]!;
    },
    quantile: (p) => atoms[Math.min(n - 1, leastNotBelow(cumulative, p))]!,
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = atoms[place(out[i]!)]!;
    },
  };
}

/** Distinct values of positive weight, in rising order, with probabilities that add to 1. */
function gather(
  values: readonly number[],
  weights: readonly number[],
): { atoms: Float64Array; probabilities: Float64Array } {
  const order = values.map((_, i) => i).filter((i) => weights[i]! > 0);
  order.sort((i, j) => values[i]! - values[j]!);
  const largest = order.reduce((most, i) => Math.max(most, weights[i]!), 0);
  const atoms: number[] = [];
  const shares: number[] = [];
  for (const i of order) {
    // +0 and −0 are one value.
    const value = values[i]! + 0;
    const share = weights[i]! / largest;
    if (atoms.length > 0 && atoms[atoms.length - 1] === value) shares[shares.length - 1]! += share;
    else {
      atoms.push(value);
      shares.push(share);
    }
  }
  let total = 0;
  for (const share of shares) total += share;
  return { atoms: Float64Array.from(atoms), probabilities: Float64Array.from(shares, (share) => share / total) };
}

/** Least index i with sorted[i] ≥ x, or the length if there is none. */
export function leastNotBelow(sorted: Float64Array, x: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Refuses lists whose lengths differ. @throws {InputError} */
export function checkEqualLengths(
  place: string,
  expected: readonly unknown[],
  field: string,
  given: readonly unknown[],
  other: string,
): void {
  if (given.length !== expected.length) {
    refuse(`${place}.${field}`, `${given.length} entries`, `as many entries as ${other} has (${expected.length})`);
  }
}

/** Discrete values, each with its probability. */
export const discrete = defineDistribution({
  kind: "discrete",
  statement: statementOf("discrete", {
    values: z.array(number()).min(1).meta(inUnit("The values the quantity can take")),
    probabilities: z.array(number().gte(0)).min(1).meta(ofOne("The probability of each, adding to 1 within 0.001")),
  }),
  read({ values, probabilities }, place) {
    checkEqualLengths(place, values, "probabilities", probabilities, "values");
    let sum = 0;
    for (const probability of probabilities) sum += probability;
    if (!(Math.abs(sum - 1) <= SUM_TOLERANCE)) {
      refuse(`${place}.probabilities`, `a sum of ${sum}`, `probabilities that add to 1 within ${SUM_TOLERANCE}`);
    }
    const distribution = discreteDistribution(values, probabilities);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
