import type { MeasurandFigures, Rounded, RunFigures } from "../record/figures.ts";
import { decimalsFor, toDecimals } from "../record/rounding.ts";
import type { Doubt } from "../record/validation.ts";

/** The greater of d_low and d_high, and δ, with as many decimals as they need to read differently. */
interface Distance {
  /** Symbol of the measurand. */
  readonly symbol: string;
  readonly significantDigits: 1 | 2;
  readonly difference: Rounded;
  readonly tolerance: Rounded;
}

/** The linear interval is wider than the Monte Carlo one, or narrower. */
interface Width {
  readonly kind: "tooWide" | "tooNarrow";
  /** Difference of the widths, as a fraction of the Monte Carlo width. */
  readonly fraction: number;
  /** The Monte Carlo interval does not lie symmetrically about the estimate. */
  readonly offCentre: boolean;
  /** The factor that makes the linear interval as wide as the Monte Carlo one. */
  readonly factor: number;
}

/** The results of the comparison of JCGM 101, clause 8. */
export type VerdictFact =
  /** Neither method finds any uncertainty. */
  | { readonly kind: "nothingVaries" }
  | { readonly kind: "noLinearUncertainty"; readonly because: "coefficients" | "correlation" }
  | ({ readonly kind: "validated" | "notValidated" } & Distance)
  /** The trials do not decide it. */
  | ({
      readonly kind: "undecided";
      readonly doubts: readonly Doubt[];
      /** Standard error of the endpoint in question; `null` if it is not known. */
      readonly standardError: Rounded | null;
    } & Distance)
  /** The Monte Carlo interval lies higher, or lower, at both endpoints. */
  | {
      readonly kind: "displaced";
      readonly direction: "higher" | "lower";
      /** How wide the linear interval is beside it; `null` if both are equally wide within 1 %. */
      readonly width: Width | null;
    }
  /** The trials by themselves do not move either endpoint beyond their scatter: paired trials have decided. */
  | { readonly kind: "unplaced"; readonly width: Width }
  /** One endpoint of the Monte Carlo interval lies further out, or in; the other one agrees within the scatter. */
  | { readonly kind: "oneEndpoint"; readonly endpoint: "lower" | "upper"; readonly direction: "out" | "in" }
  | Width
  /** The factor that makes the linear interval as wide as the Monte Carlo one. */
  | { readonly kind: "factorNeeded"; readonly factor: number }
  | { readonly kind: "validatedAt"; readonly symbol: string; readonly significantDigits: 1 | 2 }
  /** Figures not stabilised to δ/5; the verdict stands all the same. */
  | { readonly kind: "firmUnsettled" };

/** Widths that differ by less are equal. */
const EQUALLY_WIDE = 0.01;
/** Most decimals beyond the usual ones that are tried to make two figures read differently. */
const MORE_DECIMALS = 12;

/** The verdict on one measurand's budget, in the order of its sentences. */
export function verdictFacts(
  { coverage }: Pick<RunFigures, "coverage">,
  measurand: MeasurandFigures,
): readonly VerdictFact[] {
  const { linear, monteCarlo, validation } = measurand;
  const { validated, settled, firm } = validation;
  if (validation.nothingVaries) return [{ kind: "nothingVaries" }];
  if (linear.standardUncertainty === 0) {
    const vanish = linear.contributions.every(({ contribution }) => contribution === 0);
    return [{ kind: "noLinearUncertainty", because: vanish ? "coefficients" : "correlation" }];
  }
  const distance = distanceOf(measurand);
  const other = validation.atDigits.find((at) => at.validated && at.significantDigits !== validation.significantDigits);
  const coarser: VerdictFact[] =
    other === undefined
      ? []
      : [{ kind: "validatedAt", symbol: measurand.symbol, significantDigits: other.significantDigits }];
  if (!firm) {
    const errors = monteCarlo.standardErrors[coverage.interval];
    const error = errors === null ? null : errors[validation.dLow > validation.dHigh ? 0 : 1];
    const standardError =
      error === null ? null : { value: error, decimals: decimalsFor(error, 1), unit: measurand.unit };
    const doubts = validation.doubts ?? ["scatter"];
    const finer = other !== undefined && other.significantDigits > validation.significantDigits;
    return [{ kind: "undecided", ...distance, doubts, standardError }, ...(validated || finer ? [] : coarser)];
  }
  const unsettled: VerdictFact[] = settled ? [] : [{ kind: "firmUnsettled" }];
  if (validated) return [{ kind: "validated", ...distance }, ...unsettled];
  const place = placeOf(measurand, coverage.interval);
  return [
    { kind: "notValidated", ...distance },
    place,
    // Another factor does not mend an interval that lies elsewhere.
    ...(place.kind === "tooWide" || place.kind === "tooNarrow"
      ? [{ kind: "factorNeeded" as const, factor: place.factor }]
      : []),
    ...coarser,
    ...unsettled,
  ];
}

function distanceOf({ symbol, validation, unit }: MeasurandFigures): Distance {
  const { significantDigits, numericalTolerance: δ, dLow, dHigh } = validation;
  const difference = Math.max(dLow, dHigh);
  const usual = decimalsFor(δ || difference, 1) + 1;
  // Figures that differ show it, so that no difference reads as equal to what it exceeds.
  const apart = Array.from({ length: MORE_DECIMALS }, (_, more) => usual + more).find(
    (places) => toDecimals(difference, places) !== toDecimals(δ, places),
  );
  const decimals = difference === δ ? usual : (apart ?? usual);
  const length = (value: number): Rounded => ({ value, decimals, unit });
  return { symbol, significantDigits, difference: length(difference), tolerance: length(δ) };
}

/** How the Monte Carlo interval lies beside the linear one, from the moves of both endpoints. */
function placeOf({ linear, monteCarlo, validation }: MeasurandFigures, kind: "symmetric" | "shortest"): VerdictFact {
  const interval = monteCarlo.intervals[kind];
  const errors = monteCarlo.standardErrors[kind] ?? monteCarlo.standardErrors.symmetric;
  const [low, high] = ([0, 1] as const).map((end) => {
    const move = interval[end] - linear.interval[end];
    return Math.abs(move) > 2 * errors[end] ? Math.sign(move) : 0;
  }) as [number, number];
  const width = interval[1] - interval[0];
  const excess = linear.interval[1] - linear.interval[0] - width;
  const equallyWide = Math.abs(excess) < EQUALLY_WIDE * (width + excess);
  if (equallyWide && low === 0 && high !== 0)
    return { kind: "oneEndpoint", endpoint: "upper", direction: high > 0 ? "out" : "in" };
  if (equallyWide && high === 0 && low !== 0)
    return { kind: "oneEndpoint", endpoint: "lower", direction: low < 0 ? "out" : "in" };
  const { dLow, dHigh, numericalTolerance: δ } = validation;
  const offCentre = Math.abs(dHigh - dLow) > δ + 4 * Math.max(...errors);
  const beside: Width = {
    kind: excess > 0 ? "tooWide" : "tooNarrow",
    fraction: Math.abs(excess) / width,
    offCentre,
    factor: validation.coverageFactorNeeded!,
  };
  if (low * high > 0)
    return { kind: "displaced", direction: low > 0 ? "higher" : "lower", width: equallyWide ? null : beside };
  return low === 0 && high === 0 ? { kind: "unplaced", width: beside } : beside;
}
