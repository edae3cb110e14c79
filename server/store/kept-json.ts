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

/** Stands for a text that the store has and that cannot be read any more. */
export const UNREADABLE = "(cannot be read)";

/** A text that Trialband has written as JSON; `null` if it was altered so that it is none. */
export function keptText(json: string): string | null {
  try {
    const text: unknown = JSON.parse(json);
    return typeof text === "string" ? text : null;
  } catch {
    return null;
  }
}

/** A list of texts that Trialband has written as JSON; none if it was altered so that it is no list of texts. */
export function keptTexts(json: string): readonly string[] {
  try {
    const texts: unknown = JSON.parse(json);
    return Array.isArray(texts) ? texts.filter((text): text is string => typeof text === "string") : [];
  } catch {
    return [];
  }
}
