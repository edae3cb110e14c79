import { refused } from "../errors.ts";
import type { BroughtFile } from "../shelves/survey-uploads.ts";
import type { ReadResults, ReadTask } from "./messages.ts";
import { openOneThread } from "./one-thread.ts";

/** Reads files that requests bring, in a thread of their own: a log of 20 MB takes seconds. */
export interface Reader {
  /** A budget table, as `loadBudgetStudy`. @throws {Fault} as that, and as a checker */
  budget(
    file: BroughtFile,
    options: Extract<ReadTask, { readonly kind: "budget" }>["options"],
    signal: AbortSignal,
  ): Promise<ReadResults["budget"]>;
  /** A survey from its description and its logs. @throws {Fault} what cannot be used of them, and as a checker */
  survey(files: readonly BroughtFile[], signal: AbortSignal): Promise<ReadResults["survey"]>;
  close(): Promise<void>;
}

/** Seconds that a reading may take: many times what a log of 20 MB does. */
const MOST_SECONDS = 60;

/** The thread starts with the first file. */
export function openReader(seconds = MOST_SECONDS): Reader {
  const thread = openOneThread<ReadTask, ReadResults[ReadTask["kind"]]>({
    file: "read.cjs",
    what: "readings of files",
    seconds,
    late: () =>
      refused("file", `a file whose reading takes more than ${seconds} s`, "a smaller one; the command line takes it"),
  });
  const run = async <K extends ReadTask["kind"]>(
    task: Extract<ReadTask, { readonly kind: K }>,
    signal: AbortSignal,
  ): Promise<ReadResults[K]> => (await thread.run(task, signal)) as ReadResults[K];
  return {
    budget: (file, options, signal) => run<"budget">({ kind: "budget", file, options }, signal),
    survey: (files, signal) => run<"survey">({ kind: "survey", files }, signal),
    close: () => thread.close(),
  };
}
