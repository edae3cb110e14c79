import { symbolOf, type SensitivityFigures, type Symbols } from "../record/figures.ts";
import type { FactorRecord } from "../record/sensitivity.ts";

/** A factor by its symbols, joined by ` + ` for a group, and a share of the variance. */
export interface FactorShare {
  readonly factor: string;
  readonly share: number;
}

/** The conclusions from the variance-based indices of one measurand. */
export type SensitivityFact =
  /** Factors without a standard deviation leave the measurand without a variance. */
  | { readonly kind: "noVariance"; readonly symbol: string; readonly factors: readonly string[] }
  | { readonly kind: "doesNotVary"; readonly symbol: string }
  | { readonly kind: "alone"; readonly symbol: string; readonly factors: readonly FactorShare[] }
  | { readonly kind: "together"; readonly share: number; readonly factors: readonly string[] }
  | { readonly kind: "notTogether" }
  | {
      readonly kind: "budgetMisjudges";
      /** By factor: the budget's share, and its total index. */
      readonly factors: readonly (FactorShare & { readonly total: number })[];
    };

/** A sentence mentions a budget's share that differs by more than this from an index and is outside its interval. */
const APART = 0.1;
/** Smallest share that is named. */
const WORTH_NAMING = 0.01;
const MOST_NAMED = 3;

/** Which inputs matter, whether inputs interact, and which of the budget's shares mislead. */
export function sensitivityFacts(
  run: Symbols,
  symbol: string,
  { factors, interaction }: Pick<SensitivityFigures, "factors" | "interaction">,
): SensitivityFact[] {
  const nameOf = ({ inputs }: FactorRecord): string => inputs.map((input) => symbolOf(run, input)).join(" + ");
  if (interaction === null) {
    const without = factors.filter(({ alone }) => alone.standardUncertainty === null);
    return without.length > 0
      ? [{ kind: "noVariance", symbol, factors: without.map(nameOf) }]
      : [{ kind: "doesNotVary", symbol }];
  }
  const alone = factors
    .filter(({ firstOrder }) => firstOrder!.value >= WORTH_NAMING)
    .toSorted((a, b) => b.firstOrder!.value - a.firstOrder!.value)
    .slice(0, MOST_NAMED)
    .map((factor) => ({ factor: nameOf(factor), share: factor.firstOrder!.value }));
  const entangled = factors
    .filter(
      ({ firstOrder, total }) =>
        total!.interval[0] > firstOrder!.interval[1] && total!.value - firstOrder!.value >= WORTH_NAMING,
    )
    .toSorted((a, b) => b.total!.value - b.firstOrder!.value - (a.total!.value - a.firstOrder!.value))
    .slice(0, MOST_NAMED)
    .map(nameOf);
  const misjudged = factors
    .filter(
      ({ linearShare, total }) =>
        Math.abs(linearShare - total!.value) > APART &&
        (linearShare < total!.interval[0] || linearShare > total!.interval[1]),
    )
    .toSorted((a, b) => b.total!.value - a.total!.value)
    .map((factor) => ({ factor: nameOf(factor), share: factor.linearShare, total: factor.total!.value }));
  return [
    { kind: "alone", symbol, factors: alone },
    interaction.interval[0] > 0
      ? { kind: "together", share: interaction.value, factors: entangled }
      : { kind: "notTogether" },
    ...(misjudged.length === 0 ? [] : [{ kind: "budgetMisjudges" as const, factors: misjudged }]),
  ];
}
