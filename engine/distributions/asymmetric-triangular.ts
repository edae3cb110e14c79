import { refuse } from "../errors.ts";
import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { checkRising, degreesOfFreedomField } from "./stated-limits.ts";

/** Triangular between limits with its peak anywhere between them, the limits included. */
export function asymmetricTriangularDistribution(lower: number, mode: number, upper: number): Distribution {
  const width = upper - lower;
  const left = mode - lower;
  const right = upper - mode;
  /** Probability below the peak. */
  const share = left / width;
  const quantile = (p: number): number =>
    p < share ? lower + Math.sqrt(p * width * left) : upper - Math.sqrt((1 - p) * width * right);
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
      return x <= mode ? (((x - lower) / left) * (x - lower)) / width : 1 - (((upper - x) / right) * (upper - x)) / width;
    },
    quantile,
    sample(from, out, count) {
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = Math.max(lower, Math.min(upper, quantile(out[i]!)));
    },
  };
}

/** Limits and a likeliest value that need not be their middle. */
export const asymmetricTriangular = defineDistribution({
  kind: "asymmetric-triangular",
  title: "asymmetric triangular",
  statement: statementOf("asymmetric-triangular", {
    lower: number().describe("Lower limit"),
    mode: number().describe("Likeliest value, from lower to upper"),
    upper: number().describe("Upper limit"),
    ...degreesOfFreedomField,
  }),
  read({ lower, mode, upper, degreesOfFreedom }, place) {
    checkRising(lower, upper, place);
    if (!(mode >= lower && mode <= upper)) refuse(`${place}.mode`, mode, `a number from lower (${lower}) to upper (${upper})`);
    const distribution = asymmetricTriangularDistribution(lower, mode, upper);
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!, degreesOfFreedom) };
  },
});
