import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";

/** The largest uniform that a generator may give. */
const LARGEST_UNIFORM = 1 - 2 ** -53;

/** R(lower, upper): JCGM 101, 6.4.2. */
export function rectangularDistribution({ middle, halfWidth, lower, upper }: Limits): Distribution {
  const width = 2 * halfWidth;
  // Rounding could carry a draw past a limit that lies between two doubles; if it does for any u, it does for the largest.
  const passes = lower + width * LARGEST_UNIFORM > upper;
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.sqrt(3),
    support: [lower, upper],
    density: (x) => (x < lower || x > upper ? 0 : 1 / width),
    distributionFunction: (x) => (x <= lower ? 0 : x >= upper ? 1 : (x - lower) / width),
    quantile: (p) => (p <= 0.5 ? lower + width * p : upper - width * (1 - p)),
    sample(from, out, count) {
      from.uniforms(0, out, count, lower, width);
      if (passes) for (let i = 0; i < count; i++) out[i] = Math.min(upper, out[i]!);
    },
  };
}

/** Limits, if nothing else is known. */
export const rectangular = defineDistribution({
  kind: "rectangular",
  statement: statementOf("rectangular", limitFields),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const distribution = rectangularDistribution(limits);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
