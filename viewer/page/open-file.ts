import { speech, words } from "./language.ts";
import { fillText } from "../present/fill.ts";
import type { Problem } from "../../engine/index.ts";
import { acceptedBeside, otherFile } from "../present/file-kind.ts";
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
const ACCEPTED = words.openFile.accepted;

/** Whether a file describes readings, an immersion check or a certificate: the server judges what it says. */
export async function isEvidence(file: File): Promise<boolean> {
  if (file.size > MOST_BYTES) return false;
  if (/\.xml$/i.test(file.name)) return true;
  if (!/\.json$/i.test(file.name)) return false;
  const { model, steps, channels, reference, planned, limit, points, thermometer } = parsed(await file.text());
  return (
    model === undefined &&
    steps === undefined &&
    ((channels !== undefined && reference !== undefined) ||
      (planned !== undefined && limit !== undefined) ||
      (points !== undefined && thermometer !== undefined))
  );
}

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
        value: fillText(words.openFile.several, { n: String(files.length) }),
        accepted: words.openFile.oneFile,
      },
    ]);
  }
  if (descriptions.length > 1)
    return refused([
      {
        place: named(descriptions),
        value: fillText(words.openFile.descriptions, { n: String(descriptions.length) }),
        accepted: words.openFile.oneAtATime,
      },
    ]);
  const large = files.find(({ size }) => size > MOST_LOG_BYTES);
  if (large !== undefined)
    return refused([
      {
        place: large.name,
        value: fillText(words.openFile.bytes, { n: String(large.size) }),
        accepted: fillText(words.openFile.mostLog, { most: String(MOST_LOG_BYTES), file: description.name }),
      },
    ]);
  if (files.length === 1) {
    const log = logNamed(await description.text());
    return refused([
      {
        place: fillText(words.openFile.logOf, { file: description.name }),
        value: words.openFile.noLog,
        accepted: fillText(words.openFile.logBeside, { log: log ?? words.openFile.someLog }),
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
    return refused([
      {
        place: file.name,
        value: speech.translate(other.is),
        accepted: acceptedBeside(ACCEPTED, speech.translate(other.instead)),
      },
    ]);
  const document = /\.json$/i.test(file.name) || /^(?:\u00ef\u00bb\u00bf)?\s*[{[]\s*["{\]}]/.test(start);
  const most = document ? MOST_RECORD_BYTES : MOST_BYTES;
  if (file.size > most)
    return refused([
      {
        place: file.name,
        value: fillText(words.openFile.bytes, { n: String(file.size) }),
        accepted: fillText(words.openFile.most, { most: String(most) }),
      },
    ]);
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
    return refused([{ place: name, value: describe(document), accepted: words.openFile.aStudy }]);
  }
  const fields = document as Record<string, unknown>;
  if (typeof fields.format === "string") {
    if (fields.format.startsWith("trialband-record/")) return { kind: "record", document: fields, problems: null };
    return refused([
      {
        place: fillText(words.openFile.format, { file: name }),
        value: describe(fields.format),
        accepted: words.openFile.formats,
      },
    ]);
  }
  const problems: Problem[] = [];
  if (typeof fields.model !== "string")
    problems.push({
      place: fillText(words.openFile.model, { file: name }),
      value: describe(fields.model),
      accepted: words.openFile.modelId,
    });
  if (typeof fields.inputs !== "object" || fields.inputs === null || Array.isArray(fields.inputs)) {
    problems.push({
      place: fillText(words.openFile.inputs, { file: name }),
      value: describe(fields.inputs),
      accepted: words.openFile.someInputs,
    });
  }
  return problems.length > 0 ? refused(problems) : { kind: "study", document: fields, problems: null };
}

const refused = (problems: readonly Problem[]): OpenedFile => ({ kind: "refused", problems });

function describe(value: unknown): string {
  if (value === undefined) return words.openFile.nothing;
  if (Array.isArray(value)) return fillText(words.openFile.list, { n: String(value.length) });
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** Line and column where the text stops being JSON, with the line itself. */
function placeWords(text: string): string {
  if (text.trim() === "") return words.openFile.empty;
  const at = jsonBreak(text)?.at ?? 0;
  const place = placeInText(text, at);
  const line = text.split("\n")[place.line - 1]!.trim();
  const shown = line.length > 50 ? `${line.slice(0, 47)}…` : line;
  return fillText(words.openFile.notJson, {
    line: String(place.line),
    column: String(place.column),
    shown: shown === "" ? words.openFile.textEnds : shown,
  });
}
