import { describe, expect, test } from "vitest";
import { InputError, ModelError, propagate, type Model } from "trialband";
import { propagateOnThreads } from "trialband/node";

type Density = Model<"mass" | "volume", "density", never>;
const at = new URL("./density.mjs", import.meta.url);
const density = ((await import(at.href)) as { readonly default: Density }).default;
const study = {
  title: "Density of a check weight",
  inputs: {
    mass: { distribution: "normal", estimate: 1.00002, standardUncertainty: 0.000025 },
    volume: { distribution: "rectangular", estimate: 0.000125, halfWidth: 0.000004 },
  },
  seed: "threads",
} as const;
const onlyA = (trials: number) =>
  ({ title: "t", inputs: { a: { distribution: "normal", estimate: 0, standardUncertainty: 0.5 } }, trials }) as const;

describe("on threads", () => {
  test.each([
    { name: "a number of trials", more: { trials: 130_000 } },
    {
      name: "as many as the figures need, to the last digit of the shortest interval",
      more: { trials: "adaptive", maximumTrials: 200_000, coverage: { probability: 0.95, interval: "shortest" } },
    },
    {
      name: "a sweep",
      more: {
        trials: 20_000,
        sweep: {
          quantity: "mass",
          unit: "kg",
          points: [1, 2].map((mass) => ({ at: mass, inputs: { mass: { distribution: "constant", value: mass } } })),
        },
      },
    },
  ] as const)("$name: the record of one thread, bit for bit", async ({ more }) => {
    const asked = { ...study, ...more } as Parameters<typeof propagateOnThreads<Density>>[1];
    const alone = propagate(density, asked as typeof study);
    expect(await propagateOnThreads<Density>(at, asked, { threads: 2 })).toEqual(alone);
  });

  test("progress reaches the end", async () => {
    const trials: number[] = [];
    await propagateOnThreads<Density>(
      at.href,
      { ...study, trials: 60_000 },
      { threads: 2, onProgress: (p) => trials.push(p.trials) },
    );
    expect(trials).toEqual([10_000, 20_000, 30_000, 40_000, 50_000, 60_000]);
  });

  test("a cancel ends it with its reason, before and meanwhile", async () => {
    const reason = new Error("enough");
    const abort = new AbortController();
    const running = propagateOnThreads<Density>(
      at,
      { ...study, trials: 5_000_000 },
      { threads: 1, signal: abort.signal, onProgress: () => abort.abort(reason) },
    );
    await expect(running).rejects.toBe(reason);
    await expect(propagateOnThreads<Density>(at, study, { threads: 1, signal: abort.signal })).rejects.toBe(reason);
  });
});

describe("what cannot be drawn", () => {
  test.each([
    {
      name: "an input that is missing",
      given: { ...study, inputs: { mass: study.inputs.mass } },
      says: /inputs\.volume: .*expected a distribution for V/,
    },
    { name: "no study", given: null, says: /expected/ },
  ])("$name", async ({ given, says }) => {
    const running = propagateOnThreads(at, given as never, { threads: 1 });
    await expect(running).rejects.toThrow(InputError);
    await expect(running).rejects.toThrow(says);
  });

  test("a model that throws in a thread: the trial and its inputs, as on one thread", async () => {
    const { throws } = (await import(at.href)) as { readonly throws: Model<"a", "y", never> };
    const alone = await Promise.resolve()
      .then(() => propagate(throws, onlyA(100_000)))
      .catch((error: unknown) => error);
    expect(alone).toBeInstanceOf(ModelError);
    const threaded = await propagateOnThreads(at, onlyA(100_000), { threads: 2, exportName: "throws" }).catch(
      (error: unknown) => error,
    );
    expect(threaded).toBeInstanceOf(ModelError);
    expect(threaded).toMatchObject({
      message: (alone as ModelError).message,
      trial: (alone as ModelError).trial,
      inputs: (alone as ModelError).inputs,
    });
  });

  test("a model that remembers is found before any thread draws", async () => {
    await expect(propagateOnThreads(at, onlyA(20_000), { threads: 1, exportName: "remembers" })).rejects.toThrow(
      /depends on the inputs alone/,
    );
  });

  test.each([
    {
      name: "no such file",
      module: new URL("./no-such.mjs", import.meta.url),
      options: {},
      says: /no-such\.mjs: the model's module could not be loaded: /,
    },
    {
      name: "no such export",
      module: at,
      options: { exportName: "mass" },
      says: /got exports .*default.*; expected a model made by defineModel under the name mass/,
    },
    {
      name: "no model",
      module: at,
      options: { exportName: "notes" },
      says: /expected a model made by defineModel under the name notes/,
    },
    {
      name: "no number of threads",
      module: at,
      options: { threads: 0 },
      says: /options\.threads: got 0; expected a whole number from 1 to 256/,
    },
  ])("$name", async ({ module, options, says }) => {
    await expect(propagateOnThreads(module, study, options)).rejects.toThrow(says);
  });
});
