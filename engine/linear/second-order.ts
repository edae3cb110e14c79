import type { BudgetLine } from "../distributions/distribution.ts";
import type { Model } from "../model.ts";
import { outputsAt } from "../trials/evaluate-once.ts";

/** What two inputs (or one, with itself) add to u²(y) beyond the first order. */
export interface SecondOrderTerm {
  readonly between: readonly [string, string];
  /** [½·f_ij² + f_i·f_ijj]·u_i²·u_j², for both orders of the pair; may be negative. */
  readonly term: number;
}

/** The budget with its next-order terms, of one measurand. */
export interface SecondOrder {
  /** ½·Σ f_ii·u_i²: by how much the mean of Y lies off f at the estimates. */
  readonly bias: number;
  readonly standardUncertainty: number;
  /** Largest first; those below 1e-6 of u²(y) are left out. */
  readonly terms: readonly SecondOrderTerm[];
}

/** Steps in standard uncertainties; the two are combined to remove the error in h² (Richardson). */
const STEP = 0.25;

/**
 * The next-order terms of the law of propagation: u²(y) = Σ f_i²u_i² + ΣΣ [½ f_ij² + f_i f_ijj] u_i² u_j²
 * (JCGM 100, 5.1.2, note), and the bias of the estimate. Inputs are taken as independent and near normal, as there.
 *
 * @param firstOrder u(y) of the linear budget, whatever correlation it holds
 * @returns `null` where the model is not finite within half a standard uncertainty, or bends so sharply there that the
 *   terms make less than nothing of u²(y)
 */
export function secondOrder<I extends string, O extends string>(
  model: Model<I, O>,
  lines: Readonly<Record<I, BudgetLine>>,
  measurand: O,
  firstOrder: number,
): SecondOrder | null {
  const names = (Object.keys(model.inputs) as I[]).filter((name) => lines[name].standardUncertainty > 0);
  const point = Object.fromEntries(
    (Object.keys(model.inputs) as I[]).map((name) => [name, lines[name].estimate]),
  ) as Record<I, number>;
  /** f with some inputs moved by multiples of their standard uncertainties. */
  const at = (...moves: readonly (readonly [I, number])[]): number => {
    for (const [name, z] of moves) point[name] += z * lines[name].standardUncertainty;
    const outputs = outputsAt(model, point);
    for (const [name] of moves) point[name] = lines[name].estimate;
    return typeof outputs === "number" ? outputs : (outputs as Readonly<Record<O, number>>)[measurand];
  };
  const centre = at();
  const n = names.length;
  const first = new Float64Array(n);
  const second = names.map(() => new Float64Array(n));
  const third = names.map(() => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    const a = names[i]!;
    first[i] = refined((h) => (at([a, h]) - at([a, -h])) / (2 * h));
    second[i]![i] = refined((h) => (at([a, h]) - 2 * centre + at([a, -h])) / (h * h));
    third[i]![i] = refined(
      (h) => (at([a, 2 * h]) - 2 * at([a, h]) + 2 * at([a, -h]) - at([a, -2 * h])) / (2 * h * h * h),
    );
    for (let j = 0; j < n; j++) {
      if (i === j) continue;
      const b = names[j]!;
      if (j > i) {
        second[i]![j] = second[j]![i] = refined(
          (h) => (at([a, h], [b, h]) - at([a, h], [b, -h]) - at([a, -h], [b, h]) + at([a, -h], [b, -h])) / (4 * h * h),
        );
      }
      // f_ijj: once in i, twice in j.
      third[i]![j] = refined((h) => {
        const slope = (z: number): number => at([a, h], [b, z]) - at([a, -h], [b, z]);
        return (slope(h) - 2 * slope(0) + slope(-h)) / (2 * h * h * h);
      });
    }
  }
  const terms: SecondOrderTerm[] = [];
  let bias = 0;
  let variance = firstOrder * firstOrder;
  for (let i = 0; i < n; i++) {
    bias += second[i]![i]! / 2;
    for (let j = i; j < n; j++) {
      const own = (p: number, q: number): number => 0.5 * second[p]![q]! * second[p]![q]! + first[p]! * third[p]![q]!;
      const term = i === j ? own(i, i) : own(i, j) + own(j, i);
      variance += term;
      terms.push({ between: [names[i]!, names[j]!], term });
    }
  }
  if (!Number.isFinite(variance) || !Number.isFinite(bias) || variance < 0) return null;
  return {
    bias,
    standardUncertainty: Math.sqrt(variance),
    terms: terms
      .filter(({ term }) => Math.abs(term) > 1e-6 * variance)
      .sort((a, b) => Math.abs(b.term) - Math.abs(a.term)),
  };
}

const refined = (difference: (h: number) => number): number => (4 * difference(STEP / 2) - difference(STEP)) / 3;
