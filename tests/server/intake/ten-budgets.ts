import { join } from "node:path";

/** Where the ten budgets lie. */
export const BUDGETS = join(import.meta.dirname, "budgets");

/** A budget as a laboratory keeps it, and what has to be answered on its way to a study. */
export interface KeptBudget {
  readonly file: string;
  readonly habits: string;
  /** Questions that the table leaves open, each with the answer to choose. */
  readonly answers: readonly (readonly [question: RegExp, answer: string])[];
  /** What is remarked of its own sums, besides that they are sums. */
  readonly remarks: readonly RegExp[];
}

/** Ten budgets of invented laboratories; their figures stand in tests/reference/budgets.py. */
export const TEN_BUDGETS: readonly KeptBudget[] = [
  { file: "brackenholt.csv", habits: "the form of EA-4/02, with the result's row", answers: [], remarks: [] },
  {
    file: "eschenried.csv",
    habits: "German, Windows-1252, units in the cells, groups with subtotals",
    answers: [],
    remarks: [/read as Windows-1252/],
  },
  {
    file: "valmorin.xlsx",
    habits: "French, merged headings over two rows, units in a column",
    answers: [],
    remarks: [],
  },
  { file: "robledal.xlsx", habits: "Spanish, data on another sheet by formulas", answers: [], remarks: [] },
  {
    file: "poggiolo.txt",
    habits: "Italian, UTF-16 with tabs, type A or B alone",
    answers: [],
    remarks: [],
  },
  {
    file: "quillmere.txt",
    habits: "pasted, a row of units, percentages of u², ν as 1E+99",
    answers: [],
    remarks: [],
  },
  { file: "weidenhag.xlsx", habits: "German, factors in place of divisors", answers: [], remarks: [] },
  {
    file: "tarnwick.csv",
    habits: "two columns that could both be the uncertainty",
    answers: [[/Which is the uncertainty: column D .* or column E/, "Column E (Uncertainty 2026)"]],
    remarks: [/not used: column D \(Uncertainty 2025\)/],
  },
  {
    file: "sablonnet.csv",
    habits: "French, limits in two columns, a coverage factor left out",
    answers: [[/With which coverage factor/, "k = 2"]],
    remarks: [],
  },
  {
    file: "farrowby.xlsx",
    habits: "a table for each temperature on one sheet",
    answers: [[/Which of the tables of this sheet/, "The one headed by row 7: Bath at 80 °C"]],
    remarks: [],
  },
];
