import { sampleStatistics } from "../../../engine/internal.ts";
import { tQuantile } from "./quantiles.ts";

/** One value examined by the test, in the order of examination. */
export interface OutlierStep {
  /** Index in the series as given. */
  readonly index: number;
  readonly value: number;
  /** R_i = max|x − x̄|/s of the values still in. */
  readonly statistic: number;
  /** λ_i: what R_i stays below with probability 1 − α if there is no outlier. */
  readonly critical: number;
}

/**
 * What a test for outliers found of a series: which test and its source, the level α, each value examined, and which
 * values are flagged.
 */
export interface OutlierScreening {
  /** The published test. */
  readonly test: string;
  readonly source: string;
  readonly significance: number;
  readonly steps: readonly OutlierStep[];
  /** Indices of the values to check again, ascending. They are flagged and stay in every figure. */
  readonly flagged: readonly number[];
  /** Why nothing was tested, if nothing was. */
  readonly untested: string | null;
}

/** Below this, only the one most distant value is tested: Rosner's critical values hold for n ≥ 15 or more. */
const SEVERAL_FROM = 15;

/**
 * Flags values that lie too far out. Nothing is ever deleted: a flagged reading may be dropped only if a cause is
 * found in the log.
 *
 * Fewer than 15 values: Grubbs' two-sided test of the most distant one. More: Rosner's generalized extreme studentized
 * deviate test for up to a tenth of them (ten at most), which several outliers cannot hide from.
 *
 * @param significance α, two-sided
 */
export function screenOutliers(values: readonly number[], significance = 0.05): OutlierScreening {
  const several = values.length >= SEVERAL_FROM;
  const test = several ? "generalized extreme studentized deviate test" : "Grubbs' test, two-sided";
  const source = several
    ? "B. Rosner, Technometrics 25 (1983) 165; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3"
    : "F. E. Grubbs, Technometrics 11 (1969) 1; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1";
  const nothing = (untested: string): OutlierScreening => ({
    test,
    source,
    significance,
    steps: [],
    flagged: [],
    untested,
  });
  if (values.length < 3) return nothing("fewer than 3 values");
  const most = several ? Math.min(10, Math.max(1, Math.floor(values.length / 10))) : 1;
  const left = values.map((value, index) => ({ value, index }));
  const steps: OutlierStep[] = [];
  let outliers = 0;
  for (let i = 1; i <= most; i++) {
    const { mean, standardDeviation } = sampleStatistics(left.map(({ value }) => value));
    if (standardDeviation === 0) break;
    let far = 0;
    for (let j = 1; j < left.length; j++)
      if (Math.abs(left[j]!.value - mean) > Math.abs(left[far]!.value - mean)) far = j;
    const statistic = Math.abs(left[far]!.value - mean) / standardDeviation;
    const critical = criticalDeviate(left.length, significance);
    steps.push({ ...left[far]!, statistic, critical });
    // The number of outliers is the largest i with R_i > λ_i, even where an earlier R fell short.
    if (statistic > critical) outliers = i;
    left.splice(far, 1);
  }
  if (steps.length === 0) return nothing("all values are equal");
  const flagged = steps
    .slice(0, outliers)
    .map(({ index }) => index)
    .sort((a, b) => a - b);
  return { test, source, significance, steps, flagged, untested: null };
}

/**
 * Critical value of the extreme studentized deviate among n values: (n − 1)·t/√((n − 2 + t²)·n) with t the quantile at
 * 1 − α/(2n) and n − 2 degrees of freedom.
 */
export function criticalDeviate(count: number, significance: number): number {
  const t = tQuantile(1 - significance / (2 * count), count - 2);
  return ((count - 1) * t) / Math.sqrt((count - 2 + t * t) * count);
}
