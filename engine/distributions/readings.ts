import * as z from "zod";
import { refuse } from "../errors.ts";
import { defineDistribution, number, positive, statementOf } from "./distribution.ts";
import { FEWEST_DEGREES_OF_FREEDOM, tDistribution } from "./student-t.ts";
import { normalDistribution } from "./normal.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/**
 * Independent indications of one quantity, evaluated by type A: the budget takes the mean and s/√n with n − 1 degrees
 * of freedom (JCGM 100, 4.2), Supplement 1 the distribution t_{n−1}(mean, s²/n) (JCGM 101, 6.4.9.2).
 *
 * A pooled standard deviation from earlier work, if given, replaces s and brings its own degrees of freedom.
 */
export const readings = defineDistribution({
  kind: "readings",
  statement: statementOf("readings", {
    values: z
      .array(number())
      .min(1)
      .meta(inUnit("The indications, two or more (one suffices with a pooled deviation)")),
    pooledStandardDeviation: positive().optional().meta(inUnit("Pooled standard deviation of a single indication")),
    pooledDegreesOfFreedom: number()
      .gte(FEWEST_DEGREES_OF_FREEDOM)
      .optional()
      .meta(ofOne("Degrees of freedom of the pooled standard deviation")),
  }),
  read(stated, place) {
    const { values, pooledStandardDeviation: pooled, pooledDegreesOfFreedom: ν } = stated;
    const n = values.length;
    if ((pooled === undefined) !== (ν === undefined)) {
      const missing = pooled === undefined ? "pooledStandardDeviation" : "pooledDegreesOfFreedom";
      refuse(
        `${place}.${missing}`,
        undefined,
        "a number greater than 0: a pooled deviation and its degrees of freedom belong together",
      );
    }
    if (n < 2 && pooled === undefined)
      refuse(`${place}.values`, values, "at least 2 indications, or a pooledStandardDeviation");
    const mean = meanOf(values);
    const deviation = pooled ?? sampleStandardDeviation(values, mean);
    if (deviation === 0) {
      refuse(
        `${place}.values`,
        values,
        "indications that are not all equal: state the resolution as an input of its own and give a pooledStandardDeviation here",
      );
    }
    const standardUncertainty = deviation / Math.sqrt(n);
    const degreesOfFreedom = ν ?? n - 1;
    return {
      distribution:
        degreesOfFreedom === Infinity
          ? normalDistribution(mean, standardUncertainty)
          : tDistribution(mean, standardUncertainty, degreesOfFreedom),
      budget: { estimate: mean, standardUncertainty, degreesOfFreedom, evaluation: "A" },
    };
  },
});

/** Mean by shifted summation, so that a common offset loses no digits. */
function meanOf(values: readonly number[]): number {
  const shift = values[0]!;
  let sum = 0;
  for (const value of values) sum += value - shift;
  return shift + sum / values.length;
}

/** s with n − 1, corrected for the rounding of the mean (JCGM 100, 4.2.2). */
function sampleStandardDeviation(values: readonly number[], mean: number): number {
  let squares = 0;
  let rest = 0;
  for (const value of values) {
    const deviation = value - mean;
    squares += deviation * deviation;
    rest += deviation;
  }
  return Math.sqrt((squares - (rest * rest) / values.length) / (values.length - 1));
}
