import { mkdir, open, readdir, readFile, rename } from "node:fs/promises";
import { join } from "node:path";
import type { RunStore, StoredRun } from "./run-store.ts";

/**
 * Keeps each run as one JSON file, written beside its place, synced, then renamed into it: a crash leaves the old
 * state or the new one, never half a file.
 *
 * @param warn told of each file that is there but cannot be read
 */
export function fileStore(folder: string, warn: (message: string) => void): RunStore {
  return {
    async save(run) {
      await mkdir(folder, { recursive: true });
      const part = join(folder, `.${run.id}.part`);
      const file = await open(part, "w");
      try {
        await file.writeFile(JSON.stringify(run));
        await file.datasync();
      } finally {
        await file.close();
      }
      await rename(part, join(folder, `${run.id}.json`));
      // The rename itself is only safe once the folder is.
      const directory = await open(folder, "r");
      await directory.sync().finally(() => directory.close());
    },
    async all() {
      const names = (await readdir(folder).catch(() => [])).filter((name) => name.endsWith(".json"));
      const runs: StoredRun[] = [];
      for (const name of names) {
        try {
          const run = JSON.parse(await readFile(join(folder, name), "utf8")) as StoredRun;
          if (typeof run.id !== "string" || typeof run.startedAt !== "string") throw new Error("it is no run");
          runs.push(run);
        } catch (error) {
          warn(`${join(folder, name)} is left out: ${error instanceof Error ? error.message : String(error)}`);
        }
      }
      return runs.toSorted((a, b) => a.startedAt.localeCompare(b.startedAt));
    },
  };
}
