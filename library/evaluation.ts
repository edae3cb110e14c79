// The package's door `trialband/evaluation`: from raw evidence to what a study states.

// To read a description (JSON), a table, a log.
export { readCertificate, readImmersion, readReadings, readSurvey } from "./read-descriptions.ts";
export { csvRows, formatInstant, readSeries, thermometerLog } from "../models/index.ts";
export type {
  Cell,
  CsvRow,
  Instant,
  LogSettings,
  Series,
  SeriesRequest,
  TableRow,
  ThermometerLog,
} from "../models/index.ts";

// Readings of a comparison: differences with their type A uncertainty.
export {
  comparisonStatements,
  differenceStatement,
  evaluateReadings,
  evaluateTypeA,
  pool as pooledReadings,
  screenOutliers,
  statedReadings,
} from "../models/index.ts";
export type {
  EarlierSeries,
  OutlierScreening,
  OutlierStep,
  ProbeEvaluation,
  ReadingsDescription,
  StatedReadings,
  TypeAEvaluation,
  TypeAOptions,
} from "../models/index.ts";

// A bath's survey: stability, and differences over the working zone.
export { evaluateStability, evaluateSurvey, StabilityFollower, surveyStatements } from "../models/index.ts";
export type {
  FollowOptions,
  Followed,
  StabilityEvaluation,
  StabilityOptions,
  StabilityWindow,
  SurveyChoice,
  SurveyDescription,
  SurveyDocument,
  SurveyEvaluation,
} from "../models/index.ts";

// Immersion: conduction along a stem.
export {
  evaluateImmersion,
  evaluateWithdrawal,
  fitStemConduction,
  immersionStatement,
  stemConductionStatement,
  withdrawalStatement,
} from "../models/index.ts";
export type {
  DepthReading,
  ImmersionDescription,
  ImmersionEvaluation,
  StemConductionFit,
  StemConductionOptions,
  Withdrawal,
  WithdrawalEvaluation,
} from "../models/index.ts";

// Certificates: what a reference's calibration states at a temperature, and how it drifts.
export {
  certificateAt,
  certificateFromDsi,
  certificateStatement,
  driftStatement,
  evaluateCertificate,
  evaluateDrift,
  interpolationStatement,
  validityOf,
} from "../models/index.ts";
export type {
  Certificate,
  CertificateDocument,
  CertificateEvaluation,
  CertificatePoint,
  CertificateValue,
  DriftEvaluation,
  HistoryPoint,
  ImportedCertificate,
  Validity,
} from "../models/index.ts";

// A budget kept as a table becomes a study.
export { complete as completeBudgetTable, readBudgetTable } from "../models/index.ts";
export type {
  BudgetSheet,
  BudgetTableOptions,
  BudgetTableReading,
  CompleteReading,
  MappingQuestion,
  StatedMapping,
} from "../models/index.ts";

// A whole calibration: several points that share inputs.
export { calibrationResult, readCalibration, studyOf as studyOfCalibration } from "../models/index.ts";
export type {
  CalibratedPoint,
  Calibration,
  CalibrationDocument,
  CalibrationFit,
  CalibrationPoint,
  CalibrationResult,
} from "../models/index.ts";

// Between laboratories: reference values, consistency, degrees of equivalence and scores.
export {
  degreesOfEquivalence,
  evaluateLaboratories,
  normalisedError,
  randomEffects,
  readLaboratories,
  weightedMean,
  zetaScore,
} from "../models/index.ts";
export type {
  Equivalence,
  LaboratoriesEvaluation,
  LaboratoryComparison,
  LaboratoryResult,
  RandomEffects,
  ReferenceValue,
  ResultCorrelation,
  StatedValue,
  WeightedMean,
} from "../models/index.ts";
