// The engine's public interface. Everything else is private to the engine.
export { Accumulation } from "./run/accumulate.ts";
export { assessConformity } from "./conformity/assess.ts";
export { linearCovariance } from "./linear/budget.ts";
export { linearCurve } from "./curve/curve-band.ts";
export { linearisedOf } from "./convolution/linearised.ts";
export { linearisedRecord } from "./convolution/linearised-record.ts";
export { linearisedBudget } from "./convolution/linearised-budget.ts";
export { shortestOf, symmetricOf, type SumDistribution } from "./convolution/sum-distribution.ts";
export { requirementsOf } from "./study/conformity-statement.ts";
export { coverageOf } from "./coverage/coverage.ts";
export { haveJointT } from "./dependence/dependence.ts";
export { shortestInterval, symmetricInterval } from "./coverage/coverage-interval.ts";
export { tQuantile } from "./numerics/standard-t.ts";
export { distributionTitle, type DistributionName } from "./distributions/titles.ts";
export { distributionKinds, fieldUnits, readStatement } from "./distributions/index.ts";
export * as elementary from "./elementary/index.ts";
export { describeProblem, InputError, ModelError, refuse, show } from "./errors.ts";
export { openComparison, type Compared } from "./explanation/compared-propagations.ts";
export { EXPLANATION_TRIALS, needsComparison } from "./explanation/explain.ts";
export { implicitModel } from "./implicit/implicit-model.ts";
export { findBracket, findRoot, findRootBySlope } from "./numerics/root.ts";
export {
  explore,
  FEWEST_POINTS,
  FEWEST_SCRAMBLINGS,
  isNumberOfPoints,
  MOST_POINTS,
  MOST_SCRAMBLINGS,
} from "./low-discrepancy/explore.ts";
export { defineModel, everyInput, isQuantityName } from "./model.ts";
export { prepare } from "./prepared/prepare.ts";
export { propagate } from "./run/propagate.ts";
export { assembleRecord, linearRecord } from "./run/assemble.ts";
export { madeAgain } from "./run/made-again.ts";
export { evidenceSchema } from "./distributions/evidence.ts";
export { quantitySchema } from "./quantity.ts";
export { readBySchema, schemaProblems } from "./schema-problems.ts";
export { compareGenerators } from "./validation/second-generator.ts";
export { FORMAT } from "./record/format.ts";
export { decimalsFor, roundResult, toDecimals } from "./record/rounding.ts";
export { analyseSensitivity } from "./sensitivity/analyse.ts";
export { autocorrelation, effectiveSampleSize, type EffectiveSampleSize } from "./statistics/autocorrelation.ts";
export { compensatedSum, sampleStatistics, type SampleStatistics } from "./statistics/sample-statistics.ts";
export { ownRoom, type Room } from "./statistics/binned-run.ts";
export { histogramOf } from "./statistics/histogram.ts";
export { defineStudy, MAXIMUM_INPUTS, MAXIMUM_TRIALS, readStudy, studySchema } from "./study/study.ts";
export { speakRecord, type Spoken, type SpokenMeasurand, type SpokenRecord } from "./sentences/speak.ts";
export type { Language } from "./sentences/languages.ts";
export { studiesOfSweep, sweepRecord } from "./run/sweep.ts";
export { batchBytes, openTrials } from "./trials/batch.ts";
export { openTrialColumns, type TrialColumns } from "./trials/trial-columns.ts";
export { requirePure } from "./trials/purity.ts";
export { KEPT_TRIALS } from "./statistics/kept-trials.ts";
export { numericalTolerance } from "./validation/numerical-tolerance.ts";
export { conversionBetween, factorBetween, readUnit, unitProduct } from "./units/unit.ts";
export { VERSION } from "./version.ts";

export type { AccumulationState } from "./run/accumulate.ts";
export type * from "./record/conformity.ts";
export type { Linearised, Unavailable } from "./convolution/linearised.ts";
export type { LinearTerm } from "./convolution/linear-term.ts";
export type { Requirement } from "./study/conformity-statement.ts";
export type { Tolerance, ToleranceSpecification } from "./tolerance.ts";
export type { Coverage } from "./coverage/coverage.ts";
export type { Interval } from "./coverage/coverage-interval.ts";
export type { BudgetLine, Distribution, DistributionKind, InputKnowledge } from "./distributions/distribution.ts";
export type { FieldUnit, FieldUnits } from "./distributions/field-unit.ts";
export type { Evidence } from "./distributions/evidence.ts";
export type { Statement } from "./distributions/index.ts";
export type { Problem } from "./errors.ts";
export type { Immutable } from "./immutable.ts";
export type { ImplicitDeclaration, ImplicitModel } from "./implicit/implicit-model.ts";
export type { Bracket } from "./numerics/root.ts";
export type { Unit } from "./units/unit.ts";
export type { Contribution, LinearBudget } from "./linear/budget.ts";
export type { CalibrationCurve, Model, ModelFamily, Outputs, Quantity, Safety } from "./model.ts";
export type { Prepared } from "./prepared/prepare.ts";
export type { GeneratorFamily, Sequence, Substream } from "./random/stream.ts";
export type { Correlation } from "./dependence/dependence.ts";
export type { Group } from "./dependence/group.ts";
export type { Cause, ExplanationRecord, Recommendation } from "./record/explanation.ts";
export type { PairedRecord } from "./record/paired.ts";
export type { LinearisedRecord } from "./record/linearised.ts";
export type { CurvePoint, CurveRecord, JointRecord, PairGrid, PairRecord } from "./record/joint.ts";
export type { ExplorationSettings } from "./low-discrepancy/explore.ts";
export type * from "./low-discrepancy/exploration.ts";
export type * from "./record/figures.ts";
export type * from "./record/record.ts";
export type { ComparedFigure, GeneratorComparison } from "./validation/second-generator.ts";
export type * from "./record/sensitivity.ts";
export type { Study, StudyDocument, StudyOf } from "./study/study.ts";
export type { SweepPoint, SweepRecord } from "./record/sweep.ts";
export type { Sample } from "./statistics/sample.ts";
export type { Batch, MeasurandBatch, TrialSource } from "./trials/batch.ts";
