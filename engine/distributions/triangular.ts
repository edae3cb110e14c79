import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits } from "./stated-limits.ts";
import { BLOCK_TRIALS } from "../trials/block.ts";

/** T(middle − halfWidth, middle + halfWidth), symmetric: JCGM 101, 6.4.5. */
export function triangularDistribution(middle: number, halfWidth: number): Distribution {
  const second = new Float64Array(BLOCK_TRIALS);
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.sqrt(6),
    support: [middle - halfWidth, middle + halfWidth],
    density: (x) => Math.max(0, 1 - Math.abs(x - middle) / halfWidth) / halfWidth,
    distributionFunction(x) {
      const z = (x - middle) / halfWidth;
      if (z <= -1) return 0;
      if (z >= 1) return 1;
      return z <= 0 ? ((1 + z) * (1 + z)) / 2 : 1 - ((1 - z) * (1 - z)) / 2;
    },
    quantile: (p) => middle + halfWidth * (p <= 0.5 ? Math.sqrt(2 * p) - 1 : 1 - Math.sqrt(2 * (1 - p))),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      from.uniforms(1, second, count);
      for (let i = 0; i < count; i++) out[i] = middle + halfWidth * (out[i]! + second[i]! - 1);
    },
  };
}

/** Limits, with values near the middle likelier: the sum of two equal rectangulars. */
export const triangular = defineDistribution({
  kind: "triangular",
  title: "triangular",
  statement: statementOf("triangular", limitFields),
  read(stated, place) {
    const { middle, halfWidth } = readLimits(stated, place);
    const distribution = triangularDistribution(middle, halfWidth);
    return { distribution, budget: typeB(middle, halfWidth / Math.sqrt(6), stated.degreesOfFreedom) };
  },
});
