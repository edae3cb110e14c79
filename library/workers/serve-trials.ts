import { openTrials, prepare, type Batch, type Model } from "../../engine/internal.ts";
import { failureOf } from "./failure.ts";
import type { Answer, Asked } from "./messages.ts";

/** A worker's own side: `self` in a page's worker. */
export interface WorkerScope {
  addEventListener(type: "message", listener: (event: { readonly data: unknown }) => void): void;
  postMessage(message: unknown, options: { transfer: ArrayBuffer[] }): void;
}

/**
 * Draws trials of a model for `propagateOnWorkers`: the one line of a worker's file.
 *
 * @param model the model, or a promise of it; the program that starts the worker must have the same
 * @param scope the worker's own side: `self`
 *
 * @example
 * // density-worker.ts
 * import { serveTrials } from "trialband/workers";
 * import density from "./density.ts";
 * serveTrials(density, self);
 */
export function serveTrials<I extends string, O extends string, P extends string>(
  model: Model<I, O, P> | Promise<Model<I, O, P>>,
  scope: WorkerScope,
): void;
export function serveTrials(model: Model | Promise<Model>, scope: WorkerScope): void {
  // A module that does not load is reported to who asks for trials, not before.
  Promise.resolve(model).catch(() => undefined);
  /** The study being drawn: one at a time, so that a sweep's points do not pile up. */
  let opened: { readonly number: number; readonly draw: ReturnType<typeof openTrials> } | null = null;

  const answer = async (asked: Asked): Promise<Answer> => {
    const { number } = asked;
    try {
      const declared = await model;
      if (asked.kind === "open") {
        const prepared = prepare(declared, asked.study);
        opened = { number, draw: openTrials(prepared.source) };
        const names = (of: object): string[] => Object.keys(of);
        return {
          kind: "opened",
          number,
          declared: {
            id: declared.id,
            inputs: names(prepared.model.inputs),
            measurands: names(prepared.model.measurands),
          },
        };
      }
      if (opened?.number !== number) throw new RangeError(`study ${number} was not opened on this worker`);
      return { kind: "drawn", number, ...drawn(opened.draw, asked.first, asked.counts) };
    } catch (error) {
      return { kind: "failed", number, failure: failureOf(error) };
    }
  };

  scope.addEventListener("message", ({ data }) => {
    void answer(data as Asked).then((given) =>
      scope.postMessage(given, { transfer: given.kind === "drawn" ? moved(given.batches) : [] }),
    );
  });
}

function drawn(
  draw: ReturnType<typeof openTrials>,
  first: number,
  counts: readonly number[],
): Omit<Extract<Answer, { kind: "drawn" }>, "kind" | "number"> {
  const batches: Batch[] = [];
  let next = first;
  for (const count of counts) {
    try {
      batches.push(draw(next, count));
    } catch (error) {
      // Those before it are good, and may be all that an adaptive run needs.
      return { first, batches, failure: failureOf(error) };
    }
    next += count;
  }
  return { first, batches, failure: null };
}

/** The arrays that a batch alone has: they are moved, not copied. What batches share stays here. */
const moved = (batches: readonly Batch[]): ArrayBuffer[] =>
  batches.flatMap(({ measurands }) =>
    measurands.flatMap(({ values, starts }) => [values.buffer as ArrayBuffer, starts.buffer as ArrayBuffer]),
  );
