import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { newStudy, openStudy } from "../../../server/shelves/new-study.ts";
import { loadStudyFile } from "../../../server/shelves/study.ts";
import type { RunEvent } from "../../../viewer/api/runs.ts";
import { LONG } from "../../setup/long.ts";

/** A model of a person's own that counts how often it is built on this thread. */
const FAMILY = `import { defineModel } from "trialband";
export default {
  id: "counted", title: "counted", parameters: {},
  build() {
    globalThis.trialbandBuilds = (globalThis.trialbandBuilds ?? 0) + 1;
    return defineModel({
      id: "counted", title: "counted",
      measurands: { y: { symbol: "y", meaning: "sum", unit: "m" } },
      inputs: { a: { symbol: "a", meaning: "a", unit: "m" }, b: { symbol: "b", meaning: "b", unit: "m" } },
      evaluate: ({ a, b }) => ({ y: a + b }),
    });
  },
};
`;
const STUDY = {
  title: "sum",
  model: "./counted.ts",
  inputs: {
    a: { distribution: "rectangular", estimate: 1, halfWidth: 0.1 },
    b: { distribution: "normal", estimate: 2, standardUncertainty: 0.1 },
  },
  coverage: { probability: 0.95 },
  trials: 10_000,
};

const counter = globalThis as { trialbandBuilds?: number };
let folder: string;
let path: string;
let pool: Pool;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "trialband-loads-"));
  path = join(folder, "sum.json");
  writeFileSync(join(folder, "counted.ts"), FAMILY);
  writeFileSync(path, JSON.stringify(STUDY));
  pool = await openPool(1);
});
afterAll(async () => {
  await pool.close();
  rmSync(folder, { recursive: true });
});
beforeEach(() => {
  counter.trialbandBuilds = 0;
});

const ended = (runs: Runs, id: string): Promise<RunEvent> =>
  new Promise((resolve) => {
    runs.follow(id, (event) => {
      if (event.type !== "progress" && event.type !== "snapshot") resolve(event);
    });
  });

describe("a model is built once on a thread", () => {
  test("for a study that is read and run, points of a sweep included", async () => {
    const points = [1, 2].map((at) => ({ at, inputs: { a: { distribution: "constant", value: at } } }));
    const swept = { ...STUDY, sweep: { quantity: "length of a", unit: "m", points } };
    writeFileSync(join(folder, "swept.json"), JSON.stringify(swept));
    const { record } = await runStudy(await loadStudyFile(join(folder, "swept.json")));
    expect(record.sweep).not.toBeNull();
    expect(counter.trialbandBuilds).toBe(1);
  });

  test("for a study whose inputs are replaced", async () => {
    const statements = { a: { distribution: "constant", value: 3 } } as const;
    const { loaded } = await newStudy(await openStudy(path), { statements }, join(folder, "new.json"));
    expect((await runStudy(loaded)).record.measurands["y"]!.linear.estimate).toBe(5);
    expect(counter.trialbandBuilds).toBe(1);
  });

  test(
    "for a run of the server and the sample that is drawn again, and what is kept carries no code",
    LONG,
    async () => {
      const store = openStore({ folder: null });
      const runs = new Runs(async () => pool, store);
      const id = await runs.start(await loadStudyFile(path));
      expect(await ended(runs, id)).toMatchObject({ type: "finished" });
      // Three more runs push the first one's sample out of memory.
      for (const seed of ["1", "2", "3"]) {
        const other = await runs.start(await loadStudyFile(path, { seed }));
        expect(await ended(runs, other)).toMatchObject({ type: "finished" });
      }
      expect(counter.trialbandBuilds).toBe(4);
      await runs.sample(id);
      expect(counter.trialbandBuilds).toBe(4);
      expect(store.read(id)!.study).toMatchObject({ model: "./counted.ts" });

      // Whoever can write the store's file must not have code run by it.
      const restarted = new Runs(async () => pool, store);
      restarted.restore();
      await expect(restarted.sample(id)).rejects.toMatchObject({ code: "no-such-model" });
      expect(counter.trialbandBuilds).toBe(4);
    },
  );
});
