// Calibrations of standard thermometers (tests/reference/standard_thermometer.py, invented data) as documents.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { CalibrationDocument } from "../../../models/index.ts";
import { referenceRatio } from "../../../models/platinum/its90/reference-function.ts";
import { coefficientNames, subRangeOf } from "../../../models/platinum/its90/sub-ranges.ts";

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

const constant = (value: number) => ({ distribution: "constant", value }) as const;
const zero = constant(0);
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

/** Resistor that both are compared with, Ω, and the reference at the triple point of water, Ω. */
const [RS, RTP] = [100, 25.5];

/**
 * The same calibration with a reference that is a standard thermometer itself, both read as ratios to one resistor: its
 * deviation function is zero, so that W = W_r(t) of the same temperature; resistor, bridge and triple point are exact.
 */
export function againstStandard(given: Case): CalibrationDocument {
  const subRange = subRangeOf(given.subRange);
  const usual = documentOf(given);
  const { probeReadout: _, probeResolution: __, ...instrument } = usual.instruments[0]!.common!;
  return {
    ...usual,
    pointModel: "sprt-bath",
    pointParameters: { subRange: given.subRange },
    common: {
      ...Object.fromEntries(coefficientNames(subRange).map((name) => [name, constant(0)])),
      ...Object.fromEntries(
        ["resistorAlpha", "resistorTemperature", "resistorDrift", "referenceBridge", "triplePointDrift"].map((name) => [
          name,
          constant(0),
        ]),
      ),
      standardResistance: constant(RS),
      triplePointResistance: constant(RTP),
      referenceCalibration: usual.common!["referenceCertificate"]!,
      // Of the same width about zero: what the drift of the comparison is.
      referenceSelfHeating: usual.common!["referenceDrift"]!,
    },
    instruments: [
      { ...usual.instruments[0]!, common: { ...instrument, probeBridge: rectangular(given.readout / RS) } },
    ],
    points: usual.points.map((point, i) => ({
      ...point,
      inputs: {
        bathStability: rectangular(given.stability[i]!),
        referenceRatio: constant((referenceRatio(given.reading[i]! + 273.15) * RTP) / RS),
      },
      instruments: {
        S: {
          probeRatio: {
            distribution: "normal",
            estimate: given.resistance[i]! / RS,
            standardUncertainty: given.uR / RS,
          },
        },
      },
    })),
  };
}
