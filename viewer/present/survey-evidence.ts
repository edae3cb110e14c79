/** Names of figures that the evaluation of a survey, and no other, gives as evidence: by them a row finds its survey. */
export const SURVEY_EVIDENCE = {
  worstFrom: "worst window from",
  largestUncertainty: "largest standard uncertainty of a difference",
} as const;
