import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits } from "./stated-limits.ts";
import { BLOCK_TRIALS } from "../trials/block.ts";

/**
 * Trap(middle ± halfWidth, β): JCGM 101, 6.4.4.
 *
 * @param topRatio β, the top of the trapezoid divided by its base, in [0, 1): the sum of rectangulars of half-widths
 *   halfWidth·(1 + β)/2 and halfWidth·(1 − β)/2
 */
export function trapezoidalDistribution(middle: number, halfWidth: number, topRatio: number): Distribution {
  const wide = (halfWidth * (1 + topRatio)) / 2;
  const narrow = (halfWidth * (1 - topRatio)) / 2;
  /** 1 − β² */
  const slope = (1 - topRatio) * (1 + topRatio);
  const top = 1 / (halfWidth * (1 + topRatio));
  const second = new Float64Array(BLOCK_TRIALS);
  /** Probability below the place `z` half-widths from the middle, for z ≤ 0. */
  const lowerHalf = (z: number): number =>
    z <= -1 ? 0 : z < -topRatio ? ((1 + z) * (1 + z)) / (2 * slope) : 0.5 + z / (1 + topRatio);
  const lowerQuantile = (p: number): number => {
    const corner = (1 - topRatio) / (2 * (1 + topRatio));
    return p < corner ? Math.sqrt(2 * p * slope) - 1 : (p - 0.5) * (1 + topRatio);
  };
  return {
    mean: middle,
    standardDeviation: halfWidth * Math.sqrt((1 + topRatio * topRatio) / 6),
    support: [middle - halfWidth, middle + halfWidth],
    density(x) {
      const z = Math.abs(x - middle) / halfWidth;
      return z > 1 ? 0 : z <= topRatio ? top : (top * (1 - z)) / (1 - topRatio);
    },
    distributionFunction(x) {
      const z = (x - middle) / halfWidth;
      return z <= 0 ? lowerHalf(z) : 1 - lowerHalf(-z);
    },
    quantile: (p) => middle + halfWidth * (p <= 0.5 ? lowerQuantile(p) : -lowerQuantile(1 - p)),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      from.uniforms(1, second, count);
      for (let i = 0; i < count; i++) {
        out[i] = middle + wide * (2 * out[i]! - 1) + narrow * (2 * second[i]! - 1);
      }
    },
  };
}

/** Limits with a flat top: the sum of two rectangulars of different widths. */
export const trapezoidal = defineDistribution({
  kind: "trapezoidal",
  title: "trapezoidal",
  statement: statementOf("trapezoidal", {
    ...limitFields,
    topRatio: number().gte(0).lt(1).describe("β: width of the flat top divided by that of the base, 0 ≤ β < 1"),
  }),
  read(stated, place) {
    const { middle, halfWidth } = readLimits(stated, place);
    const distribution = trapezoidalDistribution(middle, halfWidth, stated.topRatio);
    return { distribution, budget: typeB(middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
