import type { Problem } from "../engine/index.ts";
import { whereJsonBreaks } from "./json-place.ts";

/** A file read as a study, or what is wrong with it. */
export type OpenedFile =
  | { readonly document: Readonly<Record<string, unknown>>; readonly problems: null }
  | { readonly document: null; readonly problems: readonly Problem[] };

const MOST_BYTES = 5_000_000;

/** Reads a file the reader chose or dropped. */
export async function openFile(file: File): Promise<OpenedFile> {
  if (file.size > MOST_BYTES) {
    return refused([{ place: file.name, value: `${file.size} bytes`, accepted: `a study file of at most ${MOST_BYTES} bytes` }]);
  }
  return readStudyText(await file.text(), file.name);
}

/**
 * Takes the text of a study file apart. What the study says is for the server to judge; here it only has to be JSON
 * with the outline of a study.
 */
export function readStudyText(text: string, name: string): OpenedFile {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    return refused([{ place: name, value: placeInText(text), accepted: "a study file: JSON text" }]);
  }
  if (typeof document !== "object" || document === null || Array.isArray(document)) {
    return refused([{ place: name, value: describe(document), accepted: "a study: an object with title, model and inputs" }]);
  }
  const fields = document as Record<string, unknown>;
  if (fields.format === "trialband-record/1") {
    return refused([{ place: `${name}: format`, value: '"trialband-record/1", the record of a run', accepted: "a study; the one this record came from stands in its field study" }]);
  }
  const problems: Problem[] = [];
  if (typeof fields.model !== "string") problems.push({ place: `${name}: model`, value: describe(fields.model), accepted: "the id of a model, as text" });
  if (typeof fields.inputs !== "object" || fields.inputs === null || Array.isArray(fields.inputs)) {
    problems.push({ place: `${name}: inputs`, value: describe(fields.inputs), accepted: "an object with a distribution for every input quantity" });
  }
  return problems.length > 0 ? refused(problems) : { document: fields, problems: null };
}

const refused = (problems: readonly Problem[]): OpenedFile => ({ document: null, problems });

function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** Line and column where the text stops being JSON, with the line itself. */
function placeInText(text: string): string {
  if (text.trim() === "") return "an empty file";
  const at = whereJsonBreaks(text) ?? 0;
  const before = text.slice(0, at).split("\n");
  const line = text.split("\n")[before.length - 1]!.trim();
  const shown = line.length > 50 ? `${line.slice(0, 47)}…` : line;
  return `not JSON from line ${before.length}, column ${before.at(-1)!.length + 1}: ${shown === "" ? "the text ends" : shown}`;
}
