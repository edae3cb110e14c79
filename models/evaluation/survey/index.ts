// Bath survey: from time-stamped logs to stability and differences over the working zone.
export { allanDeviations, overlappingAllanDeviation } from "./allan-deviation.ts";
export { surveySchema } from "./description.ts";
export { evaluateSurvey, surveyStatements } from "./evaluate.ts";
export { StabilityFollower } from "./following.ts";
export { GrowingOutline } from "./growing-outline.ts";
export { outlineOf } from "./outline.ts";
export { readPlanTable } from "./plan-table.ts";
export { evaluateStability, SHORTEST_WINDOW } from "./stability.ts";
export { movedDifference, swapDifference } from "./swap.ts";
export { synchronousDifference } from "./synchronous-difference.ts";

export type { AllanPoint } from "./allan-deviation.ts";
export type { SurveyDescription, SurveyDocument } from "./description.ts";
export type { AxisEvaluation, SmallerZone, SurveyChoice, SurveyEvaluation, SurveyQuantity } from "./evaluate.ts";
export type { CriterionState, Followed, FollowedWindow, FollowOptions } from "./following.ts";
export type { Outline } from "./outline.ts";
export type { PlannedPosition, PlannedStep, PlanTable } from "./plan-table.ts";
export type { StabilityEvaluation, StabilityOptions, StabilityWindow } from "./stability.ts";
export type { LimitsDistribution } from "./statement.ts";
export type { PairStep, Stay, UsableStep } from "./steps.ts";
export type { MeanDifference, SwapDifference } from "./swap.ts";
export type { SynchronousDifference } from "./synchronous-difference.ts";
export type { ZoneLimits, ZoneLine, ZonePoint, ZoneQuantity } from "./zone.ts";
export type { OffsetDetermination, ZoneComparison, ZoneMap } from "./zone-map.ts";
