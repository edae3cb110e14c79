// A standard thermometer: R(0.01 °C) and the deviation function of ITS-90 with covariance, lack of fit and the band between
// the points, against tests/reference/standard_thermometer.py (NumPy; invented data).
import { describe, expect, test } from "vitest";
import { prepare, propagate, readStudy } from "../../../engine/index.ts";
import { linearCovariance, linearCurve } from "../../../engine/internal.ts";
import {
  calibrationPoints,
  calibrationResult,
  fittedPoints,
  fitWithCovariance,
  readCalibration,
  studyOf,
  type CalibrationDocument,
} from "../../../models/index.ts";
import { againstStandard, cases, documentOf } from "./standard-thermometer.ts";
import { LONG } from "../../setup/long.ts";

const close = (found: number, expected: number, relative: number): void =>
  expect(Math.abs(found / expected - 1)).toBeLessThan(relative);

const models = [
  { pointModel: "bath-comparison", stated: documentOf },
  { pointModel: "sprt-bath", stated: againstStandard },
] as const;
describe.each(models.flatMap((one) => cases.map((given) => ({ ...one, given, subRange: given.subRange }))))(
  "sub-range $subRange by $pointModel",
  ({ given, stated }) => {
    const document = studyOf(readCalibration(stated(given)), "S");
    const points = fittedPoints(document);
    const study = readStudy(document);
    const prepared = prepare(calibrationPoints.build(study.parameters ?? {}), study);
    const names = ["Rtp", "a", "b", "c"].slice(0, given.coefficients.length);

    test("errors by the reference function, with their uncertainties", () => {
      given.errors.forEach((error, i) => {
        const { estimate, standardUncertainty } = prepared.linear[`error_p${i + 1}`]!;
        expect(Math.abs(estimate - error)).toBeLessThan(1e-9);
        // Differences there and here.
        close(standardUncertainty, given.errorUncertainties[i]!, 1e-6);
      });
    });

    test("slopes and the joint covariance of the points", () => {
      given.slopes.forEach((slope, i) => close(points.slopes[i]!, slope, 1e-7));
      given.covarianceOfPoints.forEach((row, i) =>
        row.forEach((value, j) => close(points.covariance[i]![j]!, value, 1e-6)),
      );
    });

    test("coefficients with their covariance", () => {
      names.forEach((name, k) =>
        close(prepared.linear[name]!.estimate, given.coefficients[k]!, k === 0 ? 1e-11 : 1e-5),
      );
      const found = linearCovariance(
        names.map((name) => prepared.linear[name]!),
        prepared.correlations,
      );
      given.covariance.forEach((row, i) =>
        row.forEach((value, j) => {
          const scale = Math.sqrt(given.covariance[i]![i]! * given.covariance[j]![j]!);
          expect(Math.abs(found[i]![j]! - value) / scale).toBeLessThan(1e-5);
        }),
      );
    });

    test("lack of fit; the covariance by the derivatives of the curve alone is the same but for the residuals", () => {
      const fit = fitWithCovariance(points, false);
      close(fit.chiSquare, given.chiSquare, 1e-4);
      expect(fit.degreesOfFreedom).toBe(given.degreesOfFreedom);
      expect(fit.probability!).toBeGreaterThan(0);
      names.forEach((_, k) => close(Math.sqrt(fit.covariance![k]![k]!), Math.sqrt(given.covariance[k]![k]!), 5e-3));
    });

    test("the curve between the points with its uncertainty", () => {
      const found = linearCurve(
        prepared,
        given.band.map(({ t }) => t),
      )!;
      given.band.forEach(({ error, u }, i) => {
        expect(Math.abs(found[i]!.linear.estimate - error)).toBeLessThan(1e-9);
        close(found[i]!.linear.standardUncertainty, u, 1e-5);
      });
    });
  },
);

test("the result of a whole run names the sub-range, and trials agree with the budget", LONG, () => {
  const given = cases[0]!;
  const calibration = readCalibration(documentOf(given));
  const study = readStudy(studyOf(calibration, "S"));
  const record = propagate(calibrationPoints.build(study.parameters ?? {}), study);
  const { fit } = calibrationResult(calibration, "S", record);
  expect(fit!.deviation).toEqual({ subRange: "8", equation: "a(W − 1) + b(W − 1)²" });
  expect(fit!.coefficients.map(({ name }) => name)).toEqual(["Rtp", "a", "b"]);
  // Five standard errors of a standard deviation of 20 000 trials, 1/√(2M) each.
  for (const { standardUncertainty, distributionUncertainty } of fit!.coefficients)
    expect(Math.abs(distributionUncertainty! / standardUncertainty - 1)).toBeLessThan(5 / Math.sqrt(40_000));
  expect(fit!.band).toHaveLength(41);
  expect(fit!.residuals).toHaveLength(5);
});

test.each<[string, (all: CalibrationDocument["instruments"][number]) => object, RegExp]>([
  [
    "no sub-range",
    (all) => Object.fromEntries(Object.entries(all).filter(([name]) => name !== "subRange")),
    /instruments\.0\.subRange: got nothing; expected for fit ITS-90/,
  ],
  ["a point outside the sub-range", (all) => ({ ...all, subRange: "11" }), /points\.1\.nominal.*0 °C to 29\.7646 °C/s],
  ["a class", (all) => ({ ...all, tolerance: { class: "A" } }), /instruments\.0\.tolerance.*industrial/s],
  ["a sub-range without ITS-90", (all) => ({ ...all, fit: "none" }), /instruments\.0\.subRange.*fit is none/s],
])("%s is refused", (_, change, message) => {
  const document = documentOf(cases[0]!);
  expect(() => readCalibration({ ...document, instruments: document.instruments.map(change) })).toThrow(message);
});
