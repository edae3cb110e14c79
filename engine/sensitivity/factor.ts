import type { Group } from "../dependence/dependence.ts";
import type { Distribution } from "../distributions/distribution.ts";
import type { TrialSource } from "../trials/batch.ts";

/** A factor of the analysis: an input, or the inputs drawn together, varied as one. */
export interface Factor {
  /** The input's name, or the names joined by ` + `. */
  readonly name: string;
  readonly inputs: readonly string[];
  /** Places of the inputs in the model's order. */
  readonly places: readonly number[];
  /** The inputs' marginal distributions. */
  readonly distributions: readonly Distribution[];
  readonly varies: boolean;
  readonly hasStandardDeviation: boolean;
  /** Opens draws of its inputs: `suffix` is appended to the name of every stream, so that another gives others. */
  open(suffix: string): (block: number, out: readonly Float64Array[], count: number) => void;
}

/** The factors of a study: one for each group of inputs that are drawn together. */
export function factorsOf({ model, groups, seed, generator }: TrialSource): Factor[] {
  const names = Object.keys(model.inputs);
  return groups.map((group: Group) => ({
    name: group.members.join(" + "),
    inputs: group.members,
    places: group.members.map((name) => names.indexOf(name)),
    distributions: group.distributions,
    varies: group.distributions.some(({ standardDeviation }) => standardDeviation !== 0),
    hasStandardDeviation: group.distributions.every(({ standardDeviation: s }) => s !== null && Number.isFinite(s)),
    open(suffix) {
      const streams = group.members.map((name) => generator.open(seed, `${name}${suffix}`));
      return (block, out, count) =>
        group.sample(
          streams.map((stream) => stream(block)),
          out,
          count,
        );
    },
  }));
}
