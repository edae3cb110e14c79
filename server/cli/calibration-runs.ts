import type { StudyDocument } from "../../engine/index.ts";
import { calibrationResult, statedFit, studyOf, type CalibrationResult, type StatedFit } from "../../models/index.ts";
import { inFile } from "../intake/in-file.ts";
import type { LoadedCalibration } from "../intake/calibration.ts";
import { inModelThread, type ModelLimits } from "../own-model/host.ts";
import type { SealedRecord } from "../record/seal.ts";
import { defaultWorkers } from "../runs/pool/pool.ts";
import { loadStudyDocument, type Overrides } from "../shelves/study.ts";
import { progressLine } from "./progress.ts";
import { threadedRun } from "./threaded-run.ts";

/** One instrument's part of a calibration. */
export interface CalibratedInstrumentRun {
  readonly result: CalibrationResult;
  readonly record: SealedRecord;
}

export interface CalibrationRunFlags {
  readonly trials?: number;
  readonly seed?: string;
  readonly workers?: number;
}

/** Trials of one instrument that this thread draws before it starts others: as long as they take to start. */
const ALONE_FIRST = 100_000;
/** The model is one of Trialband's: neither time nor memory is to end it. */
const NO_LIMITS: ModelLimits = { seconds: 2_000_000, megabytes: 1_000_000 };

/**
 * Runs the studies of a calibration. Several instruments run side by side, each on a thread of its own from the draws to
 * the record; one alone has its trials drawn by all threads. The figures are identical, bit for bit, either way.
 *
 * @param ids the instruments
 * @throws {InputError | Fault} of the first that fails; the others are ended
 */
export async function calibrationRuns(
  { calibration }: LoadedCalibration,
  file: string,
  ids: readonly string[],
  { trials, seed, workers = defaultWorkers() }: CalibrationRunFlags,
): Promise<readonly CalibratedInstrumentRun[]> {
  const overrides: Overrides = { ...(trials === undefined ? {} : { trials }), ...(seed === undefined ? {} : { seed }) };
  // Before the first run, so that what cannot be used costs no trials.
  const studies: StudyDocument[] = [];
  for (const id of ids) studies.push(await inFile(file, () => studyOf(calibration, id)));
  const load = (study: unknown) => inFile(file, () => loadStudyDocument(study, null, overrides));
  const stated = (): (StatedFit | null)[] => ids.map((id, i) => statedFit(calibration, id, studies[i]!));
  const records: SealedRecord[] = [];
  let fits: readonly (StatedFit | null)[] = [];
  if (ids.length === 1 || workers === 1) {
    for (const study of studies) records.push(await threadedRun(await load(study), workers, undefined, ALONE_FIRST));
    fits = stated();
  } else {
    records.push(...(await sideBySide(studies, file, overrides, workers, () => (fits = stated()))));
  }
  return records.map((record, i) => ({ record, result: calibrationResult(calibration, ids[i]!, record, fits[i]!) }));
}

/** @param meanwhile what this thread does while the others draw */
async function sideBySide(
  studies: readonly unknown[],
  file: string,
  overrides: Overrides,
  workers: number,
  meanwhile: () => void,
): Promise<readonly SealedRecord[]> {
  const progress = progressLine(process.stderr);
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  const at = studies.map(() => ({ trials: 0, limit: 0, adaptive: false }));
  const records: SealedRecord[] = [];
  let next = 0;
  /** Runs one study after the other, as long as there are any. */
  const lane = async (): Promise<void> => {
    for (let i = next++; i < studies.length; i = next++) {
      const own = Math.max(1, Math.floor(workers / studies.length));
      const job = { kind: "run", path: file, document: studies[i], overrides, workers: own, aloneFirst: 0 } as const;
      records[i] = await inModelThread(job, {
        signal: abort.signal,
        limits: NO_LIMITS,
        onProgress: (found) => {
          at[i] = found;
          const sum = (field: "trials" | "limit"): number => at.reduce((all, each) => all + each[field], 0);
          progress.show(sum("trials"), sum("limit"), found.adaptive);
        },
      });
    }
  };
  try {
    const lanes = Promise.all(Array.from({ length: Math.min(workers, studies.length) }, lane));
    // Awaited below.
    lanes.catch(() => undefined);
    meanwhile();
    await lanes;
    return records;
  } finally {
    abort.abort();
    progress.clear();
    process.off("SIGINT", interrupt);
  }
}
