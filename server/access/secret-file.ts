import { closeSync, fstatSync, openSync, readFileSync } from "node:fs";
import { Fault } from "../errors.ts";

/** A file of users or of a token has some kilobytes. */
const LARGEST = 1_000_000;
const OTHERS = 0o077;

/**
 * Reads a file that holds something secret.
 *
 * @param what how it is called in a message, such as "the file of users"
 * @throws {Fault} `no-such-file`; `bad-input`: others may read or change it, or it belongs to another
 */
export function readSecretFile(path: string, what: string): string {
  let descriptor: number;
  try {
    descriptor = openSync(path, "r");
  } catch (error) {
    throw new Fault("no-such-file", `${capital(what)} ${path} cannot be read: ${(error as Error).message}`);
  }
  try {
    const found = fstatSync(descriptor);
    if (!found.isFile() || found.size > LARGEST)
      throw fault(path, found.isFile() ? `${found.size} bytes` : "no file", `a file of at most ${LARGEST} bytes`);
    const { getuid } = process;
    // Windows has no such rights, and says 0o666 of every file.
    if (getuid !== undefined) {
      if ((found.mode & OTHERS) !== 0)
        throw fault(
          path,
          `rights ${(found.mode & 0o777).toString(8)}`,
          `rights 600: its owner's alone. Set them by chmod 600 ${path}`,
        );
      if (found.uid !== getuid() && found.uid !== 0)
        throw fault(path, `owner ${found.uid}`, `a file of the user who starts Trialband (${getuid()}), or of root`);
    }
    return readFileSync(descriptor, "utf8");
  } finally {
    closeSync(descriptor);
  }
}

const fault = (place: string, value: string, accepted: string): Fault =>
  new Fault("bad-input", "A file with secrets cannot be used.", [{ place, value, accepted }]);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
