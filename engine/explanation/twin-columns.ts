import type { Group } from "../dependence/group.ts";
import type { InputKnowledge } from "../distributions/distribution.ts";
import { quickNormalQuantile } from "./quick-normal-quantile.ts";
import { withinUnit } from "../dependence/hermite-expansion.ts";
import type { Substream } from "../random/stream.ts";

/** A channel of the input's substream that no sampler draws from: there are 32, and mixtures reach the ninth. */
const SPREAD = 31;

/** What the linear budget overlooks in an input: its shape, its few degrees of freedom, or nothing. */
export type Overlooked = "shape" | "degreesOfFreedom" | null;

/** Which of the two, if any, an input's distribution has. */
export function overlookedIn({ distribution, budget }: InputKnowledge, kind: string): Overlooked {
  if (kind === "t" || kind === "readings") return Number.isFinite(budget.degreesOfFreedom) ? "degreesOfFreedom" : null;
  return kind === "normal" || distribution.standardDeviation === 0 ? null : "shape";
}

/**
 * Writes a group's Gaussian twin beside its stated draws: normals with the budget's estimates and standard
 * uncertainties, made from the same random numbers, so that what differs between the two is the distribution alone.
 *
 * @param stated the draws already made from the same substreams
 */
export function fillTwins(
  group: Group,
  from: readonly Substream[],
  stated: readonly Float64Array[],
  knowledge: readonly InputKnowledge[],
  overlooked: readonly Overlooked[],
  out: readonly Float64Array[],
  count: number,
): void {
  if (group.normals !== null) {
    group.normals(from, out, count);
    scale(knowledge, out, count);
    return;
  }
  const column = out[0]!;
  const draws = stated[0]!;
  if (overlooked[0] === null) {
    column.set(draws);
  } else if (overlooked[0] === "degreesOfFreedom") {
    // A t is a normal over the root of a χ²: its twin is that normal.
    from[0]!.normals(0, column, count);
    scale(knowledge, out, count);
  } else {
    const { distributionFunction, density, discrete } = group.distributions[0]!;
    if (discrete === true) {
      // A value of probability P stands for a stretch of P: the distributional transform F(x) − U·P is uniform, where
      // F(x) alone is not, and 1 at the greatest value (L. Rüschendorf, J. Statist. Plan. Inference 139, 2009, 3921).
      from[0]!.uniforms(SPREAD, column, count);
      for (let t = 0; t < count; t++) {
        const x = draws[t]!;
        column[t] = quickNormalQuantile(withinUnit(distributionFunction(x) - column[t]! * density(x)));
      }
    } else {
      for (let t = 0; t < count; t++) column[t] = quickNormalQuantile(withinUnit(distributionFunction(draws[t]!)));
    }
    scale(knowledge, out, count);
  }
}

function scale(knowledge: readonly InputKnowledge[], out: readonly Float64Array[], count: number): void {
  knowledge.forEach(({ budget: { estimate, standardUncertainty } }, i) => {
    const column = out[i]!;
    for (let t = 0; t < count; t++) column[t] = estimate + standardUncertainty * column[t]!;
  });
}
