import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits } from "./stated-limits.ts";

/** R(middle − halfWidth, middle + halfWidth): JCGM 101, 6.4.2. */
export function rectangularDistribution(middle: number, halfWidth: number): Distribution {
  const lower = middle - halfWidth;
  const upper = middle + halfWidth;
  const width = 2 * halfWidth;
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.sqrt(3),
    support: [lower, upper],
    density: (x) => (x < lower || x > upper ? 0 : 1 / width),
    distributionFunction: (x) => (x <= lower ? 0 : x >= upper ? 1 : (x - lower) / width),
    quantile: (p) => lower + width * p,
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = lower + width * out[i]!;
    },
  };
}

/** Limits and nothing else known. */
export const rectangular = defineDistribution({
  kind: "rectangular",
  title: "rectangular",
  statement: statementOf("rectangular", limitFields),
  read(stated, place) {
    const { middle, halfWidth } = readLimits(stated, place);
    const distribution = rectangularDistribution(middle, halfWidth);
    return { distribution, budget: typeB(middle, halfWidth / Math.sqrt(3), stated.degreesOfFreedom) };
  },
});
