import { describe, expect, it } from "vitest";
import { ModelError } from "../../../engine/index.ts";
import { resistance, resistanceSlope } from "../../../models/platinum/iec60751.ts";
import { twoWirePlant } from "../../../models/platinum/two-wire-plant.ts";
import { budgetsOf } from "./run-without-explanation.ts";

const base = {
  indicatedResistance: 0,
  readout: 0,
  leadResistance: 0,
  leadTemperature: 20,
  leadCoefficient: 0.00393,
  contacts: 0,
  leakage: 0,
  nominalResistance: 100,
  zeroShift: 0,
  classDeviation: 0,
  selfHeating: 0,
  conduction: 0,
};
const evaluate = (x: Partial<typeof base>): number => twoWirePlant.evaluate({ ...base, ...x }) as number;

describe("two-wire probe in a plant", () => {
  it("takes leads, contacts and a leak off the reading", () => {
    // The circuit built up from R(72 °C) by Ohm's law: leak parallel, then two leads at 35 °C and contacts in series.
    const sensor = resistance(72);
    const withLeak = 1 / (1 / sensor + 1e-6);
    const indicatedResistance = withLeak + 2 * 0.46 * (1 + 0.00393 * 15) + 0.05;
    expect(
      evaluate({ indicatedResistance, leadResistance: 0.46, leadTemperature: 35, contacts: 0.05, leakage: 1e-6 }),
    ).toBeCloseTo(72, 9);
  });

  it("is wrong by 2.6 °C per ohm of leads left in, and a leak of 1 MΩ makes −0.04 °C", () => {
    const R = resistance(72);
    expect(evaluate({ indicatedResistance: R + 1 }) - 72).toBeCloseTo(1 / resistanceSlope(72), 2);
    // ΔR = −R²·G = −16.3 mΩ.
    expect(evaluate({ indicatedResistance: 1 / (1 / R + 1e-6) }) - 72).toBeCloseTo(
      (-R * R * 1e-6) / resistanceSlope(72),
      4,
    );
  });

  it("adds the probe's own terms", () => {
    const R = resistance(72);
    expect(evaluate({ indicatedResistance: R, classDeviation: 0.1, selfHeating: 0.03, conduction: -0.05 })).toBeCloseTo(
      72.12,
      9,
    );
    expect(evaluate({ indicatedResistance: R * 1.0002, zeroShift: 0.02 })).toBeCloseTo(72, 9);
  });

  it("gives an error, not a number, for an open circuit", () => {
    const inputs = Object.fromEntries(
      Object.entries({ ...base, indicatedResistance: 1e6 }).map(([name, value]) => [
        name,
        { distribution: "constant", value },
      ]),
    );
    expect(() => budgetsOf(twoWirePlant, { title: "t", model: "two-wire-plant", inputs, trials: 4000 })).toThrow(
      ModelError,
    );
    expect(() => budgetsOf(twoWirePlant, { title: "t", model: "two-wire-plant", inputs, trials: 4000 })).toThrow(
      /indicatedResistance = 1000000/,
    );
  });

  it("reminds of the dangers of a plant", () => {
    expect(twoWirePlant.cautions!.join(" ")).toMatch(/pressure/);
    expect(twoWirePlant.cautions!.at(-1)).toMatch(/qualified persons decide/);
  });
});
