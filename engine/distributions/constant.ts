import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { inUnit } from "./field-unit.ts";

/** A value without uncertainty: a definition or a given setting. */
export function constantDistribution(value: number): Distribution {
  return {
    mean: value,
    standardDeviation: 0,
    support: [value, value],
    discrete: true,
    atoms: () => ({ values: Float64Array.of(value), probabilities: Float64Array.of(1) }),
    density: (x) => (x === value ? 1 : 0),
    distributionFunction: (x) => (x < value ? 0 : 1),
    quantile: () => value,
    sample: (_from, out, count) => void out.fill(value, 0, count),
  };
}

export const constant = defineDistribution({
  kind: "constant",
  statement: statementOf("constant", { value: number().meta(inUnit("The value, taken as exact")) }),
  read: (stated) => ({ distribution: constantDistribution(stated.value), budget: typeB(stated.value, 0) }),
});
