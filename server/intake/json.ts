import { jsonBreak, placeInText } from "../../viewer/present/json-place.ts";
import { Fault } from "../errors.ts";

/** Most characters of a line that a message shows. */
const SHOWN = 20;

/**
 * A text from bytes that must be UTF-8; a byte-order mark stays, so that the text has the bytes' content in full.
 *
 * @throws {Fault} `not-json` for bytes that are no UTF-8
 */
export function textOf(content: Uint8Array | string, name: string): string {
  if (typeof content === "string") return content;
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(content);
  } catch {
    throw new Fault("not-json", `${name} is not JSON: expected text in UTF-8, got bytes of another encoding`);
  }
}

/**
 * Reads JSON: a study, a record, a description, a signature.
 *
 * @param name how the file is called in the fault
 * @throws {Fault} `not-json` with line and column, what JSON expects there and what stands there
 */
export function parseJson(content: Uint8Array | string, name: string): unknown {
  // A byte-order mark is no fault of the person's.
  const text = textOf(content, name).replace(/^\uFEFF/, "");
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    const found = jsonBreak(text);
    if (found === null) throw error;
    const { line, column } = placeInText(text, found.at);
    const rest = text.slice(found.at).split("\n", 1)[0]!.trim();
    const got =
      found.at === text.length
        ? "the end of the text"
        : rest === ""
          ? "the end of the line"
          : rest.length > SHOWN
            ? `${rest.slice(0, SHOWN)}…`
            : rest;
    throw new Fault(
      "not-json",
      `${name} is not JSON (line ${line}, column ${column}): expected ${found.expected}, got ${got}`,
    );
  }
}
