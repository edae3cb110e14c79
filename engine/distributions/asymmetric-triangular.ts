import { refuse } from "../errors.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { checkRising, degreesOfFreedomField } from "./stated-limits.ts";
import { inUnit } from "./field-unit.ts";

/** Triangular between limits, with its peak anywhere from the lower to the upper limit. */
export function asymmetricTriangularDistribution(lower: number, mode: number, upper: number): Distribution {
  const width = upper - lower;
  const left = mode - lower;
  const right = upper - mode;
  /** Probability below the peak. */
  const share = left / width;
  /** Distance from the peak that encloses probability c on a side of this length. */
  const fromPeak = (c: number, side: number): number =>
    c <= 0 ? 0 : (c * side * width) / (side + Math.sqrt(Math.max(0, side * side - c * side * width)));
  // From the nearest of lower limit, peak and upper limit, so that no digits are lost near any of them.
  const quantile = (p: number): number => {
    if (p < share) return p < share / 2 ? lower + Math.sqrt(p * width * left) : mode - fromPeak(share - p, left);
    return 1 - p < (1 - share) / 2 ? upper - Math.sqrt((1 - p) * width * right) : mode + fromPeak(p - share, right);
  };
  return {
    // From the peak, so that a common offset costs no digits.
    mean: mode + (right - left) / 3,
    standardDeviation: Math.sqrt((left * left + left * right + right * right) / 18),
    support: [lower, upper],
    density(x) {
      if (x < lower || x > upper) return 0;
      if (x === mode) return 2 / width;
      return (2 / width) * (x < mode ? (x - lower) / left : (upper - x) / right);
    },
    distributionFunction(x) {
      if (x <= lower) return 0;
      if (x >= upper) return 1;
      if (x <= mode) return (((x - lower) / left) * (x - lower)) / width;
      const beyond = x - mode;
      return beyond < right / 2
        ? share + ((beyond / right) * (right + (upper - x))) / width
        : 1 - (((upper - x) / right) * (upper - x)) / width;
    },
    quantile,
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = Math.max(lower, Math.min(upper, quantile(out[i]!)));
    },
  };
}

/** Limits and a most likely value that need not be their middle. */
export const asymmetricTriangular = defineDistribution({
  kind: "asymmetric-triangular",
  statement: statementOf("asymmetric-triangular", {
    lower: number().meta(inUnit("Lower limit")),
    mode: number().meta(inUnit("Most likely value, from lower to upper")),
    upper: number().meta(inUnit("Upper limit")),
    ...degreesOfFreedomField,
  }),
  read({ lower, mode, upper, degreesOfFreedom }, place) {
    checkRising(lower, upper, place);
    if (!(mode >= lower && mode <= upper))
      refuse(`${place}.mode`, mode, `a number from lower (${lower}) to upper (${upper})`);
    const distribution = asymmetricTriangularDistribution(lower, mode, upper);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!, degreesOfFreedom) };
  },
});
