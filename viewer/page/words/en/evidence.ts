/** Words of the frame that every form of evidence stands in. `{…}` is filled in. */
export const evidenceWords = {
  found: "Found {value}; accepted: {accepted}",
  foundAt: "{place}: found {value}; accepted: {accepted}",
  complete: "Everything that is needed is there.",
  missing: "Still missing:",
  more: "and {count} more.",
  draftKept: "Draft kept.",
  keeping: "Keeping the draft…",
  keptHere: "Draft kept in this browser only: {reason}",
  saved: "Version {number} saved.",
  version: "Version {number}: {title}",
  versions: { survey: "Evaluated before", other: "Versions kept" },
  asFile: "Description as a file",
  print: "Print",
  removed: "“{title}” was removed.",
  undo: "Bring it back",
  remove: {
    survey: "Remove this survey",
    readings: "Remove these readings",
    immersion: "Remove this check",
    certificate: "Remove this certificate",
  },
} as const;
