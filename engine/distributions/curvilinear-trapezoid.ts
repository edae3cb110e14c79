import { ln, log1p } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { defineDistribution, positive, statementOf, typeB, type Distribution } from "./distribution.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";
import { inUnit } from "./field-unit.ts";

/**
 * CTrap(lower, upper, d), rectangular with inexactly known limits: JCGM 101, 6.4.3. The middle is known; the half-width
 * has a rectangular distribution, within ±d of the stated one, so both limits move together.
 *
 * @param limits the stated limits; the support extends d beyond either of them
 * @param d half-width of the interval in which each limit lies, less than half the distance between the limits
 */
export function curvilinearTrapezoidDistribution(limits: Limits, d: number): Distribution {
  const { middle, halfWidth: w } = limits;
  const lower = limits.lower - d;
  const upper = limits.upper + d;
  const widest = w + d;
  /** Length of either curved flank relative to the widest half-width. */
  const flank = (2 * d) / widest;
  const top = ln(widest / (w - d)) / (4 * d);
  /** Probability of the outermost part of relative length s on either side, within a flank. */
  const outer = (s: number): number => (widest / (4 * d)) * curve(s);
  const flankProbability = outer(flank);
  const second = new Float64Array(BLOCK_TRIALS);
  const outerLength = (p: number): number => {
    if (p >= flankProbability) return Math.min(widest, widest * flank + (p - flankProbability) / top);
    const start = Math.sqrt((8 * d * p) / widest);
    return widest * monotoneInverse(outer, (s) => (-widest / (4 * d)) * log1p(-s), p, 0, flank, start);
  };
  const lowerHalf = (length: number): number =>
    length <= 0
      ? 0
      : length < widest * flank
        ? outer(length / widest)
        : flankProbability + (length - widest * flank) * top;
  return {
    mean: middle,
    standardDeviation: Math.sqrt((w * w) / 3 + (d * d) / 9),
    support: [lower, upper],
    density(x) {
      if (x < lower || x > upper) return 0;
      const s = (x <= middle ? x - lower : upper - x) / widest;
      return s >= flank ? top : -log1p(-s) / (4 * d);
    },
    distributionFunction: (x) => (x <= middle ? lowerHalf(x - lower) : 1 - lowerHalf(upper - x)),
    quantile: (p) => (p <= 0.5 ? lower + outerLength(p) : upper - outerLength(1 - p)),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      from.uniforms(1, second, count);
      for (let i = 0; i < count; i++) {
        const halfWidth = w + d * (1 - 2 * out[i]!);
        out[i] = Math.max(lower, Math.min(upper, middle + halfWidth * (2 * second[i]! - 1)));
      }
    },
  };
}

/** s + (1 − s) ln(1 − s) for s in [0, 1), which is s²/2 + s³/6 + … + s^k/(k(k − 1)) + …: the series if terms cancel. */
function curve(s: number): number {
  if (s > 0.1) return s + (1 - s) * log1p(-s);
  let sum = 0;
  let power = s * s;
  for (let k = 2; power > 2 ** -54 * sum; k++) {
    sum += power / (k * (k - 1));
    power *= s;
  }
  return sum;
}

/** Limits, each known only to within ± limitHalfWidth. */
export const curvilinearTrapezoid = defineDistribution({
  kind: "curvilinear-trapezoid",
  statement: statementOf("curvilinear-trapezoid", {
    ...limitFields,
    limitHalfWidth: positive().meta(inUnit("Half-width for each limit: it lies within ± this of the stated limit")),
  }),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const d = stated.limitHalfWidth;
    if (!(d < limits.halfWidth)) {
      refuse(
        `${place}.limitHalfWidth`,
        d,
        `a number greater than 0 and less than half the distance between the limits (${limits.halfWidth})`,
      );
    }
    const distribution = curvilinearTrapezoidDistribution(limits, d);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
