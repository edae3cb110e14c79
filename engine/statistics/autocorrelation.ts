import { powerOfTwoAbove } from "../numerics/power-of-two.ts";
import { compensatedSum, sampleStatistics } from "./sample-statistics.ts";

/**
 * Autocorrelation coefficient r_k of a series at a lag: Σ(x_i − x̄)(x_{i+k} − x̄) / Σ(x_i − x̄)², as NIST certifies it for
 * its univariate data sets. `0` if all values are equal.
 */
export function autocorrelation(values: ArrayLike<number>, lag: number): number {
  const deviations = deviationsOf(values);
  return lagCoefficient(
    deviations,
    compensatedSum(deviations, (d) => d * d),
    lag,
  );
}

/** Deviations from the mean in a power of two, in which no square leaves the range of a double. */
function deviationsOf(values: ArrayLike<number>): Float64Array {
  const { mean } = sampleStatistics(values);
  const deviations = Float64Array.from(values, (value) => value - mean);
  const scale = powerOfTwoAbove(deviations.reduce((greatest, d) => Math.max(greatest, Math.abs(d)), 0));
  return scale === 0 ? deviations : deviations.map((d) => d / scale);
}

function lagCoefficient(deviations: Float64Array, squares: number, lag: number): number {
  if (squares === 0) return 0;
  let sum = 0;
  let lost = 0;
  for (let i = 0; i + lag < deviations.length; i++) {
    const term = deviations[i]! * deviations[i + lag]!;
    const next = sum + term;
    lost += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
    sum = next;
  }
  return (sum + lost) / squares;
}

/** The effective number of independent values of a series, and the coefficients from which it follows. */
export interface EffectiveSampleSize {
  readonly count: number;
  /** n_eff, from 1 to n. Equal to n if no positive correlation is significant. */
  readonly effective: number;
  readonly lagOne: number;
  /** What |r_1| of independent values stays below 19 times in 20: 1.96/√n (M. S. Bartlett, 1946). */
  readonly lagOneLimit: number;
  /** Number of lags summed. */
  readonly lags: number;
}

/** Greatest lag examined: a series correlated over longer times needs more data, not more lags. */
const MOST_LAGS = 2000;

/**
 * Effective sample size n_eff = n / (1 + 2·Σ(1 − k/n)·r_k) (G. V. Bayley and J. M. Hammersley, J. R. Stat. Soc. Suppl.
 * 8 (1946) 184; N. F. Zhang, Metrologia 43 (2006) S276 for the mean of autocorrelated measurements): an identity
 * for a stationary series.
 *
 * The sum ends at the first lag whose r_k is within its Bartlett limit 1.96·√((1 + 2·Σr²)/n), and at a
 * quarter of the series at the latest. Negative correlation, which would make n_eff exceed n, is not credited.
 */
export function effectiveSampleSize(values: ArrayLike<number>): EffectiveSampleSize {
  const count = values.length;
  const deviations = deviationsOf(values);
  const squares = compensatedSum(deviations, (d) => d * d);
  const lagOne = count > 1 ? lagCoefficient(deviations, squares, 1) : 0;
  const lagOneLimit = 1.96 / Math.sqrt(Math.max(1, count));
  const most = Math.min(MOST_LAGS, Math.floor(count / 4));
  let inflation = 1;
  let squared = 0;
  let lags = 0;
  for (let lag = 1; lag <= most; lag++) {
    const r = lag === 1 ? lagOne : lagCoefficient(deviations, squares, lag);
    if (r <= 1.96 * Math.sqrt((1 + 2 * squared) / count)) break;
    inflation += 2 * (1 - lag / count) * r;
    squared += r * r;
    lags = lag;
  }
  return { count, effective: Math.max(1, Math.min(count, count / inflation)), lagOne, lagOneLimit, lags };
}
