import type { ReportedRecord } from "../../engine/index.ts";
import { typedEquationOf } from "../../models/index.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { reportHtml, type Paper } from "../../viewer/report/report-html.ts";
import { recordDigest } from "../record/open.ts";

export interface ReportForm {
  readonly language: Language;
  /** Paper that a print is laid out for; without it the printer's. */
  readonly paper?: Paper;
}

/**
 * The report of a record.
 *
 * @param file name of the record's file, for the command that verifies it
 */
export const reportDocument = async (
  record: ReportedRecord,
  file: string,
  { language, paper }: ReportForm,
): Promise<string> =>
  reportHtml(record, {
    digest: recordDigest(record),
    messages: languages[language],
    command: repeatCommand(record, file),
    typed: await typedEquationOf(record.study),
    ...(paper === undefined ? {} : { paper }),
  });

/** The command that computes every figure of a record again and compares it. */
export const repeatCommand = ({ provenance }: ReportedRecord, file: string): string =>
  ["npx", "trialband", "verify", ...(provenance?.modelSource ? ["--trust-model"] : []), quoted(file)].join(" ");

/** A word as a shell takes it; a name that begins with a dash would be taken for an option. */
function quoted(word: string): string {
  const safe = word.startsWith("-") ? `./${word}` : word;
  return /^[\w./@:+-]+$/.test(safe) ? safe : `'${safe.replaceAll("'", String.raw`'\''`)}'`;
}
