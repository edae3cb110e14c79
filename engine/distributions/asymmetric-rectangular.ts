import { refuse } from "../errors.ts";
import { defineDistribution, number, statementOf, typeB } from "./distribution.ts";
import { rectangularDistribution } from "./rectangular.ts";
import { checkRising, degreesOfFreedomField, limitsBetween } from "./stated-limits.ts";
import { inUnit } from "./field-unit.ts";

/**
 * Limits that are not symmetric about the best estimate: lower = x − b₋, upper = x + b₊ (JCGM 100, 4.3.8).
 *
 * The budget keeps the estimate and takes u = (b₊ + b₋)/√12, the simplest approximation of 4.3.8. Supplement 1 uses
 * only the limits: its distribution is the rectangular between them, whose expectation is their middle. The two methods
 * differ by definition, and the comparison shows by how much. If the estimate may be corrected to the middle (4.3.8,
 * note 1), state a plain `rectangular`.
 */
export const asymmetricRectangular = defineDistribution({
  kind: "asymmetric-rectangular",
  statement: statementOf("asymmetric-rectangular", {
    lower: number().meta(inUnit("Lower limit")),
    estimate: number().meta(inUnit("Best estimate, from lower to upper, used by the linear budget")),
    upper: number().meta(inUnit("Upper limit")),
    ...degreesOfFreedomField,
  }),
  read({ lower, estimate, upper, degreesOfFreedom }, place) {
    checkRising(lower, upper, place);
    if (!(estimate >= lower && estimate <= upper)) {
      refuse(`${place}.estimate`, estimate, `a number from lower (${lower}) to upper (${upper})`);
    }
    const distribution = rectangularDistribution(limitsBetween(lower, upper));
    return { distribution, budget: typeB(estimate, distribution.standardDeviation!, degreesOfFreedom) };
  },
});
