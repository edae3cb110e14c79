import type { Problem } from "../../engine/index.ts";
import { otherFile } from "../present/file-kind.ts";
import { jsonBreak, placeInText } from "../present/json-place.ts";

/** A file for what it is taken for, or what is wrong with it. */
export type OpenedFile =
  | { readonly kind: "study" | "record"; readonly document: Readonly<Record<string, unknown>>; readonly problems: null }
  /** Its content is for the server to read. */
  | { readonly kind: "table"; readonly problems: null }
  /** The description of a survey and its log, for the server to read. */
  | { readonly kind: "survey"; readonly files: readonly File[]; readonly problems: null }
  | { readonly kind: "refused"; readonly problems: readonly Problem[] };

const MOST_BYTES = 5_000_000;
/** A record holds pictures and settling of several measurands. */
const MOST_RECORD_BYTES = 16_000_000;
/** The log of a long survey; the server takes no more. */
const MOST_LOG_BYTES = 20_000_000;
const ACCEPTED = "a study or a record as JSON text, or a budget as a table (CSV, XLSX or pasted cells)";

/** Reads what the reader chose or dropped: one file, or a survey's description together with its log. */
export async function openFiles(files: readonly File[]): Promise<OpenedFile> {
  const [first] = files;
  const descriptions: File[] = [];
  for (const file of files)
    if (/\.json$/i.test(file.name) && file.size <= MOST_BYTES && isSurvey(await file.text())) descriptions.push(file);
  const [description] = descriptions;
  if (description === undefined) {
    if (files.length === 1) return openFile(first!);
    // A description that is no JSON is reported as such, not as missing.
    const broken = files.filter(({ name }) => /\.json$/i.test(name));
    const opened = broken.length === 1 ? await openFile(broken[0]!) : null;
    if (opened?.kind === "refused") return opened;
    return refused([
      {
        place: named(files),
        value: `${files.length} files at once`,
        accepted: "one file, or the description of a survey (JSON) together with the log that it names",
      },
    ]);
  }
  if (descriptions.length > 1)
    return refused([
      {
        place: named(descriptions),
        value: `${descriptions.length} descriptions of surveys`,
        accepted: "one at a time, together with the log that it names",
      },
    ]);
  const large = files.find(({ size }) => size > MOST_LOG_BYTES);
  if (large !== undefined)
    return refused([
      {
        place: large.name,
        value: `${large.size} bytes`,
        accepted: `a log of at most ${MOST_LOG_BYTES} bytes; the command line takes longer ones: npx trialband survey ${description.name}`,
      },
    ]);
  if (files.length === 1) {
    const log = logNamed(await description.text());
    return refused([
      {
        place: `${description.name}: log`,
        value: "no log opened with it",
        accepted: `${log ?? "the CSV or XLSX file of its log"}, chosen or dropped together with the description`,
      },
    ]);
  }
  return { kind: "survey", files, problems: null };
}

const named = (files: readonly File[]): string => files.map(({ name }) => name).join(", ");

/** The outline of a survey's description; what it says is for the server to judge. */
function isSurvey(text: string): boolean {
  const { steps, positions, thermometers, model } = parsed(text);
  return (
    model === undefined &&
    Array.isArray(steps) &&
    typeof positions === "object" &&
    positions !== null &&
    typeof thermometers === "object"
  );
}

function logNamed(text: string): string | null {
  const { file } = (parsed(text).log ?? {}) as { file?: unknown };
  return typeof file === "string" ? file : null;
}

function parsed(text: string): Readonly<Record<string, unknown>> {
  try {
    return (JSON.parse(text.replace(/^\uFEFF/, "")) ?? {}) as Record<string, unknown>;
  } catch {
    return {};
  }
}

/** Reads a file the reader chose or dropped. */
async function openFile(file: File): Promise<OpenedFile> {
  const start = await beginningOf(file);
  const other = otherFile(start, file.name);
  if (other !== null)
    return refused([{ place: file.name, value: other.is, accepted: `${ACCEPTED}: ${other.instead}` }]);
  const document = /\.json$/i.test(file.name) || /^(?:\u00ef\u00bb\u00bf)?\s*[{[]\s*["{\]}]/.test(start);
  const most = document ? MOST_RECORD_BYTES : MOST_BYTES;
  if (file.size > most)
    return refused([{ place: file.name, value: `${file.size} bytes`, accepted: `a file of at most ${most} bytes` }]);
  return document ? readStudyText(await file.text(), file.name) : { kind: "table", problems: null };
}

/** First bytes of a file, each as one letter. */
const beginningOf = async (file: File): Promise<string> =>
  String.fromCodePoint(...new Uint8Array(await file.slice(0, 4096).arrayBuffer()));

/**
 * Takes the text of a study or a record apart. What it says is for the server to judge; here it only has to be JSON with
 * the outline of one.
 */
export function readStudyText(text: string, name: string): OpenedFile {
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return refused([{ place: name, value: placeWords(text), accepted: ACCEPTED }]);
  }
  if (typeof document !== "object" || document === null || Array.isArray(document)) {
    return refused([
      { place: name, value: describe(document), accepted: "a study: an object with title, model and inputs" },
    ]);
  }
  const fields = document as Record<string, unknown>;
  if (typeof fields.format === "string") {
    if (fields.format.startsWith("trialband-record/")) return { kind: "record", document: fields, problems: null };
    return refused([
      {
        place: `${name}: format`,
        value: describe(fields.format),
        accepted: "trialband-record/ and a number for a record; nothing for a study",
      },
    ]);
  }
  const problems: Problem[] = [];
  if (typeof fields.model !== "string")
    problems.push({ place: `${name}: model`, value: describe(fields.model), accepted: "the id of a model, as text" });
  if (typeof fields.inputs !== "object" || fields.inputs === null || Array.isArray(fields.inputs)) {
    problems.push({
      place: `${name}: inputs`,
      value: describe(fields.inputs),
      accepted: "an object with a distribution for every input quantity",
    });
  }
  return problems.length > 0 ? refused(problems) : { kind: "study", document: fields, problems: null };
}

const refused = (problems: readonly Problem[]): OpenedFile => ({ kind: "refused", problems });

function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** Line and column where the text stops being JSON, with the line itself. */
function placeWords(text: string): string {
  if (text.trim() === "") return "an empty file";
  const at = jsonBreak(text)?.at ?? 0;
  const place = placeInText(text, at);
  const line = text.split("\n")[place.line - 1]!.trim();
  const shown = line.length > 50 ? `${line.slice(0, 47)}…` : line;
  return `not JSON from line ${place.line}, column ${place.column}: ${shown === "" ? "the text ends" : shown}`;
}
