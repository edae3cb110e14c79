/** What is done with a study that is not yet run, wherever it stands: in its form, from an import, before its run. */
export const studyWords = {
  run: "Run this study",
  save: "Save as a file",
} as const;
