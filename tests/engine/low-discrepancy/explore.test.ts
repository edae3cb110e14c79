import { describe, expect, test } from "vitest";
import {
  defineModel,
  explore,
  readStudy,
  type Exploration,
  type ExploredFigure,
  type Model,
  type Study,
} from "../../../engine/index.ts";
import { modelOf, readExample } from "../../read-example.ts";

const FIGURES = ["estimate", "standardUncertainty", "low", "high"] as const;

function exploreExample(
  id: string,
  settings: { points: number; scramblings: number },
  changes: Record<string, unknown> = {},
): Exploration {
  const document = { ...readExample(id), ...changes };
  return explore(modelOf(document), readStudy(document), settings);
}

/** Distance from a known value in standard errors. */
const errorsFrom = ({ value, standardError }: { value: number; standardError: number }, known: number): number =>
  Math.abs(value - known) / standardError;

/** What |t| with 15 degrees of freedom exceeds once in 10⁵ times (scipy.stats.t.isf(5e-6, 15)). */
const ONCE_IN_100000 = 6.5018;

describe("mass calibration, JCGM 101:2008, 9.3", () => {
  // By quadrature (tests/models/published/jcgm-101-clause-9.test.ts): u = 0.0754797399554; ends, symmetric about 1.234.
  const exact = { estimate: 1.234, standardUncertainty: 0.0754797399554, low: 1.08443325975, high: 1.38356674026 };

  test.each([{ interval: "symmetric" }, { interval: "shortest" }] as const)(
    "within its standard errors of the exact figures: $interval",
    ({ interval }) => {
      const { measurands, dimensions } = exploreExample(
        "published/mass-calibration",
        { points: 4096, scramblings: 16 },
        { coverage: { probability: 0.95, interval } },
      );
      expect(dimensions).toBe(5);
      for (const name of FIGURES) {
        const figure = measurands["deviation"]![name]!;
        expect(errorsFrom(figure, exact[name]), name).toBeLessThan(ONCE_IN_100000);
        expect(errorsFrom(figure.plain, exact[name]), `${name}, plain`).toBeLessThan(ONCE_IN_100000);
      }
      const { estimate, standardUncertainty } = measurands["deviation"]!;
      // The printed 1.2341 and 0.0754 mg are one run of 10⁴ and more trials; here even u is known to a thousandth of them.
      expect(estimate!.value.toFixed(4)).toBe("1.2340");
      expect(standardUncertainty!.value.toFixed(4)).toBe("0.0755");
      // Were there no gain, F(15, 15) would exceed 11.87 once in 10⁵ times (scipy.stats.f): far below what is asked here.
      expect(estimate!.gain).toBeGreaterThan(1000);
      expect(standardUncertainty!.gain).toBeGreaterThan(50);
    },
  );
});

test("no study can ask for it in place of its trials, and an exploration states that it is no result", () => {
  const document = readExample("published/mass-calibration");
  for (const change of [
    { trials: "sobol" },
    { trials: "low-discrepancy" },
    { points: 4096 },
    { lowDiscrepancy: true },
    { generator: "sobol" },
  ]) {
    expect(() => readStudy({ ...document, ...change })).toThrow(Object.keys(change)[0]!);
  }
  const { notice, format } = exploreExample("published/mass-calibration", { points: 64, scramblings: 4 });
  expect(notice).toMatch(/exploration .* not a result to report/);
  expect(format).toBe("trialband-exploration/1");
});

describe("correlated inputs, JCGM 102:2011, 6.5.2.3, 7.7.2 and 9.3", () => {
  // Common term: u(Y1) = u(Y2) = √2 exactly. Polar at x1 = 0.010, r = 0.9, u = 0.005: E Y1² = x1² + 2u² whatever r is.
  test.each(["published/common-term-normal", "published/common-term-rectangular"])("%s: u = √2", (id) => {
    for (const { estimate, standardUncertainty } of Object.values(
      exploreExample(id, { points: 1024, scramblings: 16 }).measurands,
    )) {
      expect(errorsFrom(standardUncertainty!, Math.SQRT2)).toBeLessThan(ONCE_IN_100000);
      expect(errorsFrom(estimate!, 0)).toBeLessThan(ONCE_IN_100000);
    }
  });

  test("polar-010-correlated: mean square of the modulus", () => {
    const { measurands } = exploreExample("published/polar-010-correlated", { points: 4096, scramblings: 16 });
    const { estimate, standardUncertainty } = measurands["modulus"]!;
    const square = estimate!.value ** 2 + standardUncertainty!.value ** 2;
    // The two errors may be of one mind: added, not in quadrature.
    const error =
      2 * (estimate!.value * estimate!.standardError + standardUncertainty!.value * standardUncertainty!.standardError);
    const [x1, u] = [0.01, 0.01];
    expect(Math.abs(square - (x1 * x1 + 2 * u * u))).toBeLessThan(ONCE_IN_100000 * error);
  });
});

/** A measurand that bends and one that adds, each of three inputs rectangular on (0, 1). */
const twoShapes = defineModel({
  id: "two-shapes",
  title: "A product with kinks and a sum",
  measurands: {
    product: { symbol: "G", meaning: "Sobol's g-function with a = 0, 1, 3", unit: "1" },
    sum: { symbol: "S", meaning: "sum of two", unit: "1" },
  },
  inputs: {
    a: { symbol: "a", meaning: "first", unit: "1" },
    b: { symbol: "b", meaning: "second", unit: "1" },
    c: { symbol: "c", meaning: "third", unit: "1" },
  },
  evaluate: ({ a, b, c }) => ({
    product: Math.abs(4 * a - 2) * ((Math.abs(4 * b - 2) + 1) / 2) * ((Math.abs(4 * c - 2) + 3) / 4),
    sum: a + b,
  }),
});

const rectangular = { distribution: "rectangular", lower: 0, upper: 1 } as const;
const studyOf = (changes: Record<string, unknown> = {}): Study =>
  readStudy({
    title: "two shapes",
    model: "two-shapes",
    inputs: { a: rectangular, b: rectangular, c: rectangular },
    ...changes,
  });

describe("the standard error is valid", () => {
  const SEEDS = 400;
  const explorations = Array.from({ length: SEEDS }, (_, i) =>
    explore(twoShapes, studyOf({ seed: `honest ${i}` }), { points: 256, scramblings: 16 }),
  );
  // Mean 1 and variance Π(1 + 1/(3(1 + a)²)) − 1; a + b is triangular on (0, 2), whose quantile at 0.025 is √0.05.
  const known = {
    product: { estimate: 1, standardUncertainty: Math.sqrt((1 + 1 / 3) * (1 + 1 / 12) * (1 + 1 / 48) - 1) },
    sum: { estimate: 1, standardUncertainty: Math.sqrt(1 / 6), low: Math.sqrt(0.05), high: 2 - Math.sqrt(0.05) },
  };
  const cases = Object.entries(known).flatMap(([name, figures]) =>
    Object.entries(figures).flatMap(([figure, value]) =>
      (["points", "plain"] as const).map((kind) => ({ name, figure, value, kind })),
    ),
  );
  const of = (exploration: Exploration, name: string, figure: string): ExploredFigure =>
    exploration.measurands[name]![figure as "low"];

  // |t| ≤ 2 with 15 degrees of freedom has probability 0.9361 (scipy.stats.t): four standard deviations of a count of 400.
  const [within, room] = [0.9361, 4 * Math.sqrt((0.9361 * 0.0639) / SEEDS)];
  test.each(cases)(
    "$name, $figure, $kind: the known value lies within two of them as often as t predicts",
    ({ name, figure, value, kind }) => {
      const hits = explorations.filter((exploration) => {
        const found = of(exploration, name, figure);
        return errorsFrom(kind === "plain" ? found.plain : found, value) <= 2;
      }).length;
      expect(Math.abs(hits / SEEDS - within)).toBeLessThan(room);
    },
  );

  test.each(cases)("$name, $figure, $kind: no significant bias relative to it", ({ name, figure, value, kind }) => {
    const mean = explorations.reduce((sum, exploration) => {
      const found = of(exploration, name, figure);
      const { value: estimated, standardError } = kind === "plain" ? found.plain : found;
      return sum + (estimated - value) / standardError / SEEDS;
    }, 0);
    // t with 15 degrees of freedom has standard deviation √(15/13); five of those of a mean of 400.
    expect(Math.abs(mean)).toBeLessThan(5 * Math.sqrt(15 / 13 / SEEDS));
  });

  test.each(cases.filter(({ kind }) => kind === "points"))(
    "$name, $figure: the interval covers it in 95 % of cases",
    ({ name, figure, value }) => {
      const hits = explorations.filter((exploration) => {
        const { interval } = of(exploration, name, figure);
        return interval[0] <= value && value <= interval[1];
      }).length;
      expect(Math.abs(hits / SEEDS - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / SEEDS));
    },
  );

  test("the gain is the ratio of variances that the seeds themselves show", () => {
    const variance = (figureOf: (exploration: Exploration) => number): number => {
      const values = explorations.map(figureOf);
      const mean = values.reduce((sum, x) => sum + x, 0) / SEEDS;
      return values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (SEEDS - 1);
    };
    for (const figure of ["estimate", "standardUncertainty"] as const) {
      const ratio =
        variance((e) => of(e, "product", figure).plain.value) / variance((e) => of(e, "product", figure).value);
      // The median of 400 gains lies near it: log F(15, 15) has standard deviation 0.54, skew none; the ratio's own is
      // √(4/400), twice that for heavy tails.
      const gains = explorations.map((e) => of(e, "product", figure).gain!).toSorted((x, y) => x - y);
      expect(ratio).toBeGreaterThan(10);
      expect(Math.abs(Math.log(gains[SEEDS / 2]! / ratio))).toBeLessThan(5 * (0.2 + (1.25 * 0.54) / Math.sqrt(SEEDS)));
      // And an interval of the gain at 95 % holds it about as often: F supposes normal errors, which these only nearly are.
      const held = explorations.filter(
        (e) => of(e, "product", figure).gainInterval![0] <= ratio && ratio <= of(e, "product", figure).gainInterval![1],
      ).length;
      expect(held / SEEDS).toBeGreaterThan(0.85);
    }
  });
});

describe("its results", () => {
  test("reproduces exactly, bit for bit; differs for another seed", () => {
    const once = exploreExample("harrowfen/steriliser-134", { points: 512, scramblings: 4 });
    expect(exploreExample("harrowfen/steriliser-134", { points: 512, scramblings: 4 })).toEqual(once);
    const { estimate } = exploreExample(
      "harrowfen/steriliser-134",
      { points: 512, scramblings: 4 },
      { seed: "another" },
    ).measurands["error"]!;
    expect(estimate!.value).not.toBe(once.measurands["error"]!.estimate!.value);
    expect(estimate!.plain.value).not.toBe(once.measurands["error"]!.estimate!.plain.value);
  });

  test("more points than a block holds; progress after every set", () => {
    const told: [number, number][] = [];
    const study = studyOf();
    const { measurands, points } = explore(twoShapes, study, { points: 8192, scramblings: 4 }, (...progress) =>
      told.push(progress),
    );
    expect(told).toEqual(Array.from({ length: 8 }, (_, i) => [(i + 1) * points, 8 * points]));
    // P(|t| > 20) is 3e-4 with 3 degrees of freedom.
    expect(errorsFrom(measurands["sum"]!.estimate!, 1)).toBeLessThan(20);
  });

  test("the second generator scrambles too", () => {
    const { measurands, generator } = explore(twoShapes, studyOf({ generator: "mt19937" }), {
      points: 256,
      scramblings: 16,
    });
    expect(generator).toMatch(/Mersenne Twister/);
    expect(errorsFrom(measurands["product"]!.estimate!, 1)).toBeLessThan(ONCE_IN_100000);
  });

  test("no estimate and no u if the standard deviation does not exist, but endpoints", () => {
    const { measurands } = exploreExample("verdicts/few-readings", { points: 256, scramblings: 8 });
    const { estimate, standardUncertainty, low, high } = measurands["error"]!;
    expect([estimate, standardUncertainty]).toEqual([null, null]);
    for (const { value, standardError, gain } of [low, high])
      expect([value, standardError, gain].every((x) => Number.isFinite(x))).toBe(true);
  });

  test("constants alone: no dimension, no error, no gain", () => {
    const constant = { distribution: "constant", value: 0.75 } as const;
    const { measurands, dimensions } = explore(
      twoShapes,
      studyOf({ inputs: { a: constant, b: constant, c: constant } }),
      {
        points: 64,
        scramblings: 4,
      },
    );
    expect(dimensions).toBe(0);
    expect(measurands["sum"]!.estimate).toEqual({
      value: 1.5,
      standardError: 0,
      interval: [1.5, 1.5],
      plain: { value: 1.5, standardError: 0 },
      gain: null,
      gainInterval: null,
    });
    expect(measurands["sum"]!.standardUncertainty).toMatchObject({ value: 0, standardError: 0, gain: null });
  });

  test.each([
    [{ points: 100, scramblings: 16 }, "points: got 100; expected a power of two from 64 to 1048576"],
    [{ points: 32, scramblings: 16 }, "points: got 32; expected a power of two from 64 to 1048576"],
    [{ points: 2 ** 21, scramblings: 16 }, "points: got 2097152; expected a power of two from 64 to 1048576"],
    [{ points: 64.5, scramblings: 16 }, "points: got 64.5; expected a power of two from 64 to 1048576"],
    [{ points: 64, scramblings: 3 }, "scramblings: got 3; expected a whole number from 4 to 64"],
    [{ points: 64, scramblings: 65 }, "scramblings: got 65; expected a whole number from 4 to 64"],
    [{ points: 64, scramblings: Number.NaN }, "scramblings: got NaN; expected a whole number from 4 to 64"],
  ])("refuses %o", (settings, message) => {
    expect(() => explore(twoShapes, studyOf(), settings)).toThrow(message);
  });

  test("as many dimensions as there are direction numbers, and no more", () => {
    const wide = (n: number): readonly [Model, Study] => {
      const names = Array.from({ length: n }, (_, i) => `x${i}`);
      const model = defineModel({
        id: "wide",
        title: "Sum of many",
        measurands: { y: { symbol: "y", meaning: "sum", unit: "1" } },
        inputs: Object.fromEntries(names.map((name) => [name, { symbol: name, meaning: name, unit: "1" }])),
        evaluate: (x) => names.reduce((sum, name) => sum + x[name]!, 0),
      });
      return [
        model,
        readStudy({
          title: "wide",
          model: "wide",
          inputs: Object.fromEntries(names.map((name) => [name, rectangular])),
        }),
      ];
    };
    const { measurands, dimensions } = explore(...wide(161), { points: 256, scramblings: 16 });
    expect(dimensions).toBe(161);
    expect(errorsFrom(measurands["y"]!.estimate!, 161 / 2)).toBeLessThan(ONCE_IN_100000);
    expect(errorsFrom(measurands["y"]!.standardUncertainty!, Math.sqrt(161 / 12))).toBeLessThan(ONCE_IN_100000);
    expect(() => explore(...wide(162), { points: 64, scramblings: 4 })).toThrow(
      "inputs: got 162 dimensions, one per input that varies and one more per multivariate t; expected at most 161",
    );
  });

  test("the error of a model that fails names the inputs", () => {
    const root = defineModel({
      id: "root",
      title: "Root",
      measurands: { y: { symbol: "y", meaning: "root", unit: "1" } },
      inputs: { x: { symbol: "x", meaning: "square", unit: "1" } },
      evaluate: ({ x }) => Math.sqrt(x),
    });
    const study = readStudy({
      title: "root",
      model: "root",
      inputs: { x: { distribution: "rectangular", lower: -0.1, upper: 1 } },
    });
    expect(() => explore(root, study, { points: 64, scramblings: 4 })).toThrow(
      /model root returned NaN for y at trial \d+ \(x = -0\.0\d+/,
    );
  });
});
