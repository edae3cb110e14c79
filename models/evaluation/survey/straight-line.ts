import { compensatedSum, sampleStatistics } from "../../../engine/internal.ts";

/** A straight line through a log: drift apart from fluctuation. */
export interface StraightLine {
  /** Units of the values per second. */
  readonly slope: number;
  /** Of the slope, as if the residuals were independent; they often are not. */
  readonly slopeStandardUncertainty: number;
  /** Standard deviation about the line, n − 2. */
  readonly residualDeviation: number;
}

/** Least squares of values on times, centred (JCGM 100, H.3). Needs three samples. */
export function straightLine(times: ArrayLike<number>, values: ArrayLike<number>): StraightLine {
  const n = times.length;
  const t = sampleStatistics(times).mean;
  const y = sampleStatistics(values).mean;
  const spread = compensatedSum(times, (time) => (time - t) * (time - t));
  let cross = 0;
  for (let i = 0; i < n; i++) cross += (times[i]! - t) * (values[i]! - y);
  const slope = cross / spread;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const residual = values[i]! - y - slope * (times[i]! - t);
    squares += residual * residual;
  }
  const residualDeviation = Math.sqrt(squares / (n - 2));
  return { slope, slopeStandardUncertainty: residualDeviation / Math.sqrt(spread), residualDeviation };
}
