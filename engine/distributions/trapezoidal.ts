import { BLOCK_TRIALS } from "../random/block.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";
import { ofOne } from "./field-unit.ts";

/**
 * Trap(lower, upper, β): JCGM 101, 6.4.4.
 *
 * @param topRatio β, the top of the trapezoid divided by its base, in [0, 1): the sum of rectangulars of half-widths
 *   halfWidth·(1 + β)/2 and halfWidth·(1 − β)/2
 */
export function trapezoidalDistribution({ middle, halfWidth, lower, upper }: Limits, topRatio: number): Distribution {
  const wide = (halfWidth * (1 + topRatio)) / 2;
  const narrow = (halfWidth * (1 - topRatio)) / 2;
  /** 1 − β² */
  const slope = (1 - topRatio) * (1 + topRatio);
  const top = 1 / (halfWidth * (1 + topRatio));
  /** Probability of either flank. */
  const flank = (1 - topRatio) / (2 * (1 + topRatio));
  const second = new Float64Array(BLOCK_TRIALS);
  /** Probability of the outermost part of length z·halfWidth on either side, z ≤ 1. */
  const outer = (z: number): number =>
    z <= 0 ? 0 : z < 1 - topRatio ? (z * z) / (2 * slope) : flank + (z - (1 - topRatio)) / (1 + topRatio);
  const outerLength = (p: number): number =>
    halfWidth * (p < flank ? Math.sqrt(2 * p * slope) : 1 - topRatio + (p - flank) * (1 + topRatio));
  return {
    mean: middle,
    standardDeviation: halfWidth * Math.sqrt((1 + topRatio * topRatio) / 6),
    support: [lower, upper],
    density(x) {
      if (x < lower || x > upper) return 0;
      const z = (x <= middle ? x - lower : upper - x) / halfWidth;
      return z >= 1 - topRatio ? top : (top * z) / (1 - topRatio);
    },
    distributionFunction: (x) => (x <= middle ? outer((x - lower) / halfWidth) : 1 - outer((upper - x) / halfWidth)),
    quantile: (p) => (p <= 0.5 ? lower + outerLength(p) : upper - outerLength(1 - p)),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      from.uniforms(1, second, count);
      for (let i = 0; i < count; i++) {
        const x = middle + wide * (2 * out[i]! - 1) + narrow * (2 * second[i]! - 1);
        out[i] = Math.max(lower, Math.min(upper, x));
      }
    },
  };
}

/** Limits with a flat top: the sum of two rectangulars of different widths. */
export const trapezoidal = defineDistribution({
  kind: "trapezoidal",
  statement: statementOf("trapezoidal", {
    ...limitFields,
    topRatio: number().gte(0).lt(1).meta(ofOne("β: width of the flat top divided by that of the base, 0 ≤ β < 1")),
  }),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const distribution = trapezoidalDistribution(limits, stated.topRatio);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
