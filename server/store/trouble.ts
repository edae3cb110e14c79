import { Fault } from "../errors.ts";

/** SQLite's primary result codes that speak of the disk or the file, in words. Source: sqlite.org, "Result and Error Codes". */
const TROUBLE: ReadonlyMap<number, string> = new Map([
  [5, "another program is writing to it; try again in a moment"],
  [8, "the file or its folder is read-only"],
  [10, "the disk reports an error"],
  [11, "the file is damaged; restore a backup"],
  [13, "the disk is full"],
  [14, "the file cannot be opened"],
  [26, "the file is not a store of Trialband"],
]);

const BUSY = 5;
/** Seconds that a restore or a backup of another program takes. */
const RETRY_AFTER = 5;
const CANNOT_OPEN = 14;
/** The primary code is the last byte of an extended one. */
const PRIMARY = 0xff;

/**
 * An error of the database as a fault, if the disk or the file is the cause; any other error as it is.
 *
 * @param path the file, for the message
 */
export function storeFault(error: unknown, path: string): unknown {
  const words = TROUBLE.get(codeOf(error));
  if (words === undefined) return error;
  const message = `The store ${path} cannot be used: ${words}.`;
  return codeOf(error) === BUSY ? new Fault("busy", message, [], RETRY_AFTER) : new Fault("cannot-keep", message);
}

function codeOf(error: unknown): number {
  const { code, rawCode, message } = (error ?? {}) as { code?: unknown; rawCode?: unknown; message?: unknown };
  if (typeof rawCode === "number") return rawCode & PRIMARY;
  // A file that cannot be opened has no code, only words.
  return code === "" || String(message).startsWith("ConnectionFailed") ? CANNOT_OPEN : 0;
}
