// Between laboratories: reference values, consistency, degrees of equivalence and scores.
export { chiSquareAbove, covarianceOf, weightedMean } from "./reference-value.ts";
export { degreesOfEquivalence, pairEquivalence } from "./degrees-of-equivalence.ts";
export { largestConsistentSubset } from "./consistent-subset.ts";
export { MEDIAN_PROBABILITY, medianReference } from "./median-reference.ts";
export { randomEffects } from "./random-effects.ts";
export { normalisedError, passes, standingOfZeta, uncertaintyOfDifference, zetaScore } from "./scores.ts";
export { laboratoriesSchema, readLaboratories } from "./document.ts";
export { evaluateLaboratories } from "./evaluate.ts";

export type { LaboratoryComparison } from "./document.ts";
export type { Equivalence } from "./degrees-of-equivalence.ts";
export type { ComparedLaboratory, LaboratoriesEvaluation } from "./evaluate.ts";
export type { ConsistentSubset } from "./consistent-subset.ts";
export type { MedianEquivalence, MedianReference } from "./median-reference.ts";
export type { RandomEffects, RandomEffectsMethod } from "./random-effects.ts";
export type { LaboratoryResult, ReferenceValue, ResultCorrelation, WeightedMean } from "./reference-value.ts";
export type { Standing, StatedValue } from "./scores.ts";
