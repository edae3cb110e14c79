import { compensatedSum } from "../../../engine/internal.ts";

/** How much means over τ differ from one τ to the next. */
export interface AllanPoint {
  /** Averaging time τ = m·interval, s. */
  readonly time: number;
  /** Readings averaged, m. */
  readonly averaged: number;
  /** Overlapping Allan deviation, in the unit of the readings. */
  readonly deviation: number;
  /** Differences it rests on. */
  readonly differences: number;
}

/**
 * Overlapping Allan deviation of evenly spaced readings: σ²(τ) = 1/(2m²(M − 2m + 1))·Σ_j (Σ_{i=j}^{j+m−1} (y_{i+m} − y_i))²
 * (W. J. Riley, Handbook of Frequency Stability Analysis, NIST SP 1065 (2008), 5.2.4), with temperature in the place of
 * frequency. White noise falls as 1/√τ, a drift of D per second rises as D·τ/√2.
 *
 * @param averaged m, from 1 to half the readings
 */
export function overlappingAllanDeviation(values: ArrayLike<number>, averaged: number): number {
  return fromSums(runningSums(values), averaged);
}

/** The deviation at τ = 1, 2, 4, 8… readings, as far as a quarter of the log. */
export function allanDeviations(values: ArrayLike<number>, interval: number): readonly AllanPoint[] {
  const sums = runningSums(values);
  const points: AllanPoint[] = [];
  for (let m = 1; 4 * m <= values.length; m *= 2) {
    points.push({
      time: m * interval,
      averaged: m,
      deviation: fromSums(sums, m),
      differences: values.length - 2 * m + 1,
    });
  }
  return points;
}

/** Running sums of deviations from the mean, so that they stay small however long the log. */
function runningSums(values: ArrayLike<number>): Float64Array {
  const shift = values[0] ?? 0;
  const mean = shift + compensatedSum(values, (value) => value - shift) / Math.max(1, values.length);
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i++) sums[i + 1] = sums[i]! + (values[i]! - mean);
  return sums;
}

function fromSums(sums: Float64Array, m: number): number {
  const terms = sums.length - 2 * m;
  let squares = 0;
  for (let j = 0; j < terms; j++) {
    const difference = sums[j + 2 * m]! - 2 * sums[j + m]! + sums[j]!;
    squares += difference * difference;
  }
  return Math.sqrt(squares / terms / 2) / m;
}
