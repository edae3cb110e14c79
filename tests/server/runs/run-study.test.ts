// Runs shared among workers. Needs dist/ (the tests' set-up builds it).
import { afterAll, beforeAll, expect, test } from "vitest";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { readExample } from "../../read-example.ts";
import { EVERY_SHARING, sameRecord } from "./same-record.ts";

let one: Pool;
let two: Pool;
beforeAll(async () => {
  [one, two] = await Promise.all([openPool(1), openPool(2)]);
});
afterAll(() => Promise.all([one.close(), two.close()]));

sameRecord(
  [
    ["published/mass-calibration", { trials: 43_000 }],
    ["published/additive-one-dominant", { trials: "adaptive" }],
    ["harrowfen/cold-store-4", { trials: 37_777 }],
  ],
  EVERY_SHARING,
);

test("a run can be cancelled, and the workers go on to the next", async () => {
  const loaded = await loadStudyDocument({ ...readExample("harrowfen/cold-store-4"), trials: 20_000_000 }, null);
  const abort = new AbortController();
  const run = runStudy(loaded, {
    pool: async () => two,
    signal: abort.signal,
    onProgress: (gathered) => {
      if (gathered.trials > 100_000) abort.abort();
    },
  });
  await expect(run).rejects.toMatchObject({ code: "cancelled" });
  const next = await runStudy(
    await loadStudyDocument({ ...readExample("published/additive-normal"), trials: 20_000 }, null),
    {
      pool: async () => two,
    },
  );
  expect(next.record.trials.count).toBe(20_000);
});

test("a run cancelled before it starts draws nothing", async () => {
  const loaded = await loadStudyDocument(readExample("harrowfen/cold-store-4"), null);
  const signal = AbortSignal.abort();
  await expect(runStudy(loaded, { signal })).rejects.toMatchObject({ code: "cancelled" });
  await expect(runStudy(loaded, { signal, pool: async () => one })).rejects.toMatchObject({ code: "cancelled" });
});
