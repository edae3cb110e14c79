import { recordText } from "../record/seal.ts";
import { loadSweep } from "../intake/sweep.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import { loadStudyDocument, type Overrides } from "../shelves/study.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { summaryOf } from "../../viewer/terminal/summary.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { print } from "./print.ts";
import { readingLine } from "./reading-line.ts";
import { threadedRun } from "./threaded-run.ts";
import { inFile } from "../intake/in-file.ts";

export interface SweepFlags {
  readonly trials?: number;
  readonly seed?: string;
  readonly workers?: number;
  readonly out?: string;
  readonly json?: boolean;
}

export const sweep: CommandRegistration = (program) => {
  program
    .command("sweep")
    .argument("<file>", "sweep: JSON that names a study, what is swept and what depends on it")
    .summary("run a study over one or two quantities: certificate by point, survey by bath, tables and functions")
    .description(
      "Runs a study at every point of a list or a grid of one or two quantities. Figures that depend on them come from tables, expressions, the certificate of the reference and surveys. All points draw the same random numbers, so that curves are smooth. It leaves one record, which verify and report take.",
    )
    .option("--trials <n>", "number of trials of each point in place of the study's", wholeNumber(20_000, 1e9))
    .option("--seed <text>", "seed in place of the study's")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--out <file>", "write the record (JSON) to a file")
    .option("--json", "print the record (JSON) in place of the summary")
    .addHelpText(
      "after",
      `
Exit codes: 0 done, 1 the run failed, 2 input that cannot be used, 130 interrupted.

Example:
  trialband sweep examples/range/grid.json --out record.json`,
    )
    .action(async (file: string, flags: SweepFlags) => {
      const output = await openAsked(flags.out, "The record");
      await withOutputs([output], async () => {
        const { record } = await runSweep(file, flags);
        await output?.write(recordText(record));
        if (flags.json) process.stdout.write(recordText(record));
        else print(summaryOf(record, null, stylesFor(process.stdout), widthOf(process.stdout)));
      });
    });
};

/** Loads and runs a sweep, with progress by point on a terminal. @throws {Fault} */
export async function runSweep(file: string, { trials, seed, workers }: SweepFlags) {
  const line = readingLine(process.stderr);
  const loaded = await loadSweep(file, line.onRead).finally(() => line.clear());
  const overrides: Overrides = {
    ...(trials === undefined ? {} : { trials }),
    ...(seed === undefined ? {} : { seed }),
  };
  const study = await inFile(file, () => loadStudyDocument(loaded.study, loaded.studyPath, overrides));
  return { loaded, record: await threadedRun(study, workers) };
}
