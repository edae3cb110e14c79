import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Fault } from "../errors.ts";
import { openDatabase } from "./database.ts";
import { parseKept } from "./kept-json.ts";

/** The right to run a server on a store. */
export interface StoreLock {
  /** Leaves the server's address for the one that comes second. */
  publish(address: string): void;
  release(): void;
}

const LOCK = "server.lock";
const ADDRESS = "server.json";

/**
 * Takes the lock of a store. The operating system holds it for this process and gives it up when the process ends, in
 * whatever way, so that no lock outlives its server.
 *
 * @throws {Fault} `store-in-use`, with the address of the server that has it
 */
export function takeLock(folder: string): StoreLock {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new Fault("cannot-keep", `The store ${folder} cannot be written: ${message}`);
  }
  const database = openDatabase(join(folder, LOCK));
  try {
    database.exec("PRAGMA busy_timeout = 0");
    database.exec("BEGIN EXCLUSIVE");
  } catch (error) {
    database.close();
    if (error instanceof Fault && error.code === "busy") throw new Fault("store-in-use", inUse(folder));
    throw error;
  }
  const place = join(folder, ADDRESS);
  // Of a server that was killed: its address leads nowhere.
  rmSync(place, { force: true });
  return {
    publish(address) {
      const part = `${place}.part`;
      writeFileSync(part, `${JSON.stringify({ address, process: process.pid })}\n`, { mode: 0o600 });
      renameSync(part, place);
    },
    release() {
      rmSync(place, { force: true });
      database.exec("ROLLBACK");
      database.close();
    },
  };
}

function inUse(folder: string): string {
  const words = `The store ${folder} is in use by another server`;
  const another = "or name another store with --store.";
  const file = join(folder, ADDRESS);
  try {
    const { address, process: holder } = holderIn(readFileSync(file), file);
    return `${words}, at ${address} (process ${holder}). Use that one, stop it, ${another}`;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT")
      return `${words}, which is starting. Wait for it, ${another}`;
    return `${words}. Where it listens cannot be read: ${error instanceof Error ? error.message : String(error)}. Stop it, ${another}`;
  }
}

/** The server that has the store, by its own word. @throws {Error} that names the file */
function holderIn(content: Uint8Array, file: string): { readonly address: string; readonly process: number } {
  const { address, process: holder } = (parseKept(content, file) ?? {}) as Record<string, unknown>;
  if (typeof address !== "string" || typeof holder !== "number")
    throw new Error(`${file} holds no address and process`);
  return { address, process: holder };
}
