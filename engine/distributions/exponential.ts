import { exp, expm1, ln, log1p } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { inUnit } from "./field-unit.ts";

/** Ex(1/scale) from `lower` on: JCGM 101, 6.4.10, with lower = 0. Mean lower + scale, standard deviation scale. */
export function exponentialDistribution(lower: number, scale: number): Distribution {
  return {
    mean: lower + scale,
    standardDeviation: scale,
    support: [lower, Infinity],
    density: (x) => (x < lower ? 0 : exp(-(x - lower) / scale) / scale),
    distributionFunction: (x) => (x <= lower ? 0 : -expm1(-(x - lower) / scale)),
    upperTail: (x) => (x <= lower ? 1 : exp(-(x - lower) / scale)),
    quantile: (p) => lower - scale * (p < 0.5 ? log1p(-p) : ln(1 - p)),
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = lower - scale * ln(out[i]!);
    },
  };
}

/** A quantity that cannot be negative (or below `lower`), if only its best estimate is known. */
export const exponential = defineDistribution({
  kind: "exponential",
  statement: statementOf("exponential", {
    estimate: number().meta(inUnit("Best estimate, which is the expectation")),
    lower: number().optional().meta(inUnit("Smallest possible value; 0 if none is given")),
  }),
  read({ estimate, lower = 0 }, place) {
    if (!(estimate > lower)) refuse(`${place}.estimate`, estimate, `a number greater than lower (${lower})`);
    const scale = estimate - lower;
    return { distribution: exponentialDistribution(lower, scale), budget: typeB(estimate, scale) };
  },
});
