import { prepare, type ReportedRecord, type RunRecord } from "../../engine/index.ts";
import { madeAgain } from "../../engine/internal.ts";
import { runAndFile, runStudy, type RunOptions } from "../runs/run-study.ts";
import { loadModel, type ModelReference } from "../shelves/model.ts";
import { leavesOf, type Leaves } from "../record/leaves.ts";
import { readWritten } from "../record/written.ts";
import { recordText, resultsOf, type SealedRecord } from "../record/seal.ts";

/** How a repetition runs. */
export type RepeatOptions = Pick<RunOptions, "pool" | "assembler" | "signal" | "onProgress">;

/** Repetitions with other seeds from whose spread standard errors are found. */
export const REPETITIONS = 12;

/** Runs a study again. @returns the record that it gives here, as it would be filed */
export type Repeat = (
  study: ReportedRecord["study"],
  reference: ModelReference,
  options: RepeatOptions & Pick<RunOptions, "stopAt">,
) => Promise<SealedRecord>;

export const repeatStudy: Repeat = async (study, reference, options) => {
  const { assembler } = options;
  if (assembler !== undefined) {
    const { filed, release } = await runAndFile({ study, reference }, { ...options, assembler });
    release();
    return readWritten(filed.written);
  }
  const { record, release } = await runStudy({ study, reference }, options);
  release();
  // Through its text, as the filed one came: JSON knows no −0.
  return JSON.parse(recordText(record)) as SealedRecord;
};

/**
 * What a repetition is held against: everything that another version must give again, leaf by leaf. The study is what was
 * repeated, so it is left out, as is the version's name.
 */
export function comparedLeaves(record: RunRecord): Leaves {
  const found = LEAVES.get(record);
  if (found !== undefined) return found;
  const { study: _study, engine: _engine, format: _format, ...rest } = resultsOf(record) as RunRecord;
  const leaves = leavesOf(rest);
  LEAVES.set(record, leaves);
  return leaves;
}

/** A repetition may serve many records. */
const LEAVES = new WeakMap<RunRecord, Leaves>();

/** The record's study repeated with other seeds and as many trials, and what follows from the record's own figures. */
export async function evidenceOf(
  record: ReportedRecord,
  reference: ModelReference,
  options: RepeatOptions,
  repeat: Repeat,
): Promise<{ readonly repetitions: readonly Leaves[]; readonly madeAgain: Leaves; readonly formerly: Leaves }> {
  const { study, trials, sweep } = record;
  const stopAt = [trials.count, ...(sweep?.points.map((point) => point.trials) ?? [])];
  const prepared = prepare(await loadModel(reference), study);
  const repetitions: Leaves[] = [];
  for (let i = 0; i <= REPETITIONS; i++) {
    const seed = i === 0 ? study.seed : `${study.seed}|repetition ${i}`;
    repetitions.push(comparedLeaves(await repeat({ ...study, seed }, reference, { ...options, stopAt })));
  }
  return {
    repetitions,
    madeAgain: leavesOf(madeAgain(prepared, record)),
    formerly: leavesOf(madeAgain(prepared, record, "former")),
  };
}
