import { describe, expect, it } from "vitest";
import { InputError, ModelError } from "../../../engine/index.ts";
import { sprtBath } from "../../../models/bath/reference-sprt.ts";
import { BATH_CAUTIONS } from "../../../models/safety/cautions.ts";
import { budgetsOf, runWithoutExplanation } from "./run-without-explanation.ts";
import reference from "../../reference/platinum.json" with { type: "json" };

const figures = reference["comparison-points-full-model"].values;
const COEFFICIENTS: Record<string, { a: number; b: number }> = {
  "4": { a: -2.5e-4, b: -1.2e-5 },
  "8": { a: -2.3e-4, b: -1e-5 },
};

function inputsOf(subRange: string, referenceRatio: number, probeRatio: number): Record<string, number> {
  const model = sprtBath.build({ subRange });
  const nothing = Object.fromEntries(Object.keys(model.inputs).map((name) => [name, 0]));
  return {
    ...nothing,
    ...COEFFICIENTS[subRange],
    referenceRatio,
    probeRatio,
    standardResistance: figures.Rs_ohm,
    triplePointResistance: figures.R_TPW_ohm,
    nominalResistance: 100,
  };
}

/** The figures carry 8 digits, derivatives by extrapolation better than 1e-9. */
const check = (value: number, wanted: number): void => expect(Math.abs(value / wanted - 1)).toBeLessThan(1e-6);

describe("SPRT and probe on one standard resistor", () => {
  // The full model in 40-digit arithmetic with invented readings (ITS-90 sub-ranges 4 and 8, IEC 60751).
  it.each(figures.rows)("sub-range %s, ratios %f and %f", (...row) => {
    const [subRange, ρS, ρX, tRef, tX, e, perRef, perX, perTriple, perResistor] = row as [string, ...number[]] as [
      string,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const model = sprtBath.build({ subRange });
    const x = inputsOf(subRange, ρS, ρX);
    const found = model.evaluate(x) as Record<string, number>;
    expect(Math.abs(found["bathTemperature"]! - tRef)).toBeLessThan(1e-8);
    expect(Math.abs(found["error"]! + found["bathTemperature"]! - tX)).toBeLessThan(1e-8);
    expect(Math.abs(found["error"]! * 1000 - e)).toBeLessThan(1e-5);

    // Sensitivities as the budget finds them; mK per 1e-6 of the ratio, per ppm of the resistances.
    const inputs = Object.fromEntries(
      Object.entries(x).map(([name, value]) => [name, { distribution: "constant", value }]),
    );
    const study = {
      title: "t",
      model: "sprt-bath",
      inputs: { ...inputs, bathRadial: { distribution: "normal", estimate: 0, standardUncertainty: 1e-3 } },
      trials: 4000,
    };
    const rows = budgetsOf(model, study)["error"]!.contributions;
    const c = (name: string): number => rows.find((r) => r.input === name)!.sensitivityCoefficient;
    check(c("referenceRatio") * 1e-3, perRef);
    check(c("probeRatio") * 1e-3, perX);
    check(c("triplePointResistance") * 1e-3 * figures.R_TPW_ohm, perTriple);
    // What is left of two terms that cancel to 2 %, known to 6 digits each.
    expect(Math.abs(c("standardResistance") * 1e-3 * figures.Rs_ohm - perResistor)).toBeLessThan(1e-7);
    check(c("resistorDrift") * 1e-3, perResistor);
  });

  // 40-digit arithmetic with the same readings: W free of the resistor, so that the probe's channel alone moves, by t·dt/dR.
  it("by ratio to the same resistor, only the probe's channel depends on it: 0.334 mK per ppm at 72 °C, not 0.005", () => {
    const [, ρS, ρX, tRef] = figures.rows[2] as [string, number, number, number];
    const model = sprtBath.build({ subRange: "8", triplePoint: "ratio" });
    const { triplePointResistance, ...rest } = inputsOf("8", ρS, ρX);
    const x: Record<string, number> = { ...rest, triplePointRatio: triplePointResistance! / figures.Rs_ohm };
    const found = model.evaluate(x) as Record<string, number>;
    expect(Math.abs(found["bathTemperature"]! - tRef)).toBeLessThan(1e-8);
    const moved = model.evaluate({ ...x, standardResistance: figures.Rs_ohm * (1 + 1e-6) }) as Record<string, number>;
    expect(moved["bathTemperature"]).toBe(found["bathTemperature"]);
    // R/(dR/dt) of IEC 60751 at the probe's temperature: r/(A + 2Bt)·10⁻⁶.
    const t = found["error"]! + found["bathTemperature"]!;
    const perPpm = (1e-6 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t)) / (3.9083e-3 - 2 * 5.775e-7 * t);
    expect(moved["error"]! - found["error"]!).toBeCloseTo(perPpm, 9);
    if (Math.abs(tRef - 72) < 1) expect(perPpm * 1000).toBeCloseTo(0.334, 3);
  });

  it("takes non-uniqueness and inconsistency of the scale, and the reference's own terms, if a study states them", () => {
    const [, ρS, ρX] = figures.rows[2] as [string, number, number];
    const model = sprtBath.build({ subRange: "8" });
    const x = inputsOf("8", ρS, ρX);
    const error = (more: Record<string, number>): number =>
      (model.evaluate({ ...x, ...more }) as Record<string, number>)["error"]!;
    for (const [name, sign] of Object.entries({
      nonUniqueness: -1,
      subRangeInconsistency: -1,
      referenceImmersion: 1,
      referenceHysteresis: 1,
      referenceLag: 1,
      probeLag: -1,
      bathLoading: -1,
    })) {
      expect(model.optionalInputs).toHaveProperty(name);
      expect(error({ [name]: 0.001 }) - error({}), name).toBeCloseTo(sign * 0.001, 12);
    }
  });

  it("draws the standard resistor once: its uncertainty cancels in the Monte Carlo too", () => {
    const [, ρS, ρX] = figures.rows[2] as [string, number, number];
    const inputs = Object.fromEntries(
      Object.entries(inputsOf("8", ρS, ρX)).map(([name, value]) => [name, { distribution: "constant", value }]),
    );
    const study = {
      title: "t",
      model: "sprt-bath",
      inputs: {
        ...inputs,
        standardResistance: { distribution: "normal", estimate: 100.00012, standardUncertainty: 0.001 },
      },
      trials: 20_000,
    };
    const { error, bathTemperature } = runWithoutExplanation(sprtBath.build({ subRange: "8" }), study).measurands;
    // 10 ppm: 3.6 mK on the reference alone, 0.0504 mK on the comparison (0.00503898 mK/ppm); s.e. of u: u/√(2M), 5 of them.
    expect(Math.abs(error!.monteCarlo.standardUncertainty! / 5.03898e-5 - 1)).toBeLessThan(5 / Math.sqrt(40_000));
    expect(bathTemperature!.monteCarlo.standardUncertainty!).toBeGreaterThan(3.5e-3);
  });
});

describe("what it asks for", () => {
  it("names the coefficients of the sub-range and shows the cautions", () => {
    expect(Object.keys(sprtBath.build({ subRange: "7" }).inputs)).toEqual(expect.arrayContaining(["a", "b", "c"]));
    expect(sprtBath.build({ subRange: "8" }).cautions).toBe(BATH_CAUTIONS);
  });

  it.each([
    [{}, /parameters.subRange: got nothing; expected a sub-range of ITS-90 from "1" to "11"/],
    [{ subRange: "8", triplePoint: "R" }, /parameters.triplePoint: got "R"; expected "resistance" or "ratio"/],
    [{ subRange: "0" }, /parameters.subRange: got "0"/],
    [{ subRange: "8", range: 1 }, /parameters.range: got 1; expected one of subRange, triplePoint/],
  ])("refuses %o", (parameters, message) => {
    expect(() => sprtBath.build(parameters)).toThrow(InputError);
    expect(() => sprtBath.build(parameters)).toThrow(message);
  });

  it("does not pass a reading outside the sub-range", () => {
    const inputs = Object.fromEntries(
      Object.entries(inputsOf("8", 0.2, 0.8)).map(([name, value]) => [name, { distribution: "constant", value }]),
    );
    const run = (): unknown =>
      budgetsOf(sprtBath.build({ subRange: "8" }), { title: "t", model: "sprt-bath", inputs, trials: 4000 });
    expect(run).toThrow(ModelError);
    expect(run).toThrow(
      /model sprt-bath returned NaN for error at the estimates of its inputs \(.*referenceRatio = 0.2/,
    );
  });
});
