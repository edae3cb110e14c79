// Conformity of studies as they are run, and the properties that JCGM 106:2012 gives the figures.
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { defineModel, prepare, readStudy } from "../../../engine/index.ts";
import { Accumulation, openTrials, type ConformityFigures } from "../../../engine/internal.ts";
import { acceptanceInterval } from "../../../engine/conformity/acceptance.ts";
import { assessConformity } from "../../../engine/conformity/assess.ts";
import { conformityFacts } from "../../../engine/conformity/conformity-facts.ts";
import type { Requirement } from "../../../engine/study/conformity-statement.ts";
import { globalRisk } from "../../../engine/conformity/global-risk.ts";
import { conformityOfBudget, conformityOfSample } from "../../../engine/conformity/probability-of-conformity.ts";
import { normalDistribution } from "../../../engine/distributions/normal.ts";
import { en } from "../../../engine/sentences/en/index.ts";
import { say } from "../../../engine/sentences/messages.ts";
import { sortedSample } from "../../../engine/statistics/sample.ts";

/** One guard band at both limits. */
const alike = (w: number) => ({ lower: w, upper: w });

const quantity = (symbol: string, unit = "°C") => ({ symbol, meaning: symbol, unit });
const sum = defineModel({
  id: "sum",
  title: "Indication and correction",
  measurands: { error: quantity("e") },
  inputs: { indication: quantity("t_X"), correction: quantity("δt") },
  evaluate: ({ indication, correction }) => indication + correction,
});

const requirement = (
  lower: number | null,
  upper: number | null,
  r = 0,
  prior: Requirement["prior"] = null,
): Requirement => ({
  tolerance: { lower, upper, basis: null },
  guardBandMultiplier: r,
  prior,
});

function run(indication: object, correction: object, asked: Requirement, more: object = {}) {
  const prepared = prepare(
    sum,
    readStudy({ title: "t", model: "sum", trials: 200_000, inputs: { indication, correction }, ...more }),
  );
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  return assessConformity(asked, {
    linear: prepared.linear["error"]!,
    monteCarlo: gathered.result("error"),
    sample: gathered.sample("error"),
    interval: prepared.coverage.interval,
  });
}

const sentence = (record: ConformityFigures): string =>
  say(en.conformity, conformityFacts(record, { ...sum.measurands["error"]!, monteCarlo: { trials: 200_000 } }));

const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
const rectangular = (estimate: number, halfWidth: number) => ({ distribution: "rectangular", estimate, halfWidth });

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("assessment", () => {
  test("normal inputs: both methods find the exact p_c, within five standard errors of the trials", () => {
    const record = run(normal(0.2, 0.03), normal(0, 0.04), requirement(-0.294, 0.294));
    const exact = conformityOfBudget(0.2, 0.05, Infinity, { lower: -0.294, upper: 0.294, basis: null }).value;
    expect(record.linear.probabilityOfConformity).toBeCloseTo(exact, 12);
    expect(record.linear.standardError).toBeNull();
    const { probabilityOfConformity, standardError } = record.monteCarlo;
    expect(Math.abs(standardError! - Math.sqrt((exact * (1 - exact)) / 200_000))).toBeLessThan(0.05 * standardError!);
    expect(Math.abs(probabilityOfConformity - exact)).toBeLessThan(5 * standardError!);
    expect(record.agree).toBe(true);
    expect(record.monteCarlo.decision).toBe("accepted");
    expect(record.monteCarlo.specificRisk.bearer).toBe("consumer");
    expect(record.monteCarlo.specificRisk.value).toBeCloseTo(1 - probabilityOfConformity, 12);
    // C_m = T/(4u) = 0.588/0.2 (7.6.2).
    expect(record.linear.measurementCapability).toBeCloseTo(2.94, 10);
    expect(record.linear.posterior).toBeNull();
    expect(record.linear.globalRisk).toBeNull();
    expect(JSON.parse(JSON.stringify(record))).toEqual(record);
  });

  test("guarded acceptance with w = U takes each method's own U, and can divide the methods", () => {
    // One rectangular input: U at 95 % is 1.96·a/√3 = 1.13 a by the budget, 0.95 a in truth.
    const record = run(rectangular(0.19, 0.1), normal(0, 0.001), requirement(-0.294, 0.294, 1));
    expect(record.rule).toEqual({ name: "guarded acceptance", guardBandMultiplier: 1, source: "JCGM 106:2012, 8.3.2" });
    expect(record.linear.guardBand).toBeCloseTo(1.959964 * Math.sqrt(0.01 / 3 + 1e-6), 6);
    expect(Math.abs(record.monteCarlo.guardBand - 0.095)).toBeLessThan(0.0005);
    expect(record.linear.acceptance!.upper).toBeCloseTo(0.294 - record.linear.guardBand, 12);
    expect([record.linear.decision, record.monteCarlo.decision]).toEqual(["rejected", "accepted"]);
    expect(record.agree).toBe(false);
    expect(record.linear.specificRisk).toEqual({ bearer: "producer", value: record.linear.probabilityOfConformity });
    expect(sentence(record)).toContain("e = 0.190 °C is accepted");
    expect(sentence(record)).toContain("The methods disagree: by the linear budget the item would be rejected.");
  });

  test("guard bands that leave nothing say so", () => {
    const record = run(normal(0, 0.3), normal(0, 0.4), requirement(-0.294, 0.294, 1));
    expect(record.monteCarlo.acceptance).toBeNull();
    expect(record.monteCarlo.decision).toBe("rejected");
    expect(sentence(record)).toContain("leave no value that could be accepted");
  });

  test("a prior adds the posterior and the global risks; a wide one changes nothing", () => {
    const prior = { mean: 0, standardDeviation: 0.15, source: null };
    const record = run(normal(0.2, 0.03), normal(0, 0.04), requirement(-0.294, 0.294, 0, prior));
    const exact = globalRisk(normalDistribution(0, 0.15), 0.05, record.tolerance, { lower: -0.294, upper: 0.294 });
    expect(record.linear.globalRisk!.consumer).toBeCloseTo(exact.consumer, 12);
    // u_m of the Monte Carlo is 0.05 within 5/√(2M) = 0.8 %; the risks go about as u_m does.
    expect(Math.abs(record.monteCarlo.globalRisk!.consumer / exact.consumer - 1)).toBeLessThan(0.02);
    expect(Math.abs(record.monteCarlo.globalRisk!.producer / exact.producer - 1)).toBeLessThan(0.02);
    // y = 0.2·0.15²/(0.15² + 0.05²) = 0.18.
    expect(record.linear.posterior!.estimate).toBeCloseTo(0.18, 12);
    expect(record.prior!.probabilityOfConformity).toBeCloseTo(
      conformityOfBudget(0, 0.15, Infinity, record.tolerance).value,
      12,
    );
    expect(sentence(record)).toMatch(
      /A share of 95\.00 % of all items conforms; the next item is accepted wrongly with probability \d\.\d+ % and rejected wrongly with probability \d\.\d+ %\./,
    );
    const wide = run(
      normal(0.2, 0.03),
      normal(0, 0.04),
      requirement(-0.294, 0.294, 0, { ...prior, standardDeviation: 1e6 }),
    );
    expect(wide.linear.posterior!.probabilityOfConformity).toBeCloseTo(wide.linear.probabilityOfConformity, 9);
  });

  test("few readings: t with 2 degrees of freedom has no u(y), but a probability and a decision", () => {
    const few = { distribution: "t", estimate: 0.1, standardUncertainty: 0.02, degreesOfFreedom: 2 };
    const prior = { mean: 0, standardDeviation: 0.1, source: null };
    const record = run(few, { distribution: "constant", value: 0 }, requirement(null, 0.2, 0.5, prior));
    expect(record.monteCarlo.standardUncertainty).toBeNull();
    expect(record.monteCarlo.posterior).toBeNull();
    expect(record.monteCarlo.globalRisk).toBeNull();
    // P(T_2 ≤ 5) = 1/2 + 5/(2√27): closed form of t with 2 degrees of freedom.
    const exact = 0.5 + 5 / (2 * Math.sqrt(27));
    expect(record.linear.probabilityOfConformity).toBeCloseTo(exact, 12);
    expect(Math.abs(record.monteCarlo.probabilityOfConformity - exact)).toBeLessThan(
      5 * record.monteCarlo.standardError!,
    );
    expect(record.linear.measurementCapability).toBeNull();
  });

  test("no uncertainty: conforms or not, and no risk", () => {
    const still = { distribution: "constant", value: 0.2 };
    const record = run(
      still,
      { distribution: "constant", value: 0 },
      requirement(null, 0.2, 1, { mean: 0, standardDeviation: 1, source: null }),
    );
    for (const method of [record.linear, record.monteCarlo]) {
      expect(method).toMatchObject({
        decision: "accepted",
        probabilityOfConformity: 1,
        globalRisk: { consumer: 0, producer: 0 },
        guardBand: 0,
      });
    }
  });
});

describe("probability from trials", () => {
  test("values on the limits conform; values next to them do not", () => {
    const sample = sortedSample(Float64Array.of(-0.294 * (1 + 2 ** -52), -0.294, 0, 0.294, 0.294 * (1 + 2 ** -52)));
    const found = conformityOfSample(sample, { lower: -0.294, upper: 0.294, basis: null });
    expect([found.below, found.value, found.above]).toEqual([0.2, 0.6, 0.2]);
    for (const limit of [1, 0, -1, 1e-308, -4, 5e-324]) {
      const on = sortedSample(Float64Array.of(limit));
      expect(conformityOfSample(on, { lower: limit, upper: null, basis: null }).value).toBe(1);
    }
  });

  test("a run without one value outside has a standard error all the same", () => {
    const sample = sortedSample(new Float64Array(10_000));
    const found = conformityOfSample(sample, { lower: -1, upper: 1, basis: null });
    expect(found.value).toBe(1);
    expect(found.standardError).toBeGreaterThan(5e-5);
    expect(found.standardError).toBeLessThan(2e-4);
  });
});

describe("properties", () => {
  test("p_c, below and above make 1; p_c grows with the tolerance", () => {
    fc.assert(
      fc.property(
        figure(-5, 5),
        figure(0.01, 3),
        figure(1, 60),
        figure(-4, 0),
        figure(0.1, 4),
        (y, u, ν, lower, width) => {
          for (const dof of [ν, Infinity]) {
            const one = conformityOfBudget(y, u, dof, { lower, upper: lower + width, basis: null });
            expect(Math.abs(one.value + one.below + one.above - 1)).toBeLessThan(1e-12);
            const more = conformityOfBudget(y, u, dof, { lower: lower - 0.1, upper: lower + width, basis: null });
            expect(more.value).toBeGreaterThanOrEqual(one.value - 1e-12);
          }
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });

  test("a wider guard band lowers the consumer's risk and raises the producer's; all four outcomes make 1", () => {
    fc.assert(
      fc.property(
        figure(-1, 1),
        figure(0.05, 1),
        figure(0.01, 0.5),
        figure(-0.3, 0.3),
        figure(0.001, 0.2),
        (mean, sd, u, w, more) => {
          const tolerance = { lower: -0.7, upper: 0.7, basis: null };
          const prior = normalDistribution(mean, sd);
          const narrow = globalRisk(prior, u, tolerance, acceptanceInterval(tolerance, alike(w)));
          const wide = globalRisk(prior, u, tolerance, acceptanceInterval(tolerance, alike(w + more)));
          expect(wide.consumer).toBeLessThanOrEqual(narrow.consumer + 1e-12);
          expect(wide.producer).toBeGreaterThanOrEqual(narrow.producer - 1e-12);
          // Accepted is conforming less wrongly rejected plus wrongly accepted: Y_m is normal with both variances.
          const conforming = conformityOfBudget(mean, sd, Infinity, tolerance).value;
          const accepted = conformityOfBudget(mean, Math.sqrt(sd * sd + u * u), Infinity, {
            lower: -0.7 + w,
            upper: 0.7 - w,
            basis: null,
          }).value;
          expect(Math.abs(conforming - narrow.producer + narrow.consumer - accepted)).toBeLessThan(1e-11);
        },
      ),
      { seed: 42, numRuns: 200 },
    );
  });
});

describe("an asymmetric result", () => {
  /** Exponential of mean 1: 95 % interval from 0.0253 to 3.689, half of its length 1.832. */
  const skewed = { distribution: "exponential", estimate: 1 };
  const still = { distribution: "constant", value: 0 };

  test("with w = U is not accepted at more than the 2.5 % beyond the end of its interval (8.3.2)", () => {
    // At 2.84 half the length fitted under the limit, at a risk of e^(−2.84) = 5.8 %.
    const close = run(skewed, still, requirement(null, 2.84, 1));
    expect(Math.abs(close.monteCarlo.specificRisk.value - (1 - Math.exp(-2.84)))).toBeLessThan(0.003);
    expect(close.monteCarlo.decision).toBe("rejected");
    const far = run(skewed, still, requirement(null, 3.75, 1));
    expect(far.monteCarlo.decision).toBe("accepted");
    expect(far.monteCarlo.specificRisk.value).toBeLessThan(0.025);
    // Five standard errors of the upper endpoint, √(0.025·0.975/M)/0.025 = 0.014 at 2·10⁵ trials.
    expect(Math.abs(far.monteCarlo.guardBands!.upper - 2.689)).toBeLessThan(0.07);
    expect(far.monteCarlo.guardBand).toBe(far.monteCarlo.guardBands!.upper);
    expect(sentence(far)).toContain("guard band of 2.7 °C inside the tolerance limit");
  });

  test("both bands are given if they differ", () => {
    const both = run(skewed, still, requirement(-5, 20, 1));
    expect(sentence(both)).toContain(
      "guard bands of 1.0 °C inside the lower and 2.7 °C inside the upper tolerance limit",
    );
    expect(both.linear.guardBands!.lower).toBeCloseTo(both.linear.guardBands!.upper, 12);
  });

  test("guarded rejection: only a result that lies beyond a limit with the whole of its interval (8.3.3)", () => {
    // The upper endpoint is 3.689, so a lower limit of 3.6 is not safely missed, and one of 3.8 is.
    expect(run(skewed, still, requirement(3.6, null, -1)).monteCarlo.decision).toBe("accepted");
    expect(run(skewed, still, requirement(3.8, null, -1)).monteCarlo.decision).toBe("rejected");
  });
});

describe("a decision within the scatter of the trials", () => {
  const decide = (upper: number, r: number, seed: string) =>
    run(normal(0.2, 0.03), normal(0, 0.04), requirement(null, upper, r), { seed, trials: 10_000 });
  const seeds = Array.from({ length: 24 }, (_, i) => `s${i}`);

  // At the limit itself another seed decides otherwise; then no seed may claim to be firm more often than two standard
  // errors allow (one in twenty).
  test.each([
    [0.2, 0],
    [0.2 + 0.05 * 1.959964, 1],
    [0.2 + 0.05 * 1.959964 * 0.6, 0.6],
    [0.2 - 0.05 * 1.959964, -1],
  ])("upper limit %d, r = %d: stated, and another seed decides otherwise", (upper, r) => {
    const found = seeds.map((seed) => decide(upper, r, seed));
    expect(new Set(found.map(({ monteCarlo }) => monteCarlo.decision)).size).toBe(2);
    const doubtful = found.filter(({ monteCarlo }) => !monteCarlo.firm!);
    expect(doubtful.length).toBeGreaterThanOrEqual(21);
    expect(sentence(doubtful[0]!)).toContain("The trials do not decide this");
  });

  test("away from the limit it is firm, and no sentence mentions it", () => {
    const found = seeds.map((seed) => decide(0.32, 1, seed));
    expect(found.every(({ monteCarlo, linear }) => monteCarlo.firm === true && linear.firm === true)).toBe(true);
    expect(new Set(found.map(({ monteCarlo }) => monteCarlo.decision)).size).toBe(1);
    expect(sentence(found[0]!)).not.toContain("do not decide");
  });
});

test("where a prior is stated, its posterior comes before the measurement alone (7.2)", () => {
  const prior = { mean: 0, standardDeviation: 0.15, source: null };
  const record = run(normal(0.27, 0.03), normal(0, 0.04), requirement(-0.294, 0.294, 0, prior));
  const text = sentence(record);
  // y = 0.27·0.9 = 0.243 and u = 0.05·√0.9: p_c = Φ(0.051/0.04743) = 0.859; alone Φ(0.024/0.05) = 0.684.
  expect(record.linear.posterior!.probabilityOfConformity).toBeCloseTo(0.8589, 3);
  expect(text).toMatch(/With the prior knowledge of the items, the probability of conformity is 8[56]\.\d\d %/);
  expect(text).toMatch(/From the measurement alone, the probability of conformity is 68\.\d\d %/);
  expect(text.indexOf("With what was known")).toBeLessThan(text.indexOf("From the measurement alone"));
  expect(sentence(run(normal(0.2, 0.03), normal(0, 0.04), requirement(-0.294, 0.294)))).toContain(
    "The probability of conformity is",
  );
});
