// Generalised least squares with C fitted, and a certificate whose corrections are partly correlated from point to point:
// against tests/reference/calibration.py (NumPy, analytic sensitivities; invented data).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { calibrationPoints, fittedPoints, fitWithCovariance, readCalibration, studyOf } from "../../../models/index.ts";
import type { CalibrationDocument } from "../../../models/index.ts";

interface Fit {
  readonly coefficients: readonly number[];
  readonly standardUncertainties: readonly number[];
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly covarianceOfPoints: readonly (readonly number[])[];
}
const { inputs, errors, withC, withoutC } = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/calibration.json"), "utf8"),
) as {
  readonly inputs: Readonly<
    Record<"nominal" | "reading" | "resistance" | "correction" | "U" | "stability", readonly number[]> &
      Record<"correlation" | "drift" | "readout" | "uR", number>
  >;
  readonly errors: readonly number[];
  readonly withC: Fit;
  readonly withoutC: Fit;
};

const zero = { distribution: "constant", value: 0 } as const;
const rectangular = (halfWidth: number) => ({ distribution: "rectangular", estimate: 0, halfWidth }) as const;

const documentWith = (fit: "R0-A-B" | "R0-A-B-C"): CalibrationDocument => ({
  title: "seven points",
  baths: { bath: { common: { bathAxial: zero, bathRadial: zero } } },
  instruments: [
    {
      id: "P",
      fit,
      common: {
        probeReadout: rectangular(inputs.readout),
        probeResolution: zero,
        selfHeating: zero,
        immersion: zero,
        hysteresis: zero,
        repeatability: zero,
      },
    },
  ],
  common: { referenceDrift: rectangular(inputs.drift), referenceReadout: zero },
  points: inputs.nominal.map((nominal, i) => ({
    nominal,
    bath: "bath",
    inputs: {
      bathStability: rectangular(inputs.stability[i]!),
      referenceReading: { distribution: "constant", value: inputs.reading[i]! },
      referenceCertificate: {
        distribution: "normal",
        estimate: inputs.correction[i]!,
        expandedUncertainty: inputs.U[i]!,
        coverageFactor: 2,
      },
    },
    instruments: {
      P: {
        probeResistance: { distribution: "normal", estimate: inputs.resistance[i]!, standardUncertainty: inputs.uR },
      },
    },
  })),
  together: [{ input: "referenceCertificate", coefficient: inputs.correlation }],
});

const close = (found: number, expected: number, relative: number): void =>
  expect(Math.abs(found / expected - 1)).toBeLessThan(relative);

test.each([
  ["R0-A-B-C", withC],
  ["R0-A-B", withoutC],
] as const)("%s", (kind, expected) => {
  const document = studyOf(readCalibration(documentWith(kind)), "P");
  const points = fittedPoints(document);
  expected.covarianceOfPoints.forEach((row, i) =>
    row.forEach((value, j) => close(points.covariance[i]![j]!, value, 1e-8)),
  );
  const found = fitWithCovariance(points, kind === "R0-A-B-C");
  close(found.chiSquare, expected.chiSquare, 1e-7);
  expect(found.degreesOfFreedom).toBe(expected.degreesOfFreedom);
  expected.standardUncertainties.forEach((u, k) => close(Math.sqrt(found.covariance![k]![k]!), u, 1e-7));
  const study = readStudy(document);
  const { linear } = prepare(calibrationPoints.build(study.parameters ?? {}), study);
  errors.forEach((error, i) => expect(linear[`error_p${i + 1}`]!.estimate).toBeCloseTo(error, 10));
  // The model refits in every trial with these weights: at the estimates it gives the same coefficients, and its budget
  // the same uncertainties but for the residuals, which the derivative of the whole refit knows and X alone does not.
  ["R0", "A", "B", "C"].slice(0, expected.coefficients.length).forEach((name, k) => {
    close(linear[name]!.estimate, expected.coefficients[k]!, 1e-7);
    close(linear[name]!.standardUncertainty, expected.standardUncertainties[k]!, 2e-3);
  });
});
