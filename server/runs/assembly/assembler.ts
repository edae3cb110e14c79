import { openOneThread } from "../../one-thread.ts";
import type { AssemblyResults, AssemblyTask, Filing, Gathering } from "./messages.ts";

/**
 * Assembles records in a thread of its own: of a study of many inputs it takes half a second, in which the server goes on to
 * answer.
 */
export interface Assembler {
  /** What the explanation is made from; it needs nothing of the trials, and is made while these are drawn. */
  compare(of: Pick<Gathering, "recipe">, signal: AbortSignal): Promise<AssemblyResults["compare"]>;
  /** The record of a point of a sweep. */
  figures(of: Gathering, signal: AbortSignal): Promise<AssemblyResults["figures"]>;
  /** The record of the run, whole, sealed and written out. */
  file(of: Filing, signal: AbortSignal): Promise<AssemblyResults["file"]>;
  close(): Promise<void>;
}

/** The thread starts with the first run. Each task throws what is wrong, `cancelled` or `worker-lost`. */
export function openAssembler(): Assembler {
  const thread = openOneThread<AssemblyTask, AssemblyResults[AssemblyTask["kind"]]>({
    file: "assemble.cjs",
    what: "records being assembled",
    // A run has its own limit of time and its own queue.
    waiting: Infinity,
  });
  const run = async <K extends AssemblyTask["kind"]>(
    task: Extract<AssemblyTask, { readonly kind: K }>,
    signal: AbortSignal,
  ): Promise<AssemblyResults[K]> => (await thread.run(task, signal)) as AssemblyResults[K];
  return {
    compare: ({ recipe }, signal) => run<"compare">({ kind: "compare", recipe }, signal),
    figures: ({ recipe, gathered }, signal) => run<"figures">({ kind: "figures", recipe, gathered }, signal),
    file: (of, signal) => run<"file">({ kind: "file", ...of }, signal),
    close: () => thread.close(),
  };
}
