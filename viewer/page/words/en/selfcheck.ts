/** The check of the installation, in English. `{…}` stands for what is filled in. */
export const selfcheckWords = {
  pass: "pass",
  fail: "FAIL",
  lost: "The connection to the server was lost before the check had ended. What it found so far stands below.",
  quick: "Check quickly",
  full: "Check in full",
  stop: "Stop",
  made: "Checks made",
  asFile:
    "Opened, each group shows its lines; printed, the page shows them all. The same as a file for the quality records:",
  ended: "The check has ended: {tally}.",
  notEnded: "The check did not end",
  starting: "Starting…",
  started: "The check has started.",
  closing: "Closing…",
  step: "{done} of {all}. Now: {title}",
  stopped: "It was stopped. What it found until then stands below.",
  kind: "This installation",
  question: "Does it compute what it should?",
  about:
    "The published worked examples, tables, closed forms and tests of the random numbers are computed here and now. Each line states its source, the figure published, the one obtained and how far they may differ. ",
  durations: "Quickly takes seconds, with fewer trials and fewer points of the long tables; in full a minute or two.",
} as const;
