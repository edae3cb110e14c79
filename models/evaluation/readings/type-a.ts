import { refuse } from "../../../engine/index.ts";
import { effectiveSampleSize, sampleStatistics, type EffectiveSampleSize } from "../../../engine/internal.ts";
import { figure, type Check } from "../check.ts";
import { screenOutliers, type OutlierScreening } from "./outliers.ts";
import { pool, widerByChance, type EarlierSeries } from "./pooled.ts";

/** A mean of repeated values and how well it is known (JCGM 100, 4.2). */
export interface TypeAEvaluation {
  readonly count: number;
  readonly mean: number;
  /** s of a single value, with n − 1. */
  readonly standardDeviation: number;
  /** n_eff: the count, less if the values are correlated. */
  readonly effectiveCount: number;
  /** u of the mean. */
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  /** Where the dispersion comes from. */
  readonly basis: "own dispersion" | "pooled history" | "own dispersion, correlated" | "pooled history, correlated";
  readonly pooled: EarlierSeries | null;
  readonly outliers: OutlierScreening;
  readonly autocorrelation: EffectiveSampleSize;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/** What is known of a series beside its values (JCGM 100, 4.2). */
export interface TypeAOptions {
  /** Earlier series of the same process: their pooled deviation replaces s. Same unit as the values. */
  readonly history?: readonly EarlierSeries[] | undefined;
  /** Correlation of neighbours that follows from how the values were made, such as a reading they share. */
  readonly sharedCorrelation?: number | undefined;
  /** α of the outlier test. */
  readonly significance?: number | undefined;
}

/**
 * Type A evaluation of a series: mean, u of the mean with its degrees of freedom, values flagged and correlation
 * accounted for. No value is ever left out.
 *
 * - Independent values: u = s/√n, ν = n − 1.
 * - Pooled history: u = s_p/√n, ν = Σν_i.
 * - Correlated values: u² = s²·(n − 1)/(n·(n_eff − 1)), ν = n_eff − 1 (Bayley and Hammersley 1946): both the fewer
 *   values and the s, which is too small.
 * - A correlation ρ of neighbours that is known: the same from the covariance matrix itself, ν by Satterthwaite's
 *   moments tr(MV)²/tr((MV)²).
 *
 * @throws {InputError} no values, or one alone without history
 */
export function evaluateTypeA(values: readonly number[], options: TypeAOptions = {}): TypeAEvaluation {
  const n = values.length;
  const pooled = options.history === undefined || options.history.length === 0 ? null : pool(options.history);
  if (n === 0) refuse("values", "none", "at least one value");
  if (n === 1 && pooled === null)
    refuse("values", values, "at least 2 values, or a history to take the deviation from");
  const { mean, standardDeviation } = sampleStatistics(values);
  const outliers = screenOutliers(values, options.significance);
  const auto = effectiveSampleSize(values);
  const known = options.sharedCorrelation ?? 0;
  const reasoning: string[] = [];
  const checks: Check[] = [];

  let effectiveCount: number = n;
  let deviation = pooled?.standardDeviation ?? standardDeviation;
  let degreesOfFreedom = pooled?.degreesOfFreedom ?? n - 1;
  const correlated = auto.effective < n;
  if (correlated) {
    // Fewer than two independent values would leave no deviation to judge by.
    effectiveCount = Math.max(2, auto.effective);
    if (pooled === null) {
      deviation = standardDeviation * Math.sqrt(((n - 1) / n) * (effectiveCount / (effectiveCount - 1)));
      degreesOfFreedom = Math.max(1, effectiveCount - 1);
    }
    reasoning.push(
      `neighbouring values are correlated (lag-1 coefficient ${figure(auto.lagOne)}, limit ${figure(auto.lagOneLimit)}): ` +
        `${n} values are worth about ${figure(effectiveCount)} independent ones`,
    );
  } else if (known > 0 && n > 1) {
    const shared = neighbourCorrelation(n, known);
    effectiveCount = shared.effectiveCount;
    if (pooled === null) {
      deviation = standardDeviation * shared.deviationFactor;
      degreesOfFreedom = shared.degreesOfFreedom;
    }
    reasoning.push(
      `neighbouring values share a reading (correlation ${figure(known)}): ${n} values are worth ${figure(effectiveCount)} ` +
        `independent ones, with ${figure(degreesOfFreedom)} degrees of freedom`,
    );
  }
  checks.push({
    check: "values are independent: lag-1 autocorrelation within 1.96/√n (Bartlett 1946)",
    passed: !correlated,
    found: `${figure(auto.lagOne)} against ${figure(auto.lagOneLimit)}`,
  });
  checks.push(outlierCheck(outliers));
  if (pooled !== null && n > 1) {
    const chance = widerByChance({ standardDeviation, degreesOfFreedom: n - 1 }, pooled);
    checks.push({
      check: "today's dispersion agrees with the history (variance ratio, 95 %)",
      passed: chance >= 0.05,
      found: `s is ${figure(standardDeviation / pooled.standardDeviation)} times the pooled deviation; probability ${figure(chance)} by chance`,
    });
    reasoning.push(
      `deviation pooled over earlier series, ${figure(pooled.degreesOfFreedom)} degrees of freedom (JCGM 100, 4.2.4)`,
    );
  }
  return {
    count: n,
    mean,
    standardDeviation,
    effectiveCount,
    standardUncertainty: deviation / Math.sqrt(effectiveCount),
    degreesOfFreedom,
    basis: `${pooled === null ? "own dispersion" : "pooled history"}${effectiveCount < n ? ", correlated" : ""}`,
    pooled,
    outliers,
    autocorrelation: auto,
    checks,
    reasoning,
  };
}

function outlierCheck({ test, steps, flagged, untested }: OutlierScreening): Check {
  const check = `no outlier (${test}); flagged values stay in`;
  if (untested !== null) return { check, passed: true, found: `not tested: ${untested}` };
  if (flagged.length === 0) {
    const far = steps[0]!;
    return {
      check,
      passed: true,
      found: `most distant is value ${far.index + 1}: ${figure(far.statistic)} against ${figure(far.critical)}`,
    };
  }
  return { check, passed: false, found: `check again ${flagged.map((index) => `value ${index + 1}`).join(", ")}` };
}

/** Mean of n values whose neighbours alone are correlated by ρ: V is tridiagonal with ones on its diagonal. */
function neighbourCorrelation(n: number, ρ: number) {
  const total = n + 2 * (n - 1) * ρ;
  const rowSquares = n === 2 ? 2 * (1 + ρ) * (1 + ρ) : 2 * (1 + ρ) * (1 + ρ) + (n - 2) * (1 + 2 * ρ) * (1 + 2 * ρ);
  const trace = n - total / n;
  const traceOfSquare = n + 2 * (n - 1) * ρ * ρ - (2 / n) * rowSquares + (total / n) * (total / n);
  return {
    effectiveCount: (n * n) / total,
    deviationFactor: Math.sqrt((n - 1) / trace),
    degreesOfFreedom: (trace * trace) / traceOfSquare,
  };
}
