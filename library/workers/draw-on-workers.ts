import {
  Accumulation,
  assembleRecord,
  EXPLANATION_TRIALS,
  needsComparison,
  openComparison,
  prepare,
  requirePure,
  studiesOfSweep,
  figuresOfPoint,
  sweepRecord,
  type PointFigures,
  type Batch,
  type Compared,
  type Model,
  type Prepared,
  type Progress,
  type RunRecord,
  type Study,
} from "../../engine/internal.ts";
import { errorOf } from "./failure.ts";
import type { Answer, Asked, Declared } from "./messages.ts";
import type { AbortableSignal, DrawingWorker } from "./worker.ts";

/** Trials a task carries: enough to outweigh a message, few enough that an adaptive run draws few too many. */
const IN_TASK = 100_000;
/** Tasks that each worker has: the next lies ready while one is drawn. */
const AHEAD = 2;

/** Milliseconds for which the program's own thread is kept busy at a time. */
const LONGEST = 12;

export interface Drawing {
  readonly workers: readonly DrawingWorker[];
  readonly signal?: AbortableSignal | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** Lets events come through: an answer, a cancel, a click. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Runs a study whose trials are drawn by workers, and ends these whatever happens. The batches are added in their order, so
 * the record is that of `propagate`, bit for bit.
 */
export async function drawOnWorkers(model: Model, study: Study, drawing: Drawing): Promise<RunRecord> {
  const { workers, signal } = drawing;
  const line = openLine(workers);
  const abort = (): void => line.fail(reasonOf(signal));
  signal?.addEventListener("abort", abort);
  try {
    if (signal?.aborted) throw reasonOf(signal);
    // A model that keeps something from trial to trial would give figures that depend on which worker drew what.
    requirePure(model, prepare(model, study).source);
    for (const point of studiesOfSweep(study)) prepare(model, point);
    const { prepared, gathered, compared } = await drawStudy(model, study, 0, line, drawing, true);
    const points: PointFigures[] = [];
    for (const [i, point] of studiesOfSweep(study).entries()) {
      const run = await drawStudy(model, point, i + 1, line, drawing, false);
      points.push(figuresOfPoint(assembleRecord(run.prepared, run.gathered, false), point));
    }
    return assembleRecord(prepared, gathered, true, sweepRecord(study, points), compared);
  } finally {
    signal?.removeEventListener("abort", abort);
    for (const worker of workers) worker.terminate();
  }
}

const reasonOf = (signal: AbortableSignal | undefined): unknown =>
  signal?.reason ?? new Error("the propagation was cancelled");

interface Drawn {
  readonly prepared: Prepared;
  readonly gathered: Accumulation;
  readonly compared: Compared | undefined;
}

async function drawStudy(
  model: Model,
  study: Study,
  number: number,
  line: Line,
  { workers, onProgress }: Drawing,
  explained: boolean,
): Promise<Drawn> {
  const prepared = prepare(model, study);
  const gathered = new Accumulation(prepared);
  const ready = workers.map(async (_, at) => {
    const answer = await line.ask(at, { kind: "open", number, study });
    if (answer.kind === "failed") throw errorOf(answer.failure);
    if (answer.kind === "opened") requireSame(prepared.model, answer.declared);
  });
  const comparing =
    explained && !prepared.source.leavesOut && needsComparison(prepared) ? compare(prepared, line) : undefined;
  // Awaited below; if both fail, the trial that failed is reported.
  comparing?.catch(() => undefined);

  const pending: Promise<Answer>[] = [];
  let next = 0;
  let at = 0;
  const ask = (): void => {
    const first = next;
    const counts: number[] = [];
    while (next < prepared.limit && next - first < IN_TASK) {
      const count = Math.min(prepared.batch, prepared.limit - next);
      counts.push(count);
      next += count;
    }
    if (counts.length === 0) return;
    const answer = line.ask(at, { kind: "draw", number, first, counts });
    // Awaited in order below; a later one that fails meanwhile must not go unhandled.
    answer.catch(() => undefined);
    pending.push(answer);
    at = (at + 1) % workers.length;
  };
  await Promise.all(ready);
  for (let i = 0; i < AHEAD * workers.length; i++) ask();
  while (gathered.next > 0 && pending.length > 0) {
    const answer = await pending.shift()!;
    if (answer.kind === "failed") throw errorOf(answer.failure);
    if (answer.kind !== "drawn") continue;
    ask();
    addBatches(gathered, answer.batches, () => onProgress?.({ trials: gathered.trials, limit: prepared.limit }));
    if (answer.failure !== null && gathered.next > 0) throw errorOf(answer.failure);
  }
  return { prepared, gathered, compared: await comparing };
}

function addBatches(gathered: Accumulation, batches: readonly Batch[], added: () => void): void {
  for (const batch of batches) {
    if (gathered.next === 0) return;
    gathered.add(batch);
    added();
  }
}

/** The propagations of the explanation, here, while workers draw. */
async function compare(prepared: Prepared, line: Line): Promise<Compared> {
  const comparison = openComparison(prepared, EXPLANATION_TRIALS);
  let breath = performance.now();
  while (comparison.advance()) {
    if (performance.now() - breath < LONGEST) continue;
    await breathe();
    line.requireWhole();
    breath = performance.now();
  }
  return comparison.result();
}

/** @throws {Error} a worker that has another model than the program */
function requireSame(model: Model, { id, inputs, measurands }: Declared): void {
  const said = (name: string, of: readonly string[], to: readonly string[]): string =>
    `${name} ${of.join(", ")} in place of ${to.join(", ")}`;
  const differences = [
    ...(id === model.id ? [] : [`id ${id} in place of ${model.id}`]),
    ...(
      [
        ["inputs", inputs, Object.keys(model.inputs)],
        ["measurands", measurands, Object.keys(model.measurands)],
      ] as const
    )
      .filter(([, has, needed]) => has.join() !== needed.join())
      .map(([name, has, needed]) => said(name, has, needed)),
  ];
  if (differences.length > 0)
    throw new Error(
      `the worker has another model: ${differences.join("; ")}; expected the model of the program that started it`,
    );
}

/** The line to the workers: answers come in the order of what was asked of each. */
interface Line {
  ask(worker: number, asked: Asked): Promise<Answer>;
  /** Ends every question with an error. */
  fail(error: unknown): void;
  /** @throws the error that ended the line */
  requireWhole(): void;
}

interface Waiting {
  readonly resolve: (answer: Answer) => void;
  readonly reject: (error: unknown) => void;
}

function openLine(workers: readonly DrawingWorker[]): Line {
  const waiting: Waiting[][] = workers.map(() => []);
  let ended: { readonly error: unknown } | null = null;
  const fail = (error: unknown): void => {
    ended ??= { error };
    for (const { reject } of waiting.flatMap((questions) => questions.splice(0))) reject(error);
  };
  workers.forEach((worker, at) => {
    worker.onAnswer((answer) => waiting[at]!.shift()?.resolve(answer as Answer));
    worker.onEnd((reason) => fail(new Error(`a worker ended before its trials were drawn: ${reason}`)));
  });
  return {
    ask(at, asked) {
      if (ended !== null) return Promise.reject(ended.error as Error);
      return new Promise((resolve, reject) => {
        waiting[at]!.push({ resolve, reject });
        workers[at]!.ask(asked);
      });
    },
    fail,
    requireWhole() {
      if (ended !== null) throw ended.error;
    },
  };
}
