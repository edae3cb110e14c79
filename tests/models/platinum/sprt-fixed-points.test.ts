import { describe, expect, it } from "vitest";
import { ModelError, type Model } from "../../../engine/index.ts";
import { fixedPoints, type FixedPointName } from "../../../models/platinum/its90/fixed-points.ts";
import { propagatedUncertainty, propagation } from "../../../models/platinum/its90/propagation.ts";
import { subRangeOf, subRanges } from "../../../models/platinum/its90/sub-ranges.ts";
import { ratioAt } from "../../../models/platinum/its90/thermometer.ts";
import { sprtFixedPoints } from "../../../models/platinum/sprt-fixed-points.ts";
import { budgetsOf, runWithoutExplanation } from "./run-without-explanation.ts";
import computed from "../../reference/platinum-computed.json" with { type: "json" };
import reference from "../../reference/platinum.json" with { type: "json" };

const constant = (value: number) => ({ distribution: "constant", value });
const normal = (estimate: number, standardUncertainty: number) => ({
  distribution: "normal",
  estimate,
  standardUncertainty,
});

/** Readings of a thermometer with these coefficients, R(273.16 K)/R_s = 0.25, cells without head or impurity. */
function readings(model: Model, number: string, coefficients: readonly number[], t: number): Record<string, number> {
  const subRange = subRangeOf(number);
  const x = Object.fromEntries(
    Object.keys(model.inputs).map((name) => [name, name.startsWith("pressure") ? 101_325 : 0]),
  );
  for (const name of ["H2O", ...subRange.points] as FixedPointName[]) {
    const W = name === "H2O" ? 1 : ratioAt(subRange, coefficients, fixedPoints[name].temperature);
    x[`ratio1_${name}`] = 0.25 * W;
    x[`ratio2_${name}`] = 0.25 * W;
    if (fixedPoints[name].state === "vapour") x[`realised_${name}`] = fixedPoints[name].temperature;
  }
  return {
    ...x,
    ratioInUse: 0.25 * ratioAt(subRange, coefficients, t + 273.15),
    ...("ratioInUse_H2O" in model.inputs ? { ratioInUse_H2O: 0.25 } : {}),
  };
}

const temperatureOf = (model: Model, x: Record<string, number>): number =>
  (model.evaluate(x) as Record<string, number>)["t"]!;

describe("calibration at fixed points and t in use", () => {
  it.each(reference["its90-synthetic-sprts"].values)(
    "recovers coefficients and temperatures of the invented thermometer $name",
    (row) => {
      const model = sprtFixedPoints.build({ subRange: row.subrange });
      const exact = Object.values(row.coefficients) as number[];
      for (const [t] of row.rows) {
        const found = model.evaluate(readings(model, row.subrange, exact, t!)) as Record<string, number>;
        expect(Math.abs(found["t"]! - t!)).toBeLessThan(1e-8);
        Object.entries(row.coefficients).forEach(([name, value]) =>
          expect(Math.abs(found[name]! / value - 1)).toBeLessThan(1e-7),
        );
      }
    },
  );

  it("builds and closes for every sub-range", () => {
    for (const { number, low, high, aboveAluminium, terms } of Object.values(subRanges)) {
      const model = sprtFixedPoints.build({ subRange: number });
      const t = low + 0.8 * (high - low) - 273.15;
      const coefficients = aboveAluminium
        ? [-2.4e-4, -1e-5, 0, 0, 3.3754]
        : terms.map((_, k) => [-2.4e-4, -1e-5][k] ?? 0);
      expect(Math.abs(temperatureOf(model, readings(model, number, coefficients, t)) - t)).toBeLessThan(1e-8);
    }
  });

  // platinum.py: refits in 50-digit arithmetic, sub-ranges 8 (tin, zinc) and 5 (mercury, gallium).
  it.each(computed.propagation.filter(({ subRange }) => subRange === "8" || subRange === "5"))(
    "budget at $t °C in sub-range $subRange",
    (row) => {
      const u = {
        points: Object.fromEntries(Object.keys(row.points).map((name, i) => [name, 1e-4 * (i + 2)])),
        triplePoint: 5e-5,
        triplePointInUse: 7e-5,
      };
      for (const triplePoint of ["common", "remeasured"] as const) {
        const model = sprtFixedPoints.build({ subRange: row.subRange, triplePoint });
        const x = readings(model, row.subRange, row.coefficients, row.t);
        const inputs: Record<string, unknown> = Object.fromEntries(
          Object.entries(x).map(([name, value]) => [name, constant(value)]),
        );
        for (const [name, value] of Object.entries(u.points)) inputs[`impurity_${name}`] = normal(0, value);
        inputs["impurity_H2O"] = normal(0, u.triplePoint);
        const W = row.W;
        if (triplePoint === "remeasured")
          inputs["ratioInUse_H2O"] = normal(0.25, 0.25 * u.triplePointInUse * 0.00398853);
        const linear = budgetsOf(model, { title: "t", model: "sprt-fixed-points", inputs, trials: 4000 })["t"]!;
        const c = (name: string): number => linear.contributions.find((r) => r.input === name)!.sensitivityCoefficient;
        // A cell that is warmer than assumed reads high and is taken for its assigned temperature: the other sign.
        for (const [name, value] of Object.entries(row.points))
          expect(Math.abs(c(`impurity_${name}`) + value)).toBeLessThan(1e-6);
        const triple = triplePoint === "common" ? row.tripleCommon : row.tripleCalibration;
        // The model turns kelvins to ratio at the triple point by the reference function's slope: 2.5e-4 from the thermometer's own.
        expect(Math.abs(c("impurity_H2O") + triple)).toBeLessThan(3e-4 * Math.max(1, W));
        const found = propagation(subRangeOf(row.subRange), row.coefficients, row.t + 273.15, triplePoint);
        expect(Math.abs(linear.standardUncertainty / propagatedUncertainty(found, u) - 1)).toBeLessThan(1e-3);
      }
    },
  );

  it("gives the Monte Carlo the correlation through R(273.16 K)", () => {
    const model = sprtFixedPoints.build({ subRange: "8" });
    const inputs: Record<string, unknown> = Object.fromEntries(
      Object.entries(readings(model, "8", [-2.3e-4, -1e-5], 134)).map(([name, value]) => [name, constant(value)]),
    );
    inputs["impurity_H2O"] = normal(0, 1e-3);
    const M = 40_000;
    const { monteCarlo } = runWithoutExplanation(model, { title: "t", model: "sprt-fixed-points", inputs, trials: M })
      .measurands["t"]!;
    // platinum.py: 0.287088 K/K; without the correlation √(1.300² + 1.587²) = 2.05 K/K.
    expect(Math.abs(monteCarlo.standardUncertainty! / 0.287088e-3 - 1)).toBeLessThan(5 / Math.sqrt(2 * M) + 3e-4);
  });
});

describe("the chain at a fixed point", () => {
  const model = sprtFixedPoints.build({ subRange: "8" });
  const x = readings(model, "8", [-2.3e-4, -1e-5], 231.928);

  it("takes self-heating off by two currents", () => {
    const heated = { ...x };
    for (const name of ["H2O", "Sn", "Zn"]) {
      heated[`ratio1_${name}`]! += 1e-6;
      heated[`ratio2_${name}`]! += 2e-6;
    }
    expect(temperatureOf(model, heated)).toBeCloseTo(231.928, 8);
    const unequal = sprtFixedPoints.build({ subRange: "8", squaredCurrentRatio: 4 });
    for (const name of ["H2O", "Sn", "Zn"]) heated[`ratio2_${name}`]! += 2e-6;
    expect(temperatureOf(unequal, heated)).toBeCloseTo(231.928, 8);
  });

  it("takes head, pressure and the resistor's change into account", () => {
    // Metrologia 27 (1990) 3–10, table 2: tin 2.2 mK/m and 3.3e-8 K/Pa; water −0.73 mK/m.
    expect((temperatureOf(model, { ...x, depth_Sn: 0.17 }) - 231.928) * 1000).toBeCloseTo(0.374, 4);
    expect((temperatureOf(model, { ...x, pressure_Sn: 111_325 }) - 231.928) * 1000).toBeCloseTo(0.33, 4);
    expect(temperatureOf(model, { ...x, depth_H2O: 0.265 })).toBeCloseTo(231.928, 6);
    // 1 ppm at tin alone is 1e-6·W/W′ = 0.51 mK in use there, downwards.
    expect((temperatureOf(model, { ...x, resistor_Sn: 1e-6 }) - 231.928) * 1000).toBeCloseTo(-0.50988, 3);
  });

  it("refuses parameters and readings that make no thermometer", () => {
    expect(() => sprtFixedPoints.build({ subRange: "13" })).toThrow(/parameters.subRange: got "13"/);
    expect(() => sprtFixedPoints.build({ subRange: "8", triplePoint: "own" })).toThrow(
      /parameters.triplePoint: got "own"; expected "common" or "remeasured"/,
    );
    expect(() => sprtFixedPoints.build({ subRange: "8", squaredCurrentRatio: 1 })).toThrow(
      /parameters.squaredCurrentRatio: got 1/,
    );
    expect(() => sprtFixedPoints.build({ subRange: "8", current: 1 })).toThrow(
      /parameters.current: got 1; expected one of subRange, triplePoint, squaredCurrentRatio/,
    );
    const inputs = Object.fromEntries(
      Object.entries({ ...x, ratioInUse: 0.1 }).map(([name, value]) => [name, constant(value)]),
    );
    expect(() => budgetsOf(model, { title: "t", model: "sprt-fixed-points", inputs, trials: 4000 })).toThrow(
      ModelError,
    );
  });
});
