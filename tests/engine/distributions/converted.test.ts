import { describe, expect, test } from "vitest";
import { defineModel, InputError, propagate, type RunRecord, readStudy } from "../../../engine/index.ts";
import { convertedDistribution } from "../../../engine/distributions/converted.ts";
import { discreteDistribution } from "../../../engine/distributions/discrete.ts";
import { exponentialDistribution } from "../../../engine/distributions/exponential.ts";

const model = defineModel({
  id: "corrected",
  title: "Temperature with a correction",
  measurands: { t: { symbol: "t", meaning: "temperature", unit: "°C" } },
  inputs: {
    reading: { symbol: "t_X", meaning: "reading", unit: "°C" },
    correction: { symbol: "δt", meaning: "correction", unit: "°C", difference: true },
  },
  evaluate: ({ reading, correction }) => reading + correction,
});

const normal = (estimate: number, standardUncertainty: number, more: object = {}) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
  ...more,
});
const run = (reading: object, correction: object, more: object = {}): RunRecord =>
  propagate(
    model,
    readStudy({ title: "t", model: "corrected", trials: 20_000, inputs: { reading, correction }, ...more }),
  );
const problemOf = (make: () => unknown) => {
  try {
    make();
  } catch (error) {
    return (error as InputError).problems[0]!;
  }
  return undefined;
};

describe("a statement in a unit of its own", () => {
  test("2.5 mK are 0.0025 °C, in both methods", () => {
    const inMillikelvin = run(normal(72, 0.001), normal(-4, 2.5, { unit: "mK" }));
    const inDegrees = run(normal(72, 0.001), normal(-0.004, 0.0025));
    const [a, b] = [inMillikelvin, inDegrees].map(({ measurands }) => measurands["t"]!);
    expect(a!.linear.standardUncertainty).toBeCloseTo(b!.linear.standardUncertainty, 15);
    expect(a!.linear.expandedUncertainty).toBeCloseTo(1.959964 * Math.hypot(0.001, 0.0025), 8);
    // The same draws, but for the last bits.
    expect(a!.monteCarlo.estimate).toBeCloseTo(b!.monteCarlo.estimate!, 12);
    expect(a!.monteCarlo.standardUncertainty).toBeCloseTo(b!.monteCarlo.standardUncertainty!, 12);
    expect(inMillikelvin.inputs["correction"]!.standardUncertainty).toBeCloseTo(0.0025, 15);
    expect(inMillikelvin.study.inputs["correction"]).toMatchObject({ unit: "mK", standardUncertainty: 2.5 });
  });

  // SI brochure, 2.3.1: t/°C = T/K − 273.15; 1 °F = 5/9 K.
  test.each([
    ["K", 345.15, 0.1, 72, 0.1],
    ["°F", 161.6, 0.18, 72, 0.1],
  ])("a temperature in %s has another zero", (unit, estimate, u, celsius, uncertainty) => {
    const { inputs, measurands } = run(normal(estimate, u, { unit }), normal(0, 0.01));
    expect(inputs["reading"]!.estimate).toBeCloseTo(celsius, 10);
    expect(inputs["reading"]!.standardUncertainty).toBeCloseTo(uncertainty, 12);
    expect(measurands["t"]!.linear.estimate).toBeCloseTo(celsius, 10);
    expect(Math.abs(measurands["t"]!.monteCarlo.estimate! - celsius)).toBeLessThan((5 * 0.1005) / Math.sqrt(20_000));
  });

  test("a difference in K or °F has none", () => {
    const { inputs } = run(normal(72, 0.1), normal(1.8, 0.18, { unit: "°F" }));
    expect(inputs["correction"]!.estimate).toBeCloseTo(1, 12);
    expect(run(normal(72, 0.1), normal(1, 0.1, { unit: "K" })).inputs["correction"]!.estimate).toBe(1);
  });

  test("the input's own unit, spelt out, changes no bit", () => {
    const [plain, spelt] = [{}, { unit: "°C" }].map(
      (more) => run(normal(72, 0.1, more), normal(1, 0.1, more)).measurands,
    );
    expect(spelt).toEqual(plain);
  });

  test.each<readonly [string, object]>([
    ["rectangular", { distribution: "rectangular", estimate: 2, halfWidth: 5 }],
    ["by limits", { distribution: "triangular", lower: -3, upper: 7 }],
    ["t", { distribution: "t", estimate: 2, standardUncertainty: 3, degreesOfFreedom: 5 }],
    ["readings", { distribution: "readings", values: [1, 4, 2, 3] }],
    ["exponential", { distribution: "exponential", estimate: 2 }],
    ["log-normal", { distribution: "log-normal", estimate: 2, standardUncertainty: 1 }],
    ["constant", { distribution: "constant", value: 2 }],
  ])("%s: figures in mK are a thousandth in °C", (_, statement) => {
    const scaled = Object.fromEntries(
      Object.entries(statement).map(([field, value]) => [
        field,
        field === "degreesOfFreedom"
          ? value
          : Array.isArray(value)
            ? value.map((one: number) => one / 1000)
            : typeof value === "number"
              ? value / 1000
              : value,
      ]),
    );
    const [a, b] = [{ ...statement, unit: "mK" }, scaled].map((correction) => run(normal(72, 0.001), correction));
    const [inA, inB] = [a!.inputs["correction"]!, b!.inputs["correction"]!];
    expect(inA.estimate).toBeCloseTo(inB.estimate, 14);
    expect(inA.standardUncertainty).toBeCloseTo(inB.standardUncertainty, 14);
    expect(inA.standardDeviation ?? 0).toBeCloseTo(inB.standardDeviation ?? 0, 14);
    const [low, high] = a!.measurands["t"]!.monteCarlo.intervals.symmetric;
    const [from, to] = b!.measurands["t"]!.monteCarlo.intervals.symmetric;
    expect(low).toBeCloseTo(from, 12);
    expect(high).toBeCloseTo(to, 12);
  });

  test("correlated inputs keep their correlation", () => {
    const correlations = [{ between: ["reading", "correction"], coefficient: 0.8 }];
    const t = (scale: number, more: object = {}) => ({
      distribution: "t",
      estimate: 0,
      standardUncertainty: scale,
      degreesOfFreedom: 6,
      ...more,
    });
    const [a, b] = [t(3, { unit: "mK" }), t(0.003)].map(
      (correction) => run(t(0.002), correction, { correlations }).measurands["t"]!,
    );
    expect(a!.linear.standardUncertainty).toBeCloseTo(b!.linear.standardUncertainty, 15);
    expect(a!.monteCarlo.standardUncertainty).toBeCloseTo(b!.monteCarlo.standardUncertainty!, 13);
  });
});

describe("a unit that does not go with the input's is refused", () => {
  test.each(["Ω", "m", "°C/Ω", "mk", "%"])("%s for a temperature", (unit) => {
    expect(problemOf(() => run(normal(72, 1, { unit }), normal(0, 1)))).toMatchObject({
      place: "inputs.reading.unit",
      value: JSON.stringify(unit),
      accepted: "a unit in which °C can be stated, or nothing",
    });
  });

  test("°C for an input in kelvin, which may be a temperature or a difference", () => {
    const kelvin = defineModel({
      id: "kelvin",
      title: "kelvin",
      measurands: { y: { symbol: "y", meaning: "y", unit: "K" } },
      inputs: { x: { symbol: "x", meaning: "x", unit: "K" } },
      evaluate: ({ x }) => x,
    });
    const stated = (unit: string) => () =>
      propagate(
        kelvin,
        readStudy({ title: "t", model: "kelvin", trials: 4000, inputs: { x: normal(1, 0.1, { unit }) } }),
      );
    expect(problemOf(stated("°C"))!.place).toBe("inputs.x.unit");
    expect(stated("mK")).not.toThrow();
  });

  test("at a component of a mixture", () => {
    const mixture = mixtureOf(normal(0, 1, { unit: "Ω" }), normal(0, 2));
    expect(problemOf(() => run(normal(72, 1), mixture))!.place).toMatch(/^inputs\.correction\.components\.0.*unit$/);
  });
});

const mixtureOf = (first: object, second: object, more: object = {}) => ({
  distribution: "mixture",
  components: [
    { weight: 1, statement: first },
    { weight: 3, statement: second },
  ],
  ...more,
});

describe("components of a mixture", () => {
  const u = (correction: object): number => run(normal(72, 1e-6), correction).inputs["correction"]!.standardUncertainty;
  const plain = mixtureOf(normal(0.003, 0.002), mixtureOf(normal(0, 0.001), normal(0.001, 0.004)));

  test.each([
    ["one in another unit", mixtureOf(normal(3, 2, { unit: "mK" }), mixtureOf(normal(0, 0.001), normal(0.001, 0.004)))],
    ["the mixture in another unit", mixtureOf(normal(3, 2), mixtureOf(normal(0, 1), normal(1, 4)), { unit: "mK" })],
    [
      "a mixture within in another unit, and one of its components in the model's",
      mixtureOf(normal(0.003, 0.002), mixtureOf(normal(0, 1), normal(0.001, 0.004, { unit: "°C" }), { unit: "mK" })),
    ],
    [
      "every level in a unit of its own",
      mixtureOf(normal(3e-6, 2e-6, { unit: "kK" }), mixtureOf(normal(0, 1), normal(1000, 4000, { unit: "µK" })), {
        unit: "mK",
      }),
    ],
  ])("%s", (_, stated) => expect(u(stated) / u(plain)).toBeCloseTo(1, 12));
});

test("a t in another unit lacks the moments that it lacks in the model's (ν = 3: no fourth)", () => {
  const t = { distribution: "t", estimate: 0, standardUncertainty: 2, degreesOfFreedom: 3 };
  const inMillikelvin = run(normal(72, 0.001), { ...t, unit: "mK" });
  const { standardErrors } = inMillikelvin.measurands["t"]!.monteCarlo;
  expect(standardErrors.estimate).toBeGreaterThan(0);
  expect(standardErrors.standardUncertainty).toBeNull();
  expect(inMillikelvin.remarks.join(" ")).toContain("no fourth moment");
});

describe("a converted distribution is that of factor·X + offset", () => {
  const of = exponentialDistribution(1, 2);
  const y = convertedDistribution(of, { factor: 0.5, offset: 10 });
  test("moments, support, quantile, functions", () => {
    expect(y.mean).toBe(11.5);
    expect(y.standardDeviation).toBe(1);
    expect(y.support).toEqual([10.5, Infinity]);
    for (const p of [0.01, 0.5, 0.99]) {
      expect(y.quantile(p)).toBeCloseTo(0.5 * of.quantile(p) + 10, 12);
      expect(y.distributionFunction(y.quantile(p))).toBeCloseTo(p, 12);
      expect(y.upperTail!(y.quantile(p))).toBeCloseTo(1 - p, 12);
      expect(y.density(y.quantile(p))).toBeCloseTo(2 * of.density(of.quantile(p)), 12);
    }
  });

  test("a discrete one keeps its probabilities", () => {
    const two = convertedDistribution(discreteDistribution([1, 2], [0.25, 0.75]), { factor: 0.001, offset: 0 });
    expect(two.discrete).toBe(true);
    expect(two.density(0.002)).toBeCloseTo(0.75, 12);
  });
});
