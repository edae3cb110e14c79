/** The first screen, in English. `{…}` stands for what is filled in. */
export const startWords = {
  evidence: "Or type readings, an immersion check, a certificate",
  example: "Or look at an example first",
  runExample: "Run the example",
  exampleNote: "The error of a probe in the oil bath of a steriliser at 134 °C, with invented figures.",
  sheetNote: "An evidence sheet as it is printed: the verdict, why, and where the uncertainty comes from.",
  templates: "Templates to fill in",
  templateFor: "Template for {title}: ",
  templateKind: "Template for {title}, {kind}",
  question: "Does your uncertainty budget hold?",
  about:
    "This page sets the linear uncertainty budget of a measurement beside a Monte Carlo propagation of the same input quantities, and says whether the budget is validated and why. Begin with what you have.",
  ways: "Ways to begin",
  paste: "Or paste its cells",
  fillIn: "Fill in a budget",
  fillInNote:
    "Type each input quantity with its value, its uncertainty and how it is known. What you write is kept as a draft.",
  survey: "Evaluate a bath survey",
  surveyNote:
    "The log of thermometers moved about in a bath becomes its stability and its temperature differences, as input quantities.",
  yours: "Your studies and drafts",
  runHere: "The run kept here",
  runsHere: "All {n} runs kept here",
  goOn: "Go on with a draft",
  importNote:
    "Choose the table that you keep, CSV or XLSX, or drop it anywhere on this page. You see how each row was read before anything is run.",
} as const;
