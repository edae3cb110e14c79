import { describe, expect, test } from "vitest";
import { defineModel, propagate, speakRecord, type Model, type RunRecord, readStudy } from "../../../engine/index.ts";
import strd from "../statistics/strd.json" with { type: "json" };

const quantity = (symbol: string, unit = "1") => ({ symbol, meaning: symbol, unit });
const modelOf = (f: (x: number, z: number) => number): Model =>
  defineModel({
    id: "remarked",
    title: "remarked",
    measurands: { y: quantity("Y") },
    inputs: { x: quantity("X_1", "K"), z: quantity("X_2") },
    evaluate: ({ x, z }) => f(x, z),
  });
const sum = modelOf((x, z) => x + z);
const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
  source: "stated",
});
const t = (standardUncertainty: number, degreesOfFreedom: number) => ({
  ...normal(0, standardUncertainty),
  distribution: "t",
  degreesOfFreedom,
});
const run = (x: object, z: object, more: object = {}, model = sum): RunRecord =>
  propagate(model, readStudy({ title: "t", model: "remarked", trials: 10_000, inputs: { x, z }, ...more }));
const remark = (record: RunRecord, words: string): string | undefined =>
  record.remarks.find((one) => one.includes(words));
/** A remark that is spoken in German too, and not carried over. */
const inGerman = (record: RunRecord, words: string): boolean =>
  speakRecord(record, "de").remarks.some(({ text, language }) => language === "de" && text.includes(words));

describe("a fixed factor that assumes more degrees of freedom (JCGM 100, G.6.4; EA-4/02, clause 5)", () => {
  test("is remarked on with what it covers, validated or not", () => {
    const record = run(t(1, 4), normal(0, 0.1), { coverage: { factor: 2 } });
    // ν_eff = 4·1.01² = 4.08; t covers 2F(2) − 1 = 88.5 % there, and k for 95.45 % is 2.84.
    expect(remark(record, "assumes more degrees of freedom")).toMatch(
      /^The fixed factor k = 2 .* budget of Y has: with 4\.08 effective degrees of freedom it covers 88\.[45] %, and k = 2\.8\d would cover/,
    );
    expect(inGerman(record, "setzt mehr Freiheitsgrade voraus")).toBe(true);
  });

  test("not from 50 degrees of freedom on, and not where k follows from them", () => {
    expect(remark(run(t(1, 60), normal(0, 0.1), { coverage: { factor: 2 } }), "presumes")).toBeUndefined();
    expect(remark(run(t(1, 4), normal(0, 0.1)), "presumes")).toBeUndefined();
  });
});

describe("joint figures of two measurands", () => {
  const two = defineModel({
    id: "remarked",
    title: "remarked",
    measurands: { y: quantity("Y"), w: quantity("W") },
    inputs: { x: quantity("X_1", "K"), z: quantity("X_2") },
    evaluate: ({ x, z }) => ({ y: x + z, w: x - z }),
  });
  const at = (scale: number, trials: number | "adaptive" = 10_000): RunRecord =>
    run(normal(0, scale), normal(0, 2 * scale), { trials, maximumTrials: 100_000 }, two);

  test.each([1e160, -1e160, 1e-163])("at ± %d nothing is NaN: their absence is remarked on", (scale) => {
    const record = at(Math.abs(scale));
    expect(record.joint).toBeNull();
    expect(remark(record, "no joint figures")).toMatch(/^The covariances of Y and W lie beyond/);
    expect(inGerman(record, "keine gemeinsamen Angaben")).toBe(true);
    expect(record.measurands["y"]!.monteCarlo.standardUncertainty! / Math.abs(scale)).toBeCloseTo(Math.sqrt(5), 1);
    // An adaptive run does not wait for what does not exist.
    expect(at(Math.abs(scale), "adaptive").trials.stop).toBe(at(1, "adaptive").trials.stop);
  });

  test.each([1e160, 1e-163])(
    "of correlated inputs at %d: refused, since the budget itself has their covariance",
    (scale) => {
      const correlations = [{ between: ["x", "z"], coefficient: 0.5 }];
      expect(() => run(normal(0, scale), normal(0, scale), { correlations })).toThrow(
        /correlations\.0: got a part .* of u²\(y\); expected quantities in units/,
      );
    },
  );

  test.each([1e140, 1e-140, 1])("at %d they are there, without a remark", (scale) => {
    const record = at(scale);
    // u² = 1 + 4 for both, covariance 1 − 4.
    expect(record.joint!.monteCarlo!.correlation[0]![1]).toBeCloseTo(-0.6, 1);
    expect(record.joint!.ellipsoid!.factor).toBeCloseTo(record.joint!.ellipsoid!.normalFactor, 1);
    expect(remark(record, "joint figures")).toBeUndefined();
  });
});

describe("pictures of densities", () => {
  test("leave out where one is infinite", () => {
    // An arc sine distribution is infinite at its limits, which its quantiles reach by rounding.
    const record = run({ distribution: "arcsine", estimate: 1e12, halfWidth: 1, source: "s" }, normal(0, 1));
    const { curve } = record.inputs["x"]!;
    expect(curve.length).toBeGreaterThan(30);
    for (const [, density] of curve) expect(Number.isFinite(density)).toBe(true);
  });
});

describe("a kink at the estimate", () => {
  test("is remarked on, and only there", () => {
    const record = run(
      normal(1, 0.178),
      normal(0, 0.01),
      {},
      modelOf((x, z) => Math.abs(x - 1) + z),
    );
    expect(remark(record, "kink or a step")).toMatch(/^At the estimate of X_1 the model of Y has a kink or a step/);
    expect(record.measurands["y"]!.linear.doubtful).toEqual(["x"]);
    expect(record.measurands["y"]!.secondOrder).toBeNull();
    expect(inGerman(record, "Knick oder eine Stufe")).toBe(true);
    const smooth = run(normal(1, 0.178), normal(0, 0.01));
    expect(remark(smooth, "kink")).toBeUndefined();
    expect(smooth.measurands["y"]!.linear).not.toHaveProperty("doubtful");
  });
});

describe("an input that makes up all of u²", () => {
  test("more than 99.9 %, with the unit to check", () => {
    // 2.5 meant as mK beside figures of millikelvins.
    const record = run(normal(0, 2.5), normal(0, 0.004));
    expect(remark(record, "alone makes up")).toBe(
      "X_1 alone makes up 100.00 % of u²(Y). Check that its figures are in K.",
    );
    expect(inGerman(record, "allein macht")).toBe(true);
  });

  test("not below, and not where it is the only one that varies", () => {
    expect(remark(run(normal(0, 0.025), normal(0, 0.004)), "alone")).toBeUndefined();
    expect(remark(run(normal(0, 1), { distribution: "constant", value: 1 }), "alone")).toBeUndefined();
  });
});

describe("readings that follow one another closely (JCGM 100, 4.2.7)", () => {
  const readings = (name: string) => ({
    distribution: "readings",
    values: strd.sets.find((set) => set.name === name)!.values,
    source: "NIST StRD",
  });

  // Certified lag-1 autocorrelations: Mavro 0.937989183438248, n = 50; Michelson 0.535199668621283, n = 100.
  test.each([
    ["Mavro", 50, /lag 1 is 0\.94, so they are worth about \d\.\d independent/],
    ["Michelson", 100, /lag 1 is 0\.54, so they are worth about \d+ independent/],
  ])("%s: are remarked on with their effective number of independent readings", (name, count, words) => {
    const record = run(readings(name), normal(0, 1e-4));
    const found = remark(record, "follow one another")!;
    expect(found).toMatch(
      new RegExp(`^The ${count} readings of X_1 follow one another closely: their autocorrelation at`),
    );
    expect(found).toMatch(words);
    expect(inGerman(record, "folgen eng aufeinander")).toBe(true);
  });

  test.each([2 ** 900, 2 ** -900])("are judged alike at any scale: %d", (scale) => {
    const { values } = readings("Mavro");
    const scaled = { distribution: "readings", values: values.map((value) => (value - 2) * scale), source: "s" };
    const plain = { ...scaled, values: values.map((value) => value - 2) };
    const said = [scaled, plain].map((one) => remark(run(one, normal(0, 1e-9)), "follow one another"));
    expect(said[0]).toBe(said[1]);
    expect(said[0]).toContain("0.94");
  });

  test("not where no positive autocorrelation stands out", () => {
    // Lottery: −0.12; Lew: −0.31.
    for (const name of ["Lottery", "Lew"])
      expect(remark(run(readings(name), normal(0, 1)), "follow one another")).toBeUndefined();
  });
});

describe("a joint t distribution (JCGM 102, 5.3.2)", () => {
  const tied = (more: object) =>
    run(t(1, 5), t(2, 5), { correlations: [{ between: ["x", "z"], coefficient: 0.001, ...more }] });

  test("states its ν, and that r near 0 is not independence", () => {
    const record = tied({});
    expect(remark(record, "drawn together")).toMatch(
      /multivariate t distribution with ν = 5; .* not independent even if r is 0\. If each has its own series/,
    );
    expect(inGerman(record, "mit ν = 5 gezogen")).toBe(true);
  });

  test("is shorter if the study states it", () => {
    expect(remark(tied({ series: "simultaneous" }), "drawn together")).not.toContain("even if r is 0");
    expect(remark(tied({ series: "separate" }), "drawn together")).toContain("Gaussian copula;");
  });

  test("of simultaneous readings: n − N degrees of freedom, as they are drawn", () => {
    const record = run(
      { distribution: "readings", values: [1, 2, 4, 3, 2.5], source: "a" },
      { distribution: "readings", values: [2, 2.5, 4, 3, 2], source: "b" },
      { correlations: [{ between: ["x", "z"], coefficient: "readings" }] },
    );
    expect(remark(record, "drawn together")).toMatch(/multivariate t distribution with ν = 3; .*0\.\d+\.$/);
  });
});
