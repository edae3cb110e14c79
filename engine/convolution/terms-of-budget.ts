import type { Correlation } from "../dependence/dependence.ts";
import type { Group } from "../dependence/group.ts";
import { normalDistribution } from "../distributions/normal.ts";
import { tDistribution } from "../distributions/student-t.ts";
import type { ContributionRecord } from "../record/linear.ts";
import type { LinearTerm } from "./linear-term.ts";

/** What a linear budget's row says of a term. */
export type BudgetRow = Pick<
  ContributionRecord,
  "input" | "estimate" | "standardUncertainty" | "sensitivityCoefficient" | "contribution"
>;

/** A linear budget, as far as its terms go: of a run or of a record. */
export interface TermsBudget {
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly contributions: readonly BudgetRow[];
}

/** The terms of a linear budget, or the inputs whose dependence leaves their sum without a known distribution. */
export type TermsOfBudget =
  | { readonly kind: "terms"; readonly terms: readonly LinearTerm[] }
  | { readonly kind: "copula"; readonly inputs: readonly string[] };

/**
 * Independent terms of the linearised model, in the order of the groups of inputs. A linear sum of jointly normal inputs is
 * normal, one of a joint t is a t with the same degrees of freedom (JCGM 102, 5.3.2: both are elliptical); inputs of one
 * shape that depend on each other completely are multiples of one of them, and so is their sum; of another Gaussian copula
 * nothing is known but by trials, unless one member alone counts.
 *
 * @param contributions the budget's rows, by which sensitivity coefficients, estimates and standard uncertainties come
 */
export function termsOfBudget(
  contributions: readonly BudgetRow[],
  groups: readonly Group[],
  correlations: readonly Correlation[],
): TermsOfBudget {
  const terms: LinearTerm[] = [];
  for (const group of groups) {
    const rows = group.members.map((name) => contributions.find(({ input }) => input === name)!);
    const counting = rows.map((_, i) => i).filter((i) => rows[i]!.sensitivityCoefficient !== 0 && varies(group, i));
    if (counting.length === 0) continue;
    if (counting.length === 1) {
      const row = rows[counting[0]!]!;
      terms.push({
        inputs: [row.input],
        distribution: group.distributions[counting[0]!]!,
        coefficient: row.sensitivityCoefficient,
        centre: row.estimate,
        twin: Math.abs(row.contribution),
      });
      continue;
    }
    const inputs = counting.map((i) => rows[i]!.input);
    const multiples = group.multiples?.() ?? null;
    if (group.kind === "Gaussian copula" && multiples === null) return { kind: "copula", inputs };
    const combined = (of: (i: number) => number): number => {
      const parts = counting.map((i) => ({ input: rows[i]!.input, part: rows[i]!.sensitivityCoefficient * of(i) }));
      return combine(parts, correlations);
    };
    const twin = combined((i) => rows[i]!.standardUncertainty);
    if (multiples !== null) {
      const term = sumOfMultiples(group, multiples, rows, counting);
      if (term !== null) terms.push({ ...term, inputs, twin });
      continue;
    }
    const deviation = combined((i) => group.distributions[i]!.standardDeviation!);
    // Complete correlation can leave nothing.
    if (deviation === 0) continue;
    const ν = group.degreesOfFreedom;
    const distribution =
      ν === undefined ? normalDistribution(0, deviation) : tDistribution(0, scaleOf(deviation, ν), ν);
    terms.push({ inputs, distribution, coefficient: 1, centre: 0, twin });
  }
  return { kind: "terms", terms };
}

/**
 * Σ c_i·(X_i − x_i) of multiples of the group's first member. The linear budget has no shift E X_i − x_i as a rule; where
 * one is, it goes with the term.
 *
 * @returns `null` if complete correlation leaves nothing
 */
function sumOfMultiples(
  { distributions }: Group,
  multiples: readonly number[],
  rows: readonly BudgetRow[],
  counting: readonly number[],
): Pick<LinearTerm, "distribution" | "coefficient" | "centre"> | null {
  const [distribution] = distributions;
  let [coefficient, size, shift] = [0, 0, 0];
  for (const i of counting) {
    const c = rows[i]!.sensitivityCoefficient;
    coefficient += c * multiples[i]!;
    size += Math.abs(c * multiples[i]!);
    shift += c * (distributions[i]!.mean! - rows[i]!.estimate);
  }
  if (Math.abs(coefficient) <= ROUNDING * size) return null;
  return { distribution: distribution!, coefficient, centre: distribution!.mean! - shift / coefficient };
}

/** Part of a sum of terms that cancel which rounding leaves. */
const ROUNDING = 64 * Number.EPSILON;

const varies = ({ distributions }: Group, i: number): boolean => distributions[i]!.standardDeviation !== 0;

/** Scale of a t by its standard deviation, which is infinite for ν ≤ 2 whatever the scale. */
const scaleOf = (deviation: number, ν: number): number =>
  Number.isFinite(deviation) ? deviation * Math.sqrt((ν - 2) / ν) : 1;

/** √(Σ_i Σ_j r_ij·a_i·a_j). */
function combine(
  parts: readonly { readonly input: string; readonly part: number }[],
  correlations: readonly Correlation[],
): number {
  const largest = Math.max(...parts.map(({ part }) => Math.abs(part)));
  if (!Number.isFinite(largest)) return Infinity;
  const scaled = new Map(parts.map(({ input, part }) => [input, part / largest]));
  let variance = 0;
  for (const part of scaled.values()) variance += part * part;
  for (const { between, coefficient } of correlations)
    variance += 2 * coefficient * (scaled.get(between[0]) ?? 0) * (scaled.get(between[1]) ?? 0);
  return largest * Math.sqrt(Math.max(0, variance));
}
