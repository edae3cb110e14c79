import { describe, expect, it } from "vitest";
import { bridgeResistance } from "../../../../models/platinum/chain/bridge.ts";
import { sensorTemperature } from "../../../../models/platinum/chain/hydrostatic-head.ts";
import {
  COPPER,
  fourWire,
  leadAt,
  threeWire,
  twoWire,
  withoutShunt,
} from "../../../../models/platinum/chain/lead-resistance.ts";
import { atZeroCurrent, squaredCurrentRatio } from "../../../../models/platinum/chain/self-heating.ts";
import { standardResistance } from "../../../../models/platinum/chain/standard-resistor.ts";
import { driftedTriplePoint, interpolatedDrift } from "../../../../models/platinum/chain/triple-point-drift.ts";
import { fixedPoint, fixedPoints } from "../../../../models/platinum/its90/fixed-points.ts";
import reference from "../../../reference/platinum.json" with { type: "json" };

describe("hydrostatic head and pressure (Metrologia 27 (1990) 3–10, table 2)", () => {
  it.each(reference["its90-pressure-depth"].values.worked.rows as [string, number, number, number][])(
    "%s at %f m",
    (name, depth, millikelvin, T) => {
      const found = sensorTemperature(fixedPoint(name), depth);
      expect(found).toBeCloseTo(T, 8);
      expect((found - fixedPoint(name).temperature) * 1000).toBeCloseTo(millikelvin, 6);
    },
  );

  it("lets the pressure act on melting and freezing points alone", () => {
    const { Sn, Hg } = fixedPoints;
    expect(sensorTemperature(Sn, 0, 101_325 + 10_000) - Sn.temperature).toBeCloseTo(3.3e-8 * 10_000, 9);
    expect(sensorTemperature(Hg, 0, 0)).toBe(Hg.temperature);
  });

  it("is what the density of the liquid metal makes of the pressure effect", () => {
    // dT/dl ≈ dT/dp·ρ·g; densities of liquid metals, CRC Handbook; table figures have two digits: within 4 %.
    for (const [name, , published, , density] of reference["its90-pressure-depth"].values.consistency.rows as [
      string,
      number,
      number,
      number,
      number,
    ][]) {
      const { perPressure, perDepth } = fixedPoint(name);
      expect(Math.abs((perPressure! * density * 9.81) / perDepth! - 1)).toBeLessThan(0.04);
      expect(perDepth! * 1000).toBeCloseTo(published, 12);
    }
  });

  it("refuses what cannot be", () => {
    expect(() => sensorTemperature(fixedPoints.Sn, -0.1)).toThrow(/depth: got -0.1; expected a depth in m, at least 0/);
    expect(() => sensorTemperature(fixedPoints.Sn, 0.1, -1)).toThrow(/pressure: got -1/);
    expect(() => sensorTemperature(fixedPoints.H2_17K, 0.1)).toThrow(/point: got "H2_17K"/);
  });
});

describe("bridge and standard resistor", () => {
  it("multiply", () => {
    expect(bridgeResistance(0.255143489, 1e-9, 100)).toBeCloseTo(25.514349, 10);
  });

  it("take temperature and drift of the resistor into account", () => {
    const resistor = { resistance: 100.0001, referenceTemperature: 23, alpha: 2e-6, beta: -5e-7, drift: 1e-6 };
    expect(standardResistance(resistor, 23, 0)).toBe(100.0001);
    // 2 °C warmer: 2·2e-6 − 4·5e-7 = 2e-6; two years: 2e-6.
    expect(standardResistance(resistor, 25, 2) / 100.0001 - 1).toBeCloseTo(4e-6, 11);
  });
});

/** R = 25 Ω + 0.4 mΩ·(I/mA)²: common practice, exact where warming follows the power. */
const heated = (squared: number): number => 25 + 0.0004 * squared;

describe("self-heating", () => {
  it("is taken off by two currents: 2·R(1 mA) − R(1.414 mA)", () => {
    expect(atZeroCurrent(heated(1), heated(2), 2)).toBeCloseTo(25, 12);
    expect(atZeroCurrent(heated(1), heated(4), squaredCurrentRatio(1, 2))).toBeCloseTo(25, 12);
    expect(atZeroCurrent(heated(2), heated(1), squaredCurrentRatio(Math.SQRT2, 1))).toBeCloseTo(25, 12);
  });

  it("needs two different currents", () => {
    expect(() => squaredCurrentRatio(1, 1)).toThrow(
      /currents.second: got 1; expected a current greater than 0, different from the first/,
    );
    expect(() => squaredCurrentRatio(0, 1)).toThrow(/currents.first: got 0/);
  });
});

describe("leads", () => {
  // A Pt100 at 138.5 Ω on three leads of 2.0, 2.1 and 1.9 Ω: sums by Kirchhoff's law.
  it("add up by their connection", () => {
    expect(twoWire(138.5 + 4.1, 2, 2.1)).toBeCloseTo(138.5, 12);
    // Loop of the leads 2.1 and 1.9 Ω taken off as though it were 2.0 and 2.1 Ω: 138.5 + 0.1 Ω is shown.
    expect(threeWire(138.5 + 2.1 - 2, 2.1, 2)).toBeCloseTo(138.5, 12);
    // Divider of the meter's 10 MΩ input with 4 Ω of potential leads shows R·R_in/(R_in + r).
    expect(fourWire((138.5 * 1e7) / (1e7 + 4), 4, 1e-7)).toBeCloseTo(138.5, 10);
  });

  it("of copper grow with temperature", () => {
    // IEC 60028: annealed copper, 3.93e-3 per °C at 20 °C.
    expect(leadAt(2, 20)).toBe(2);
    expect(leadAt(2, 45)).toBeCloseTo(2 * (1 + 25 * COPPER), 12);
  });

  it("with a leak beside the sensor show the parallel connection", () => {
    const parallel = 1 / (1 / 138.5 + 1e-6);
    expect(withoutShunt(parallel, 1e-6)).toBeCloseTo(138.5, 11);
    expect(withoutShunt(138.5, 0)).toBe(138.5);
  });
});

describe("R(273.16 K) between calibrations", () => {
  it("drifts on a straight line", () => {
    const change = interpolatedDrift(25.5, 25.50051, 1.5, 0.5);
    expect(change).toBeCloseTo(2e-5 / 3, 12);
    expect(driftedTriplePoint(25.5, change)).toBeCloseTo(25.50017, 10);
  });

  it.each([
    [[0, 25, 1, 0.5], /first: got 0/],
    [[25, -1, 1, 0.5], /second: got -1/],
    [[25, 25, 0, 0.5], /interval: got 0/],
    [[25, 25, 1, 2], /elapsed: got 2; expected a time from 0 to 1, between the two measurements/],
  ] as const)("refuses %o", (given, message) => {
    expect(() => interpolatedDrift(...(given as unknown as [number, number, number, number]))).toThrow(message);
  });
});
