// However the work is shared, the record is the same, bit for bit. Needs dist/ (the tests' set-up builds it).
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { runExample, readExample } from "../../read-example.ts";

let one: Pool;
let two: Pool;
beforeAll(async () => {
  [one, two] = await Promise.all([openPool(1), openPool(2)]);
});
afterAll(() => Promise.all([one.close(), two.close()]));

/** What must repeat, as it is filed: all but the time and place of the run, and what files it. */
const repeated = (record: object): unknown =>
  JSON.parse(JSON.stringify({ ...record, environment: undefined, provenance: undefined, seal: undefined }));

describe("one thread, one worker, two workers and a mixture give the same record, bit for bit", () => {
  test.each([
    ["published/mass-calibration", { trials: 203_000 }],
    ["published/additive-one-dominant", { trials: "adaptive" }],
    ["harrowfen/steriliser-134", {}],
    ["harrowfen/cold-store-4", { trials: 77_777 }],
    // More trials than are kept, of measurands together, and no task ends where keeping does.
    ["published/polar-010", { trials: 2_700_000 }],
  ])("%s", async (id, changes) => {
    const alone = repeated(runExample(id, changes));
    const loaded = await loadStudyDocument({ ...readExample(id), ...changes }, null);
    for (const options of [
      {},
      { pool: async () => one },
      { pool: async () => two },
      { pool: async () => two, aloneFirst: 20_000 },
    ]) {
      const { record } = await runStudy(loaded, options);
      // A deep comparison, so that a failure names the figure that differs.
      expect(repeated(record)).toEqual(alone);
    }
  });
});

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
