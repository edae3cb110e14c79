// A thread that ends in the middle of its work. Needs dist/.
import { mkdtempSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openPool, type Pool } from "../../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../../server/runs/run-study.ts";
import { resultsOf } from "../../../../server/record/seal.ts";
import { loadStudyFile } from "../../../../server/shelves/study.ts";
import { LONG } from "../../../setup/long.ts";

let folder: string;
let pool: Pool;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "trialband-lost-"));
  pool = await openPool(2);
  (globalThis as { trialbandTests?: boolean }).trialbandTests = true;
});
afterAll(() => pool.close());

/** A model that ends the worker threads that evaluate it, some times in all. */
function study(name: string, times: number): string {
  writeFileSync(
    join(folder, `${name}.ts`),
    `import { defineModel } from "trialband";
const { readdirSync, writeFileSync } = process.getBuiltinModule("node:fs");
const folder = ${JSON.stringify(folder)};
const ended = () => readdirSync(folder).filter((file) => file.startsWith("${name}-ended-")).length;
let evaluations = 0;
export default defineModel({
  id: "${name}", title: "${name}",
  measurands: { y: { symbol: "y", meaning: "sum", unit: "m" } },
  inputs: { a: { symbol: "a", meaning: "a", unit: "m" } },
  evaluate: ({ a }) => {
    // Not in the thread of the tests, which gathers and explains.
    if (globalThis.trialbandTests !== true && ++evaluations === 30_000 && ended() < ${times}) {
      writeFileSync(folder + "/${name}-ended-" + ended() + "-" + process.hrtime()[1], "");
      process.exit(3);
    }
    return { y: a };
  },
});`,
  );
  const path = join(folder, `${name}.json`);
  const inputs = { a: { distribution: "normal", estimate: 2, standardUncertainty: 0.1 } };
  writeFileSync(path, JSON.stringify({ title: name, model: `./${name}.ts`, inputs, trials: 400_000 }));
  return path;
}

const endings = (name: string): number =>
  readdirSync(folder).filter((file) => file.startsWith(`${name}-ended-`)).length;

test("its task is drawn again by the thread that takes its place, and the record is the same", LONG, async () => {
  const path = study("once", 1);
  const { record } = await runStudy(await loadStudyFile(path), { pool: async () => pool });
  expect(endings("once")).toBe(1);
  const alone = (await runStudy(await loadStudyFile(path))).record;
  expect(resultsOf(record)).toEqual(resultsOf(alone));
});

test("a task that ends every thread it is given to ends its run, and the pool goes on", LONG, async () => {
  const path = study("always", 100);
  await expect(runStudy(await loadStudyFile(path), { pool: async () => pool })).rejects.toMatchObject({
    code: "worker-lost",
  });
  const { record } = await runStudy(await loadStudyFile(study("never", 0)), { pool: async () => pool });
  expect(record.trials.count).toBe(400_000);
});
