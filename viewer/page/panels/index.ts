import type { Panel } from "./panel.ts";
import { assessor } from "./assessor.ts";
import { budget } from "./budget.ts";
import { cautions } from "./cautions.ts";
import { conformity } from "./conformity.ts";
import { curve } from "./curve.ts";
import { distributions } from "./distributions.ts";
import { figures } from "./figures.ts";
import { leftOut } from "./left-out.ts";
import { joint } from "./joint.ts";
import { linearised } from "./linearised.ts";
import { provenance } from "./provenance.ts";
import { remarks } from "./remarks.ts";
import { sensitivity } from "./sensitivity.ts";
import { settling } from "./settling.ts";
import { sweep } from "./sweep.ts";
import { verdict } from "./verdict.ts";
import { whatIf } from "./what-if.ts";
import { why } from "./why.ts";

export type { Panel, View } from "./panel.ts";

/** The panels in the order of the sheet. */
export const panels: readonly Panel[] = [
  verdict,
  distributions,
  why,
  linearised,
  conformity,
  sweep,
  curve,
  budget,
  leftOut,
  sensitivity,
  joint,
  whatIf,
  figures,
  settling,
  remarks,
  cautions,
  assessor,
  provenance,
];
