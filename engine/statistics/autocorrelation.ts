import { compensatedSum, sampleStatistics } from "./sample-statistics.ts";

/**
 * Autocorrelation coefficient r_k of a series at a lag: Σ(x_i − x̄)(x_{i+k} − x̄) / Σ(x_i − x̄)², as NIST certifies it for
 * its univariate data sets. `0` if all values are equal.
 */
export function autocorrelation(values: ArrayLike<number>, lag: number): number {
  const { mean } = sampleStatistics(values);
  return lagCoefficient(
    values,
    mean,
    compensatedSum(values, (value) => (value - mean) * (value - mean)),
    lag,
  );
}

function lagCoefficient(values: ArrayLike<number>, mean: number, squares: number, lag: number): number {
  if (squares === 0) return 0;
  let sum = 0;
  let lost = 0;
  for (let i = 0; i + lag < values.length; i++) {
    const term = (values[i]! - mean) * (values[i + lag]! - mean);
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
  const { mean } = sampleStatistics(values);
  const squares = compensatedSum(values, (value) => (value - mean) * (value - mean));
  const lagOne = count > 1 ? lagCoefficient(values, mean, squares, 1) : 0;
  const lagOneLimit = 1.96 / Math.sqrt(Math.max(1, count));
  const most = Math.min(MOST_LAGS, Math.floor(count / 4));
  let inflation = 1;
  let squared = 0;
  let lags = 0;
  for (let lag = 1; lag <= most; lag++) {
    const r = lag === 1 ? lagOne : lagCoefficient(values, mean, squares, lag);
    if (r <= 1.96 * Math.sqrt((1 + 2 * squared) / count)) break;
    inflation += 2 * (1 - lag / count) * r;
    squared += r * r;
    lags = lag;
  }
  return { count, effective: Math.max(1, Math.min(count, count / inflation)), lagOne, lagOneLimit, lags };
}
