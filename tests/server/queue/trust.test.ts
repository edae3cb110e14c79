import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import type { Fault } from "../../../server/errors.ts";
import { openFleet } from "../../../server/queue/fleet.ts";
import { build, javascriptEngine, laneOf, type Recipe, type SentModel } from "../../../server/queue/messages.ts";
import { namedDigest } from "../../../server/queue/named-digest.ts";
import { refusalOf, trustIn } from "../../../server/queue/trust.ts";
import { startWorker } from "../../../server/queue/worker.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyFile } from "../../../server/shelves/study.ts";
import { LONG } from "../../setup/long.ts";
import { root, scratch } from "../cli/trialband.ts";
import { startRun, startWorkerProcess } from "../../campaign/fleet-processes.ts";
import { redisHere, startRedis, type TestRedis } from "./redis.ts";

const OWN: SentModel = { kind: "own", digest: "d", named: "n", engine: javascriptEngine, parameters: {} };
const recipe = (changes: object, model: SentModel = { kind: "registered", id: "x", parameters: {} }): Recipe => ({
  build: { ...build, ...changes },
  model,
  study: {} as never,
  limit: 1,
});
const NONE = { named: new Map<string, string>(), all: false };

describe("what a worker takes", () => {
  test.each([
    ["another version", recipe({ version: "9.9.9" }), NONE, /needs version 9\.9\.9, and this worker has \d/],
    ["another draw format", recipe({ format: 99 }), NONE, /needs draw format 99/],
    ["another engine", recipe({ engine: "feed" }), NONE, /the engine with the digest feed/],
    ["other models", recipe({ models: "feed" }), NONE, /the models with the digest feed/],
    ["a model of one's own", recipe({}, OWN), NONE, /Start this worker with --trust-models/],
    [
      "one for another JavaScript engine",
      recipe({}, { ...OWN, engine: "V8 1 x" }),
      { ...NONE, all: true },
      /it needs V8 1 x/,
    ],
    ["the same", recipe({}), NONE, null],
    ["a model that it was told to trust", recipe({}, OWN), { ...NONE, all: true }, null],
    ["a model that it has", recipe({}, OWN), { named: new Map([["n", "file:///m"]]), all: false }, null],
  ])("%s", (_what, wanted, trust, words) => {
    const refusal = refusalOf(wanted, trust);
    if (words === null) expect(refusal).toBeNull();
    else expect(refusal).toMatch(words);
  });

  test("workers of another kind never see its jobs", () => {
    const lanes = [recipe({}), recipe({ version: "9.9.9" }), recipe({}, OWN), recipe({}, { ...OWN, named: "o" })].map(
      laneOf,
    );
    expect(new Set(lanes).size).toBe(4);
  });

  test("the same file has one digest, wherever it was bundled", () => {
    const bundle = (path: string): string => `// ${path}\nvar a = 1;\n// a remark of its author.\nexport { a };\n`;
    expect(namedDigest(bundle("../x/model.ts"))).toBe(namedDigest(bundle("model.ts")));
    expect(namedDigest(bundle("model.ts"))).not.toBe(namedDigest(bundle("model.ts").replace("1", "2")));
  });
});

describe.skipIf(redisHere() === null)("a model of one's own", () => {
  const files = scratch();
  let redis: TestRedis;
  beforeAll(async () => {
    redis = await startRedis();
  });
  afterAll(() => redis.close());
  const said: string[] = [];
  const worker = async (all: boolean, models: readonly string[] = [], seconds = 600) =>
    startWorker(redis.settings, {
      threads: 1,
      trust: await trustIn(models, all),
      seconds,
      tell: (words) => void said.push(words),
    });
  const fleetOf = () => openFleet(redis.settings, { notice: (words) => void said.push(words) });

  test("is drawn by workers that trust it or have it, and refused in words by another", async () => {
    const loaded = await loadStudyFile(`${root}/examples/density/check-weight.json`, { trials: 60_000 });
    const here = await runStudy(loaded);
    const wary = await worker(false);
    const fleet = await fleetOf();
    try {
      const running = runStudy(loaded, { fleet: async () => fleet });
      await expect
        .poll(() => said.join("\n"), { timeout: 60_000 })
        .toMatch(/No worker takes this run\. .*--trust-models/);
      const trusting = await worker(true);
      expect((await running).record.seal.results).toBe(here.record.seal.results);
      await trusting.close();
      const named = await worker(false, [`${root}/examples/density/density.ts`]);
      const again = await runStudy(loaded, { fleet: async () => fleet });
      expect(again.record.seal.results).toBe(here.record.seal.results);
      await named.close();
    } finally {
      await Promise.all([fleet.close(), wary.close()]);
    }
  });

  const poisoned = (name: string, deed: string): string => {
    files.write(
      `${name}.ts`,
      `import { defineModel } from "trialband";
export default defineModel({
  id: "${name}", title: "${name}",
  measurands: { y: { symbol: "y", meaning: "sum", unit: "m" } },
  inputs: { a: { symbol: "a", meaning: "a", unit: "m" } },
  evaluate: ({ a }) => { if (a > 5.3 && globalThis.trialbandTests !== true) { ${deed} } return a; },
});`,
    );
    const inputs = { a: { distribution: "normal", estimate: 2, standardUncertainty: 1 } };
    return files.write(`${name}.json`, { title: name, model: `./${name}.ts`, inputs, trials: 30_000 });
  };

  test(
    "that ends the whole process ends the run with the trial and its inputs named; another process goes on",
    LONG,
    async () => {
      // In a worker's processes alone: the run's own takes the model's budget.
      const there = 'if (process.env.POISON === "yes") process.kill(process.pid, "SIGKILL");';
      const study = poisoned("ends-its-process", there);
      vi.stubEnv("POISON", "yes");
      const poisonedWorker = startWorkerProcess(redis.url, [], "--trust-models");
      vi.unstubAllEnvs();
      try {
        const ended = await startRun(study, 10_000, "poison", redis.url).results.catch(String);
        const words = /ends its process \(SIGKILL\) at trial (\d+) \(a = ([\d.]+)\)/;
        expect(String(ended)).toMatch(words);
        const [, trial, value] = words.exec(String(ended))!;
        expect(Number(value)).toBeGreaterThan(5.3);
        expect(Number(trial)).toBeLessThan(10_000);
        expect(poisonedWorker.said()).toContain("The process that draws ended (SIGKILL).");
        const good = `${root}/examples/density/check-weight.json`;
        const [far, alone] = [startRun(good, 20_000, "after", redis.url), startRun(good, 20_000, "after", null)];
        expect(await far.results).toBe(await alone.results);
      } finally {
        await poisonedWorker.kill();
      }
    },
  );

  // The thread is drawn with three times, and once more trial by trial.
  test.each([
    ["ends its thread", "process.exit(3);", 600],
    ["never returns", "for (;;);", 20],
  ])("that %s ends the run with the trial and its inputs named, not the worker", LONG, async (what, deed, seconds) => {
    (globalThis as { trialbandTests?: boolean }).trialbandTests = true;
    const loaded = await loadStudyFile(poisoned(what.replaceAll(" ", "-"), deed));
    const [trusting, fleet] = await Promise.all([worker(true, [], seconds), fleetOf()]);
    try {
      const fault = (await runStudy(loaded, { fleet: async () => fleet }).catch((error: unknown) => error)) as Fault;
      expect(fault.code).toBe("worker-lost");
      const [, trial, value] = /at trial (\d+) \(a = ([\d.]+)\)/.exec(fault.message)!;
      expect(Number(value)).toBeGreaterThan(5.3);
      expect(Number(trial)).toBeLessThan(30_000);
      const good = await loadStudyFile(`${root}/examples/density/check-weight.json`, { trials: 20_000 });
      await runStudy(good, { fleet: async () => fleet });
    } finally {
      await Promise.all([fleet.close(), trusting.close()]);
    }
  });
});
