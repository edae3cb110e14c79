import type { RunStore, StoredRun } from "./run-store.ts";

/** Keeps runs for as long as the process lives. */
export function memoryStore(): RunStore {
  const runs: StoredRun[] = [];
  return {
    save: async (run) => void runs.push(run),
    all: async () => [...runs],
  };
}
