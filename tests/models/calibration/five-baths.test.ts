// One Pt100 at five baths against one reference: figures of tests/reference/joint-calibration.json, invented data that was
// computed twice, independently (its `verification` says how).
import { expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { linearCovariance, linearCurve, linearisedBudget } from "../../../engine/internal.ts";
import { calibrationPoints, fittedPoints, fitWithCovariance, readCalibration, studyOf } from "../../../models/index.ts";
import { runWithoutExplanation } from "../platinum/run-without-explanation.ts";
import { fiveBaths, REFERENCE } from "./five-baths.ts";

const { errors, covariance_C2, residualCovariance_ohm2, slopeOfLeastSquaresCurve_ohm_per_C, fits, classA } =
  REFERENCE.results;
const LINEAR = 1e-9;
const TRIALS = 400_000;

const calibration = readCalibration(fiveBaths({ trials: TRIALS }));
const document = studyOf(calibration, "HF-021");
const study = readStudy(document);
const model = calibrationPoints.build(study.parameters ?? {});
const prepared = prepare(model, study);
const names = errors.map((_, i) => `error_p${i + 1}`);
const record = runWithoutExplanation(model, document);
/** Standard errors of both Monte Carlo results together, 20 million trials there; four of them are the limit. */
const within = (own: number, theirs: number): number => 4 * Math.hypot(own * Math.sqrt(2e7 / TRIALS), theirs);

const expectRelative = (found: number, expected: number, limit = LINEAR): void =>
  expect(Math.abs(found / expected - 1)).toBeLessThan(limit);

test.each(errors.map((error, i) => [names[i]!, error] as const))(
  "%s: linear budget, and the exact ends of the linear model with the stated distributions",
  (name, error) => {
    const linear = prepared.linear[name]!;
    expectRelative(linear.estimate, error.error_C);
    expectRelative(linear.standardUncertainty, error.u_C);
    expectRelative(linear.effectiveDegreesOfFreedom, error.effectiveDegreesOfFreedom, 1e-7);
    // The budget cuts ν_eff to a whole number (JCGM 100, G.4.1, note 1).
    expectRelative(linear.expandedUncertainty, error.linearBudgetU95_C, 1e-7);
    const exact = linearisedBudget(linear, prepared.source.groups, prepared.correlations, {
      probability: 0.95,
      tolerance: 1e-6,
    });
    if (exact.kind !== "distribution") throw new Error("no linearised distribution");
    exact.interval.forEach((end, side) =>
      expect(Math.abs(linear.estimate + end - error.exactLinear95_C[side]!)).toBeLessThan(2e-9),
    );
  },
);

test.each(errors.map((error, i) => [names[i]!, error.monteCarlo] as const))("%s: Monte Carlo", (name, theirs) => {
  const { monteCarlo } = record.measurands[name]!;
  const { standardErrors: se } = theirs;
  expect(Math.abs(monteCarlo.estimate! - theirs.mean)).toBeLessThan(within(se.mean, se.mean));
  expect(Math.abs(monteCarlo.intervals.symmetric[0] - theirs.low95)).toBeLessThan(within(se.low95, se.low95));
  expect(Math.abs(monteCarlo.intervals.symmetric[1] - theirs.high95)).toBeLessThan(within(se.high95, se.high95));
});

test("covariance of the errors by the linear budget, and that of the trials", () => {
  const found = linearCovariance(
    names.map((name) => prepared.linear[name]!),
    prepared.correlations,
  );
  covariance_C2.linearBudget.forEach((row, i) => row.forEach((value, j) => expectRelative(found[i]![j]!, value)));
  // A t of four readings has no fourth moment, so variances settle slowly: 1 % at this number of trials.
  covariance_C2.distribution.forEach((row, i) =>
    row.forEach((value, j) => expectRelative(record.joint!.monteCarlo!.covariance[i]![j]!, value, 0.01)),
  );
});

test("all points within class A at once, and what independence would claim", () => {
  const { conformity } = record.joint!;
  expect(conformity!.measurands).toEqual(names);
  expect(Math.abs(conformity!.probability - classA.allExactLinear)).toBeLessThan(4 * conformity!.standardError);
  expect(Math.abs(conformity!.ifIndependent - classA.productOfEach_wrong)).toBeLessThan(0.004);
  names.forEach((name, i) => expect(prepared.requirements[name]!.tolerance.upper).toBeCloseTo(classA.limits_C[i]!, 12));
});

test("joint covariance of the points as the fit sees them, with the slopes of the curve without weights", () => {
  const { slopes, covariance } = fittedPoints(document);
  slopes.forEach((slope, i) => expectRelative(slope, slopeOfLeastSquaresCurve_ohm_per_C[i]!));
  residualCovariance_ohm2.forEach((row, i) => row.forEach((value, j) => expectRelative(covariance[i]![j]!, value)));
});

test("coefficients with their covariance, and the lack of fit", () => {
  const { gls } = fits;
  const { R0, A, B } = prepared.linear as Record<string, { readonly estimate: number }>;
  expectRelative(R0!.estimate, gls.R0_ohm);
  expectRelative(A!.estimate, gls.A);
  expectRelative(B!.estimate, gls.B, 1e-8);
  const fit = fitWithCovariance(fittedPoints(document), false);
  expectRelative(fit.chiSquare, gls.chiSquared, 1e-8);
  expectRelative(fit.probability!, gls.p, 1e-8);
  gls.covariance_R0_A_B.forEach((row, i) =>
    row.forEach((value, j) =>
      // The covariance of R_0 and B is the small rest of large terms.
      expectRelative(fit.covariance![i]![j]!, value, i + j === 2 && i !== j ? 1e-5 : 1e-8),
    ),
  );
});

test.each([
  ["gls", "joint", false],
  ["ols", "equal", false],
  ["wlsIndependent", "joint", true],
  ["olsIndependent", "equal", true],
] as const)("the curve between the points: %s", (kind, weights, independent) => {
  const own = readStudy(studyOf(readCalibration(fiveBaths({ weights })), "HF-021", independent));
  const found = linearCurve(
    prepare(calibrationPoints.build(own.parameters ?? {}), own),
    fits[kind].curveError.map(({ t_C }) => t_C),
  )!;
  fits[kind].curveError.forEach(({ error_C, fullDerivativeU_C }, i) => {
    expectRelative(found[i]!.linear.estimate, error_C, 1e-8);
    expectRelative(found[i]!.linear.standardUncertainty, fullDerivativeU_C, 1e-8);
  });
});
