// What the explanation says and advises: causes that push and take back, shares that the trials know, advice that names
// whom it is about.
import { describe, expect, test } from "vitest";
import {
  defineModel,
  propagate,
  speakRecord,
  type MeasurandRecord,
  type Model,
  type RunRecord,
  readStudy,
} from "../../../engine/index.ts";
import { normalDensity, normalQuantile } from "../../../engine/numerics/standard-normal.ts";
import { CAUSES } from "../../../engine/explanation/causes.ts";
import { runExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

const q = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const modelOf = (f: (a: number, b: number) => number): Model =>
  defineModel({
    id: "advised",
    title: "advised",
    measurands: { y: q("y") },
    inputs: { a: q("a"), b: q("b") },
    evaluate: ({ a, b }) => f(a, b),
  });
const sum = modelOf((a, b) => a + b);
const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
const rectangular = (halfWidth: number, degreesOfFreedom?: number) => ({
  distribution: "rectangular",
  estimate: 0,
  halfWidth,
  ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }),
});
const t = (standardUncertainty: number, degreesOfFreedom: number, more: object = {}) => ({
  distribution: "t",
  estimate: 0,
  standardUncertainty,
  degreesOfFreedom,
  ...more,
});
const run = (a: object, b: object, more: object = {}, model = sum): RunRecord =>
  propagate(model, readStudy({ title: "t", model: "advised", trials: 400_000, inputs: { a, b }, ...more }));
const of = (...args: Parameters<typeof run>): MeasurandRecord => run(...args).measurands["y"]!;
const advice = (...args: Parameters<typeof run>) => of(...args).explanation!.recommendation;

describe("degrees of freedom that only the budget has (JCGM 100, G.4.2)", () => {
  const limits = advice(rectangular(1, 3), normal(0, 0.05));

  test("of stated limits: the advice names the input, and k at infinite degrees of freedom", () => {
    expect(limits).toMatchObject({ action: "state-doubtful-limits", inputs: ["a"] });
    // JCGM 100, table G.2: k = 1.96 at 95 % for infinite degrees of freedom.
    expect(limits.sentence).toMatch(
      /^The degrees of freedom of a \(ν = 3\) stand for the reliability of stated limits \(JCGM 100, G\.4\.2\).*k = 1\.96.*curvilinear trapezoid.*JCGM 101, 6\.4\.3/,
    );
    expect(limits.sentence).not.toMatch(/readings/);
  });

  test("of resampled values", () => {
    const found = advice({ distribution: "sample", values: [-2, -1, 0, 1, 2] }, normal(0, 0.05));
    expect(found).toMatchObject({ action: "state-doubtful-limits", inputs: ["a"] });
    expect(found.sentence).toMatch(/^The degrees of freedom of a \(ν = 4\) stand for how few values there are/);
  });

  test("the budget with infinite degrees of freedom, as advised, has another cause left: the shape", () => {
    expect(advice(rectangular(1), normal(0, 0.05)).action).toBe("keep-with-factor");
  });
});

describe("degrees of freedom that both methods have: advice follows the type of evaluation", () => {
  const factor = { coverage: { factor: 2 } };
  test.each([
    [
      "readings",
      { distribution: "readings", values: [1, 2, 4] },
      "gather-readings",
      /^Gather more readings of a \(now ν = 2\)/,
    ],
    ["a t of type A", t(1, 4, { evaluation: "A" }), "gather-readings", /^Gather more readings of a \(now ν = 4\)/],
    [
      "a t of type B, as from a certificate",
      t(1, 4, { evaluation: "B" }),
      "know-better",
      /^Report the Monte Carlo interval, since the uncertainty of a \(ν = 4\) is stated with few degrees of freedom/,
    ],
  ])("%s", (_, a, action, sentence) => {
    const found = advice(a, normal(0, 0.05), factor);
    expect(found.action).toBe(action);
    expect(found.sentence).toMatch(sentence);
  });
});

describe("causes that oppose one another", () => {
  // Limits make k smaller, few degrees of freedom larger: k = 2 is between.
  const record = run(rectangular(1.8), t(0.4, 4), { coverage: { factor: 2 } });
  const { explanation } = record.measurands["y"]!;

  test("are told as what pushes and what takes back, with signed shares of the push", () => {
    const { shape, degreesOfFreedom, curvature } = explanation!.parts;
    expect(Math.sign(shape.shapley[1])).toBe(-Math.sign(degreesOfFreedom.shapley[1]));
    expect(shape.share).toBe(1);
    expect(degreesOfFreedom.share).toBeLessThan(0);
    expect(degreesOfFreedom.share).toBeCloseTo(-Math.abs(degreesOfFreedom.shapley[1] / shape.shapley[1]), 1);
    expect(Math.abs(curvature.share)).toBeLessThan(1e-9);
    expect(explanation!.sentence).toMatch(
      /^The endpoints differ by up to \S+: the shape of the inputs, above all a \(rectangular, \d+ % of u²\), narrows the interval by \S+ at one endpoint\. Few degrees of freedom, above all b \(ν = 4\), take \S+ of this back\./,
    );
    expect(explanation!.sentence).not.toMatch(/of the difference comes/);
  });

  test("in German too", () => {
    const spoken = speakRecord(record, "de").measurands["y"]!.explanation!;
    expect(spoken.language).toBe("de");
    expect(spoken.text).toMatch(
      /die Form der Eingangsverteilungen, .* verschmälert .* Die kleine Zahl der Freiheitsgrade, vor allem b \(ν = 4\), nimmt \S+ davon zurück/,
    );
  });
});

describe("shares are given only where the trials know them", () => {
  test("the flagship: what is left over is below a tenth of the difference, or of δ", () => {
    const { explanation, validation } = runExample("harrowfen/steriliser-134").measurands["error"]!;
    const left = Math.max(...explanation!.remainder.map(Math.abs));
    const difference = Math.max(...explanation!.difference.map(Math.abs));
    expect(explanation!.resolved).toBe(true);
    expect(left).toBeLessThan(0.1 * Math.max(difference, validation.numericalTolerance));
    expect(explanation!.trials).toBeGreaterThan(50_000);
    expect(explanation!.sentence).not.toMatch(/not resolved/);
  });

  test("otherwise the sentence says that they are not resolved, and by how much", () => {
    // A difference of about 0.8 % of u beside ends that 20 000 trials know to some per cent; a shortest interval is not paired.
    const coverage = { probability: 0.95, interval: "shortest" };
    const { explanation } = of(t(1, 90), normal(0, 1), { trials: 20_000, coverage, seed: "scatter" });
    expect(explanation!.resolved).toBe(false);
    const left = Math.max(...explanation!.remainder.map(Math.abs));
    const said = /not resolved: (\S+) is left over as the scatter of the trials/.exec(explanation!.sentence)![1];
    expect(Math.abs(Number(said) - left)).toBeLessThan(0.05 * 10 ** Math.ceil(Math.log10(left)));
  });
});

describe("what is left over is scatter, whatever the distribution of an input", () => {
  const weights = Array.from({ length: 40 }, (_, i) => ((7 * i) % 11) / 3);
  test.each([
    ["two values", { distribution: "discrete", values: [-1, 1], probabilities: [0.5, 0.5] }],
    [
      "three values, the greatest the likeliest",
      { distribution: "discrete", values: [0, 1, 5], probabilities: [0.1, 0.2, 0.7] },
    ],
    ["Poisson", { distribution: "poisson", estimate: 3 }],
    ["a sample", { distribution: "sample", values: weights }],
  ])("%s: below five standard errors", (_, a) => {
    const { explanation, monteCarlo, linear, validation } = of(a, normal(0, 0.5));
    const { trials } = explanation!;
    // Left over is the scatter of the run, and of the propagations with all causes and with none (JCGM 100, G.1.3: k of a
    // normal), taken as independent, which they are not quite.
    const p = (1 + monteCarlo.probability) / 2;
    const gaussian =
      (linear.standardUncertainty * Math.sqrt((p * (1 - p)) / trials)) / normalDensity(normalQuantile(p));
    explanation!.remainder.forEach((left, end) => {
      const ofRun = monteCarlo.standardErrors.symmetric[end]!;
      const error = Math.hypot(gaussian, ofRun, ofRun * Math.sqrt(monteCarlo.trials / trials));
      expect(Math.abs(left)).toBeLessThan(5 * error);
    });
    // The shape is the cause, and no share of it is senseless beside the difference.
    const size = Math.max(validation.dLow, validation.dHigh);
    for (const cause of CAUSES)
      expect(Math.max(...explanation!.parts[cause].shapley.map(Math.abs))).toBeLessThan(2 * size + 5 * gaussian);
  });
});

test("shares of u² above 100 %: a remark says that a correlation takes from them", () => {
  const record = run(normal(0, 1), normal(0, 1), { correlations: [{ between: ["a", "b"], coefficient: -0.8 }] });
  // u² = 1 + 1 − 1.6 = 0.4: each of the two has 250 %, and the correlation −400 %.
  expect(record.measurands["y"]!.linear.contributions.map(({ share }) => Number(share.toFixed(9)))).toEqual([2.5, 2.5]);
  expect(record.remarks).toContain(
    "The shares of u²(y) add to 500 %, since the correlation between a and b takes 400 % from them: a share above 100 % is what the input would contribute without it.",
  );
  const without = run(normal(0, 1), normal(0, 1), { correlations: [{ between: ["a", "b"], coefficient: 0.8 }] });
  expect(without.remarks.join(" ")).not.toContain("The shares of u²");
});

test("simultaneous readings: remark and explanation name the ν that is drawn, n − N (JCGM 102, 5.3.2)", () => {
  // As in JCGM 100, H.4: two quantities from six cycles of measurement, so ν = 6 − 2 = 4 (figures invented).
  const record = run(
    { distribution: "readings", values: [0.65, 0.67, 0.65, 0.62, 0.67, 0.69] },
    { distribution: "readings", values: [0.4, 0.42, 0.4, 0.41, 0.38, 0.43] },
    { correlations: [{ between: ["a", "b"], coefficient: "readings" }], coverage: { factor: 2 } },
  );
  expect(record.remarks.find((remark) => remark.includes("drawn together"))).toMatch(
    /multivariate t distribution with ν = 4/,
  );
  const { sentence } = record.measurands["y"]!.explanation!;
  expect(sentence).toMatch(/few degrees of freedom, above all a \(ν = 4\)/);
  expect(sentence).not.toContain("ν = 5");
});

describe("no sentence names an empty list", () => {
  const kinds = {
    normal: normal(1, 1),
    "rectangular with ν": rectangular(1, 4),
    "t of type B": t(1, 5, { evaluation: "B" }),
    sample: { distribution: "sample", values: [-1, 0, 0, 2] },
    readings: { distribution: "readings", values: [1, 2, 4] },
    constant: { distribution: "constant", value: 1 },
  };
  const models = {
    sum: sum,
    product: modelOf((a, b) => a * b),
    square: modelOf((a, b) => a * a + 0.1 * b),
    kink: modelOf((a, b) => Math.abs(a - 1) + 0.1 * b),
  };
  const namesNone = (name: keyof typeof models): void => {
    const stated = Object.values(kinds);
    for (const a of stated)
      for (const b of stated)
        for (const coverage of [a === b ? { factor: 2 } : { probability: 0.95 }]) {
          const record = run(a, b, { trials: 10_000, coverage }, models[name]);
          const { validation, explanation } = record.measurands["y"]!;
          const texts = [
            validation.sentence,
            explanation!.sentence,
            explanation!.recommendation.sentence,
            ...record.remarks,
          ];
          for (const text of texts) {
            expect(text).not.toMatch(
              / (of|and|all|for|from|by|in)? *[,;.:](?![\d])(?<! [\d.]+)|\b(of|and|all|for|from) ?[.;,:]/,
            );
            expect(text).not.toMatch(/NaN|Infinity|undefined|null|  /);
          }
        }
  };
  test("product", () => namesNone("product"));
  test.each(["sum", "square", "kink"] as const)("%s", LONG, namesNone);
});
