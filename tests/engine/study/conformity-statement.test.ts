import { describe, expect, test } from "vitest";
import { InputError } from "../../../engine/errors.ts";
import { conformitySchema, requirementsOf } from "../../../engine/study/conformity-statement.ts";
import type { ToleranceSpecification } from "../../../engine/tolerance.ts";

const MEASURANDS = { error: { symbol: "e", meaning: "error", unit: "°C" } };

const read = (stated: unknown, specifications: Record<string, ToleranceSpecification> = {}) =>
  requirementsOf({ error: conformitySchema.parse(stated) }, MEASURANDS, specifications);

describe("what a study states", () => {
  test("limits and defaults", () => {
    expect(read({ tolerance: { upper: 0.3 } })["error"]).toEqual({
      tolerance: { lower: null, upper: 0.3, basis: null },
      guardBandMultiplier: 0,
      prior: null,
    });
    expect(
      read({
        tolerance: { lower: 0, upper: 1, basis: "order 7" },
        guardBandMultiplier: -1,
        prior: { mean: 0, standardDeviation: 2 },
      })["error"],
    ).toEqual({
      tolerance: { lower: 0, upper: 1, basis: "order 7" },
      guardBandMultiplier: -1,
      prior: { mean: 0, standardDeviation: 2, source: null },
    });
  });

  test.each([
    {
      stated: { tolerance: {} },
      place: ["tolerance"],
      accepted: /lower limit, an upper limit or both; or else a specification/,
    },
    {
      stated: { tolerance: { lower: 1, specification: "class" } },
      place: ["tolerance"],
      accepted: /or else a specification/,
    },
    {
      stated: { tolerance: { lower: 1, upper: 1 } },
      place: ["tolerance", "upper"],
      accepted: /greater than the lower limit/,
    },
    {
      stated: { tolerance: { lower: 2, upper: 1 } },
      place: ["tolerance", "upper"],
      accepted: /greater than the lower limit/,
    },
    {
      stated: { tolerance: { lower: 2, parameters: { class: "A" } } },
      place: ["tolerance", "parameters"],
      accepted: /nothing where no specification/,
    },
    { stated: { tolerance: { lower: "2" } }, place: ["tolerance", "lower"], accepted: /number/ },
    { stated: { tolerance: { lower: 1 }, guardBandMultiplier: 6 }, place: ["guardBandMultiplier"], accepted: /5/ },
    {
      stated: { tolerance: { lower: 1 }, prior: { mean: 0, standardDeviation: 0 } },
      place: ["prior", "standardDeviation"],
      accepted: />0/,
    },
    { stated: { tolerance: { lower: 1 }, guard: 1 }, place: [], accepted: /guard/ },
  ])("$stated is refused", ({ stated, place, accepted }) => {
    const result = conformitySchema.safeParse(stated);
    expect(result.success).toBe(false);
    const [issue] = result.error!.issues;
    expect(issue!.path).toEqual(place);
    expect(issue!.message).toMatch(accepted);
  });

  const graded: ToleranceSpecification = {
    title: "Graded by temperature",
    parameters: { temperature: "temperature, °C" },
    limits(parameters, { unit }, place) {
      const t = parameters["temperature"];
      if (typeof t !== "number" || unit !== "°C")
        throw new InputError([{ place: `${place}.temperature`, value: String(t), accepted: "a temperature in °C" }]);
      return { lower: -t / 100, upper: t / 100, basis: `graded, at ${t} °C` };
    },
  };

  test("a specification of the model gives the limits", () => {
    const stated = { tolerance: { specification: "graded", parameters: { temperature: 72 } } };
    expect(read(stated, { graded })["error"]!.tolerance).toEqual({
      lower: -0.72,
      upper: 0.72,
      basis: "graded, at 72 °C",
    });
  });

  test.each([
    {
      stated: { error: { tolerance: { specification: "other" } } },
      message: 'conformity.error.tolerance.specification: got "other"; expected graded',
    },
    {
      stated: { error: { tolerance: { specification: "graded" } } },
      message: "conformity.error.tolerance.parameters.temperature: got undefined; expected a temperature in °C",
    },
    {
      stated: { length: { tolerance: { lower: 0 } } },
      message: 'conformity.length: got {"lower":0}; expected a measurand of the model: error',
    },
  ])("$message", ({ stated, message }) => {
    const parsed = Object.fromEntries(
      Object.entries(stated).map(([name, value]) => [name, conformitySchema.parse(value)]),
    );
    expect(() => requirementsOf(parsed, MEASURANDS, { graded })).toThrow(message);
  });

  test("a model without specifications asks for limits", () => {
    expect(() => read({ tolerance: { specification: "graded" } })).toThrow(
      /this model knows no specification, so state lower and upper/,
    );
  });
});
