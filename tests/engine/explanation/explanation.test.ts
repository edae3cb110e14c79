// Why a budget differs: cases whose cause is known by construction, and what must hold of any split.
import { describe, expect, test } from "vitest";
import { defineModel, propagate, type MeasurandRecord, readStudy } from "../../../engine/index.ts";
import { CAUSES } from "../../../engine/explanation/causes.ts";
import { runExample } from "../../read-example.ts";

const q = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const sum = defineModel({
  id: "sum",
  title: "s",
  measurands: { y: q("y") },
  inputs: { a: q("a"), b: q("b") },
  evaluate: ({ a, b }) => a + b,
});
const square = defineModel({
  id: "square",
  title: "s",
  measurands: { y: q("y") },
  inputs: { a: q("a"), b: q("b") },
  evaluate: ({ a, b }) => a * a + b,
});
const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
const of = (model: typeof sum, a: object, b: object, more: object = {}): MeasurandRecord =>
  propagate(model, readStudy({ title: "t", model: model.id, trials: 100_000, inputs: { a, b }, ...more })).measurands[
    "y"
  ]!;

describe("a single cause accounts for the whole difference", () => {
  test("curvature", () => {
    const { parts, sentence, recommendation } = of(square, normal(1, 0.5), normal(0, 0.01)).explanation!;
    expect(parts.curvature.share).toBe(1);
    expect(parts.curvature.inputs).toEqual(["a"]);
    expect(sentence).toContain("100 % of the difference comes from the curvature of the model, above all a");
    expect(recommendation.action).toBe("report-monte-carlo");
  });

  test("shape", () => {
    const { parts, recommendation } = of(
      sum,
      { distribution: "rectangular", estimate: 0, halfWidth: 1 },
      normal(0, 0.05),
    ).explanation!;
    expect(parts.shape.share).toBeGreaterThan(0.999);
    expect(parts.shape.inputs).toEqual(["a"]);
    expect(recommendation.action).toBe("keep-with-factor");
    // A rectangular distribution of half-width 1 holds 95 % within 0.95: k = 0.95·√3 = 1.645.
    expect(recommendation.factor).toBeCloseTo(0.95 * Math.sqrt(3), 1);
  });

  test("few degrees of freedom, with the convention k = 2", () => {
    const { parts, sentence, recommendation } = of(
      sum,
      { distribution: "readings", values: [1, 2, 4] },
      normal(0, 0.05),
      {
        coverage: { factor: 2 },
      },
    ).explanation!;
    expect(parts.degreesOfFreedom.share).toBeGreaterThan(0.999);
    expect(sentence).toContain("few degrees of freedom, above all a (ν = 2)");
    expect(recommendation).toMatchObject({ action: "gather-readings", inputs: ["a"] });
  });

  test("a t of the budget's own allows for its few degrees of freedom: nothing is left to explain", () => {
    const { validation, explanation } = of(
      sum,
      { distribution: "readings", values: [1, 2, 4, 5, 9] },
      normal(0, 1e-6),
      {
        significantDigits: 1,
      },
    );
    expect(validation.validated).toBe(true);
    // k = t₄(0.975) = 2.776 in place of 1.960 is the whole of the effect.
    expect(explanation!.difference.every((end) => Math.abs(end) < 0.1)).toBe(true);
    expect(Math.abs(explanation!.parts.degreesOfFreedom.shapley[0])).toBeLessThan(0.15);
  });

  test("normal inputs in a linear model leave no cause", () => {
    const { explanation } = of(sum, normal(0, 1), normal(0, 2));
    expect(explanation!.sentence).toContain("agree within the scatter of the trials");
    for (const cause of CAUSES) expect(Math.abs(explanation!.parts[cause].shapley[0])).toBeLessThan(1e-12);
  });
});

test.each(["harrowfen/steriliser-134", "published/gauge-block", "verdicts/few-readings", "verdicts/curvature"])(
  "%s: the parts add up to the difference, up to the stated scatter",
  (id) => {
    const record = runExample(id, { trials: 200_000 });
    for (const { explanation } of Object.values(record.measurands)) {
      const { parts, difference, remainder } = explanation!;
      [0, 1].forEach((end) => {
        const added = CAUSES.reduce((total, cause) => total + parts[cause].shapley[end]!, remainder[end]!);
        expect(added).toBeCloseTo(difference[end]!, 12);
      });
      // Shares are signed: what pushes makes one whole push, what takes back is a part of it.
      const shares = CAUSES.map((cause) => parts[cause].share);
      const pushing = shares.filter((share) => share > 0);
      expect(pushing.reduce((total, share) => total + share, 0)).toBeCloseTo(1, 12);
    }
  },
);

describe("each verdict of the scenario has its example", () => {
  test.each([
    { id: "kept", validated: true, action: "keep", sentence: /degrees of freedom/ },
    {
      id: "another-factor",
      validated: false,
      action: "keep-with-factor",
      sentence: /shape of the inputs, above all δt_ax \(rectangular, 9\d % of u²\)/,
    },
    {
      id: "curvature",
      validated: false,
      action: "report-monte-carlo",
      sentence: /curvature of the model, above all t_X/,
    },
    {
      id: "few-readings",
      validated: false,
      action: "gather-readings",
      sentence: /few degrees of freedom, above all R_X \(ν = 2\)/,
    },
  ])("verdicts/$id", ({ id, validated, action, sentence }) => {
    for (const { validation, explanation } of Object.values(runExample(`verdicts/${id}`).measurands)) {
      expect(validation.validated).toBe(validated);
      expect(validation.firm).toBe(true);
      expect(explanation!.recommendation.action).toBe(action);
      expect(explanation!.sentence).toMatch(sentence);
    }
  });
});

test("a small difference between large effects that cancel is stated as such", () => {
  const { explanation } = runExample("published/end-gauge").measurands["length"]!;
  expect(explanation!.sentence).toMatch(/differ by only \S+ nm because larger effects cancel/);
});
