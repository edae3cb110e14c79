import * as z from "zod";
import { BLOCK_TRIALS } from "../random/block.ts";
import { kernelOfThread } from "../random/block-generator.ts";
import { gammaSampler } from "../random/gamma.ts";
import { defineDistribution, number, statementOf, type Distribution } from "./distribution.ts";
import { tDensityFor, tDistributionFunction, tQuantile } from "../numerics/standard-t.ts";
import { readUncertainty, uncertaintyFields } from "./stated-uncertainty.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/** Fewer have no application (two readings give 1), and their tails leave the range of a double. */
export const FEWEST_DEGREES_OF_FREEDOM = 0.5;

/** The scaled and shifted t distribution t_ν(location, scale²): JCGM 101, 6.4.9. Any real ν ≥ ½. */
export function tDistribution(location: number, scale: number, degreesOfFreedom: number): Distribution {
  const ν = degreesOfFreedom;
  const halfChiSquare = gammaSampler(ν / 2);
  const density = tDensityFor(ν);
  const gammas = new Float64Array(BLOCK_TRIALS);
  return {
    mean: ν > 1 ? location : null,
    standardDeviation: ν > 2 ? scale * Math.sqrt(ν / (ν - 2)) : ν > 1 ? Infinity : null,
    momentsBelow: ν,
    support: [-Infinity, Infinity],
    smoothOver: scale * Math.min(1, Math.sqrt(ν)),
    density: (x) => density((x - location) / scale) / scale,
    distributionFunction: (x) => tDistributionFunction((x - location) / scale, ν),
    upperTail: (x) => tDistributionFunction((location - x) / scale, ν),
    quantile: (p) => location + scale * tQuantile(p, ν),
    sample(from, out, count) {
      from.normals(0, out, count);
      const kernel = kernelOfThread();
      const at = kernel === null ? -1 : kernel.addressOf(out);
      if (at >= 0) {
        // A column for a model's results, which is free while inputs are drawn.
        const [column] = kernel!.outputs(1);
        halfChiSquare(from, 1, column!, count);
        kernel!.students(at, kernel!.addressOf(column!), count, location, scale, ν);
        return;
      }
      halfChiSquare(from, 1, gammas, count);
      for (let i = 0; i < count; i++) out[i] = location + scale * out[i]! * Math.sqrt(ν / (2 * gammas[i]!));
    },
  };
}

/** A standard uncertainty with ν degrees of freedom, or a certificate's U with k and ν_eff (6.4.9.7). */
export const studentT = defineDistribution({
  kind: "t",
  statement: statementOf("t", {
    estimate: number().meta(inUnit("Best estimate")),
    ...uncertaintyFields,
    degreesOfFreedom: number()
      .gte(FEWEST_DEGREES_OF_FREEDOM)
      .meta(ofOne("Degrees of freedom ν of the stated uncertainty (ν_eff of a certificate)")),
    evaluation: z
      .enum(["A", "B"])
      .exactOptional()
      .describe(
        "A if the uncertainty comes from the laboratory's own observations, so that more of them would help; B, the default, if from elsewhere, such as a certificate",
      ),
  }),
  read(stated, place) {
    const scale = readUncertainty(stated, place, stated.degreesOfFreedom);
    return {
      distribution: tDistribution(stated.estimate, scale, stated.degreesOfFreedom),
      budget: {
        estimate: stated.estimate,
        standardUncertainty: scale,
        degreesOfFreedom: stated.degreesOfFreedom,
        evaluation: stated.evaluation ?? "B",
      },
    };
  },
});
