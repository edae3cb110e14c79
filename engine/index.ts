// The package's door `trialband`: what a program that declares models and propagates studies reads, and nothing else.
// What only the server, the page and the commands of Trialband need is in `internal.ts`.

// To declare a model: its quantities, its function, and functions whose last bits are fixed.
export { defineModel } from "./model.ts";
export { implicitModel } from "./implicit/implicit-model.ts";
export * as elementary from "./elementary/index.ts";
export { findBracket, findRoot, findRootBySlope } from "./numerics/root.ts";
export type { CalibrationCurve, Model, ModelFamily, Outputs, Quantity, Safety, Values } from "./model.ts";
export type { ImplicitDeclaration, ImplicitModel } from "./implicit/implicit-model.ts";
export type { Bracket } from "./numerics/root.ts";
export type { Tolerance, ToleranceSpecification } from "./tolerance.ts";

// To state a study: what is known of each input, and how it is to be propagated.
export { defineStudy, readStudy } from "./study/study.ts";
export type { DefinedStudy, Study, StudyDocument, StudyOf } from "./study/study.ts";
export type { Statement } from "./distributions/index.ts";
export type { Evidence } from "./distributions/evidence.ts";

// To propagate it: at once, in steps, or by points that explore; on several threads with trialband/node and
// trialband/workers.
export { propagate, propagation } from "./run/propagate.ts";
export type { CancelSignal, Progress, PropagateOptions } from "./run/propagate.ts";
export { explore } from "./low-discrepancy/explore.ts";
export type { ExplorationSettings } from "./low-discrepancy/explore.ts";
export type { Estimated, Exploration, ExploredFigure, ExploredMeasurand } from "./low-discrepancy/exploration.ts";

// To look at it before and at its trials one by one: the linear budget alone, and every trial's values.
export { prepare } from "./prepared/prepare.ts";
export { drawTrials } from "./run/draw-trials.ts";
export type { Prepared } from "./prepared/prepare.ts";
export type { DrawOptions, TrialBlock } from "./run/draw-trials.ts";
export type { Contribution, LinearBudget } from "./linear/budget.ts";

// To read a record: its parts by name, its sentences in another language, and a result as a certificate states it.
export { speakRecord } from "./sentences/speak.ts";
export { roundResult } from "./record/rounding.ts";
export type { Language } from "./sentences/languages.ts";
export type { Spoken, SpokenMeasurand, SpokenRecord } from "./sentences/speak.ts";
export type { RecordOf } from "./record/record-of.ts";
export type {
  ContributionRecord,
  CorrelatedTerm,
  Doubt,
  Environment,
  Figure,
  Histogram,
  InputRecord,
  LeftOutInput,
  LinearRecord,
  MeasurandRecord,
  ModelSummary,
  MonteCarloRecord,
  Provenance,
  ReportedRecord,
  RunRecord,
  Seal,
  SealedRecord,
  SecondOrderRecord,
  SettlingPoint,
  ValidationRecord,
} from "./record/record.ts";
export type { AssessmentRecord, ConformityRecord } from "./record/conformity.ts";
export type { CurvePoint, CurveRecord, JointRecord, PairGrid, PairRecord } from "./record/joint.ts";
export type { Cause, ExplanationRecord, Recommendation } from "./record/explanation.ts";
export type { LinearisedRecord } from "./record/linearised.ts";
export type { PairedRecord } from "./record/paired.ts";
export type {
  AloneRecord,
  ConditionalBin,
  ConditionalPicture,
  FactorRecord,
  IndexRecord,
  SensitivityRecord,
} from "./record/sensitivity.ts";
export type { SweepPoint, SweepRecord } from "./record/sweep.ts";
export type { Interval } from "./coverage/coverage-interval.ts";

// To report what cannot be used: in a model family of one's own, and where a record is made from what people type.
export { describeProblem, InputError, ModelError, refuse, show } from "./errors.ts";
export type { Problem } from "./errors.ts";

// The version whose draws a record has.
export { VERSION } from "./version.ts";
