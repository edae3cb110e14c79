/** The list of studies and the latest runs, in English. `{…}` stands for what is filled in. */
export const shelfWords = {
  trials: { one: "{outcome}, {n} trials", other: "{outcome}, {n} trials" },
  search: "Search, compare, remove",
  all: "All {n} runs: search, compare, remove",
  groups: {
    published: "Worked examples of the standards",
    platinum: "Platinum thermometers",
    verdicts: "One for each verdict",
  },
  write: "Write a new study",
  own: "Studies of your own, drafts",
  find: "Find a study",
  reading: "Reading the list of studies…",
  open: "Open a file",
  openNote:
    "a study, a budget table (CSV, XLSX), a record, or a survey’s description together with its log; or drop it anywhere on the page",
  noStudies: "The server has no studies: open a file, or write a new one.",
  noneFound: "No study has all of these words.",
  latest: "Latest runs",
  readingRuns: "Reading the list of runs…",
  none: "None yet.",
} as const;
