import { describe, expect, test } from "vitest";
import { defineModel, InputError, prepare, propagate, readStudy } from "../../engine/index.ts";
import { everyInput } from "../../engine/internal.ts";
import { bathComparison } from "../../models/index.ts";
import { readExample } from "../read-example.ts";

/** What an assessor asks for in a comparison in a bath (ISO/IEC 17025:2017, 7.6.1: all contributions of significance). */
const model = bathComparison;
const example = { ...readExample("harrowfen/pasteuriser-72"), negligible: undefined, trials: 10_000 };
const inputs = (example as unknown as { inputs: Record<string, unknown> }).inputs;
const problemsOf = (document: unknown) => {
  try {
    prepare(model, readStudy(document));
  } catch (error) {
    if (error instanceof InputError) return error.problems.map(({ place, accepted }) => `${place}: ${accepted}`);
    throw error;
  }
  return [];
};

describe("optional inputs", () => {
  test("omitted, they are zero, and the record states it", () => {
    const record = propagate(model, readStudy(example));
    expect(record.leftOut!.map(({ name }) => name)).toEqual(Object.keys(bathComparison.optionalInputs!));
    expect(Object.keys(record.inputs)).toEqual(Object.keys(bathComparison.inputs));
    for (const { name, because, ...quantity } of record.leftOut!) {
      expect(because).toBeNull();
      expect(everyInput(bathComparison)[name]).toMatchObject(quantity);
    }
  });

  test("a reason stated stands in the record; one for an input that is stated, or that there is not, is refused", () => {
    const because = "four-wire connection throughout.";
    const record = propagate(model, readStudy({ ...example, negligible: { leads: because } }));
    const reasons = record.leftOut!.map((one) => [one.name, one.because] as const);
    expect(reasons.filter(([, reason]) => reason !== null)).toEqual([["leads", because]]);
    const leads = { distribution: "rectangular", estimate: 0, halfWidth: 1e-4 };
    expect(problemsOf({ ...example, inputs: { ...inputs, leads }, negligible: { leads: because } })).toEqual([
      "negligible.leads: nothing beside a statement of it under inputs",
    ]);
    expect(problemsOf({ ...example, negligible: { immersion: because } })).toEqual([
      expect.stringContaining(
        "negligible.immersion: an optional input of model bath-comparison: referenceSelfHeating,",
      ),
    ]);
  });

  test("stated, each enters the model with its sign; a neutral one changes no figure", () => {
    const error = (more: object) =>
      prepare(model, readStudy({ ...example, inputs: { ...inputs, ...more } })).linear["error"]!;
    const plain = error({});
    // Ω of the probe: dt/dR at 72 °C by IEC 60751, 1/[100 Ω·(A + 2Bt)]; the probe reads within 0.1 °C of it, which is 3e-5.
    const perOhm = -1 / (100 * (3.9083e-3 - 2 * 5.775e-7 * 72));
    const signs: Record<string, number> = {
      referenceSelfHeating: 1,
      referenceResolution: -1,
      referenceImmersion: 1,
      referenceHysteresis: 1,
      referenceInterpolation: -1,
      referenceLag: 1,
      probeLag: -1,
      bathLoading: -1,
      leads: perOhm,
      thermalEmf: perOhm,
      insulation: perOhm,
    };
    expect(Object.keys(signs)).toEqual(Object.keys(bathComparison.optionalInputs!));
    for (const [name, c] of Object.entries(signs)) {
      const stated = error({ [name]: { distribution: "rectangular", estimate: 0, halfWidth: 0.001 } });
      const row = stated.contributions.find(({ input }) => input === name)!;
      expect(Math.abs(row.sensitivityCoefficient / c - 1), name).toBeLessThan(3e-5);
      expect(stated.standardUncertainty, name).toBeGreaterThan(plain.standardUncertainty);
      const neutral = error({ [name]: { distribution: "constant", value: 0 } });
      expect(neutral.estimate).toBe(plain.estimate);
      expect(neutral.standardUncertainty).toBe(plain.standardUncertainty);
    }
  });

  test("a model cannot declare one that must be stated as well", () => {
    const quantity = { symbol: "a", meaning: "a", unit: "1" };
    expect(() =>
      defineModel({
        id: "twice",
        title: "twice",
        measurands: { y: quantity },
        inputs: { a: quantity },
        optionalInputs: { a: quantity },
        evaluate: ({ a }) => a,
      }),
    ).toThrow(/model\.optionalInputs: got "a"/);
  });
});
