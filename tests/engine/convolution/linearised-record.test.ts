// The part of a record that the linearised model with the stated distributions leaves, held against published factors.
import { describe, expect, test } from "vitest";
import { propagate, type LinearisedRecord, type StudyDocument, readStudy } from "../../../engine/index.ts";
import { modelOf, runExample } from "../../read-example.ts";

type Inputs = StudyDocument["inputs"];
type Distribution = LinearisedRecord & { readonly kind: "distribution" };

const additive = (inputs: Inputs, more: Partial<StudyDocument> = {}): LinearisedRecord => {
  const document = {
    title: "Sum",
    model: "additive",
    parameters: { coefficients: Object.fromEntries(Object.keys(inputs).map((name) => [name, 1])) },
    trials: 20_000,
    inputs,
    ...more,
  } as StudyDocument;
  return Object.values(propagate(modelOf(document), readStudy(document)).measurands)[0]!.linearised!;
};

const distributionOf = (record: LinearisedRecord): Distribution => {
  if (record.kind === "unavailable") throw new Error(record.because);
  return record;
};

const normal = { distribution: "normal", estimate: 0, standardUncertainty: 1 } as const;
const rectangular = { distribution: "rectangular", estimate: 0, halfWidth: Math.sqrt(3) } as const;
const t = (degreesOfFreedom: number) =>
  ({ distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom }) as const;

describe("the factor k", () => {
  test("of normals is the normal one", () => {
    const { coverageFactor, decisive, cells } = distributionOf(additive({ x1: normal, x2: normal }));
    expect(coverageFactor).toBeCloseTo(1.959963984540054, 10);
    expect(decisive).toBeNull();
    expect(cells).toBeNull();
  });

  test("of a dominant rectangular is 1.65 at 95 % (EA-4/02 M:2022, supplement 1, S9.14: 0.95·√3)", () => {
    const { coverageFactor } = distributionOf(
      additive({ x1: rectangular, x2: { ...normal, standardUncertainty: 0.01 } }),
    );
    expect(coverageFactor).toBeCloseTo(1.65, 2);
  });

  test("of two rectangulars of unequal width is that of a trapezoid", () => {
    // p of ±k·u: the trapezoid of half-widths a + b (base) and a − b (top); JCGM 101, 6.4.4.
    const [a, b] = [1, 0.4];
    const base = a + b;
    const β = (a - b) / base;
    const p = 0.95;
    const end = base * (1 - Math.sqrt((1 - p) * (1 - β * β)));
    const u = Math.sqrt((a * a + b * b) / 3);
    const { coverageFactor } = distributionOf(
      additive({ x1: { ...rectangular, halfWidth: a }, x2: { ...rectangular, halfWidth: b } }),
    );
    expect(coverageFactor! * u).toBeCloseTo(end, 6);
  });

  test("holds the probability about the estimate where the distribution is not symmetric", () => {
    const exponential = { distribution: "exponential", estimate: 1 } as const;
    const { coverageFactor, intervals } = distributionOf(
      additive({ x1: exponential, x2: { ...normal, standardUncertainty: 1e-3 } }),
    );
    // P(|X − 1| ≤ k) = 1 − e^(−1−k) for k ≥ 1: 0.95 at k = −ln 0.05 − 1.
    expect(coverageFactor).toBeCloseTo(-Math.log(0.05) - 1, 5);
    expect(intervals.symmetric[1]).toBeCloseTo(-Math.log(0.025), 5);
    expect(intervals.shortest[1] - intervals.shortest[0]).toBeLessThan(intervals.symmetric[1] - intervals.symmetric[0]);
    // The density falls from 0 on, so the shortest interval begins there.
    expect(intervals.shortest[1]).toBeCloseTo(-Math.log(0.05), 2);
  });

  test("the decisive input is the one whose shape counts most", () => {
    const { decisive } = distributionOf(
      additive({ x1: { ...rectangular, halfWidth: 3 }, x2: rectangular, x3: { ...normal, standardUncertainty: 0.2 } }),
    );
    expect(decisive!.inputs).toEqual(["x1"]);
    // With x1 normal of the same standard uncertainty √3, x2 is a rectangular of a third of its variance beside it.
    const swapped = distributionOf(
      additive({
        x1: { ...normal, standardUncertainty: Math.sqrt(3) },
        x2: rectangular,
        x3: { ...normal, standardUncertainty: 0.2 },
      }),
    );
    expect(decisive!.coverageFactor).toBeCloseTo(swapped.coverageFactor!, 5);
  });
});

describe("dependence", () => {
  test("correlated normals are one normal", () => {
    const record = additive(
      { x1: normal, x2: normal },
      { correlations: [{ between: ["x1", "x2"], coefficient: 0.5 }] },
    );
    const { standardUncertainty, coverageFactor } = distributionOf(record);
    expect(standardUncertainty).toBeCloseTo(Math.sqrt(3), 12);
    expect(coverageFactor).toBeCloseTo(1.959963984540054, 10);
  });

  test("simultaneous readings of equal ν are one t (JCGM 102, 5.3.2)", () => {
    const record = additive({ x1: t(9), x2: t(9) }, { correlations: [{ between: ["x1", "x2"], coefficient: 0.5 }] });
    const { coverageFactor, decisive } = distributionOf(record);
    // t with ν = 9 at 97.5 %: JCGM 100, table G.2.
    expect(coverageFactor).toBeCloseTo(2.262157, 5);
    expect(decisive!.inputs).toEqual(["x1", "x2"]);
    expect(decisive!.coverageFactor).toBeCloseTo(1.959963984540054, 6);
  });

  test("a copula of other shapes leaves it to trials, and names its inputs", () => {
    const record = additive(
      { x1: rectangular, x2: rectangular },
      { correlations: [{ between: ["x1", "x2"], coefficient: 0.5 }] },
    );
    expect(record).toMatchObject({ kind: "unavailable", because: "copula", inputs: ["x1", "x2"] });
  });
});

describe("rectangular inputs that depend on each other completely", () => {
  const [a, b] = [1, 0.4];
  const together = (coefficient: number, more: Inputs = {}, halfWidth = b) =>
    additive(
      { x1: { ...rectangular, halfWidth: a }, x2: { ...rectangular, halfWidth }, ...more },
      { correlations: [{ between: ["x1", "x2"], coefficient }] },
    );

  test.each([
    [1, a + b],
    [-1, a - b],
  ])("r = %d: their sum is rectangular, of half-width %d, whose middle 95 %% is known", (coefficient, halfWidth) => {
    const { standardUncertainty, intervals, cells } = distributionOf(together(coefficient));
    expect(standardUncertainty).toBeCloseTo(halfWidth / Math.sqrt(3), 14);
    expect(intervals.symmetric[0]).toBeCloseTo(-0.95 * halfWidth, 12);
    expect(intervals.symmetric[1]).toBeCloseTo(0.95 * halfWidth, 12);
    expect(cells).toBeNull();
  });

  test("with a third, independent one: a trapezoid, as of two", () => {
    const third = { x3: { ...rectangular, halfWidth: 0.5 } };
    const of = (record: LinearisedRecord) => distributionOf(record).intervals.symmetric;
    const two = of(additive({ x1: { ...rectangular, halfWidth: a + b }, x2: third.x3 }));
    of(together(1, third)).forEach((end, i) => expect(end).toBeCloseTo(two[i]!, 8));
  });

  test("which cancel leave nothing", () => {
    expect(together(-1, {}, a)).toMatchObject({ kind: "unavailable", because: "nothingVaries" });
  });

  test("the explanation leaves nothing over: shape alone moves the endpoints", () => {
    const document = {
      title: "Sum",
      model: "additive",
      parameters: { coefficients: { x1: 1, x2: 1 } },
      trials: 20_000,
      inputs: { x1: rectangular, x2: rectangular },
      correlations: [{ between: ["x1", "x2"], coefficient: 1 }],
    } as StudyDocument;
    const [measurand] = Object.values(propagate(modelOf(document), readStudy(document)).measurands);
    const { parts, difference, remainder, trials } = measurand!.explanation!;
    // 0.95·2√3 beside 1.96·2.
    expect(difference[1]).toBeCloseTo(2 * (0.95 * Math.sqrt(3) - 1.959963984540054), 10);
    expect(parts.shape.shapley[1]).toBeCloseTo(difference[1], 8);
    expect(remainder[1]).toBeCloseTo(0, 8);
    expect(trials).toBe(20_000);
  });

  test("of different shapes with equal ranks are no multiples of one another", () => {
    const record = additive(
      { x1: rectangular, x2: { distribution: "triangular", estimate: 0, halfWidth: 1 } },
      { correlations: [{ between: ["x1", "x2"], coefficient: 1, refersTo: "ranks" }] },
    );
    expect(record).toMatchObject({ kind: "unavailable", because: "copula", inputs: ["x1", "x2"] });
  });
});

describe("limits that are stated", () => {
  test.each([0.5, 1, 2])("a t with ν = %d has no standard deviation", (ν) => {
    expect(additive({ x1: t(ν), x2: normal })).toMatchObject({
      kind: "unavailable",
      because: "noStandardDeviation",
      inputs: ["x1"],
    });
  });

  test("constants alone", () => {
    const constant = { distribution: "constant", value: 3 } as const;
    expect(additive({ x1: constant, x2: constant })).toMatchObject({ kind: "unavailable", because: "nothingVaries" });
  });

  test("a vanishing coefficient leaves its input out, however wide it is", () => {
    const record = runExample("published/comparison-loss-00", { trials: 20_000 });
    expect(record.measurands["loss"]!.linearised).toMatchObject({ kind: "unavailable", because: "nothingVaries" });
  });

  test("discrete values alone: exact", () => {
    const die = { distribution: "discrete", values: [1, 2, 3, 4, 5, 6], probabilities: Array(6).fill(1 / 6) } as const;
    const { intervals, error, cells, curve } = distributionOf(additive({ x1: die, x2: die }));
    // P(sum ≤ 2) = 1/36 ≥ 0.025.
    expect(intervals.symmetric).toEqual([2, 12]);
    expect([error, cells, curve]).toEqual([[0, 0], null, []]);
  });
});
