import { mkdir, open, readdir, readFile, rename, rm, type FileHandle } from "node:fs/promises";
import { join } from "node:path";
import type { RunHead } from "../../../viewer/api/runs.ts";
import type { RunStore, StoredRun } from "./run-store.ts";

/** Heads read at once when a server starts: enough to hide the disk's waits, few enough for any limit on open files. */
const AT_ONCE = 32;
/** Bytes a head takes at most but for a very long title: read first, and more only if that is not the whole line. */
const HEAD_BYTES = 4096;
/** More than any title and note together that a request can bring. */
const LONGEST_HEAD_PIECES = 32_000_000 / HEAD_BYTES;
const START = '{"head":';

/**
 * Keeps each run as one JSON file, written beside its place, synced, then renamed into it: a crash leaves the old
 * state or the new one, never half a file.
 *
 * The head stands on the first line, so that a list is made without reading the records:
 *
 *     {"head":{…},
 *     "body":{…}}
 *
 * @param warn called for each file that exists but cannot be read
 */
export function fileStore(folder: string, warn: (message: string) => void): RunStore {
  const placeOf = (id: string): string => join(folder, `${id}.json`);

  /** A change of the folder itself is only safe once the folder is synced. */
  const syncFolder = async (): Promise<void> => {
    const directory = await open(folder, "r");
    await directory.sync().finally(() => directory.close());
  };

  return {
    async save({ head, body }) {
      await mkdir(folder, { recursive: true, mode: 0o700 });
      const part = join(folder, `.${head.id}.part`);
      const file = await open(part, "w", 0o600);
      try {
        await file.writeFile(`{"head":${JSON.stringify(head)},\n"body":${JSON.stringify(body)}}\n`);
        await file.datasync();
      } catch (error) {
        await rm(part, { force: true }).catch(() => undefined);
        throw error;
      } finally {
        await file.close();
      }
      await rename(part, placeOf(head.id));
      await syncFolder();
    },
    async heads() {
      const all = await readdir(folder).catch(() => []);
      // What a server was writing when it was stopped; the state before it is under the run's own name.
      const parts = all.filter((name) => /^\.[0-9a-z-]+\.part$/i.test(name));
      await Promise.all(parts.map((name) => rm(join(folder, name), { force: true }).catch(() => undefined)));
      const names = all.filter((name) => name.endsWith(".json"));
      const heads: RunHead[] = [];
      const readSome = async (): Promise<void> => {
        for (let name = names.pop(); name !== undefined; name = names.pop()) {
          try {
            const head = await headOf(join(folder, name));
            // A file copied under another name would be listed, but not found.
            if (`${head.id}.json` !== name)
              throw new Error(`it holds the run ${head.id}, whose file is ${head.id}.json`);
            heads.push(head);
          } catch (error) {
            warn(`${join(folder, name)} is left out: ${error instanceof Error ? error.message : String(error)}`);
          }
        }
      };
      await Promise.all(Array.from({ length: AT_ONCE }, readSome));
      return heads.sort((a, b) => a.startedAt.localeCompare(b.startedAt));
    },
    async load(id) {
      const text = await readFile(placeOf(id), "utf8").catch((error: NodeJS.ErrnoException) => {
        if (error.code === "ENOENT") return null;
        throw error;
      });
      if (text === null) return null;
      const run = JSON.parse(text) as StoredRun;
      checkHead(run.head);
      return run;
    },
    async remove(id) {
      await rm(placeOf(id), { force: true });
      await syncFolder().catch((error: NodeJS.ErrnoException) => {
        // No folder, no run.
        if (error.code !== "ENOENT") throw error;
      });
    },
  };
}

async function headOf(path: string): Promise<RunHead> {
  const file = await open(path, "r");
  try {
    const line = await firstLine(file);
    // By place, not by a pattern: titles and notes hold any character, those that end a line in a pattern among them.
    if (!line.startsWith(START) || !line.endsWith("},")) throw new Error("it is no run");
    const head = JSON.parse(line.slice(START.length, -1)) as RunHead;
    checkHead(head);
    return head;
  } finally {
    await file.close();
  }
}

function checkHead(head: Partial<RunHead> | undefined): void {
  if (typeof head?.id !== "string" || typeof head.startedAt !== "string") throw new Error("it is no run");
}

async function firstLine(file: FileHandle): Promise<string> {
  const parts: Buffer[] = [];
  for (;;) {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, null);
    const end = buffer.subarray(0, bytesRead).indexOf("\n");
    parts.push(buffer.subarray(0, end < 0 ? bytesRead : end));
    if (end >= 0 || bytesRead === 0) return Buffer.concat(parts).toString("utf8");
    // Without a line's end this far the file is no run.
    if (parts.length > LONGEST_HEAD_PIECES) throw new Error("it is no run");
  }
}
