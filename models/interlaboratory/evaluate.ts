import { largestConsistentSubset, type ConsistentSubset } from "./consistent-subset.ts";
import { degreesOfEquivalence, pairEquivalence } from "./degrees-of-equivalence.ts";
import type { LaboratoryComparison } from "./document.ts";
import { medianReference, type MedianReference } from "./median-reference.ts";
import { randomEffects, type RandomEffects } from "./random-effects.ts";
import { weightedMean, type LaboratoryResult, type ReferenceValue, type WeightedMean } from "./reference-value.ts";
import {
  normalisedError,
  passes,
  standingOfZeta,
  uncertaintyOfDifference,
  zetaScore,
  type Standing,
} from "./scores.ts";

/** One laboratory against the reference value. */
export interface ComparedLaboratory extends LaboratoryResult {
  /** D = x − x_ref with its standard and expanded uncertainty. */
  readonly difference: number;
  readonly differenceUncertainty: number;
  readonly differenceExpanded: number;
  /** D/U(D); `null` if the difference has no uncertainty. */
  readonly normalisedError: number | null;
  /** Whether |E_n| ≤ 1. */
  readonly passes: boolean | null;
  /** D/u(D). */
  readonly zeta: number | null;
  readonly standing: Standing | null;
  /** Shortest 95 % interval of D by trials, where the reference value is a median; else D is normal. */
  readonly interval: readonly [low: number, high: number] | null;
}

/** Where a reference value comes from. */
export type ReferenceKind = "weighted mean" | "random effects" | "largest consistent subset" | "median" | "assigned";

/** What a comparison of laboratories found. */
export interface LaboratoriesEvaluation {
  /** Where the reference value comes from. */
  readonly reference: ReferenceValue & { readonly kind: ReferenceKind };
  /** `null` if a value is assigned and fewer than two results count. */
  readonly mean: WeightedMean | null;
  /** Whether the results are consistent: the χ² test at the level that the comparison states. */
  readonly consistent: boolean | null;
  /** The alternative for results that are not consistent, by Mandel and Paule. */
  readonly alternative: RandomEffects | null;
  /** The largest subset that is consistent, where all are not; `null` too where there is none. */
  readonly subset: ConsistentSubset | null;
  /** The median with its uncertainty by trials, where the results are not consistent. */
  readonly median: MedianReference | null;
  readonly laboratories: readonly ComparedLaboratory[];
  /** D_ij between every two laboratories, by their places. */
  readonly pairs: readonly {
    readonly between: readonly [string, string];
    readonly difference: number;
    readonly standardUncertainty: number;
    readonly normalisedError: number | null;
  }[];
}

/**
 * Reference value, consistency, and every laboratory's degree of equivalence. Without an assigned value the weighted mean
 * is the reference if the χ² test accepts it, else what `whenInconsistent` names: the random-effects value (Mandel–Paule),
 * the weighted mean of the largest consistent subset, or the median. All three are given, and the evaluation says which is
 * taken: the random-effects value too where no subset is consistent.
 *
 * @throws {InputError} fewer than two results that count where no value is assigned, correlations that cannot be
 */
export function evaluateLaboratories(comparison: LaboratoryComparison): LaboratoriesEvaluation {
  const { laboratories, correlations, assigned, coverageFactor: k, significance } = comparison;
  const results = laboratories.map((stated): LaboratoryResult & { readonly expanded: number } => ({
    name: stated.name,
    value: stated.value,
    standardUncertainty: standardOf(stated),
    expanded: stated.expandedUncertainty ?? k * standardOf(stated),
    inReference: stated.inReference,
  }));
  const counting = results.filter(({ inReference }) => inReference).length;
  const mean = counting < 2 && assigned !== undefined ? null : weightedMean(results, correlations);
  const consistent = mean === null ? null : mean.probability >= significance;
  const alternative = mean === null ? null : randomEffects(results, "mandelPaule");
  const subset = consistent === false ? largestConsistentSubset(results, correlations, significance) : null;
  const { trials, seed } = comparison;
  const median = consistent === false ? medianReference(results, correlations, { trials, seed }) : null;
  const reference = ((): LaboratoriesEvaluation["reference"] => {
    if (assigned !== undefined) {
      const standardUncertainty = standardOf(assigned);
      return { kind: "assigned", value: assigned.value, standardUncertainty, weights: results.map(() => 0) };
    }
    if (consistent === true) return { kind: "weighted mean", ...referenceOf(mean!) };
    if (comparison.whenInconsistent === "median") {
      const { value, standardUncertainty } = median!;
      return { kind: "median", value, standardUncertainty, weights: results.map(() => 0) };
    }
    if (comparison.whenInconsistent === "largestSubset" && subset !== null)
      return { kind: "largest consistent subset", ...referenceOf(subset) };
    return { kind: "random effects", ...referenceOf(alternative!) };
  })();
  const between = reference.kind === "random effects" ? alternative!.between : 0;
  const byTrials = reference.kind === "median" ? median!.laboratories : null;
  const differences = byTrials ?? degreesOfEquivalence(results, { ...reference, between }, correlations);
  return {
    reference,
    mean,
    consistent,
    alternative,
    subset,
    median,
    laboratories: results.map(({ expanded, ...result }, i): ComparedLaboratory => {
      if (assigned === undefined) {
        const { difference, standardUncertainty: u } = differences[i]!;
        return { ...result, ...judged(difference, u, k * u), interval: byTrials?.[i]!.interval ?? null };
      }
      const r = assigned.correlation;
      const against = {
        value: assigned.value,
        expandedUncertainty: assigned.expandedUncertainty ?? k * standardOf(assigned),
      };
      const difference = result.value - assigned.value;
      const zeta = zetaScore(result, reference, r);
      const normalised = normalisedError({ value: result.value, expandedUncertainty: expanded }, against, r);
      return {
        ...result,
        difference,
        differenceUncertainty: uncertaintyOfDifference(result.standardUncertainty, reference.standardUncertainty, r),
        differenceExpanded: uncertaintyOfDifference(expanded, against.expandedUncertainty, r),
        normalisedError: normalised,
        passes: passes(normalised),
        zeta,
        standing: standingOfZeta(zeta),
        interval: null,
      };
    }),
    pairs: results.flatMap((a, i) =>
      results.slice(i + 1).map((b, offset) => {
        const { difference, standardUncertainty } = pairEquivalence(results, i, i + 1 + offset, correlations);
        return {
          between: [a.name, b.name] as const,
          difference,
          standardUncertainty,
          normalisedError: standardUncertainty === 0 ? null : difference / (k * standardUncertainty),
        };
      }),
    ),
  };
}

const referenceOf = ({ value, standardUncertainty, weights }: ReferenceValue): ReferenceValue => ({
  value,
  standardUncertainty,
  weights,
});

const standardOf = (stated: {
  readonly standardUncertainty?: number | undefined;
  readonly expandedUncertainty?: number | undefined;
  readonly coverageFactor?: number | undefined;
}): number => stated.standardUncertainty ?? stated.expandedUncertainty! / stated.coverageFactor!;

function judged(
  difference: number,
  u: number,
  expanded: number,
): Omit<ComparedLaboratory, keyof LaboratoryResult | "interval"> {
  const exists = u > 0;
  return {
    difference,
    differenceUncertainty: u,
    differenceExpanded: expanded,
    normalisedError: exists ? difference / expanded : null,
    passes: exists ? passes(difference / expanded) : null,
    zeta: exists ? difference / u : null,
    standing: exists ? standingOfZeta(difference / u) : null,
  };
}
