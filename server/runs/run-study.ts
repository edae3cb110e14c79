import { prepare, type Prepared } from "../../engine/index.ts";
import {
  type Accumulation,
  type AccumulationState,
  requirePure,
  type PointFigures,
  studiesOfSweep,
  sweepRecord,
} from "../../engine/internal.ts";
import { loadModel } from "../shelves/model.ts";
import type { SealedRecord } from "../record/seal.ts";
import type { KeptStudy, LoadedStudy } from "../shelves/study.ts";
import { wholeRecord } from "./assembly/file-record.ts";
import type { FiledRecord, Filing } from "./assembly/messages.ts";
import type { Assembler } from "./assembly/assembler.ts";
import { breathe } from "./breathe.ts";
import { NEVER } from "../one-thread.ts";
import { drawPoints } from "./draw-points.ts";
import { drawStudy, recipeOf, type Drawing, type DrawnStudy } from "./draw-study.ts";

/** What is gathered of a run: plain data, from which it goes on to the same record, bit for bit. */
export interface GatheredRun {
  readonly study: AccumulationState;
  /** Figures of the points of the study's sweep that are done. */
  readonly points: readonly PointFigures[];
  /** The point that is being drawn. */
  readonly point: AccumulationState | null;
}

export interface RunOptions extends Drawing {
  /** What an interrupted run of the same study has gathered. */
  readonly from?: GatheredRun;
  /** Called when a point of the study's sweep is done. */
  readonly onPoint?: ((done: number, of: number) => void) | undefined;
  /** Called after each batch. What it is given is costly to ask, and may be asked until the next batch or the run's end. */
  readonly onGathered?: (gathered: () => GatheredRun) => void;
}

/** The trials of a run that has ended. */
export interface KeptSample {
  readonly gathered: Accumulation;
  /** Releases the trials: their memory serves the next run. `gathered` can be asked for nothing after. */
  readonly release: () => void;
}

export interface FinishedRun extends KeptSample {
  readonly record: SealedRecord;
}

/**
 * Runs a study; its model is loaded here if it is not yet. Batches are drawn here or on workers and added in their order, so the record reproduces exactly, bit for bit, either
 * way; only its `environment` shows how it was made.
 *
 * @throws {InputError | ModelError | Fault}
 */
export async function runStudy(toRun: KeptStudy | LoadedStudy, options: RunOptions = {}): Promise<FinishedRun> {
  const { prepared, begun, gathered, release } = await gatherRun(toRun, options);
  return { record: wholeRecord(prepared, gathered, begun), gathered, release };
}

/** As `runStudy`; the record comes from another thread, written out. */
export async function runAndFile(
  toRun: KeptStudy | LoadedStudy,
  options: RunOptions & { readonly assembler: Assembler },
): Promise<KeptSample & { readonly filed: FiledRecord }> {
  const { begun, gathered, release } = await gatherRun(toRun, options);
  try {
    const of = { ...begun, recipe: recipeOf(toRun), gathered: gathered.state };
    return { filed: await options.assembler.file(of, options.signal ?? NEVER), gathered, release };
  } catch (error) {
    // Nobody can ask a run that was cancelled or failed for its trials.
    release();
    throw error;
  }
}

interface Gathered extends Pick<DrawnStudy, "prepared" | "gathered" | "release"> {
  readonly begun: Omit<Filing, "recipe" | "gathered">;
}

/** All trials of a run and of the points of its sweep. */
async function gatherRun(toRun: KeptStudy | LoadedStudy, options: RunOptions): Promise<Gathered> {
  const { study, reference } = toRun;
  const began = performance.timeOrigin + performance.now();
  const model = "model" in toRun ? toRun.model : await loadModel(reference);
  // What comes with Trialband is pure; a model of one's own is checked each time.
  if (reference.kind === "module") requirePure(model, prepare(model, study).source);
  const points = studiesOfSweep(study);
  // Before the trials, so that a point that cannot be used is reported at once.
  const preparedPoints: Prepared[] = [];
  for (const point of points) {
    preparedPoints.push(prepare(model, point));
    await breathe();
  }
  const { from, onGathered, onPoint, ...drawing } = options;
  const { prepared, gathered, workers, compared, release } = await drawStudy(
    model,
    { study, reference },
    {
      ...drawing,
      prepared: "prepared" in toRun ? toRun.prepared : undefined,
      from: from?.study,
      onBatch: (own) => onGathered?.(() => ({ study: own.state, points: [], point: null })),
    },
    true,
  );
  const figures = await drawPoints(model, preparedPoints, reference, {
    ...drawing,
    from,
    onPoint,
    onBatch: (done, point) => onGathered?.(() => ({ study: gathered.state, points: done, point: point.state })),
  });
  return {
    prepared,
    gathered,
    release,
    begun: {
      sweep: sweepRecord(study, figures),
      compared,
      workers,
      began,
      module: reference.kind === "module" ? { digest: reference.digest, source: reference.source } : null,
    },
  };
}
