import * as z from "zod";
import { refuse } from "../errors.ts";
import { discreteDistribution } from "./discrete.ts";
import { defineDistribution, number, statementOf } from "./distribution.ts";
import { inUnit } from "./field-unit.ts";

/**
 * Observed values of the quantity, resampled: each trial takes one of them, all equally likely. Meant for many values,
 * such as model values of an earlier propagation or a long log of a varying quantity. The budget takes their mean and
 * their standard deviation s with n − 1 degrees of freedom (JCGM 100, 4.2.2), not s/√n, since each is a possible value
 * of the quantity. For indications of one fixed quantity, state `readings`.
 */
export const sample = defineDistribution({
  kind: "sample",
  statement: statementOf("sample", {
    values: z
      .array(number())
      .min(2)
      .meta(inUnit("Observed values of the quantity, at least two, preferably some hundreds")),
  }),
  read({ values }, place) {
    const distribution = discreteDistribution(
      values,
      Array.from(values, () => 1),
    );
    if (distribution.standardDeviation === 0)
      refuse(`${place}.values`, values, "values that are not all equal, or a constant");
    const degreesOfFreedom = values.length - 1;
    const standardUncertainty = distribution.standardDeviation! * Math.sqrt(values.length / degreesOfFreedom);
    return {
      distribution,
      budget: { estimate: distribution.mean!, standardUncertainty, degreesOfFreedom, evaluation: "A" },
    };
  },
});
