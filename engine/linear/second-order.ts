import type { BudgetLine } from "../distributions/distribution.ts";
import type { Model } from "../model.ts";
import { powerOfTwoAbove } from "../numerics/power-of-two.ts";
import { measurandNear } from "../evaluator/evaluate-once.ts";

/** What two inputs (or one, with itself) add to u²(y) beyond the first order. */
export interface SecondOrderTerm {
  readonly between: readonly [string, string];
  /** [½·f_ij² + f_i·f_ijj]·u_i²·u_j², for both orders of the pair; may be negative. */
  readonly term: number;
}

/** The budget with its next-order terms, of one measurand. */
export interface SecondOrder {
  /** ½·Σ f_ii·u_i²: the difference between the mean of Y and f at the estimates. */
  readonly bias: number;
  readonly standardUncertainty: number;
  /** Largest first; those below 1e-6 of u²(y) are left out. */
  readonly terms: readonly SecondOrderTerm[];
}

/** Most inputs that vary: every pair of them takes four values of the model, twice. */
const MOST_INPUTS = 100;
/** Steps in standard uncertainties; the two are combined to remove the error in h² (Richardson). */
const STEP = 0.25;

/**
 * The next-order terms of the law of propagation: u²(y) = Σ f_i²u_i² + ΣΣ [½ f_ij² + f_i f_ijj] u_i² u_j²
 * (JCGM 100, 5.1.2, note), and the bias of the estimate. Inputs are taken as independent and near normal, as there.
 *
 * @param firstOrder u(y) of the linear budget, including any correlations
 * @returns `null` where more than 100 inputs vary, where the model is not finite within half a standard uncertainty, has a kink or a step there, or bends
 *   so sharply that the terms make less than nothing of u²(y)
 */
export function secondOrder<I extends string, O extends string>(
  model: Model<I, O>,
  lines: Readonly<Record<I, BudgetLine>>,
  measurand: O,
  firstOrder: number,
): SecondOrder | null {
  const names = (Object.keys(model.inputs) as I[]).filter((name) => lines[name].standardUncertainty > 0);
  if (names.length > MOST_INPUTS) return null;
  const estimates = Object.fromEntries(
    (Object.keys(model.inputs) as I[]).map((name) => [name, lines[name].estimate]),
  ) as Record<I, number>;
  // In units of about u(y) where its square would leave the range of a double.
  const ordinary = firstOrder === 0 || (firstOrder > 1e-120 && firstOrder < 1e120);
  const scale = ordinary ? 1 : powerOfTwoAbove(firstOrder);
  const { point, value } = measurandNear(model, estimates, measurand);
  const move = (i: number, z: number): void => {
    const name = names[i]!;
    point[name] = estimates[name] + z * lines[name].standardUncertainty;
  };
  const putBack = (i: number): void => void (point[names[i]!] = estimates[names[i]!]);
  /** f with one input moved by a multiple of its standard uncertainty, and with two. */
  const one = (i: number, z: number): number => {
    move(i, z);
    const found = value() / scale;
    putBack(i);
    return found;
  };
  const two = (i: number, z: number, j: number, w: number): number => {
    move(j, w);
    const found = one(i, z);
    putBack(j);
    return found;
  };
  const centre = value() / scale;
  const n = names.length;
  const derivativesAt = (h: number): Derivatives => {
    const first = new Float64Array(n);
    const second = names.map(() => new Float64Array(n));
    const third = names.map(() => new Float64Array(n));
    const [up, down] = [h, -h].map((z) => names.map((_, i) => one(i, z))) as [number[], number[]];
    for (let i = 0; i < n; i++) {
      first[i] = (up[i]! - down[i]!) / (2 * h);
      second[i]![i] = (up[i]! - 2 * centre + down[i]!) / (h * h);
      third[i]![i] = (one(i, 2 * h) - 2 * up[i]! + 2 * down[i]! - one(i, -2 * h)) / (2 * h * h * h);
      for (let j = i + 1; j < n; j++) {
        // Both inputs up, the second down, the first down, both down: f_ij and both f_ijj, once in one and twice in the other.
        const [both, jDown, iDown, neither] = [two(i, h, j, h), two(i, h, j, -h), two(i, -h, j, h), two(i, -h, j, -h)];
        second[i]![j] = second[j]![i] = (both - jDown - iDown + neither) / (4 * h * h);
        third[i]![j] = (both - iDown - 2 * (up[i]! - down[i]!) + (jDown - neither)) / (2 * h * h * h);
        third[j]![i] = (both - jDown - 2 * (up[j]! - down[j]!) + (iDown - neither)) / (2 * h * h * h);
      }
    }
    return { first, second, third };
  };
  const coarse = derivativesAt(STEP);
  const fine = derivativesAt(STEP / 2);
  const { bias, terms } = termsOf(names, refined(coarse, fine));
  const variance = terms.reduce((sum, { term }) => sum + term, (firstOrder / scale) * (firstOrder / scale));
  if (!Number.isFinite(variance) || !Number.isFinite(bias) || variance < 0) return null;
  const standardUncertainty = Math.sqrt(variance);
  const [wide, narrow] = [termsOf(names, coarse), termsOf(names, fine)];
  if (
    disagree(wide.bias, narrow.bias, standardUncertainty) ||
    terms.some((_, i) => disagree(wide.terms[i]!.term, narrow.terms[i]!.term, variance))
  )
    return null;
  return {
    bias: bias * scale,
    standardUncertainty: standardUncertainty * scale,
    terms: terms
      .filter(({ term }) => Math.abs(term) > 1e-6 * variance)
      // A variance beyond the range of a double cannot be stated.
      .map(({ between, term }) => ({ between, term: term * scale * scale }))
      .filter(({ term }) => Number.isFinite(term))
      .sort((a, b) => Math.abs(b.term) - Math.abs(a.term)),
  };
}

/** Derivatives in units of the standard uncertainties: f_i, f_ij and f_ijj. */
interface Derivatives {
  readonly first: Float64Array;
  readonly second: readonly Float64Array[];
  readonly third: readonly Float64Array[];
}

function refined(coarse: Derivatives, fine: Derivatives): Derivatives {
  const both = (a: Float64Array, b: Float64Array): Float64Array => b.map((value, i) => (4 * value - a[i]!) / 3);
  return {
    first: both(coarse.first, fine.first),
    second: fine.second.map((row, i) => both(coarse.second[i]!, row)),
    third: fine.third.map((row, i) => both(coarse.third[i]!, row)),
  };
}

function termsOf(
  names: readonly string[],
  { first, second, third }: Derivatives,
): { readonly bias: number; readonly terms: SecondOrderTerm[] } {
  const terms: SecondOrderTerm[] = [];
  let bias = 0;
  for (let i = 0; i < names.length; i++) {
    bias += second[i]![i]! / 2;
    for (let j = i; j < names.length; j++) {
      const own = (p: number, q: number): number => 0.5 * second[p]![q]! * second[p]![q]! + first[p]! * third[p]![q]!;
      terms.push({ between: [names[i]!, names[j]!], term: i === j ? own(i, i) : own(i, j) + own(j, i) });
    }
  }
  return { bias, terms };
}

/**
 * Whether a figure from the two steps differs by more than the extrapolation can make good: of a smooth model the two
 * agree to the square of the step; at a kink a second derivative doubles from one step to the half of it.
 */
const disagree = (wide: number, narrow: number, whole: number): boolean =>
  Math.abs(narrow - wide) > Math.max(0.25 * Math.max(Math.abs(wide), Math.abs(narrow)), 0.01 * whole);
