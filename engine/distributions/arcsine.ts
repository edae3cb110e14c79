import { asin, sin } from "../elementary/index.ts";
import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";

/** U(lower, upper), the arc sine distribution: JCGM 101, 6.4.6. Its density is infinite at the limits. */
export function arcsineDistribution({ middle, halfWidth, lower, upper }: Limits): Distribution {
  const width = 2 * halfWidth;
  return {
    mean: middle,
    standardDeviation: halfWidth / Math.SQRT2,
    support: [lower, upper],
    density: (x) => (x < lower || x > upper ? 0 : 1 / (Math.PI * Math.sqrt(x - lower) * Math.sqrt(upper - x))),
    distributionFunction(x) {
      if (x <= lower) return 0;
      if (x >= upper) return 1;
      // 2/π·asin √((1 + z)/2) keeps its digits near a limit, where ½ + asin(z)/π loses them.
      return x <= middle
        ? (2 / Math.PI) * asin(Math.sqrt((x - lower) / width))
        : 1 - (2 / Math.PI) * asin(Math.sqrt((upper - x) / width));
    },
    quantile(p) {
      const s = sin((Math.PI / 2) * Math.min(p, 1 - p));
      return p <= 0.5 ? lower + width * s * s : upper - width * s * s;
    },
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) {
        out[i] = Math.max(lower, Math.min(upper, middle + halfWidth * sin(2 * Math.PI * out[i]!)));
      }
    },
  };
}

/** A quantity that cycles sinusoidally between limits, met at an unknown phase: a controller's oscillation. */
export const arcsine = defineDistribution({
  kind: "arcsine",
  title: "arc sine (U-shaped)",
  statement: statementOf("arcsine", limitFields),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const distribution = arcsineDistribution(limits);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
