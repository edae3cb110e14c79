import { basename } from "node:path";
import { Option } from "commander";
import type { ReportedRecord } from "../../engine/index.ts";
import { typedEquationOf } from "../../models/index.ts";
import { readNamed } from "../intake/named-file.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import { findChromium, printToPdf } from "./chromium.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { alteredFault, openRecord, recordDigest } from "../record/open.ts";
import { reportHtml, type Paper } from "../../viewer/report/report-html.ts";
import type { CommandRegistration } from "./command.ts";

export interface ReportFlags {
  readonly out?: string;
  readonly pdf?: string;
  readonly language: Language;
  readonly paper?: Paper;
}

/** Largest record file that is read; a study with the longest lists makes a far smaller one. */
const LARGEST = 256 * 1024 * 1024;

export const report: CommandRegistration = (program) => {
  program
    .command("report")
    .argument("<record>", "record file, as run --out writes it")
    .summary("write the report of a record, as one HTML file or a PDF")
    .description(
      "Writes the report of a record for the laboratory's file: one HTML file that needs no network and no script, or its PDF, printed by an installed Chromium.",
    )
    .option("--out <file>", "write the HTML to a file; without --out and --pdf it is printed")
    .option(
      "--pdf <file>",
      "print the report to a PDF; TRIALBAND_CHROMIUM names the browser if it is in no usual place",
    )
    .addOption(
      new Option("--language <language>", "language of the report").choices(Object.keys(languages)).default("en"),
    )
    .addOption(
      new Option("--paper <size>", "paper of the PDF (default A4); the HTML takes the printer's by default").choices([
        "A4",
        "Letter",
      ]),
    )
    .addHelpText(
      "after",
      "\nExample:\n  trialband run my-study.json --out record.json && trialband report record.json --out report.html --pdf report.pdf",
    )
    .action(async (file: string, flags: ReportFlags) => reportCommand(file, flags));
};

/** @throws {Fault} a file that is missing, too large, not JSON or no record; no browser; a place that cannot be written to */
export async function reportCommand(file: string, flags: ReportFlags): Promise<void> {
  const { record, altered } = openRecord(await readNamed(file, LARGEST), file);
  if (altered.length > 0) throw alteredFault(record, altered, file);
  const options = {
    digest: recordDigest(record),
    messages: languages[flags.language],
    command: repeatCommand(record, basename(file)),
    typed: await typedEquationOf(record.study),
  };
  // Found before anything is written, so that a missing browser leaves no partial result.
  const chromium = flags.pdf === undefined ? null : findChromium();
  const document = reportHtml(record, { ...options, ...(flags.paper === undefined ? {} : { paper: flags.paper }) });
  const html = flags.out === undefined ? null : await openOutput(flags.out, "The report");
  await withOutputs([html], async () => {
    const pdf = flags.pdf === undefined ? null : await openOutput(flags.pdf, "The report");
    await withOutputs([pdf], async () => {
      await html?.write(document);
      await pdf?.write(await printToPdf(reportHtml(record, { ...options, paper: flags.paper ?? "A4" }), chromium!));
    });
  });
  if (flags.out === undefined && flags.pdf === undefined) process.stdout.write(document);
}

/** The command that computes every figure of a record again and compares it. */
export const repeatCommand = ({ provenance }: ReportedRecord, file: string): string =>
  ["npx", "trialband", "verify", ...(provenance?.modelSource ? ["--trust-model"] : []), quoted(file)].join(" ");

/** A word as a shell takes it; a name that begins with a dash would be taken for an option. */
function quoted(word: string): string {
  const safe = word.startsWith("-") ? `./${word}` : word;
  return /^[\w./@:+-]+$/.test(safe) ? safe : `'${safe.replaceAll("'", String.raw`'\''`)}'`;
}
