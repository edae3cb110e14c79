import type { Template } from "./template.ts";

/**
 * The same terms as those of the budget table, headed as the table to type in is: its rows are pasted there, or the file is
 * imported. √(5² + 3²/3 + 0.5²/3 + 2² + 1.5²) mK = 5.86 mK (JCGM 100, 5.1.2).
 */
export const fillInTemplate: Template = {
  name: "fill-in",
  for: "fill-in",
  title: "the rows of a budget",
  content: {
    kind: "table",
    rows: [
      [
        "Symbol",
        "Quantity",
        "Value",
        "Unit",
        "How it is known",
        "Uncertainty",
        "Coverage factor",
        "ν",
        "Sensitivity",
        "Source",
      ],
      [
        "δt_cal",
        "certificate of the reference",
        0,
        "mK",
        "certificate, U with k",
        10,
        2,
        null,
        1,
        "certificate of the reference",
      ],
      ["δt_drift", "drift of the reference", 0, "mK", "rectangular, ± a", 3, null, null, 1, "earlier certificates"],
      ["δt_res", "resolution of the probe", 0, "mK", "rectangular, ± a", 0.5, null, null, 1, "last digit shown"],
      ["δt_stab", "stability of the bath", 0, "mK", "standard uncertainty u", 2, null, null, 1, "survey of the bath"],
      ["δt_rep", "repeatability", 0, "mK", "standard uncertainty u", 1.5, null, 9, 1, "ten readings"],
    ],
  },
};
