import type { Model, ModelFamily } from "../engine/index.ts";
import { additive } from "./general/additive.ts";
import { bathComparison } from "./bath/comparison.ts";
import { sprtBath } from "./bath/reference-sprt.ts";
import { calibrationPoints } from "./calibration/index.ts";
import { probeFit } from "./platinum/probe-fit.ts";
import { sprtFixedPoints } from "./platinum/sprt-fixed-points.ts";
import { twoWirePlant } from "./platinum/two-wire-plant.ts";
import { lethalRate } from "./general/lethal-rate.ts";
import { commonTerm } from "./published/common-term.ts";
import { comparisonLoss } from "./published/comparison-loss.ts";
import { endGauge } from "./published/end-gauge.ts";
import { gaugeBlock } from "./published/gauge-block.ts";
import { impedance } from "./published/impedance.ts";
import { massCalibration } from "./published/mass-calibration.ts";
import { polarCoordinates } from "./published/polar-coordinates.ts";
import { typedEquation } from "./equation/index.ts";
import { thermometerLine } from "./published/thermometer-line.ts";

/** Every registered model: one line a model. */
export const models: readonly (Model | ModelFamily)[] = [
  bathComparison,
  sprtBath,
  probeFit,
  calibrationPoints,
  sprtFixedPoints,
  twoWirePlant,
  lethalRate,
  additive,
  typedEquation,
  massCalibration,
  comparisonLoss,
  gaugeBlock,
  commonTerm,
  polarCoordinates,
  endGauge,
  impedance,
  thermometerLine,
];

export {
  additive,
  bathComparison,
  endGauge,
  lethalRate,
  massCalibration,
  probeFit,
  sprtBath,
  sprtFixedPoints,
  twoWirePlant,
};
export * from "./calibration/index.ts";
export * from "./equation/index.ts";
export * as platinum from "./platinum/index.ts";
export * from "./evaluation/budget-table/index.ts";
export * from "./safety/cautions.ts";
export * from "./sweep/index.ts";
export * from "./evaluation/certificate/index.ts";
export * from "./safety/fluids.ts";
export * from "./evaluation/d-si/index.ts";
export * from "./evaluation/immersion/index.ts";
export * from "./evaluation/log/index.ts";
export * from "./history/index.ts";
export * from "./interlaboratory/index.ts";
export * from "./planning/index.ts";
export * from "./evaluation/readings/index.ts";
export * from "./evaluation/survey/index.ts";
export * from "./evaluation/table/index.ts";
export * from "./evaluation/templates/index.ts";
