// A worker of a queue evaluates a model as a program once it has run often, as a pool's does, with the plain path's bits.
// Needs dist/, which has the programs of registered models.
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { valueSymbol } from "piscina";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openCondensed, prepare } from "../../../engine/internal.ts";
import { packageRoot } from "../../../server/package-root.ts";
import { decode, encode } from "../../../server/queue/codec.ts";
import type { Answer } from "../../../server/queue/messages.ts";
import type { ThreadResult, ThreadTask } from "../../../server/queue/thread.ts";
import type { DrawAnswer, DrawTask } from "../../../server/runs/pool/messages.ts";
import { placeOf } from "../../../server/shelves/model.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";
import { importByHost } from "../programs/paths.ts";

type Exports = Readonly<Record<string, (...words: number[]) => number>>;
type InstanceClass = new (module: object, imports?: object) => { readonly exports: Exports };
declare const WebAssembly: { Instance: InstanceClass };

const BATCHES = 60;
/** Blocks of these that the plain path takes at most: until the program is there, and once to check it. */
const MOST_PLAIN = 110;

const Instance = WebAssembly.Instance;
/** Blocks that programs have taken: their modules export `run`. */
let taken = 0;
beforeEach(() => {
  taken = 0;
  WebAssembly.Instance = function (module: object, imports?: object) {
    const { exports } = new Instance(module, imports);
    const { run } = exports;
    return run === undefined
      ? { exports }
      : { exports: { ...exports, run: (...words: number[]) => ((taken += 1), run(...words)) } };
  } as unknown as InstanceClass;
});
afterEach(() => void (WebAssembly.Instance = Instance));

/** The function of a thread, as it is built. */
const threadOf = async <Task, Result>(file: string): Promise<(task: Task) => Promise<Result>> =>
  (await importByHost(pathToFileURL(join(packageRoot(), "dist", file)).href))["default"] as never;

test("a job's answer is that of a pool's thread and of the plain path, bit for bit", async () => {
  const document = { ...readExample("verdicts/curvature"), trials: 1_000_000, seed: "program" };
  const { model, study, reference } = await loadStudyDocument(document, null);
  const { evaluate } = model;
  const prepared = prepare({ ...model, evaluate: (x) => evaluate(x) }, study);
  const counts = Array.from({ length: BATCHES }, () => prepared.batch);
  // A function of its own has no program.
  const plain = openCondensed(prepared.source)(0, counts, () => false)!;
  expect(taken).toBe(0);

  const at = { model: placeOf(reference), study };
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const blocks = (BATCHES * prepared.batch) / 2500;
  const drawJob = await threadOf<ThreadTask, { readonly [valueSymbol]: Extract<ThreadResult, { ok: true }> }>(
    "fleet.js",
  );
  const result = await drawJob({ ...at, study: JSON.stringify(study), draw: "d", first: 0, counts, stop, trace: null });
  expect(taken).toBeGreaterThanOrEqual(blocks - MOST_PLAIN);
  const answer = decode(result[valueSymbol].bytes) as Extract<Answer, { ok: true }>;
  const bits = encode(plain.kept);
  expect(encode(answer.kept).equals(bits)).toBe(true);

  taken = 0;
  const drawTask = await threadOf<DrawTask, Extract<DrawAnswer, { ok: true }>>("worker.js");
  const room = new SharedArrayBuffer(BATCHES * 120_000);
  const pooled = await drawTask({ job: "j", recipe: JSON.stringify(at), first: 0, counts, rooms: [room], stop });
  expect(taken).toBeGreaterThanOrEqual(blocks - MOST_PLAIN);
  expect(encode(pooled.batches).equals(bits)).toBe(true);
});
