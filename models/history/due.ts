import { dayAfter } from "../evaluation/text/document.ts";
import type { DriftLine } from "./line.ts";

/** When the change since the last calibration reaches its limit. Days as YYYY-MM-DD. */
export interface Due {
  /** The last day on which the change with its expanded uncertainty stays within the limit: calibrate by then. */
  readonly by: string;
  /** Day on which the expected change reaches the limit; `null` if it does not within 100 years. */
  readonly expected: string | null;
  /** Day from which the change is beyond the limit even if it is as small as its uncertainty allows; `null` if none is. */
  readonly latest: string | null;
  /** The scatter about the line alone exceeds the limit: no interval between calibrations is short enough. */
  readonly never: boolean;
}

/** Days looked ahead. */
const FARTHEST = 36_525;

/**
 * The change over d days is slope·d with u² = d²·u²(slope) + τ². It is within the limit for certain while |slope|·d + k·u ≤
 * limit, and beyond it for certain once |slope|·d − k·u > limit; between these days lies the uncertainty of the due day.
 */
export function dueDates({ slope, covariance, excess }: DriftLine, last: string, limit: number, k: number): Due {
  const [b, u2] = [Math.abs(slope), covariance[1]![1]!];
  const reach = (d: number): number => k * Math.sqrt(d * d * u2 + excess * excess);
  const dayOf = (days: number): string => dayAfter(last, days);
  /** The first day on which something holds that, once it does, goes on; `null` beyond the farthest. */
  const first = (holds: (d: number) => boolean): number | null => {
    if (!holds(FARTHEST)) return null;
    let [before, from] = [-1, FARTHEST];
    while (from - before > 1) {
      const middle = Math.floor((before + from) / 2);
      if (holds(middle)) from = middle;
      else before = middle;
    }
    return from;
  };
  const beyond = first((d) => b * d + reach(d) > limit);
  const expected = first((d) => b * d > limit);
  // b·d − k·u(d) rises with d once it is positive, and is negative before.
  const latest = first((d) => b * d - reach(d) > limit);
  return {
    by: dayOf(beyond === null ? FARTHEST : Math.max(0, beyond - 1)),
    expected: expected === null ? null : dayOf(expected),
    latest: latest === null ? null : dayOf(latest),
    never: reach(0) > limit,
  };
}
