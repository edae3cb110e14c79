import { join } from "node:path";
import { Option } from "commander";
import { calibrationHtml } from "../../viewer/report/calibration-html.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { languages } from "../../viewer/present/messages/index.ts";
import { en } from "../../viewer/present/messages/en/index.ts";
import { english } from "../../viewer/present/numbers.ts";
import { calibrationLines } from "../../viewer/terminal/calibration-lines.ts";
import { listPart, type Layout } from "../../viewer/terminal/lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { loadCalibration, type LoadedCalibration } from "../intake/calibration.ts";
import { openAsked, openOutput, withOutputs } from "../output-file.ts";
import { recordDigest } from "../record/open.ts";
import { recordText } from "../record/seal.ts";
import { findChromium, printToPdf } from "../report/chromium.ts";
import {
  asFileName,
  certificateOptions,
  draftLines,
  openCertificates,
  writeCertificates,
  type CertificateFlags,
} from "./certificate-files.ts";
import { calibrationRuns, type CalibratedInstrumentRun } from "./calibration-runs.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { print } from "./print.ts";
import { readingLine } from "./reading-line.ts";

interface CalibrateFlags extends CertificateFlags {
  readonly instrument?: string;
  readonly trials?: number;
  readonly seed?: string;
  readonly workers?: number;
  readonly out?: string;
  readonly records?: string;
  readonly report?: string;
  readonly pdf?: string;
  readonly json?: boolean;
}

export const calibrate: CommandRegistration = (program) => {
  const command = program
    .command("calibrate")
    .argument("<file>", "calibration: JSON that names the reference, the baths, the instruments and the points")
    .summary("run a whole calibration: errors at all points with their correlation, coefficients, the curve between")
    .description(
      "Runs the calibration of one or several instruments at several points. What the points share is drawn once for all of them, so that errors and coefficients have their covariance. Each instrument's run is a study of its own with a record that verify and report take.",
    )
    .option("--instrument <id>", "only this instrument")
    .option("--trials <n>", "number of trials in place of the document's", wholeNumber(20_000, 1e10))
    .option("--seed <text>", "seed in place of the document's")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--out <file>", "write the results (JSON) to a file")
    .option("--records <folder>", "write each instrument's record into a folder that exists, named by the instrument")
    .option("--report <file>", "write the report of the calibration (HTML)")
    .option("--pdf <file>", "print the report to a PDF");
  certificateOptions(command)
    .addOption(
      new Option("--language <language>", "language of the report and the certificates")
        .choices(Object.keys(languages))
        .default("en"),
    )
    .option("--json", "print the results (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
Surveys, the certificate and logs of readings that the document names are read from beside it.

A certificate is marked as a draft until every field that ISO/IEC 17025 asks for is filled in the document
(certificate, instruments.N.certificate); what is lacking is printed, and a draft has no digital calibration certificate.

Exit codes: 0 done, 1 the run failed, 2 input that cannot be used, 130 interrupted.

Examples:
  trialband calibrate examples/calibration/two-probes.json
  trialband calibrate my-calibration.json --records records --report report.html --out results.json
  trialband calibrate my-calibration.json --certificates issued --forms html,pdf,dcc,json`,
    )
    .action(async (file: string, flags: CalibrateFlags) => calibrateCommand(file, flags));
};

async function calibrateCommand(file: string, flags: CalibrateFlags): Promise<void> {
  const line = readingLine(process.stderr);
  const loaded = await loadCalibration(file, line.onRead).finally(() => line.clear());
  const chromium = flags.pdf === undefined ? null : findChromium();
  const ids = loaded.calibration.instruments.map(({ id }) => id);
  const wanted = flags.instrument === undefined ? ids : [flags.instrument];
  // Before the first run, so that a place that cannot be written to costs no result.
  const [out, html, pdf] = [
    await openAsked(flags.out, "The results"),
    await openAsked(flags.report, "The report"),
    await openAsked(flags.pdf, "The report"),
  ];
  const records = await Promise.all(
    (flags.records === undefined ? [] : wanted).map((id) =>
      openOutput(join(flags.records!, `${asFileName(id)}.json`), "The record"),
    ),
  );
  const certificates = await openCertificates(wanted, flags);
  await withOutputs([out, html, pdf, ...records, ...certificates.map((certificate) => certificate.file)], async () => {
    const runs = await calibrationRuns(loaded, file, wanted, flags);
    const text = resultsText(loaded, runs);
    await out?.write(text);
    for (const [i, output] of records.entries()) await output.write(recordText(runs[i]!.record));
    const report = (paper?: "A4"): string =>
      calibrationHtml(
        {
          ...loaded,
          instruments: runs.map(({ result, record }) => ({ result, record, digest: recordDigest(record) })),
        },
        languages[flags.language],
        paper,
      );
    await html?.write(report());
    await pdf?.write(await printToPdf(report("A4"), chromium!));
    const drafts = await writeCertificates(certificates, loaded, runs, flags.language);
    if (flags.json) process.stdout.write(text);
    else print(summary(loaded, runs, { styles: stylesFor(process.stdout), width: widthOf(process.stdout) }));
    process.stderr.write(draftLines(drafts));
  });
}

/** The results as JSON: what was stated, which files it came from, what was found of each instrument. */
const resultsText = ({ document, files }: LoadedCalibration, runs: readonly CalibratedInstrumentRun[]): string =>
  `${JSON.stringify(
    {
      format: "trialband-calibration/1",
      calibration: document,
      files,
      instruments: runs.map(({ result, record }) => ({ ...result, record: recordDigest(record) })),
    },
    null,
    2,
  )}\n`;

function summary(
  { calibration, files, overdue }: LoadedCalibration,
  runs: readonly CalibratedInstrumentRun[],
  layout: Layout,
): string {
  const words = en.calibration;
  return `${[
    layout.styles.bold(calibration.title),
    ...(calibration.laboratory === undefined ? [] : [calibration.laboratory]),
    ...(overdue === null ? [] : [fillText(words.overdue, { warning: overdue })]),
    ...runs.flatMap(({ result, record }) => [
      ...calibrationLines(result, layout),
      "",
      layout.styles.dim(
        fillText(words.record, {
          digest: recordDigest(record).slice(0, 16),
          trials: english.whole(record.trials.count),
          seed: JSON.stringify(record.study.seed),
        }),
      ),
    ]),
    ...listPart(layout, en.sections.cautions, [...new Set(runs.flatMap(({ record }) => record.cautions))]),
    ...listPart(
      layout,
      words.files,
      files.map(({ name, sha256 }) => `${name}  SHA-256 ${sha256.slice(0, 16)}`),
    ),
  ].join("\n")}\n`;
}
