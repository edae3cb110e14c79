/** The room of plans, histories and comparisons, in English. `{…}` stands for what is filled in. */
export const outlookWords = {
  intro:
    "Open a plan for a smaller uncertainty over the range, the history of an instrument or a bath over years, or a comparison between laboratories, with the files that it names. Nothing is kept but the runs that you start.",
  open: "Open the files of a plan, a history or a comparison",
  openNote: "The document ends in .json. Select all its files at once.",
  examples: "Examples",
  examplePlan: "Plan: 15 mK from −40 °C to 134 °C",
  exampleHistory: "History: reference HR-02 from 2019 to 2026",
  exampleComparison: "Comparison: a probe at −40 °C in six rooms",
  reading: "Reading {count} files…",
  readingExample: "Reading the example…",
  read: "{title} is evaluated.",
  notRead: "The files cannot be used",
  notRun: "The proposal was not confirmed",
  confirm: "Confirm the proposal by a run",
  running: "The proposed study runs: {percent}",
  waiting: "The proposed study waits for its turn",
  confirmed: "The run has finished.",
  failed: "The run ended: {reason}",
  run: "Open the run as a sheet",
  files: "Files",
} as const;
