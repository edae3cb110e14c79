import { BLOCK_TRIALS } from "../random/block.ts";
import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";

/** T(lower, upper), symmetric: JCGM 101, 6.4.5. */
export function triangularDistribution({ middle, halfWidth, lower, upper }: Limits): Distribution {
  const second = new Float64Array(BLOCK_TRIALS);
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.sqrt(6),
    support: [lower, upper],
    density(x) {
      if (x < lower || x > upper) return 0;
      return (x <= middle ? x - lower : upper - x) / halfWidth / halfWidth;
    },
    distributionFunction(x) {
      if (x <= lower) return 0;
      if (x >= upper) return 1;
      const z = (x <= middle ? x - lower : upper - x) / halfWidth;
      return x <= middle ? (z * z) / 2 : 1 - (z * z) / 2;
    },
    quantile: (p) => (p <= 0.5 ? lower + halfWidth * Math.sqrt(2 * p) : upper - halfWidth * Math.sqrt(2 * (1 - p))),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      from.uniforms(1, second, count);
      for (let i = 0; i < count; i++)
        out[i] = Math.max(lower, Math.min(upper, middle + halfWidth * (out[i]! + second[i]! - 1)));
    },
  };
}

/** Limits, if values near the middle are more likely: the sum of two equal rectangulars. */
export const triangular = defineDistribution({
  kind: "triangular",
  statement: statementOf("triangular", limitFields),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const distribution = triangularDistribution(limits);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
