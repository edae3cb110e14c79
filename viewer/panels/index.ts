import type { Panel } from "./panel.ts";
import { budget } from "./budget.ts";
import { cautions } from "./cautions.ts";
import { distributions } from "./distributions.ts";
import { figures } from "./figures.ts";
import { provenance } from "./provenance.ts";
import { remarks } from "./remarks.ts";
import { settling } from "./settling.ts";
import { verdict } from "./verdict.ts";

export type { Panel, View } from "./panel.ts";

/** The panels in the order of the sheet. */
export const panels: readonly Panel[] = [
  verdict,
  distributions,
  budget,
  figures,
  settling,
  remarks,
  cautions,
  provenance,
];
