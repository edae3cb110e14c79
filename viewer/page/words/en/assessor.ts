/** What an assessor does with a record on the sheet, and what a run without an end says of itself. */
export const assessorWords = {
  noVerdict: "No verdict",
  cancelled:
    "The run was cancelled after {trials} trials, so there is no verdict. The figures below stand for nothing.",
  failed: "The run failed after {trials} trials, so there is no verdict. The figures below stand for nothing.",
  provisional: "Provisional: the run goes on, and each batch of trials may change this.",
} as const;
