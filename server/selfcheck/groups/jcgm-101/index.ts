import type { CheckGroup } from "../../check.ts";
import { ADAPTIVE, adaptive } from "./adaptive.ts";
import { ADDITIVE, additive } from "./additive.ts";
import { COMPARISON_LOSS, comparisonLoss } from "./comparison-loss.ts";
import { gaugeBlock } from "./gauge-block.ts";
import { massCalibration } from "./mass-calibration.ts";

/**
 * The worked examples of JCGM 101:2008, clause 9, as examples/published states them. Closed forms and exact distribution functions were computed independently of this program.
 */
export const jcgm101: CheckGroup = {
  id: "jcgm-101",
  title: "Worked examples of JCGM 101:2008, clause 9",
  checks: (quick) => [
    ...ADDITIVE.map(additive),
    ...(quick ? [] : ADAPTIVE.map(adaptive)),
    { title: "9.3, mass calibration", source: "JCGM 101:2008, 9.3, tables 5 and 6", lines: massCalibration },
    ...COMPARISON_LOSS.map(comparisonLoss),
    { title: "9.5, gauge block", source: "JCGM 101:2008, 9.5, tables 10 and 11", lines: gaugeBlock },
  ],
};
