import type { Template } from "./template.ts";

/**
 * A budget of terms: one of each common way to know a quantity. The last row is compared with what the terms combine to:
 * √(5² + 3²/3 + 0.5²/3 + 2² + 1.5²) mK = 5.86 mK (JCGM 100, 5.1.2).
 */
export const budgetTemplate: Template = {
  name: "budget",
  for: "budget",
  title: "a budget table",
  content: {
    kind: "table",
    rows: [
      [
        "Quantity",
        "Symbol",
        "Estimate",
        "Unit",
        "Uncertainty",
        "How stated",
        "Distribution",
        "Divisor",
        "Sensitivity coefficient",
        "Degrees of freedom",
        "Source",
      ],
      [
        "Certificate of the reference",
        "δt_cal",
        0,
        "mK",
        10,
        "k = 2",
        "normal",
        2,
        1,
        null,
        "certificate of the reference",
      ],
      [
        "Drift of the reference",
        "δt_drift",
        0,
        "mK",
        3,
        "half-width",
        "rectangular",
        "√3",
        1,
        null,
        "earlier certificates",
      ],
      [
        "Resolution of the probe",
        "δt_res",
        0,
        "mK",
        0.5,
        "half-width",
        "rectangular",
        "√3",
        1,
        null,
        "last digit shown",
      ],
      ["Stability of the bath", "δt_stab", 0, "mK", 2, "standard", "normal", 1, 1, null, "survey of the bath"],
      ["Repeatability", "δt_rep", 0, "mK", 1.5, "standard", "t", 1, 1, 9, "ten readings"],
      ["Combined standard uncertainty", null, null, "mK", 5.86, null, null, null, null, null, null],
    ],
  },
};
