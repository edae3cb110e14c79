/** Drafts, in English. `{…}` stands for what is filled in. */
export const draftsWords = {
  copy: "A copy: when you run it, it becomes a study of its own beside {name}.",
  versions: {
    one: "When you run it, it becomes a new version of {name}, which has one version. Earlier runs keep theirs.",
    other: "When you run it, it becomes a new version of {name}, which has {n} versions. Earlier runs keep theirs.",
  },
  ages: {
    minute: { one: "{n} minute ago", other: "{n} minutes ago" },
    hour: { one: "{n} hour ago", other: "{n} hours ago" },
    day: { one: "{n} day ago", other: "{n} days ago" },
  },
  where: {
    unchanged: "What you write is kept as a draft until you run or discard it.",
    sending: "Keeping…",
    kept: "Kept as a draft.",
    here: "The server does not answer. What you write is kept in this browser, and sent when the server is back.",
    nowhere: "Neither the server nor this browser keeps what you write. Save it as a file before you leave.",
  },
  all: "All drafts and studies",
  asVersion: "Make it a new version instead",
  asCopy: "Make it a copy instead",
  justNow: "just now",
  untitled: "Without a title yet",
  changed: "changed {age}",
  discardOne: "Discard the draft {title}",
  discard: "Discard",
  discarded: "“{title}” was discarded.",
} as const;
