import type { Model, ModelFamily } from "../engine/index.ts";
import { additive } from "./additive/additive.ts";
import { bathComparison } from "./bath/comparison.ts";
import { endGauge } from "./published/end-gauge.ts";
import { massCalibration } from "./published/mass-calibration.ts";

/** Every registered model: one line a model. */
export const models: readonly (Model | ModelFamily)[] = [bathComparison, additive, massCalibration, endGauge] as unknown as readonly (
  | Model
  | ModelFamily
)[];

export { additive, bathComparison, endGauge, massCalibration };
