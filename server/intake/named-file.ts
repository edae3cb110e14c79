import { readFile, stat } from "node:fs/promises";
import { Fault } from "../errors.ts";

/**
 * Reads a file that a person named.
 *
 * @param most bytes it may have
 * @throws {Fault} `no-such-file` if it is missing, a folder or not readable; `too-large`
 */
export async function readNamed(path: string, most = Infinity): Promise<Buffer> {
  const found = await stat(path).catch((error: NodeJS.ErrnoException) => {
    throw unreadable(path, error);
  });
  if (found.isDirectory()) throw new Fault("no-such-file", `${path} is a folder; expected a file.`);
  if (found.size > most) throw new Fault("too-large", `${path} has ${found.size} bytes; expected at most ${most}.`);
  return readFile(path).catch((error: NodeJS.ErrnoException) => {
    throw unreadable(path, error);
  });
}

const unreadable = (path: string, { code, message }: NodeJS.ErrnoException): Fault =>
  new Fault(
    "no-such-file",
    code === "ENOENT" || code === "ENOTDIR" ? `There is no file ${path}.` : `${path} cannot be read: ${message}`,
  );
