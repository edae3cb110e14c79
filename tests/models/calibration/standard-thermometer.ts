// Calibrations of standard thermometers (tests/reference/standard_thermometer.py, invented data) as documents.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { CalibrationDocument } from "../../../models/index.ts";

export interface Case {
  readonly subRange: "4" | "7" | "8";
  readonly nominal: readonly number[];
  readonly reading: readonly number[];
  readonly resistance: readonly number[];
  readonly stability: readonly number[];
  readonly correction: number;
  readonly U: number;
  readonly drift: number;
  readonly readout: number;
  readonly uR: number;
  readonly nominalResistance: number;
  readonly errors: readonly number[];
  readonly errorUncertainties: readonly number[];
  readonly slopes: readonly number[];
  readonly covarianceOfPoints: readonly (readonly number[])[];
  readonly coefficients: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly band: readonly { readonly t: number; readonly error: number; readonly u: number }[];
}
export const cases = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/standard-thermometer.json"), "utf8"),
) as readonly Case[];

const zero = { distribution: "constant", value: 0 } as const;
const rectangular = (halfWidth: number) => ({ distribution: "rectangular", estimate: 0, halfWidth }) as const;

export const documentOf = (given: Case, more: Partial<CalibrationDocument> = {}): CalibrationDocument => ({
  title: "standard thermometer",
  baths: { bath: { common: { bathAxial: zero, bathRadial: zero } } },
  instruments: [
    {
      id: "S",
      fit: "ITS-90",
      subRange: given.subRange,
      nominalResistance: given.nominalResistance,
      common: {
        probeReadout: rectangular(given.readout),
        probeResolution: zero,
        selfHeating: zero,
        immersion: zero,
        hysteresis: zero,
        repeatability: zero,
      },
    },
  ],
  common: {
    referenceDrift: rectangular(given.drift),
    referenceReadout: zero,
    referenceCertificate: {
      distribution: "normal",
      estimate: given.correction,
      expandedUncertainty: given.U,
      coverageFactor: 2,
    },
  },
  points: given.nominal.map((nominal, i) => ({
    nominal,
    bath: "bath",
    inputs: {
      bathStability: rectangular(given.stability[i]!),
      referenceReading: { distribution: "constant", value: given.reading[i]! },
    },
    instruments: {
      S: { probeResistance: { distribution: "normal", estimate: given.resistance[i]!, standardUncertainty: given.uR } },
    },
  })),
  trials: 20_000,
  seed: "standard",
  ...more,
});
