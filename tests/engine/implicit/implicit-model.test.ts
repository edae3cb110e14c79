import { describe, expect, it } from "vitest";
import {
  elementary,
  implicitModel,
  InputError,
  ModelError,
  prepare,
  propagate,
  readStudy,
} from "../../../engine/index.ts";
import { usesFixedBits } from "../../../engine/evaluator/fixed-bits.ts";
import { resistanceRatio, ratioSlope, temperatureOf } from "../../../models/platinum/iec60751.ts";
import { runWithoutExplanation } from "../../models/platinum/run-without-explanation.ts";

const measurands = { y: { symbol: "y", meaning: "root", unit: "1" } };
const inputs = { x: { symbol: "x", meaning: "square", unit: "1" } };
const root = {
  id: "root",
  title: "Root",
  measurands,
  inputs,
  residual: (y: number, { x }: { readonly x: number }) => y * y - x,
};
const study = (x: Record<string, unknown>, trials = 10_000) => ({ title: "t", model: "root", inputs: { x }, trials });

const slope = (t: number, { R0 }: { readonly R0: number }): number => R0 * ratioSlope(t);
const start = ({ R, R0 }: { readonly R: number; readonly R0: number }): number => 256 * (R / R0 - 1);
const bracket = () => ({ low: 0, high: 1 });

describe("an implicit model", () => {
  const thermometer = {
    id: "implicit-iec",
    title: "t from R by IEC 60751, stated as R₀·r(t) − R = 0",
    measurands: { t: { symbol: "t", meaning: "temperature", unit: "°C" } },
    inputs: {
      R: { symbol: "R", meaning: "resistance", unit: "Ω" },
      R0: { symbol: "R_0", meaning: "resistance at 0 °C", unit: "Ω" },
    },
    residual: (t: number, { R, R0 }: { readonly R: number; readonly R0: number }) => R0 * resistanceRatio(t) - R,
  };

  it.each([
    ["in a bracket", implicitModel({ ...thermometer, bracket: () => ({ low: -200, high: 850 }) })],
    ["in a bracket, by slopes", implicitModel({ ...thermometer, slope, bracket: () => ({ low: -200, high: 850 }) })],
    ["from a start", implicitModel({ ...thermometer, start, step: 0.1, limits: { low: -200, high: 850 } })],
    [
      "from a start, by slopes",
      implicitModel({ ...thermometer, slope, start, step: 0.1, limits: { low: -200, high: 850 } }),
    ],
  ])("gives what the explicit one gives, %s", (_, model) => {
    // IEC 60751, clause 4, whose inverse is known: 1e-13 of 138 Ω over 0.38 Ω/°C.
    for (const R of [20, 84.27, 99.999, 100, 100.001, 138.5055, 390]) {
      expect(Math.abs((model.evaluate({ R, R0: 100 }) as number) - temperatureOf(R / 100))).toBeLessThan(
        1e-12 * (1 + R),
      );
    }
    const document = {
      title: "t",
      model: model.id,
      inputs: {
        R: { distribution: "normal", estimate: 99.99, standardUncertainty: 0.02 },
        R0: { distribution: "rectangular", estimate: 100, halfWidth: 0.03 },
      },
      trials: 20_000,
    };
    const explicit = {
      ...model,
      evaluate: ({ R, R0 }: { readonly R: number; readonly R0: number }) => temperatureOf(R / R0),
    };
    const found = runWithoutExplanation(model, document).measurands["t"]!;
    const wanted = runWithoutExplanation(explicit, document).measurands["t"]!;
    expect(found.monteCarlo.estimate!).toBeCloseTo(wanted.monteCarlo.estimate!, 11);
    expect(found.monteCarlo.intervals.symmetric[0]).toBeCloseTo(wanted.monteCarlo.intervals.symmetric[0], 11);
    expect(Math.abs(found.linear.standardUncertainty / wanted.linear.standardUncertainty - 1)).toBeLessThan(1e-8);
  });

  it("is a pure function of the trial", () => {
    const model = implicitModel({ ...root, start: ({ x }) => x, step: 0.1, limits: { low: 0, high: 100 } });
    const once = [2, 3, 5, 7].map((x) => model.evaluate({ x }));
    expect([7, 5, 3, 2].map((x) => model.evaluate({ x })).toReversed()).toEqual(once);
    expect(once[0]).toBeCloseTo(Math.SQRT2, 14);
  });
});

describe("a trial without a root", () => {
  const model = implicitModel({ ...root, bracket: () => ({ low: 0, high: 10 }) });

  it("is an error that names the trial and its inputs", () => {
    let error: unknown;
    try {
      propagate(model, readStudy(study({ distribution: "normal", estimate: 0.5, standardUncertainty: 0.2 })));
    } catch (caught) {
      error = caught;
    }
    expect(error).toBeInstanceOf(ModelError);
    const { trial, inputs: x, message } = error as ModelError;
    expect(trial).toBeGreaterThanOrEqual(0);
    // P(x < 0) = 0.6 % of trials: the first of them.
    expect(x["x"]).toBeLessThan(0);
    expect(message).toContain(`at trial ${trial} (x = ${x["x"]})`);
    expect(model.whyNoRoot(x as { x: number })).toBe(
      `h(0) = ${-x["x"]!} and h(10) = ${100 - x["x"]!}; expected finite values of opposite signs`,
    );
  });

  it("is an error at the estimates too", () => {
    expect(() => prepare(model, readStudy(study({ distribution: "constant", value: 200 })))).toThrow(
      /model root returned NaN for y at the estimates of its inputs \(x = 200\)/,
    );
    const searched = implicitModel({ ...root, start: () => 3, step: 1, limits: { low: 0, high: 10 } });
    expect(() => prepare(searched, readStudy(study({ distribution: "constant", value: 200 })))).toThrow(ModelError);
    expect(searched.whyNoRoot({ x: 200 })).toContain(
      "no change of sign of h was found from the start y = 3 (h = -191)",
    );
  });
});

describe("the declaration", () => {
  it.each([
    [
      () => implicitModel(root),
      /model.bracket: got "neither bracket nor start"; expected exactly one of bracket and start/,
    ],
    [() => implicitModel({ ...root, bracket, start: () => 1, step: 1 }), /model.bracket: got "both bracket and start"/],
    [
      () => implicitModel({ ...root, start: () => 1 }),
      /model.step: got nothing; expected a number greater than 0 beside start/,
    ],
    [
      () => implicitModel({ ...root, start: () => 1, step: 1, limits: { low: 2, high: 1 } }),
      /model.limits: .*low less than high/,
    ],
    [() => implicitModel({ ...root, bracket, tolerance: -1 }), /model.tolerance: got -1/],
    [
      () => implicitModel({ ...root, bracket, measurands: { y: measurands.y, z: measurands.y } }),
      /model.measurands: got 2; expected exactly one measurand/,
    ],
    [() => implicitModel({ ...root, bracket, residual: 1 as never }), /model.residual: got 1/],
    [() => implicitModel({ ...root, bracket, id: "Not an id" }), /model.id: got "Not an id"/],
  ])("%#", (declare, message) => {
    expect(declare).toThrow(InputError);
    expect(declare).toThrow(message);
  });

  it("is checked for exactly defined functions by the author's text", () => {
    const fixed = implicitModel({ ...root, bracket, residual: (y, { x }) => elementary.exp(y) - x });
    const loose = implicitModel({ ...root, bracket, residual: (y, { x }) => Math.exp(y) - x });
    expect([fixed, loose].map((model) => usesFixedBits(model))).toEqual([true, false]);
  });
});
