// Sensitivity without linearity, against functions whose indices are known in closed form. Figures and sources:
// tests/reference/sensitivity.json, written by sensitivity.py beside it.
//
// Estimates are held to five of their own reported standard errors: with t at 39 degrees of freedom, 1 in 10⁵.
import { describe, expect, test } from "vitest";
import * as fc from "fast-check";
import { defineModel, InputError, ModelError, prepare, readStudy, type Model } from "../../../engine/index.ts";
import { openTrials } from "../../../engine/internal.ts";
import { analyseSensitivity } from "../../../engine/sensitivity/analyse.ts";
import { sensitivityFacts } from "../../../engine/sensitivity/sensitivity-facts.ts";
import type { IndexRecord } from "../../../engine/record/sensitivity.ts";
import { sensitivitySchema } from "../../../engine/study/sensitivity-settings.ts";
import type { SensitivityFigures } from "../../../engine/record/figures.ts";
import { en } from "../../../engine/sentences/en/index.ts";
import { say } from "../../../engine/sentences/messages.ts";
import { modelOf, readExample } from "../../read-example.ts";
import reference from "../../reference/sensitivity.json" with { type: "json" };
import {
  analyse,
  circle,
  intervalsCover,
  ishigamiIndices,
  ishigamiModel,
  modelIn,
  normal,
  quantity,
  rectangular,
} from "./ishigami.ts";
import { LONG } from "../../setup/long.ts";

const FIVE = 5;
const near = (found: IndexRecord | null, wanted: number) =>
  expect(Math.abs(found!.value - wanted)).toBeLessThanOrEqual(FIVE * found!.standardError);
const sentence = (model: Pick<Model, "inputs">, symbol: string, record: SensitivityFigures): string =>
  say(en.sensitivity, sensitivityFacts(model, symbol, record));

const { ishigami, g } = reference;

describe("closed forms", () => {
  test.each([
    { name: "Ishigami", known: ishigami, record: () => ishigamiIndices(100_000, "1") },
    {
      name: "Sobol' g",
      known: g,
      record: () =>
        analyse(
          modelIn(5, (x) =>
            x.reduce((product, v, i) => (product * (Math.abs(4 * v - 2) + g.a[i]!)) / (1 + g.a[i]!), 1),
          ),
          Array.from({ length: 5 }, () => rectangular(0, 1)),
        ),
    },
  ])("$name: every first-order and total index, and what is left", ({ known, record: make }) => {
    const record = make();
    known.firstOrder.forEach((wanted, i) => near(record.factors[i]!.firstOrder, wanted));
    known.total.forEach((wanted, i) => near(record.factors[i]!.total, wanted));
    near(record.interaction, 1 - known.firstOrder.reduce((sum, part) => sum + part, 0));
    // 2·10⁵ draws: u of u(y) is at most u·√((γ₂ + 2)/(8M)) with γ₂ below 10 for both functions.
    const u = Math.sqrt(known.variance);
    expect(Math.abs(record.standardUncertainty! - u)).toBeLessThan(FIVE * u * Math.sqrt(12 / 8e5));
  });

  test("standard errors are small enough for the checks above to mean something", () => {
    for (const { firstOrder, total } of ishigamiIndices(100_000, "1").factors) {
      expect(firstOrder!.standardError).toBeLessThan(0.01);
      expect(total!.standardError).toBeLessThan(0.01);
    }
  });

  test("Ishigami one at a time, JCGM 101:2008, B.1: x3 does nothing alone, though it has a quarter of the variance", () => {
    const { factors } = ishigamiIndices(100_000, "1");
    ishigami.alone.forEach(({ u, shift }, i) => {
      const { alone } = factors[i]!;
      expect(Math.abs(alone.standardUncertainty! - u)).toBeLessThanOrEqual(FIVE * alone.standardError!);
      expect(Math.abs(alone.shift! - shift)).toBeLessThanOrEqual((FIVE * u) / Math.sqrt(100_000));
    });
    // B.1: u_i(y)/u(x_i), with u(x) = π/√3; x2 enters as an even function, so it has no direction.
    expect(factors[0]!.alone.sensitivityCoefficient!).toBeCloseTo(Math.SQRT1_2 / (Math.PI / Math.sqrt(3)), 2);
    expect(factors.map(({ alone }) => alone.direction)).toEqual(["rises", "neither", "neither"]);
    // cov(x, sin x)/(σ_x·σ_sin) = 1/(π/√3·√½) on (−π, π).
    expect(factors[0]!.alone.correlation!).toBeCloseTo(Math.sqrt(6) / Math.PI, 2);
    expect(factors[2]!.alone).toMatchObject({ standardUncertainty: 0, standardError: 0, shift: 0, correlation: 0 });
  });

  test("mass calibration, JCGM 101:2008, 9.3: half the variance is two densities that the linear budget gives nothing", () => {
    const document = readExample("published/mass-calibration");
    const known = reference["mass calibration"];
    const model = modelOf(document);
    const record = analyseSensitivity(prepare(model, readStudy(document)), { trials: 100_000 })["deviation"]!;
    known.firstOrder.forEach((wanted, i) => {
      if (wanted > 1e-6) near(record.factors[i]!.firstOrder, wanted);
      else
        expect(Math.abs(record.factors[i]!.firstOrder!.value)).toBeLessThanOrEqual(
          FIVE * record.factors[i]!.firstOrder!.standardError,
        );
    });
    known.total.forEach((wanted, i) => near(record.factors[i]!.total, wanted));
    expect(record.factors[5]).toMatchObject({
      name: "nominalMass",
      linearShare: 0,
      firstOrder: { value: 0 },
      total: { value: 0 },
      alone: { standardUncertainty: 0 },
    });
    expect(record.conditional["nominalMass"]).toBeUndefined();
    expect(Math.abs(record.standardUncertainty! - Math.sqrt(known.variance))).toBeLessThan(
      FIVE * Math.sqrt(known.variance) * Math.sqrt(4 / 8e5),
    );
    // The densities do nothing one at a time either: only together.
    expect(record.standardUncertaintyOneAtATime!).toBeLessThan(0.0545);
    const { symbol } = model.measurands["deviation"]!;
    expect(sentence(model, symbol, record)).toMatch(
      /^Of the variance of δm, m_Rc alone explains 4\d % and δm_Rc \d\.\d %\. 4\d % arises only from inputs acting together, above all (a and ρ_W|ρ_W and a)\. The linear budget misjudges this: it assigns .*0 % to a, whose total index is \d\d %/,
    );
  });
});

describe("additive linear model: S_i = T_i = c_i²·u²(x_i)/u²(y), exactly", () => {
  const coefficients = [2, -1, 0.5, 0];
  const statements = [normal(10, 1), rectangular(-3, 3), normal(0, 4), normal(5, 1)];
  const variances = [4, 3, 4, 0];
  const record = analyse(
    modelIn(4, (x) => x.reduce((sum, v, i) => sum + coefficients[i]! * v, 1e6)),
    statements,
  );

  test("indices, contributions one at a time, and the budget's shares agree", () => {
    variances.forEach((variance, i) => {
      const { firstOrder, total, linearShare, alone } = record.factors[i]!;
      // Derivatives of the budget have errors of 1e-9 of 10⁶ or less.
      expect(linearShare).toBeCloseTo(variance / 11, 8);
      near(firstOrder, variance / 11);
      near(total, variance / 11);
      expect(Math.abs(alone.standardUncertainty! - Math.sqrt(variance))).toBeLessThanOrEqual(
        FIVE * alone.standardError!,
      );
      // The sign is the model's, the size as far as u_i(y) is known: 5/√(2M) for a normal.
      expect(Math.abs(alone.sensitivityCoefficient! - coefficients[i]!)).toBeLessThanOrEqual(
        (Math.abs(coefficients[i]!) * FIVE) / Math.sqrt(2e5),
      );
    });
    near(record.interaction, 0);
    expect(record.factors.map(({ alone }) => alone.direction)).toEqual(["rises", "falls", "rises", "neither"]);
    expect(record.factors.slice(0, 3).map(({ alone }) => Math.round(alone.correlation! * 1e9) / 1e9)).toEqual([
      1, -1, 1,
    ]);
    expect(sentence({ inputs: {} }, "y", record)).toMatch(/No part from inputs acting together is seen\.$/);
  });

  test("an input that the model ignores has indices of exactly 0", () => {
    expect(record.factors[3]!.total).toEqual({ value: 0, standardError: 0, interval: [0, 0] });
    expect(record.factors[3]!.firstOrder!.value).toBe(0);
  });

  test("the size and the unit of the measurand do not matter", () => {
    const scaled = analyse(
      modelIn(4, (x) => 1e-60 * x.reduce((sum, v, i) => sum + coefficients[i]! * v, 0)),
      statements,
    );
    scaled.factors.forEach(({ total }, i) => near(total, variances[i]! / 11));
  });
});

test("inputs drawn together are one factor: its share has the correlated term in it", () => {
  const model = modelIn(3, ([a, b, c]) => 2 * a! - b! + c!);
  const correlations = [{ between: ["x1", "x2"], coefficient: 0.8 }];
  const record = analyse(model, [normal(0, 1), normal(0, 1.5), normal(0, 0.7)], 100_000, { correlations });
  // u² of the pair: 4 + 2.25 − 2·2·1.5·0.8 = 1.45; of x3: 0.49 (JCGM 100:2008, 5.2.2).
  expect(record.factors.map(({ name }) => name)).toEqual(["x1 + x2", "x3"]);
  near(record.factors[0]!.firstOrder, 1.45 / 1.94);
  near(record.factors[0]!.total, 1.45 / 1.94);
  near(record.factors[1]!.total, 0.49 / 1.94);
  expect(record.factors[0]!.linearShare).toBeCloseTo(1.45 / 1.94, 9);
  const { alone } = record.factors[0]!;
  expect(Math.abs(alone.standardUncertainty! - Math.sqrt(1.45))).toBeLessThanOrEqual(FIVE * alone.standardError!);
  expect(alone).toMatchObject({ sensitivityCoefficient: null, correlation: null, direction: null });
  expect(Object.keys(record.conditional)).toEqual(["x1", "x2", "x3"]);
});

// Binomial(20, 0.95) is below 15 once in 3000; seven counts, so once in 400 in all.
intervalsCover(10, 8);

test("property: first orders add up to at most 1, and no total is less than its first order", LONG, () => {
  const coefficient = fc.double({ min: -2, max: 2, noNaN: true });
  fc.assert(
    fc.property(
      fc.array(coefficient, { minLength: 3, maxLength: 3 }),
      fc.array(coefficient, { minLength: 6, maxLength: 6 }),
      (c, q) => {
        const quadratic = modelIn(
          3,
          ([x, y, z]) =>
            c[0]! * x! +
            c[1]! * y! +
            c[2]! * z! +
            q[0]! * x! * x! +
            q[1]! * y! * y! +
            q[2]! * z! * z! +
            q[3]! * x! * y! +
            q[4]! * y! * z! +
            q[5]! * x! * z!,
        );
        const record = analyse(quadratic, [normal(0, 1), rectangular(-1, 2), normal(1, 0.5)]);
        fc.pre(record.interaction !== null);
        expect(record.interaction!.value).toBeGreaterThanOrEqual(-FIVE * record.interaction!.standardError);
        for (const { firstOrder, total } of record.factors) {
          // Errors of the two add at worst.
          expect(total!.value - firstOrder!.value).toBeGreaterThanOrEqual(
            -FIVE * (total!.standardError + firstOrder!.standardError),
          );
          expect(total!.value).toBeGreaterThanOrEqual(0);
        }
      },
    ),
    { seed: 7, numRuns: 10 },
  );
});

describe("conditional pictures", () => {
  // Points are rounded to 1e-4 of a spread of about 24 at most, 3x by three times that of x.
  const ROUNDED = 4e-3;
  const record = analyse(
    modelIn(2, ([a, b]) => 3 * a! + b!),
    [normal(5, 1), rectangular(-1, 1)],
  );

  test("25 equally probable bins: mean 3x and quantiles 3x ± 0.9 of a rectangular rest", () => {
    const { bins, points } = record.conditional["x1"]!;
    expect(bins.map(({ trials }) => trials)).toEqual(Array.from({ length: 25 }, () => 2000));
    bins.forEach(({ from, at, to, mean, standardError, low, high }, i) => {
      expect(from).toBeLessThan(at);
      expect(at).toBeLessThan(to);
      expect(Math.abs(mean! - 3 * at)).toBeLessThanOrEqual(FIVE * standardError!);
      // Inside, x spans at most 0.3, which moves 3x by up to 0.9 within the bin; the outer two bins are wider.
      if (i === 0 || i === 24) return;
      expect(low).toBeGreaterThan(3 * from - 1);
      expect(high).toBeLessThan(3 * to + 1);
    });
    // The middle bin is 0.1 wide: quantiles of 3x + b there, b's 5 % point being −0.9, within 3·0.1/2 + its 5 errors.
    const middle = bins[12]!;
    const error = FIVE * Math.sqrt((0.05 * 0.95) / 2000) * 2;
    expect(Math.abs(middle.low - (3 * middle.at - 0.9))).toBeLessThan(0.15 + error);
    expect(Math.abs(middle.high - (3 * middle.at + 0.9))).toBeLessThan(0.15 + error);
    expect(points.length).toBeGreaterThan(200);
    expect(points.length).toBeLessThanOrEqual(300);
    for (const [x, y] of points) expect(Math.abs(y - 3 * x)).toBeLessThanOrEqual(1 + ROUNDED);
  });

  test("the first draws are the trials of the run itself", () => {
    const model = modelIn(2, ([a, b]) => 3 * a! + b!);
    const study = readStudy({ title: "t", model: model.id, inputs: { x1: normal(5, 1), x2: rectangular(-1, 1) } });
    const batch = openTrials(prepare(model, study).source)(0, 50_000);
    // The mean of all trials pictured, which other draws would miss by 0.01.
    const { bins } = record.conditional["x1"]!;
    expect(bins.reduce((sum, { mean, trials }) => sum + mean! * trials, 0) / 50_000).toBeCloseTo(
      batch.measurands[0]!.moments.mean,
      9,
    );
  });

  test("equal values of an input share a bin", () => {
    const counts = analyse(
      modelIn(2, ([a, b]) => a! + b!),
      [{ distribution: "discrete", values: [0, 1, 2], probabilities: [0.5, 0.3, 0.2] }, normal(0, 1)],
    );
    const { bins } = counts.conditional["x1"]!;
    expect(bins.map(({ from, to }) => [from, to])).toEqual([
      [0, 0],
      [1, 1],
      [2, 2],
    ]);
    // Binomial spread of the counts, five standard deviations.
    [25_000, 15_000, 10_000].forEach((wanted, i) =>
      expect(Math.abs(bins[i]!.trials - wanted)).toBeLessThan(FIVE * Math.sqrt(50_000 * 0.25)),
    );
  });
});

describe("what does not exist is null, with a reason", () => {
  const few = { distribution: "t", estimate: 0, standardUncertainty: 1, degreesOfFreedom: 2 };

  test("t with 2 degrees of freedom: no variance to share, but the other input's contribution stands", () => {
    const record = analyse(
      modelIn(2, ([a, b]) => a! + b!),
      [few, normal(0, 1)],
      25_000,
    );
    expect(record).toMatchObject({ standardUncertainty: null, standardUncertaintyOneAtATime: null, interaction: null });
    expect(record.factors.map(({ firstOrder, total }) => [firstOrder, total])).toEqual([
      [null, null],
      [null, null],
    ]);
    expect(record.factors[0]!.alone).toEqual({
      standardUncertainty: null,
      standardError: null,
      shift: null,
      sensitivityCoefficient: null,
      correlation: null,
      direction: null,
    });
    expect(Math.abs(record.factors[1]!.alone.standardUncertainty! - 1)).toBeLessThan(FIVE / Math.sqrt(5e4));
    const bin = record.conditional["x2"]!.bins[3]!;
    expect(bin.mean).not.toBeNull();
    expect(bin.standardError).toBeNull();
    expect(sentence({ inputs: {} }, "y", record)).toBe(
      "The shares of the variance of y do not exist: x1 has a distribution without a standard deviation (ν ≤ 2).",
    );
  });

  test("a measurand that does not vary", () => {
    const record = analyse(
      modelIn(2, () => 7),
      [normal(0, 1), normal(0, 1)],
      25_000,
    );
    expect(sentence({ inputs: {} }, "y", record)).toBe("y does not vary, so it has no variance to divide.");
    expect(record).toMatchObject({ standardUncertainty: 0, standardUncertaintyOneAtATime: 0, interaction: null });
  });

  test("a record is plain JSON and reproduces exactly", () => {
    const one = ishigamiIndices(25_000, "again");
    expect(JSON.parse(JSON.stringify(one))).toEqual(one);
    expect(ishigamiIndices(25_000, "again")).toEqual(one);
    expect(ishigamiIndices(25_000, "other").factors[0]!.total!.value).not.toBe(one.factors[0]!.total!.value);
  });

  test("trials are made up to whole blocks", () => expect(ishigamiIndices(25_001, "1").trials).toBe(27_500));
});

describe("several measurands", () => {
  test("each has its own indices from the same draws", () => {
    const model = defineModel({
      id: "two",
      title: "Two measurands",
      measurands: { sum: quantity("s"), first: quantity("f") },
      inputs: { a: quantity("a"), b: quantity("b") },
      evaluate: ({ a, b }) => ({ sum: a + b, first: a }),
    });
    const study = readStudy({ title: "t", model: "two", inputs: { a: normal(0, 1), b: normal(0, 1) } });
    const records = analyseSensitivity(prepare(model, study), { trials: 25_000 });
    expect(Object.keys(records)).toEqual(["sum", "first"]);
    near(records["sum"]!.factors[0]!.total, 0.5);
    near(records["first"]!.factors[0]!.total, 1);
    expect(records["first"]!.factors[1]!.total!.value).toBe(0);
  });
});

describe("bad input", () => {
  test.each([1000, 24_999, 25_000.5, Number.NaN, 1e9])("%s trials are refused", (trials) => {
    const study = readStudy({ title: "t", model: "ishigami", inputs: { x1: circle, x2: circle, x3: circle } });
    expect(() => analyseSensitivity(prepare(ishigamiModel, study), { trials })).toThrow(InputError);
    expect(() => analyseSensitivity(prepare(ishigamiModel, study), { trials })).toThrow(
      `sensitivity.trials: got ${trials}; expected a whole number from 25000 to 2000000`,
    );
    expect(sensitivitySchema.safeParse({ trials }).success).toBe(false);
  });

  test("by default 100 000 trials", () => expect(sensitivitySchema.parse({})).toEqual({ trials: 100_000 }));

  test("a mixture of draws that the model cannot take is named with its inputs", () => {
    // Finite as drawn together (the inputs go with one another by construction of the model), not one at a time.
    const model = modelIn(2, ([a, b]) => (a === 1 && b !== 1 ? Number.NaN : a! + b!));
    const study = readStudy({
      title: "t",
      model: model.id,
      inputs: { x1: { distribution: "constant", value: 1 }, x2: normal(1, 0.1) },
    });
    expect(() => analyseSensitivity(prepareUnchecked(model, study), { trials: 25_000 })).toThrow(ModelError);
    expect(() => analyseSensitivity(prepareUnchecked(model, study), { trials: 25_000 })).toThrow(
      /returned NaN for y at trial 0 \(x1 = 1, x2 = /,
    );
  });
});

/** The linear budget would already refuse such a model: take that of a sound one. */
function prepareUnchecked(model: Model, study: ReturnType<typeof readStudy>) {
  const sound = prepare(
    modelIn(2, ([a, b]) => a! + b!),
    study,
  );
  return { ...sound, model, source: { ...sound.source, model } };
}
