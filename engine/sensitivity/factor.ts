import type { Distribution } from "../distributions/distribution.ts";
import { placedGroups, type DrawSource } from "../trials/draw.ts";

/** A factor of the analysis: an input, or a group of inputs drawn together and varied as one. */
export interface Factor {
  /** The input's name, or the names joined by ` + `. */
  readonly name: string;
  readonly inputs: readonly string[];
  /** Indices of the inputs in the model's order. */
  readonly places: readonly number[];
  /** The inputs' marginal distributions. */
  readonly distributions: readonly Distribution[];
  readonly varies: boolean;
  readonly hasStandardDeviation: boolean;
}

/** The factors of a study: one for each group of inputs that are drawn together. */
export const factorsOf = (source: DrawSource): Factor[] =>
  placedGroups(source).map(({ group: { members, distributions }, places }) => ({
    name: members.join(" + "),
    inputs: members,
    places,
    distributions,
    varies: distributions.some(({ standardDeviation }) => standardDeviation !== 0),
    hasStandardDeviation: distributions.every(({ standardDeviation: s }) => s !== null && Number.isFinite(s)),
  }));
