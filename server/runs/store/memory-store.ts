import type { RunStore, StoredRun } from "./run-store.ts";

/** Keeps runs for as long as the process lives. */
export function memoryStore(): RunStore {
  const runs = new Map<string, StoredRun>();
  return {
    save: async (run) => void runs.set(run.head.id, run),
    heads: async () => [...runs.values()].map(({ head }) => head),
    load: async (id) => runs.get(id) ?? null,
    remove: async (id) => void runs.delete(id),
  };
}
