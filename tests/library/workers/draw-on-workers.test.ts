import { expect, test } from "vitest";
import { defineModel, propagate, type Model } from "trialband";
import { propagateOnWorkers, serveTrials, type PageWorker, type PageWorkerEvent } from "trialband/workers";

const q = { symbol: "a", meaning: "a", unit: "1" };
const square = defineModel({
  id: "square",
  title: "Square",
  measurands: { y: q },
  inputs: { a: q, b: q },
  evaluate: ({ a, b }) => a * a + b,
});
const normal = { distribution: "normal", estimate: 1, standardUncertainty: 0.2 } as const;
const study = { title: "t", inputs: { a: normal, b: normal }, trials: 250_000 } as const;

/** A worker of a page, in this thread: its messages are copied as those between threads are. */
function pageWorker(
  model: Model,
  spoil: (message: unknown) => unknown = (message) => message,
): PageWorker & { ended: boolean } {
  const listeners: Record<string, ((event: PageWorkerEvent) => void)[]> = {};
  let ask: ((event: { readonly data: unknown }) => void) | undefined;
  const worker = {
    ended: false,
    postMessage: (message: unknown) => queueMicrotask(() => ask!({ data: structuredClone(message) })),
    addEventListener: (type: string, listener: (event: PageWorkerEvent) => void) =>
      void (listeners[type] ??= []).push(listener),
    terminate: () => void (worker.ended = true),
    fail: (event: PageWorkerEvent) => listeners["error"]!.forEach((listener) => listener(event)),
  };
  serveTrials(model, {
    addEventListener: (_type, listener) => void (ask = listener),
    postMessage(message, options) {
      const data: unknown = structuredClone(spoil(message), options);
      setImmediate(() => listeners["message"]?.forEach((listener) => listener({ data })));
    },
  });
  return worker;
}

test.each([1, 3])("%i workers give the record of one thread, bit for bit, and are ended", async (workers) => {
  const started: ReturnType<typeof pageWorker>[] = [];
  const start = (): PageWorker => {
    const worker = pageWorker(square);
    started.push(worker);
    return worker;
  };
  expect(await propagateOnWorkers(square, study, { start, workers })).toEqual(propagate(square, study));
  expect(started.map(({ ended }) => ended)).toEqual(Array(workers).fill(true));
});

test("a worker with another model is told apart by what it declares", async () => {
  const other = defineModel({ ...square, id: "cube", inputs: { b: q, a: q } });
  await expect(propagateOnWorkers(square, study, { start: () => pageWorker(other), workers: 1 })).rejects.toThrow(
    "the worker has another model: id cube in place of square; inputs b, a in place of a, b; expected the model of the program that started it",
  );
});

test("a worker that ends by itself ends the run, in words", async () => {
  const start = (): PageWorker => {
    const worker = pageWorker(square);
    setImmediate(() =>
      (worker as unknown as { fail(event: PageWorkerEvent): void }).fail({ message: "no more memory" }),
    );
    return worker;
  };
  await expect(propagateOnWorkers(square, study, { start, workers: 2 })).rejects.toThrow(
    "a worker ended before its trials were drawn: no more memory",
  );
});

test("options that cannot be used are refused", async () => {
  await expect(propagateOnWorkers(square, study, {} as never)).rejects.toThrow("options.start: expected a function");
  await expect(propagateOnWorkers(square, study, { start: () => pageWorker(square), workers: 1.5 })).rejects.toThrow(
    "options.workers: got 1.5; expected a whole number from 1 to 256",
  );
});
