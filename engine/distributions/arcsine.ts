import { asin, sin } from "../elementary/index.ts";
import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits } from "./stated-limits.ts";

/** U(middle − halfWidth, middle + halfWidth), the arc sine distribution: JCGM 101, 6.4.6. */
export function arcsineDistribution(middle: number, halfWidth: number): Distribution {
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.SQRT2,
    support: [middle - halfWidth, middle + halfWidth],
    density(x) {
      const z = (x - middle) / halfWidth;
      return Math.abs(z) > 1 ? 0 : 1 / (Math.PI * halfWidth * Math.sqrt((1 - z) * (1 + z)));
    },
    distributionFunction(x) {
      const z = (x - middle) / halfWidth;
      if (z <= -1) return 0;
      if (z >= 1) return 1;
      // 2/π·asin √((1 + z)/2) keeps its digits near the lower limit, where ½ + asin(z)/π loses them.
      return (2 / Math.PI) * asin(Math.sqrt((1 + z) / 2));
    },
    quantile(p) {
      const s = sin((Math.PI / 2) * Math.min(p, 1 - p));
      return middle + halfWidth * (p > 0.5 ? 1 - 2 * s * s : 2 * s * s - 1);
    },
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = middle + halfWidth * sin(2 * Math.PI * out[i]!);
    },
  };
}

/** A quantity that cycles sinusoidally between limits, met at an unknown phase: a controller's oscillation. */
export const arcsine = defineDistribution({
  kind: "arcsine",
  title: "arc sine (U-shaped)",
  statement: statementOf("arcsine", limitFields),
  read(stated, place) {
    const { middle, halfWidth } = readLimits(stated, place);
    const distribution = arcsineDistribution(middle, halfWidth);
    return { distribution, budget: typeB(middle, halfWidth / Math.SQRT2, stated.degreesOfFreedom) };
  },
});
