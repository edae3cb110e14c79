import { basename, resolve } from "node:path";
import { Option } from "commander";
import { openAsked, withOutputs } from "../output-file.ts";
import { findChromium, printToPdf } from "../report/chromium.ts";
import { reportDocument } from "../report/document.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import type { Paper } from "../../viewer/report/report-html.ts";
import { hasStore } from "../store/open-store.ts";
import type { CommandRegistration } from "./command.ts";
import { unalteredRecord } from "../record/unaltered.ts";
import { withStore, withStoreOption } from "./store-folder.ts";

export interface ReportFlags {
  readonly out?: string;
  readonly pdf?: string;
  /** Without it the laboratory's, if its store is there; else English. */
  readonly language?: Language;
  /** Folder of the store. */
  readonly store?: string;
  readonly paper?: Paper;
}

export const report: CommandRegistration = (program) => {
  withStoreOption(program.command("report"))
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
      new Option(
        "--language <language>",
        "language of the report; without it that of the laboratory's defaults, if the store is there, else en",
      ).choices(Object.keys(languages)),
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
  const record = await unalteredRecord(file);
  const { language = languageIn(flags.store), paper } = flags;
  const made = (on: Paper | undefined): Promise<string> =>
    reportDocument(record, basename(file), { language, ...(on === undefined ? {} : { paper: on }) });
  // Found before anything is written, so that a missing browser leaves no partial result.
  const chromium = flags.pdf === undefined ? null : findChromium();
  const document = await made(paper);
  const html = await openAsked(flags.out, "The report");
  await withOutputs([html], async () => {
    const pdf = await openAsked(flags.pdf, "The report");
    await withOutputs([pdf], async () => {
      await html?.write(document);
      await pdf?.write(await printToPdf(await made(paper ?? "A4"), chromium!));
    });
  });
  if (flags.out === undefined && flags.pdf === undefined) process.stdout.write(document);
}

/** The language that the laboratory has stated for its reports; English where there is no store. */
const languageIn = (folder: string | undefined): Language =>
  folder !== undefined && hasStore(resolve(folder))
    ? withStore(folder, ({ desk }) => desk.laboratory().language)
    : "en";
