import type { Model, Prepared, RunRecord } from "../../engine/index.ts";
import {
  assembleRecord,
  figuresOfPoint,
  type Accumulation,
  type AccumulationState,
  type PointFigures,
} from "../../engine/internal.ts";
import { NEVER } from "../one-thread.ts";
import type { KeptStudy } from "../shelves/study.ts";
import { drawStudy, recipeOf, type Drawing, type DrawnStudy } from "./draw-study.ts";

interface PointDrawing extends Omit<Drawing, "onProgress"> {
  /** What an interrupted run has: figures of the points that are done, and the point that was being drawn. */
  readonly from: { readonly points: readonly PointFigures[]; readonly point: AccumulationState | null } | undefined;
  readonly onPoint: ((done: number, of: number) => void) | undefined;
  /** The figures that are done, without a gap, and what is gathered of the point after them. */
  readonly onBatch: (done: readonly PointFigures[], next: Accumulation) => void;
}

/** Points of a sweep that are in hand at once, for each worker: the next lies ready while one is assembled. */
const POINTS_A_WORKER = 2;
/** Points in hand at once on other machines: each asks the queue how it stands. */
const MOST_ABREAST = 64;

/**
 * The figures of a sweep's points. On workers several are drawn at once, each by one of them: a point is a few batches,
 * and what a thread prepares for it costs as much as a share of its trials. Their order and their bits are those of one
 * after the other.
 *
 * @param points are taken out of the list as they are drawn, since thousands of them hold gigabytes
 * @throws {ModelError | Fault} the first failure, once nothing goes on any more
 */
export async function drawPoints(
  model: Model,
  points: (Prepared | null)[],
  reference: KeptStudy["reference"],
  { from, onPoint, onBatch, stopAt, ...drawing }: PointDrawing,
): Promise<readonly PointFigures[]> {
  const figures: (PointFigures | undefined)[] = [...(from?.points ?? [])];
  const first = figures.length;
  let complete = first;
  let done = first;
  let next = first;
  const draws = points.reduce((sum, point) => {
    const { trials } = point!.study;
    return sum + (trials === "adaptive" ? Infinity : trials);
  }, 0);
  // Few trials are drawn before threads have started; of many points each would be drawn alone, and none shared.
  const shared = drawing.pool !== undefined && draws > (drawing.aloneFirst ?? 0);
  const options = shared ? { ...drawing, aloneFirst: 0, whole: points.length > 2 } : drawing;
  let failed = false;
  const drawNext = async (): Promise<void> => {
    for (let i = next++; i < points.length && !failed; i = next++) {
      const prepared = points[i]!;
      points[i] = null;
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
              if (i === complete) onBatch(figures.slice(0, complete) as PointFigures[], own);
            },
          },
          false,
        );
        figures[i] = figuresOfPoint(await recordOf(run, kept, drawing), kept.study);
        run.release();
      } catch (error) {
        failed = true;
        throw error;
      }
      done += 1;
      while (figures[complete] !== undefined) complete += 1;
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
  return figures as PointFigures[];
}

/** The record of a point of a sweep. */
function recordOf(
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
