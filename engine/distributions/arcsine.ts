import { asin, sin } from "../elementary/index.ts";
import { defineDistribution, statementOf, typeB, type Distribution } from "./distribution.ts";
import { limitFields, readLimits, type Limits } from "./stated-limits.ts";

/**
 * sin x for |x| ≤ π/2, within 2 ulp of 1: the Taylor series to x¹⁹, whose next term is below 3e-16. Half the cost of a
 * sine that accepts any argument.
 */
const sine = (x: number): number => {
  const z = x * x;
  const fine =
    1 / 362_880 +
    z *
      (-1 / 39_916_800 +
        z *
          (1 / 6_227_020_800 +
            z * (-1 / 1_307_674_368_000 + z * (1 / 355_687_428_096_000 - z / 121_645_100_408_832_000))));
  return x + x * z * (-1 / 6 + z * (1 / 120 + z * (-1 / 5040 + z * fine)));
};

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
      // 2/π·asin √((1 + z)/2) keeps its digits near a limit; ½ + asin(z)/π loses them there.
      return x <= middle
        ? (2 / Math.PI) * asin(Math.sqrt((x - lower) / width))
        : 1 - (2 / Math.PI) * asin(Math.sqrt((upper - x) / width));
    },
    quantile(p) {
      const s = sin((Math.PI / 2) * Math.min(p, 1 - p));
      return p <= 0.5 ? lower + width * s * s : upper - width * s * s;
    },
    sample(from, out, count) {
      // A quarter turn either way suffices: the other half of the turn repeats the same values.
      from.uniforms(0, out, count, -Math.PI / 2, Math.PI);
      for (let i = 0; i < count; i++) out[i] = Math.max(lower, Math.min(upper, middle + halfWidth * sine(out[i]!)));
    },
  };
}

/** A quantity that cycles sinusoidally between limits, read at an unknown phase, such as a controller's oscillation. */
export const arcsine = defineDistribution({
  kind: "arcsine",
  statement: statementOf("arcsine", limitFields),
  read(stated, place) {
    const limits = readLimits(stated, place);
    const distribution = arcsineDistribution(limits);
    return { distribution, budget: typeB(limits.middle, distribution.standardDeviation!, stated.degreesOfFreedom) };
  },
});
