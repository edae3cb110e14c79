import { describe, expect, it } from "vitest";
import { InputError, ModelError, propagate } from "../../../engine/index.ts";
import { IEC_60751, resistanceAt } from "../../../models/platinum/callendar-van-dusen.ts";
import { fitCoefficients, jointCovariance } from "../../../models/platinum/fit.ts";
import { interpolatedTemperature } from "../../../models/platinum/interpolation.ts";
import { probeFit } from "../../../models/platinum/probe-fit.ts";
import { budgetsOf, runWithoutExplanation } from "./run-without-explanation.ts";

const BATHS = [-40, 4, 72, 134];
const R_IN_USE = resistanceAt(IEC_60751, 100, 100);
const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});
const constant = (value: number) => ({ distribution: "constant", value });

/** Points on the standard curve; reference, bath and readout uncertain. */
function studyOf(baths: readonly number[], trials: number, other: Record<string, unknown> = {}) {
  const own = Object.fromEntries(
    baths.flatMap((t, i) => [
      [`reference${i + 1}`, constant(t)],
      [`resistance${i + 1}`, normal(resistanceAt(IEC_60751, 100, t), 0.0004)],
      [`bath${i + 1}`, normal(0, 0.001 * (i + 1))],
    ]),
  );
  const shared = [
    "referenceSpan",
    "bathCommon",
    "bridgeZero",
    "selfHeating",
    "readoutInUse",
    "driftInUse",
    "selfHeatingInUse",
  ];
  return {
    title: "t",
    model: "probe-fit",
    inputs: {
      ...own,
      ...Object.fromEntries(shared.map((name) => [name, constant(0)])),
      referenceOffset: normal(0, 0.004),
      bridgeGain: normal(0, 5e-6),
      resistanceInUse: constant(R_IN_USE),
      ...other,
    },
    trials,
    seed: "probe-fit",
  };
}

/** The same by `fit.ts`: least squares with the joint covariance, then the interpolation. */
function byFit(baths: readonly number[], fitC: boolean) {
  const points = baths.map((temperature) => ({ temperature, resistance: resistanceAt(IEC_60751, 100, temperature) }));
  const covariance = jointCovariance(points, [
    { unit: "°C", standardUncertainty: 0.004, common: true },
    { unit: "°C", standardUncertainty: baths.map((_, i) => 0.001 * (i + 1)), common: false },
    { unit: "Ω", standardUncertainty: 0.0004, common: false },
    { unit: "1", standardUncertainty: 5e-6, common: true },
  ]);
  return fitCoefficients(points, { covariance, weights: baths.map(() => 1), fitC });
}

describe("the record", () => {
  it("has the residuals of the fit, s and ν = n − p (JCGM 100, H.3.2), and takes a lack of fit in use", () => {
    const model = probeFit.build({ temperatures: BATHS, fitC: false });
    const study = studyOf(BATHS, 2000);
    const { fit, observed } = propagate(model, study).calibrationCurve!;
    expect(fit!.degreesOfFreedom).toBe(BATHS.length - 3);
    expect(fit!.residuals).toEqual(observed.map(({ value, fitted }) => value - fitted));
    const squares = fit!.residuals.reduce((sum, r) => sum + r * r, 0);
    expect(fit!.residualDeviation).toBeCloseTo(Math.sqrt(squares / (BATHS.length - 3)), 15);
    expect(model.optionalInputs).toHaveProperty("lackOfFit");
    const { remarks } = propagate(model, study);
    expect(remarks.join(" ")).toContain(`${BATHS.length} points leave the curve of R by s = `);
    const exact = propagate(probeFit.build({ temperatures: BATHS }), studyOf(BATHS, 2000)).remarks.join(" ");
    expect(exact).toContain("has as many parameters as points (4)");
    // The temperature found is that of the curve and the departure of the probe from it.
    const x = Object.fromEntries(Object.keys(model.inputs).map((name) => [name, 0]));
    BATHS.forEach((t, i) => {
      x[`reference${i + 1}`] = t;
      x[`resistance${i + 1}`] = resistanceAt(IEC_60751, 100, t);
    });
    const inUse = (lackOfFit: number): number =>
      (model.evaluate({ ...x, resistanceInUse: 120, lackOfFit }) as Record<string, number>)["t"]!;
    expect(inUse(0.004) - inUse(0)).toBeCloseTo(0.004, 12);
  });
});

describe("coefficients and temperature in use, jointly", () => {
  it.each([
    ["four baths, C fitted", BATHS, undefined],
    ["six baths, C held", [-40, 0, 4, 72, 100, 134], false],
    ["three baths above zero", [4, 72, 134], undefined],
  ] as const)("the budget is the propagation of the fit's covariance: %s", (_, baths, fitC) => {
    const fitted = fitC ?? baths.some((t) => t < 0);
    const model = probeFit.build({ temperatures: baths, ...(fitC === undefined ? {} : { fitC }) });
    const budgets = budgetsOf(model, studyOf(baths, 2000));
    const fit = byFit(baths, fitted);
    const values = { R0: 100, ...IEC_60751 };
    fit.names.forEach((name, k) => {
      const linear = budgets[name]!;
      expect(Math.abs(linear.estimate / values[name] - 1)).toBeLessThan(1e-9);
      // Two independent routes: derivatives by extrapolation (1e-9) against the covariance of a QR.
      expect(Math.abs(linear.standardUncertainty / Math.sqrt(fit.covariance![k]![k]!) - 1)).toBeLessThan(1e-6);
    });
    const t = interpolatedTemperature(fit, R_IN_USE);
    expect(budgets["t"]!.estimate).toBeCloseTo(100, 9);
    expect(Math.abs(budgets["t"]!.standardUncertainty / t.standardUncertainty - 1)).toBeLessThan(1e-6);
    expect(Object.keys(budgets)).toEqual([...fit.names, "t"]);
  });

  it("the Monte Carlo refits every trial and agrees", () => {
    const M = 100_000;
    const { measurands } = runWithoutExplanation(probeFit.build({ temperatures: BATHS }), studyOf(BATHS, M));
    for (const { linear, monteCarlo } of Object.values(measurands)) {
      // All inputs normal and the fit nearly linear: s.e. of the mean u/√M, of u u/√(2M); 5 of them, and 1e-3 u for curvature.
      expect(Math.abs(monteCarlo.estimate! - linear.estimate)).toBeLessThan(
        linear.standardUncertainty * (5 / Math.sqrt(M) + 1e-3),
      );
      expect(Math.abs(monteCarlo.standardUncertainty! / linear.standardUncertainty - 1)).toBeLessThan(
        5 / Math.sqrt(2 * M) + 1e-3,
      );
    }
  });

  it("an error common to all points moves t in use by itself, and R0 by the slope", () => {
    const budgets = budgetsOf(probeFit.build({ temperatures: BATHS }), studyOf(BATHS, 2000));
    const c = (measurand: string, input: string): number =>
      budgets[measurand]!.contributions.find((row) => row.input === input)!.sensitivityCoefficient;
    // A shift of all temperatures is a shift of the curve, but for the cubic term's pole at 100 °C: exact only near the points.
    expect(Math.abs(c("t", "referenceOffset") - 1)).toBeLessThan(5e-3);
    expect(Math.abs(c("R0", "referenceOffset") / -0.39083 - 1)).toBeLessThan(5e-3);
    // A gain of the readout is taken by R0 entirely.
    expect(c("R0", "bridgeGain")).toBeCloseTo(100, 6);
    expect(Math.abs(c("A", "bridgeGain"))).toBeLessThan(1e-9);
  });

  it("takes self-heating, drift and readout in use off", () => {
    const model = probeFit.build({ temperatures: BATHS });
    const { inputs } = studyOf(BATHS, 2000);
    const x = Object.fromEntries(
      Object.entries(inputs).map(([name, s]) => [
        name,
        "value" in (s as object) ? (s as { value: number }).value : (s as { estimate: number }).estimate,
      ]),
    );
    const t = (other: Record<string, number>): number =>
      (model.evaluate({ ...x, ...other }) as Record<string, number>)["t"]!;
    expect(t({ selfHeatingInUse: 0.01 })).toBeCloseTo(99.99, 9);
    expect(t({ driftInUse: 1e-4, resistanceInUse: R_IN_USE * (1 + 1e-4) })).toBeCloseTo(100, 9);
    expect(t({ readoutInUse: 0.1, resistanceInUse: R_IN_USE - 0.1 })).toBeCloseTo(100, 9);
    // The element in the bath is warmer than the reference by the self-heating.
    expect(t({ selfHeating: 0.01 }) - 100).toBeGreaterThan(0.0099);
  });
});

describe("bad input", () => {
  it.each([
    [{}, /parameters.temperatures: got nothing; expected a list of numbers/],
    [
      { temperatures: [0, 50] },
      /parameters.temperatures: got \[0,50\]; expected at least 3 baths 0.5 °C or more apart for R0, A, B/,
    ],
    [{ temperatures: [-40, 4, 134] }, /at least 4 baths 0.5 °C or more apart for R0, A, B, C, or fitC: false/],
    [{ temperatures: [72, 72.1, 72.2, 134] }, /at least 3 baths 0.5 °C or more apart/],
    [
      { temperatures: [0, 50, 900] },
      /parameters.temperatures.2: got 900; expected a temperature from -200 °C to 850 °C/,
    ],
    [{ temperatures: [0, "50", 100] }, /parameters.temperatures.1: got "50"; expected a finite number/],
    [
      { temperatures: [0, 50, 100], fitC: true },
      /parameters.fitC: got true; expected false if no bath lies below 0 °C/,
    ],
    [{ temperatures: [0, 50, 100], fitC: "no" }, /parameters.fitC: got "no"; expected true or false/],
    [{ temperatures: [0, 50, 100], weights: [1, 1] }, /parameters.weights: got 2; expected 3 weights, one a bath/],
    [
      { temperatures: [0, 50, 100], weights: [1, 0, 1] },
      /parameters.weights.1: got 0; expected a number greater than 0/,
    ],
    [
      { temperatures: [0, 50, 100], points: 3 },
      /parameters.points: got 3; expected one of temperatures, fitC, weights/,
    ],
  ])("refuses %o", (parameters, message) => {
    expect(() => probeFit.build(parameters)).toThrow(InputError);
    expect(() => probeFit.build(parameters)).toThrow(message);
  });

  it("names the inputs if the resistance in use is out of range, or the points are one", () => {
    const model = probeFit.build({ temperatures: BATHS });
    const run = (other: Record<string, unknown>) => (): unknown => budgetsOf(model, studyOf(BATHS, 2000, other));
    expect(run({ resistanceInUse: constant(500) })).toThrow(ModelError);
    expect(run({ resistanceInUse: constant(500) })).toThrow(
      /returned NaN for t at the estimates of its inputs \(.*resistanceInUse = 500/,
    );
    expect(run(Object.fromEntries([2, 3, 4].map((i) => [`reference${i}`, constant(-40)])))).toThrow(ModelError);
  });
});
