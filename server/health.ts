import { statfs } from "node:fs/promises";
import type { PartHealth, ServerHealth } from "../viewer/api/health.ts";
import type { Pool } from "./runs/pool/pool.ts";
import type { Store } from "./store/store.ts";

/** Free bytes below which no run of usual size is sure to be kept. */
const LEAST_FREE = 50_000_000;

/**
 * How the parts of a server are that a run needs: its store can be read, its threads have started or can be, its disk has
 * room.
 *
 * @param folder folder of the store; `null` if it is kept in memory
 * @param pool the threads, once the first run has asked for them
 */
export async function healthOf(
  store: Pick<Store, "head">,
  folder: string | null,
  pool: Promise<Pool> | undefined,
): Promise<ServerHealth> {
  const [kept, threads, disk] = await Promise.all([
    part(() => {
      store.head("");
      return "can be read";
    }),
    part(async () => (pool === undefined ? "start with the first run" : `${(await pool).workers} threads`)),
    part(async () => (folder === null ? "nothing is kept on a disk" : roomIn(folder))),
  ]);
  return { ok: [kept, threads, disk].every(({ ok }) => ok), parts: { store: kept, pool: threads, disk } };
}

async function part(look: () => string | Promise<string>): Promise<PartHealth> {
  try {
    return { ok: true, found: await look() };
  } catch (error) {
    return { ok: false, found: error instanceof Error ? error.message : String(error) };
  }
}

async function roomIn(folder: string): Promise<string> {
  const { bavail, bsize } = await statfs(folder);
  const free = `${Math.floor((bavail * bsize) / 1e6)} MB free`;
  if (bavail * bsize < LEAST_FREE) throw new Error(`${free}; expected at least ${LEAST_FREE / 1e6} MB`);
  return free;
}
