// A worker of a queue evaluates a model as a program once it has run often, as a pool's does, with the plain path's bits.
import { valueSymbol } from "piscina";
import { afterEach, expect, test, vi } from "vitest";
import { BLOCK_TRIALS } from "../../../engine/random/block.ts";
import { openCondensed, prepare, type Batch } from "../../../engine/internal.ts";
import type { Model } from "../../../engine/index.ts";
import { models } from "../../../models/index.ts";
import { decode, encode } from "../../../server/queue/codec.ts";
import type { Answer } from "../../../server/queue/messages.ts";
import drawJob, { type ThreadResult } from "../../../server/queue/thread.ts";
import drawTask from "../../../server/runs/pool/worker.ts";
import { placeOf } from "../../../server/shelves/model.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";

const BATCHES = 60;
/** Blocks that the plain path may take of them: until the program is there, its check, and the first ones. */
const MOST_PLAIN = 120;

afterEach(() => void vi.restoreAllMocks());

test("a job's answer is that of a pool's thread and of the plain path, bit for bit", async () => {
  const document = { ...readExample("verdicts/curvature"), trials: 1_000_000, seed: "program" };
  const { study, reference } = await loadStudyDocument(document, null);
  const model = models.find(({ id }) => id === document["model"]) as Model;
  const { evaluate } = model;
  const counts = Array.from({ length: BATCHES }, () => prepare(model, study).batch);
  // A function of its own has no program.
  const plain = openCondensed(prepare({ ...model, evaluate: (x) => evaluate(x) }, study).source)(
    0,
    counts,
    () => false,
  );

  const evaluated = vi.spyOn(model, "evaluate");
  const place = placeOf(reference);
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const task = { draw: "d", model: place, study: JSON.stringify(study), first: 0, counts, stop, trace: null };
  const result = (await drawJob(task)) as unknown as { readonly [valueSymbol]: Extract<ThreadResult, { ok: true }> };
  const answer = decode(result[valueSymbol].bytes) as Extract<Answer, { ok: true }>;
  expect({ kept: answer.kept, condensed: answer.condensed }).toEqual(decode(encode(plain)));
  expect(evaluated.mock.calls.length).toBeGreaterThan(0);
  expect(evaluated.mock.calls.length / BLOCK_TRIALS).toBeLessThan(MOST_PLAIN);

  const recipe = JSON.stringify({ model: place, study });
  const room = new SharedArrayBuffer(BATCHES * 100_000);
  const pooled = (await drawTask({ job: "j", recipe, first: 0, counts, room, stop })) as {
    readonly batches: readonly Batch[];
  };
  expect(pooled.batches).toEqual(answer.kept);
});
