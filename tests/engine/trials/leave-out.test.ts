import { describe, expect, test } from "vitest";
import { normalDensity, normalDistributionFunction } from "../../../engine/numerics/standard-normal.ts";
import { defineModel, prepare, propagate, readStudy, type Model } from "../../../engine/index.ts";
import { Accumulation, openTrials } from "../../../engine/internal.ts";
import { LONG } from "../../setup/long.ts";

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "1" });
const modelThat = (f: (x: number) => number): Model =>
  defineModel({
    id: "partly",
    title: "A model that is defined in part",
    measurands: { y: quantity("y") },
    inputs: { x: quantity("x") },
    evaluate: ({ x }) => f(x),
  });
const upToOne = modelThat((x) => (x > 1 ? Number.NaN : x));
const study = {
  title: "t",
  model: "partly",
  trials: 200_000,
  inputs: { x: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
};
const leaving = { ...study, undefinedTrials: "leave-out" };

describe("trials for which the model is undefined are left out, where the study says so", () => {
  const record = propagate(upToOne, readStudy(leaving));
  const { monteCarlo, explanation } = record.measurands["y"]!;

  test("what is left is the distribution of the inputs given that the model is defined", () => {
    // A normal cut off above 1, with m = φ(1)/Φ(1): mean −m, and variance 1 − m − m², since E[X² | X < 1] = 1 − m
    // (derived by integration by parts).
    const m = normalDensity(1) / normalDistributionFunction(1);
    const deviation = Math.sqrt(1 - m - m * m);
    expect(monteCarlo.trials).toBe(200_000);
    expect(Math.abs(monteCarlo.estimate! + m)).toBeLessThan((5 * deviation) / Math.sqrt(200_000));
    expect(Math.abs(monteCarlo.standardUncertainty! / deviation - 1)).toBeLessThan(5 / Math.sqrt(2 * 200_000));
    expect(monteCarlo.greatest).toBeLessThanOrEqual(1);
  });

  test("they are counted and remarked on", () => {
    const { leftOut } = record.trials;
    // Of all drawn a share of 1 − Φ(1) = 0.1587: five standard errors.
    const share = leftOut! / (200_000 + leftOut!);
    expect(Math.abs(share - (1 - normalDistributionFunction(1)))).toBeLessThan(
      5 * Math.sqrt((0.1587 * 0.8413) / 237_000),
    );
    expect(record.remarks.find((remark) => remark.includes("left out"))).toMatch(
      new RegExp(`^${leftOut} of ${200_000 + leftOut!} trials drawn, 16 %, were left out`),
    );
    expect(explanation).toBeNull();
    expect(record.remarks.join(" ")).toContain("There is no explanation of its difference from the linear budget");
  });

  test("a model that throws there reproduces exactly", LONG, () => {
    const throwing = modelThat((x) => {
      if (x > 1) throw new RangeError("beyond 1");
      return x;
    });
    // An error is dear to make, and every sixth trial makes one.
    const few = readStudy({ ...leaving, trials: 20_000 });
    const [once, again] = [propagate(upToOne, few), propagate(throwing, few)];
    expect(again.measurands["y"]!.monteCarlo).toEqual(once.measurands["y"]!.monteCarlo);
    expect(again.trials).toEqual(once.trials);
  });

  test("batches drawn in any order, by any thread, reproduce exactly", () => {
    const prepared = prepare(upToOne, readStudy({ ...leaving, trials: 40_000 }));
    const [one, other] = [openTrials(prepared.source), openTrials(prepared.source)];
    const ordered = [0, 10_000, 20_000, 30_000].map((first) => one(first, 10_000));
    const turned = [30_000, 20_000, 10_000, 0].map((first) => other(first, 10_000)).toReversed();
    turned.forEach((batch, i) => {
      expect(batch.leftOut).toBe(ordered[i]!.leftOut);
      expect(batch.measurands[0]!.moments).toEqual(ordered[i]!.measurands[0]!.moments);
    });
    const gathered = new Accumulation(prepared);
    for (const batch of ordered) gathered.add(batch);
    expect(gathered.leftOut).toBe(ordered.reduce((sum, { leftOut }) => sum + leftOut, 0));
  });

  test("a model that is defined everywhere keeps its bits, and says that there was none", () => {
    const everywhere = modelThat((x) => x);
    const [with_, without] = [leaving, study].map((one) =>
      propagate(everywhere, readStudy({ ...one, trials: 10_000 })),
    );
    expect(with_!.measurands["y"]!.monteCarlo).toEqual(without!.measurands["y"]!.monteCarlo);
    expect(with_!.trials.leftOut).toBe(0);
    expect(without!.trials).not.toHaveProperty("leftOut");
    // Nothing was left out, so that nothing keeps the difference from being explained.
    expect(with_!.measurands["y"]!.explanation).toEqual(without!.measurands["y"]!.explanation);
    expect(without!.measurands["y"]!.explanation).not.toBeNull();
    expect(with_!.remarks.join(" ")).toContain("of 10000 drawn there was none");
  });
});

describe("otherwise", () => {
  test.each([study, { ...study, undefinedTrials: "refuse" }])("the first of them ends the run", (one) => {
    expect(() => propagate(upToOne, readStudy(one))).toThrow(/returned NaN for y at trial \d+/);
  });

  test("a model that is undefined nearly everywhere is refused even so", () => {
    const nowhere = modelThat((x) => (Math.abs(x) > 1e-6 ? Number.NaN : x));
    const narrow = { ...leaving, inputs: { x: { ...study.inputs.x, standardUncertainty: 1 } } };
    // Defined within 0.01 of the estimate, which is enough for the linear budget.
    const model = modelThat((x) => (Math.abs(x) > 0.01 ? Number.NaN : x));
    expect(() => propagate(model, readStudy({ ...narrow, trials: 5000 }))).toThrow(
      /undefined for all but \d+ of \d+ trials/,
    );
    expect(() => propagate(nowhere, readStudy(narrow))).toThrow(/no sensitivity coefficient/);
  });

  test("sensitivity needs every trial", () => {
    expect(() => propagate(upToOne, readStudy({ ...leaving, sensitivity: {} }))).toThrow(/^sensitivity: .*left out/);
  });
});
