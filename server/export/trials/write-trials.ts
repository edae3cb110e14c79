import { prepare, VERSION, type ReportedRecord } from "../../../engine/index.ts";
import { requirePure } from "../../../engine/internal.ts";
import { Fault } from "../../errors.ts";
import { openOutput, withOutputs } from "../../output-file.ts";
import { recordDigest } from "../../record/open.ts";
import { unalteredRecord } from "../../record/unaltered.ts";
import { runStudy } from "../../runs/run-study.ts";
import { studyOfRecord } from "../../shelves/record-study.ts";
import { loadStudyFile, type LoadedStudy } from "../../shelves/study.ts";
import { npyBytes } from "./npy.ts";
import { parquetBytes } from "./parquet.ts";
import { trialTable, type TableOptions, type TrialTable } from "./trial-table.ts";

export const TRIAL_FORMATS = ["parquet", "npy"] as const;
export type TrialFormat = (typeof TRIAL_FORMATS)[number];

/** What trials are written to a file from. */
export interface TrialsToWrite {
  readonly path: string;
  readonly from: "study" | "record";
  /** Run a model that a record carries. */
  readonly trustModel: boolean;
  /** In place of the study's own; a record has those of its run. */
  readonly trials?: number;
  readonly seed?: string;
  readonly measurandsOnly: boolean;
  readonly format: TrialFormat;
  readonly out: string;
}

export interface WrittenTrials {
  readonly trials: number;
  readonly columns: readonly string[];
}

type Following = Pick<TableOptions, "signal"> & {
  readonly onProgress?: ((trials: number, limit: number) => void) | undefined;
};

/**
 * Draws the trials of a study or a record again and writes them to a file as they come.
 *
 * @throws {Fault | InputError | ModelError} a file that cannot be used or written, or a record whose trials another version drew
 */
export async function writeTrials(job: TrialsToWrite, { signal, onProgress }: Following = {}): Promise<WrittenTrials> {
  const output = await openOutput(job.out, "The trials");
  return withOutputs([output], async () => {
    const record = job.from === "record" ? await unalteredRecord(job.path) : null;
    const loaded =
      record === null
        ? await loadStudyFile(job.path, {
            ...(job.trials === undefined ? {} : { trials: job.trials }),
            ...(job.seed === undefined ? {} : { seed: job.seed }),
          })
        : await studyOfRecord(record, job.trustModel);
    const count = record?.trials.count ?? (await countOf(loaded, signal));
    const table = tableOf(loaded, record, {
      count,
      measurandsOnly: job.measurandsOnly,
      signal,
      onProgress: (trials) => onProgress?.(trials, count),
    });
    await output.write(trialBytes(table, job.format));
    return { trials: count, columns: table.columns.map(({ name }) => name) };
  });
}

/** The trials of a loaded study; of a record, held against its figures. */
export function tableOf(
  { study, model, reference }: LoadedStudy,
  record: ReportedRecord | null,
  options: Omit<TableOptions, "facts">,
): TrialTable {
  const prepared = prepare(model, study);
  if (reference.kind === "module") requirePure(model, prepared.source);
  const facts = {
    title: study.title,
    program: `trialband ${VERSION}`,
    seed: study.seed,
    generator: study.generator,
    trials: String(options.count),
    ...(record === null ? {} : { record: recordDigest(record) }),
  };
  const table = trialTable(prepared, { ...options, facts });
  return record === null ? table : { ...table, parts: heldAgainst(record, table) };
}

export const trialBytes = (table: TrialTable, format: TrialFormat): AsyncGenerator<Uint8Array> =>
  format === "npy" ? npyBytes(table) : parquetBytes(table);

/** Trials that a study has; one that stops by itself is run to see. */
async function countOf(loaded: LoadedStudy, signal: AbortSignal | undefined): Promise<number> {
  const { trials } = loaded.study;
  if (trials !== "adaptive") return trials;
  const { record, release } = await runStudy({ ...loaded, study: { ...loaded.study, sweep: null } }, { signal });
  release();
  return record.trials.count;
}

/** The same parts; at the end they must have reached as far as the record's trials. @throws {Fault} `bad-input` */
async function* heldAgainst(
  { measurands, engine }: ReportedRecord,
  { columns, parts }: TrialTable,
): AsyncGenerator<readonly Float64Array[]> {
  const names = Object.keys(measurands);
  const first = columns.length - names.length;
  const reach = names.map(() => [Infinity, -Infinity] as [number, number]);
  for await (const values of parts) {
    reach.forEach((ends, i) => {
      for (const value of values[first + i]!) {
        if (value < ends[0]) ends[0] = value;
        if (value > ends[1]) ends[1] = value;
      }
    });
    yield values;
  }
  names.forEach((name, i) => {
    const { least, greatest } = measurands[name]!.monteCarlo;
    if (reach[i]![0] !== least || reach[i]![1] !== greatest)
      throw new Fault(
        "bad-input",
        `The trials drawn here are not those of the record, which names version ${engine.version}: install that version, or verify the record.`,
        [
          {
            place: `measurands.${name}.monteCarlo`,
            value: `trials from ${least} to ${greatest}`,
            accepted: `those drawn here, from ${reach[i]![0]} to ${reach[i]![1]}`,
          },
        ],
      );
  });
}
