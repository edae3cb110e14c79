import type { MeasurandFigures, Rounded, RunFigures } from "../record/figures.ts";
import { decimalsFor } from "../record/rounding.ts";

/** The results of the comparison of JCGM 101, clause 8. */
export type VerdictFact =
  | { readonly kind: "noLinearUncertainty" }
  | {
      readonly kind: "validated" | "notValidated";
      readonly significantDigits: 1 | 2;
      /** The greater of d_low and d_high. */
      readonly difference: Rounded;
      readonly tolerance: Rounded;
    }
  /** Both intervals are equally wide, within 1 %, but lie at different places. */
  | { readonly kind: "displaced" }
  | {
      readonly kind: "tooWide" | "tooNarrow";
      /** Difference of the widths, as a fraction of the Monte Carlo width. */
      readonly fraction: number;
      /** The Monte Carlo interval does not lie symmetrically about the estimate. */
      readonly offCentre: boolean;
    }
  /** The factor that makes the linear interval as wide as the Monte Carlo one. */
  | { readonly kind: "factorNeeded"; readonly factor: number }
  | { readonly kind: "validatedAt"; readonly significantDigits: 1 | 2 }
  /** Figures not stabilised to δ/5: the verdict may change, or does not depend on it. */
  | { readonly kind: "provisional" | "firmUnsettled" };

/** The verdict on one measurand's budget, in the order of its sentences. */
export function verdictFacts({ coverage }: Pick<RunFigures, "coverage">, measurand: MeasurandFigures): VerdictFact[] {
  const { linear, monteCarlo, validation, unit } = measurand;
  const { significantDigits, numericalTolerance: δ, dLow, dHigh, validated, settled, firm } = validation;
  const doubt: VerdictFact[] = settled ? [] : [{ kind: firm ? "firmUnsettled" : "provisional" }];
  if (linear.standardUncertainty === 0) return [{ kind: "noLinearUncertainty" }, ...doubt];
  const difference = Math.max(dLow, dHigh);
  const length = (value: number): Rounded => ({ value, decimals: decimalsFor(δ || value, 1) + 1, unit });
  const found: VerdictFact = {
    kind: validated ? "validated" : "notValidated",
    significantDigits,
    difference: length(difference),
    tolerance: length(δ),
  };
  if (validated) return [found, ...doubt];
  const [low, high] = monteCarlo.intervals[coverage.interval];
  const width = high - low;
  const excess = linear.interval[1] - linear.interval[0] - width;
  const equallyWide = Math.abs(excess) < 0.01 * (width + excess);
  const scatter = 2 * Math.max(...monteCarlo.standardErrors.symmetric);
  const offCentre = Math.abs(dHigh - dLow) > δ + 2 * scatter;
  const other = validation.atDigits.find((at) => at.validated && at.significantDigits !== significantDigits);
  return [
    found,
    ...(equallyWide
      ? [{ kind: "displaced" as const }]
      : [
          { kind: excess > 0 ? "tooWide" : "tooNarrow", fraction: Math.abs(excess) / width, offCentre } as const,
          { kind: "factorNeeded", factor: validation.coverageFactorNeeded! } as const,
        ]),
    ...(other === undefined ? [] : [{ kind: "validatedAt" as const, significantDigits: other.significantDigits }]),
    ...doubt,
  ];
}
