import type { Model, Prepared, RunRecord } from "../../engine/index.ts";
import { assembleRecord, type Accumulation, type AccumulationState } from "../../engine/internal.ts";
import { NEVER } from "../one-thread.ts";
import type { KeptStudy } from "../shelves/study.ts";
import { drawStudy, recipeOf, type Drawing, type DrawnStudy } from "./draw-study.ts";

interface PointDrawing extends Omit<Drawing, "onProgress"> {
  /** What an interrupted run has: records of the points that are done, and the point that was being drawn. */
  readonly from: { readonly points: readonly RunRecord[]; readonly point: AccumulationState | null } | undefined;
  readonly onPoint: ((done: number, of: number) => void) | undefined;
  /** The records that are done, without a gap, and what is gathered of the point after them. */
  readonly onBatch: (done: readonly RunRecord[], next: Accumulation) => void;
}

/** Points of a sweep that are in hand at once, for each worker: the next lies ready while one is assembled. */
const POINTS_A_WORKER = 2;
/** Points in hand at once on other machines: each asks the queue how it stands. */
const MOST_ABREAST = 64;

/**
 * The records of a sweep's points. On workers several are drawn at once, each by one of them: a point is a few batches,
 * and what a thread prepares for it costs as much as a share of its trials. Their order and their bits are those of one
 * after the other.
 *
 * @throws {ModelError | Fault} the first failure, once nothing goes on any more
 */
export async function drawPoints(
  model: Model,
  points: readonly Prepared[],
  reference: KeptStudy["reference"],
  { from, onPoint, onBatch, stopAt, ...drawing }: PointDrawing,
): Promise<readonly RunRecord[]> {
  const records: (RunRecord | undefined)[] = [...(from?.points ?? [])];
  const first = records.length;
  let complete = first;
  let done = first;
  let next = first;
  const draws = points.reduce((sum, { study: { trials } }) => sum + (trials === "adaptive" ? Infinity : trials), 0);
  // Few trials are drawn before threads have started; of many points each would be drawn alone, and none shared.
  const shared = drawing.pool !== undefined && draws > (drawing.aloneFirst ?? 0);
  const options = shared ? { ...drawing, aloneFirst: 0, whole: points.length > 2 } : drawing;
  let failed = false;
  const drawNext = async (): Promise<void> => {
    for (let i = next++; i < points.length && !failed; i = next++) {
      const prepared = points[i]!;
      const kept: KeptStudy = { study: prepared.study, reference };
      try {
        const run = await drawStudy(
          model,
          kept,
          {
            ...options,
            onProgress: undefined,
            prepared,
            ...(stopAt === undefined ? {} : { stopAt: stopAt.slice(i + 1) }),
            from: (i === first ? from?.point : null) ?? undefined,
            onBatch: (own) => {
              if (i === complete) onBatch(records.slice(0, complete) as RunRecord[], own);
            },
          },
          false,
        );
        records[i] = await figuresOf(run, kept, drawing);
        run.release();
      } catch (error) {
        failed = true;
        throw error;
      }
      done += 1;
      while (records[complete] !== undefined) complete += 1;
      onPoint?.(done, points.length);
    }
  };
  const workers =
    first === points.length
      ? 0
      : drawing.fleet !== undefined
        ? (await drawing.fleet()).workers
        : shared
          ? (await drawing.pool!()).workers
          : 0;
  const abreast = Math.max(1, Math.min(points.length - first, POINTS_A_WORKER * workers, MOST_ABREAST));
  await allOrFirstFailure(Array.from({ length: abreast }, drawNext));
  return records as RunRecord[];
}

/** The record of a point of a sweep. */
function figuresOf(
  { prepared, gathered }: Pick<DrawnStudy, "prepared" | "gathered">,
  point: KeptStudy,
  { assembler, signal = NEVER }: Pick<Drawing, "assembler" | "signal">,
): Promise<RunRecord> | RunRecord {
  return assembler === undefined
    ? assembleRecord(prepared, gathered, false)
    : assembler.figures({ recipe: recipeOf(point), gathered: gathered.state }, signal);
}

/** Waits for all, so that nothing goes on after a failure is reported; then throws the first. */
async function allOrFirstFailure(work: readonly Promise<void>[]): Promise<void> {
  const ended = await Promise.allSettled(work);
  const failure = ended.find((end) => end.status === "rejected");
  if (failure !== undefined) throw failure.reason;
}
