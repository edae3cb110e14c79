import { extname } from "node:path";
import { Option } from "commander";
import { MAXIMUM_TRIALS } from "../../engine/internal.ts";
import { Fault } from "../errors.ts";
import { TRIAL_FORMATS, writeTrials, type TrialFormat, type TrialsToWrite } from "../export/trials/write-trials.ts";
import { parseJson } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { inModelThread } from "../own-model/host.ts";
import { isModelPath } from "../shelves/model.ts";
import { bringsOwnModel } from "../shelves/study.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { limitsOf, withModelLimits, type ModelLimitFlags } from "./model-limits.ts";
import { withProgress } from "./threaded-run.ts";

interface TrialsFlags extends ModelLimitFlags {
  readonly out: string;
  readonly format?: TrialFormat;
  readonly trials?: number;
  readonly seed?: string;
  readonly measurandsOnly?: boolean;
  readonly trustModel?: boolean;
}

export const trials: CommandRegistration = (program) => {
  withModelLimits(
    program
      .command("trials")
      .argument("<file>", "record file, as run --out writes it, or study file")
      .summary("write the trials themselves, for other tools: Parquet or NumPy")
      .description(
        "Draws the trials of a record or a study again, bit for bit, and writes every input and every measurand of each trial as Apache Parquet or as a structured array of NumPy (.npy), with names, meanings and units. It writes as it draws: memory does not grow with their number. Trials of a record are held against its figures.",
      )
      .requiredOption("--out <file>", "the file to write; its ending, .parquet or .npy, says how")
      .addOption(new Option("--format <format>", "the format, if the ending does not say it").choices(TRIAL_FORMATS))
      .option("--trials <n>", "trials of a study, in place of its own", wholeNumber(1, MAXIMUM_TRIALS))
      .option("--seed <text>", "seed of a study, in place of its own")
      .option("--measurands-only", "leave the inputs out")
      .option("--trust-model", "run the model that a record carries: it is code of the record's author"),
  )
    .addHelpText(
      "after",
      `
Examples:
  trialband trials record.json --out trials.parquet
  trialband trials my-study.json --trials 1e5 --out trials.npy && python3 -c "import numpy; print(numpy.load('trials.npy').dtype)"`,
    )
    .action(async (file: string, flags: TrialsFlags) => trialsCommand(file, flags));
};

/** @throws {Fault} */
async function trialsCommand(file: string, flags: TrialsFlags): Promise<void> {
  const { isRecord, ownModel } = await lookAt(file);
  if (isRecord && (flags.trials !== undefined || flags.seed !== undefined))
    throw new Fault("bad-input", "The trials of a record are those of its run.", [
      {
        place: flags.trials === undefined ? "--seed" : "--trials",
        value: String(flags.trials ?? flags.seed),
        accepted: "nothing for a record; a study file takes other trials and another seed",
      },
    ]);
  const job: TrialsToWrite = {
    path: file,
    from: isRecord ? "record" : "study",
    trustModel: flags.trustModel ?? false,
    ...(flags.trials === undefined ? {} : { trials: flags.trials }),
    ...(flags.seed === undefined ? {} : { seed: flags.seed }),
    measurandsOnly: flags.measurandsOnly ?? false,
    format: flags.format ?? formatOf(flags.out),
    out: flags.out,
  };
  const written = await withProgress(limitsOf(flags), (options) =>
    ownModel && (!isRecord || job.trustModel)
      ? inModelThread({ kind: "trials", ...job }, options)
      : writeTrials(job, {
          signal: options.signal,
          onProgress: (drawn, limit) => options.onProgress?.({ trials: drawn, limit, adaptive: false }),
        }),
  );
  process.stderr.write(`${written.trials} trials of ${written.columns.join(", ")} in ${flags.out}\n`);
}

/** Whether a file is a record, and whether its model is code of its author's own. */
async function lookAt(file: string): Promise<{ readonly isRecord: boolean; readonly ownModel: boolean }> {
  if (isModelPath(file)) return { isRecord: false, ownModel: true };
  const document = parseJson(await readNamed(file), file) as {
    readonly format?: unknown;
    readonly provenance?: { readonly modelSource?: unknown };
  } | null;
  const isRecord = typeof document?.format === "string" && document.format.startsWith("trialband-record/");
  return {
    isRecord,
    ownModel: isRecord ? typeof document.provenance?.modelSource === "string" : await bringsOwnModel(file),
  };
}

function formatOf(out: string): TrialFormat {
  const ending = extname(out).slice(1).toLowerCase();
  const format = TRIAL_FORMATS.find((name) => name === ending);
  if (format !== undefined) return format;
  throw new Fault("bad-input", "The ending of the file to write names no format.", [
    { place: "--out", value: out, accepted: "a file that ends in .parquet or .npy, or --format beside it" },
  ]);
}
