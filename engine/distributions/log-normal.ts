import { exp, expm1, ln, log1p } from "../elementary/index.ts";
import { refuse } from "../errors.ts";
import { defineDistribution, number, positive, statementOf, typeB, type Distribution } from "./distribution.ts";
import { normalDensity, normalDistributionFunction, normalQuantile } from "../numerics/standard-normal.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/** A positive quantity whose natural logarithm is N(logarithmMean, logarithmDeviation²). */
export function logNormalDistribution(logarithmMean: number, logarithmDeviation: number): Distribution {
  const variance = logarithmDeviation * logarithmDeviation;
  const mean = exp(logarithmMean + variance / 2);
  const standardised = (x: number): number => (ln(x) - logarithmMean) / logarithmDeviation;
  return {
    mean,
    standardDeviation: mean * Math.sqrt(expm1(variance)),
    support: [0, Infinity],
    density: (x) => (x <= 0 ? 0 : normalDensity(standardised(x)) / logarithmDeviation / x),
    distributionFunction: (x) => (x <= 0 ? 0 : normalDistributionFunction(standardised(x))),
    upperTail: (x) => (x <= 0 ? 1 : normalDistributionFunction(-standardised(x))),
    quantile: (p) => exp(logarithmMean + logarithmDeviation * normalQuantile(p)),
    sample(from, out, count) {
      from.normals(0, out, count);
      for (let i = 0; i < count; i++) out[i] = exp(logarithmMean + logarithmDeviation * out[i]!);
    },
  };
}

/** In standard deviations: no draw among 10¹⁶ lies further out. */
const FURTHEST = 9;

/** A positive quantity known to within a factor: by its own mean and deviation, or by those of its logarithm. */
export const logNormal = defineDistribution({
  kind: "log-normal",
  statement: statementOf("log-normal", {
    estimate: positive().optional().meta(inUnit("Best estimate, which is the expectation of the value itself")),
    standardUncertainty: positive().optional().meta(inUnit("Standard uncertainty of the value itself")),
    logarithmMean: number().optional().meta(ofOne("Mean of the natural logarithm of the value: ln of its median")),
    logarithmStandardDeviation: positive()
      .optional()
      .meta(ofOne("Standard deviation of the natural logarithm: nearly the relative uncertainty if small")),
  }),
  read({ estimate, standardUncertainty: u, logarithmMean, logarithmStandardDeviation }, place) {
    const ofValue = estimate !== undefined || u !== undefined;
    const ofLogarithm = logarithmMean !== undefined || logarithmStandardDeviation !== undefined;
    if (ofValue === ofLogarithm) {
      refuse(
        place,
        ofValue ? "both ways of stating it" : undefined,
        "either estimate and standardUncertainty, or logarithmMean and logarithmStandardDeviation",
      );
    }
    if (ofValue) {
      if (estimate === undefined)
        return refuse(`${place}.estimate`, undefined, "a number greater than 0, beside standardUncertainty");
      if (u === undefined)
        return refuse(`${place}.standardUncertainty`, undefined, "a number greater than 0, beside estimate");
      const relative = u / estimate;
      const variance = log1p(relative * relative);
      if (!(variance > 0 && variance < Infinity)) {
        refuse(`${place}.standardUncertainty`, u, "a number from about 1e-150 to 1e150 times the estimate");
      }
      const distribution = logNormalDistribution(ln(estimate) - variance / 2, Math.sqrt(variance));
      return { distribution, budget: typeB(estimate, u) };
    }
    if (logarithmMean === undefined)
      return refuse(`${place}.logarithmMean`, undefined, "a number, beside logarithmStandardDeviation");
    if (logarithmStandardDeviation === undefined) {
      return refuse(`${place}.logarithmStandardDeviation`, undefined, "a number greater than 0, beside logarithmMean");
    }
    const distribution = logNormalDistribution(logarithmMean, logarithmStandardDeviation);
    const largest = exp(logarithmMean + FURTHEST * logarithmStandardDeviation);
    if (!(distribution.mean! > 0 && distribution.standardDeviation! < Infinity && largest < Infinity)) {
      refuse(
        `${place}.logarithmStandardDeviation`,
        logarithmStandardDeviation,
        "values whose mean and standard deviation are within the range of a double",
      );
    }
    return { distribution, budget: typeB(distribution.mean!, distribution.standardDeviation!) };
  },
});
