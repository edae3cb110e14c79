/** The versions of a study over time, in English. `{…}` stands for what is filled in. */
export const trendWords = {
  open: "Trend of the versions: result, uncertainty and k over time",
  reading: "Reading the records…",
  failed: "The records could not be read: {why}",
  none: "There is no record to draw.",
  source: "The last run of each version, by the day of the run.",
  lines:
    "Lines: mean of the figures, and control limits at three times the mean moving range over 1.128 either side of it (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). A figure outside them asks for a reason; it is no verdict.",
  leftOut: "{count} records with another measurand or unit are left out.",
  name: "{what} of {count} versions over time.",
  estimate: "estimate {y}{unit}, with ± U",
  uncertainty: "standard uncertainty {u}({y}){unit}",
  factor: "coverage factor {k}",
  tooFew: "Control limits are drawn from {fewest} versions on; there are {count}.",
  allWithin: "All {count} lie within the control limits.",
  outside: "{outside} of {count} lie outside the control limits (large rings).",
} as const;
