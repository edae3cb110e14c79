import { Fault } from "../errors.ts";
import { parseJson } from "../intake/json.ts";

/**
 * Reads JSON that Trialband itself has written.
 *
 * @param name of the file, or of what is kept
 * @throws {Error} with the name, and the line and column where it breaks; not a fault of who asks for it
 */
export function parseKept(content: Uint8Array | string, name: string): unknown {
  try {
    return parseJson(content, name);
  } catch (error) {
    if (error instanceof Fault) throw new Error(error.message, { cause: error });
    throw error;
  }
}
