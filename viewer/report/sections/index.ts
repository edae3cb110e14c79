import type { Section } from "../report.ts";
import { budget } from "./budget.ts";
import { calibrationCurve } from "./calibration-curve.ts";
import { cautions } from "./cautions.ts";
import { conformity } from "./conformity.ts";
import { inputs } from "./inputs.ts";
import { joint } from "./joint.ts";
import { linearised } from "./linearised.ts";
import { model } from "./model.ts";
import { monteCarlo } from "./monte-carlo.ts";
import { provenance } from "./provenance.ts";
import { remarks } from "./remarks.ts";
import { result } from "./result.ts";
import { secondOrder } from "./second-order.ts";
import { sensitivity } from "./sensitivity.ts";
import { sweep } from "./sweep.ts";
import { settling } from "./settling.ts";
import { validation } from "./validation.ts";

/** Every section of a report: one line a section, in their order. */
export const sections: readonly Section[] = [
  result,
  model,
  inputs,
  budget,
  monteCarlo,
  validation,
  linearised,
  secondOrder,
  settling,
  sensitivity,
  conformity,
  sweep,
  joint,
  calibrationCurve,
  remarks,
  cautions,
  provenance,
];
