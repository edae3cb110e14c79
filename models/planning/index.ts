// How a laboratory could reach an uncertainty over its range: what gains most, what steps reach, what a run confirms.
export { planSchema, readPlan, type PlanDocument } from "./document.ts";
export { MOST_PLAN_POINTS, planOf, type Plan, type Planned, type PlanPoint, type Reached } from "./plan.ts";
export { confirmationOf, type Confirmation, type ConfirmedPoint } from "./confirmed.ts";
export { type Halving } from "./halvings.ts";
export { type Predicted } from "./predict.ts";
export { type Choice } from "./changed.ts";
export { type TargetStanding } from "./standing.ts";
