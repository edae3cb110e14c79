// What the models, the server, the page and the commands of Trialband need of the engine beyond its door. The package
// offers it as `trialband/internal`, without a promise: a name or a meaning may change with any version.
export * from "./index.ts";

export { linearisedBudget } from "./convolution/linearised-budget.ts";
export { linearisedRecord } from "./convolution/linearised-record.ts";
export { linearisedOf } from "./convolution/linearised.ts";
export { shortestOf } from "./convolution/sum-distribution.ts";
export { shortestInterval, symmetricInterval } from "./coverage/coverage-interval.ts";
export { coverageOf } from "./coverage/coverage.ts";
export { linearCurve } from "./curve/curve-band.ts";
export { haveJointT } from "./dependence/dependence.ts";
export { evidenceSchema } from "./distributions/evidence.ts";
export { distributionKinds, fieldUnits, readStatement } from "./distributions/index.ts";
export { distributionTitle } from "./distributions/titles.ts";
export { openComparison } from "./explanation/compared-propagations.ts";
export { EXPLANATION_TRIALS, needsComparison } from "./explanation/explain.ts";
export { whereThrown } from "./evaluator/what-went-wrong.ts";
export { closestName } from "./closest-name.ts";
export { linearCovariance } from "./linear/budget.ts";
export {
  FEWEST_POINTS,
  FEWEST_SCRAMBLINGS,
  MOST_POINTS,
  MOST_SCRAMBLINGS,
  isNumberOfPoints,
} from "./low-discrepancy/explore.ts";
export { everyInput, isQuantityName } from "./model.ts";
export { blocksOf, partOf } from "./native/program-part.ts";
export { programOf, provideProgram } from "./native/programs.ts";
export { upperGamma } from "./numerics/incomplete-gamma.ts";
export { normalQuantile } from "./numerics/standard-normal.ts";
export { tQuantile } from "./numerics/standard-t.ts";
export { quantitySchema } from "./quantity.ts";
export { checkedInputs } from "./prepared/prepare.ts";
export { FORMAT } from "./record/format.ts";
export { decimalsFor, toDecimals } from "./record/rounding.ts";
export { Accumulation } from "./run/accumulate.ts";
export { assembleRecord, linearRecord } from "./run/assemble.ts";
export { madeAgain } from "./run/made-again.ts";
export { figuresOfPoint, studiesOfSweep, sweepRecord, type PointFigures } from "./run/sweep.ts";
export { readBySchema, schemaProblems } from "./schema-problems.ts";
export { autocorrelation, effectiveSampleSize } from "./statistics/autocorrelation.ts";
export { ownRoom } from "./statistics/binned-run.ts";
export { histogramOf } from "./statistics/histogram.ts";
export { KEPT_TRIALS } from "./statistics/kept-trials.ts";
export { compensatedSum, sampleStatistics } from "./statistics/sample-statistics.ts";
export { sortedSample } from "./statistics/sample.ts";
export { readGiven } from "./study/given.ts";
export { MAXIMUM_INPUTS, MAXIMUM_TRIALS, studySchema } from "./study/study.ts";
export { MOST_SWEEP_POINTS } from "./study/sweep-statement.ts";
export { batchBytes, openTrials } from "./trials/batch.ts";
export { openCondensed, type Condensed } from "./trials/condensed.ts";
export { batchesIn, MOMENTS_ROW, type CondensedBatches, type CondensedMeasurand } from "./trials/condensed-batches.ts";
export { COLUMN_WIDTHS } from "./paired/paired-columns.ts";
export { evaluateOneByOne } from "./trials/one-by-one.ts";
export { requirePure } from "./trials/purity.ts";
export { openTrialColumns } from "./trials/trial-columns.ts";
export { conversionBetween, factorBetween, readUnit, unitProduct } from "./units/unit.ts";
export { numericalTolerance } from "./validation/numerical-tolerance.ts";
export { compareGenerators } from "./validation/second-generator.ts";

export type { LinearTerm } from "./convolution/linear-term.ts";
export type { Distribution, InputKnowledge } from "./distributions/distribution.ts";
export type { FieldUnit, FieldUnits } from "./distributions/field-unit.ts";
export type { Compared } from "./explanation/compared-propagations.ts";
export type { Immutable } from "./immutable.ts";
export type * from "./native/program.ts";
export type { GeneratorFamily, Substream } from "./random/stream.ts";
export type { ConformityFigures, LinearisedFigures } from "./record/figures.ts";
export type { AccumulationState } from "./run/accumulate.ts";
export type { EffectiveSampleSize } from "./statistics/autocorrelation.ts";
export type { Room } from "./statistics/binned-run.ts";
export type { SampleStatistics } from "./statistics/sample-statistics.ts";
export type { Sample } from "./statistics/sample.ts";
export type { Given } from "./study/given.ts";
export type { Batch, TrialSource } from "./trials/batch.ts";
export type { Unit } from "./units/unit.ts";
export type { GeneratorComparison } from "./validation/second-generator.ts";
