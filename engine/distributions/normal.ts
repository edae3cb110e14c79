import { defineDistribution, number, statementOf, typeB, type Distribution } from "./distribution.ts";
import { normalDensity, normalDistributionFunction, normalQuantile } from "../numerics/standard-normal.ts";
import { readUncertainty, uncertaintyFields } from "./stated-uncertainty.ts";
import { inUnit } from "./field-unit.ts";

/** N(mean, standardDeviation²): JCGM 101, 6.4.7. */
export function normalDistribution(mean: number, standardDeviation: number): Distribution {
  return {
    mean,
    standardDeviation,
    support: [-Infinity, Infinity],
    normal: true,
    smoothOver: standardDeviation,
    density: (x) => normalDensity((x - mean) / standardDeviation) / standardDeviation,
    distributionFunction: (x) => normalDistributionFunction((x - mean) / standardDeviation),
    upperTail: (x) => normalDistributionFunction((mean - x) / standardDeviation),
    quantile: (p) => mean + standardDeviation * normalQuantile(p),
    sample: (from, out, count) => from.normals(0, out, count, mean, standardDeviation),
  };
}

/** A best estimate with a standard uncertainty, or with a certificate's U and k. */
export const normal = defineDistribution({
  kind: "normal",
  statement: statementOf("normal", { estimate: number().meta(inUnit("Best estimate")), ...uncertaintyFields }),
  read(stated, place) {
    const standardUncertainty = readUncertainty(stated, place);
    return {
      distribution: normalDistribution(stated.estimate, standardUncertainty),
      budget: typeB(stated.estimate, standardUncertainty),
    };
  },
});
