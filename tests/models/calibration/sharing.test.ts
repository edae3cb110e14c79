// What a calibration's points share, and what they do not: by construction and by the rule of the draws.
import { expect, test } from "vitest";
import { prepare, propagate, readStudy, type RunRecord, type Study } from "../../../engine/index.ts";
import {
  bathComparison,
  calibrationPoints,
  calibrationResult,
  readCalibration,
  studyOf,
} from "../../../models/index.ts";
import type { CalibrationDocument } from "../../../models/index.ts";
import { runWithoutExplanation } from "../platinum/run-without-explanation.ts";
import { modelOf as modelOfExample, readExample } from "../../read-example.ts";
import { fiveBaths } from "./five-baths.ts";

const TRIALS = 10_000;

const modelOf = (study: Pick<Study, "parameters">) => calibrationPoints.build(study.parameters ?? {});
const run = (document: CalibrationDocument, id = "HF-021"): RunRecord => {
  const study = studyOf(readCalibration(document), id);
  return runWithoutExplanation(modelOf(readStudy(study)), study);
};
const figures = (record: RunRecord, name: string) => {
  const { linear, monteCarlo } = record.measurands[name]!;
  const { contributions: _, ...budget } = linear as typeof linear & { contributions?: unknown };
  return { estimate: budget.estimate, u: budget.standardUncertainty, U: budget.expandedUncertainty, monteCarlo };
};
/** The calibration without a fit, at some of its points. */
const only = (...kept: number[]): CalibrationDocument => {
  const all = fiveBaths({ trials: TRIALS });
  return {
    ...all,
    instruments: all.instruments.map((each) => ({ ...each, fit: "none" as const })),
    points: all.points.filter((_, i) => kept.includes(i)),
  };
};

test("a calibration of one point is the single study, bit for bit", () => {
  const study = studyOf(readCalibration(only(3)), "HF-021");
  const wired = (study.parameters as { points: { inputs: Record<string, string> }[] }).points[0]!.inputs;
  // Draws follow the name of an input: the same names make the same study of the model of one point.
  const single = {
    title: "single",
    model: "bath-comparison",
    inputs: Object.fromEntries(Object.entries(wired).map(([field, name]) => [field, study.inputs[name]!])),
    trials: TRIALS,
    seed: study.seed,
  };
  const parameters = {
    ...study.parameters,
    points: [
      { name: "p1", nominal: 72, inputs: Object.fromEntries(Object.keys(wired).map((field) => [field, field])) },
    ],
  };
  const composed = runWithoutExplanation(calibrationPoints.build(parameters), {
    ...study,
    inputs: single.inputs,
    parameters,
    conformity: {},
  });
  expect(figures(composed, "error_p1")).toEqual(figures(runWithoutExplanation(bathComparison, single), "error"));
});

test("so is one against a standard thermometer read through one standard resistor", () => {
  const single = { ...readExample("platinum/sprt-bath-72"), conformity: {}, trials: TRIALS };
  const { parameters: pointParameters, inputs } = single as unknown as Pick<Study, "parameters" | "inputs">;
  const parameters = {
    instrument: "probe",
    pointModel: "sprt-bath",
    pointParameters,
    points: [
      { name: "p1", nominal: 72, inputs: Object.fromEntries(Object.keys(inputs).map((field) => [field, field])) },
    ],
  };
  const { bath: _, negligible: __, ...study } = single as typeof single & Partial<Pick<Study, "bath" | "negligible">>;
  const composed = runWithoutExplanation(calibrationPoints.build(parameters), {
    ...study,
    model: "calibration-points",
    parameters,
  });
  expect(figures(composed, "error_p1")).toEqual(
    figures(runWithoutExplanation(modelOfExample(single), single), "error"),
  );
});

test("each point of a calibration is the same as in a calibration of fewer points, bit for bit", () => {
  const both = run(only(1, 3));
  expect(figures(run(only(1)), "error_p1")).toEqual(figures(both, "error_p1"));
  // The fit changes no error.
  expect(figures(run(fiveBaths({ trials: TRIALS })), "error_p1")).toEqual(figures(run(only(0)), "error_p1"));
});

test("without anything shared the errors do not depend on one another", () => {
  const study = readStudy(studyOf(readCalibration(only(0, 1, 2)), "HF-021", true));
  const { correlation } = runWithoutExplanation(modelOf(study), study).joint!.linear;
  expect(correlation.flatMap((row, i) => row.filter((_, j) => i !== j))).toEqual([0, 0, 0, 0, 0, 0]);
});

test("two instruments in the bath at once: the same draws of what they share, draws of their own for the rest", () => {
  const one = only(0, 3);
  const [first] = one.instruments;
  const both: CalibrationDocument = {
    ...one,
    instruments: [first!, { ...first!, id: "HF-022" }],
    points: one.points.map((point) => ({
      ...point,
      instruments: { ...point.instruments, "HF-022": point.instruments!["HF-021"]! },
    })),
  };
  expect(run(both)).toEqual(run(one));
  const [a, b] = ["HF-021", "HF-022"].map((id) => Object.keys(studyOf(readCalibration(both), id).inputs));
  const shared = a!.filter((name) => b!.includes(name));
  expect(shared).toContain("referenceCertificate");
  expect(shared).toContain("referenceReading_p1");
  expect(shared).toContain("bathAxial_bath1");
  expect(shared).toContain("bathStability_p1");
  expect(a!.filter((name) => !shared.includes(name))).toContain("probeResistance_HF021_p1");
});

test("a bath named like a point, and one named like the instrument, have names of their own", () => {
  const base = only(1, 3);
  const [, second] = base.points;
  const baths = { p1: base.baths["bath-2"]!, "HF-021": base.baths["bath-4"]! };
  const [first] = base.points;
  const own = { bathStability: { distribution: "constant", value: 0.001 } } as const;
  const document: CalibrationDocument = {
    ...base,
    baths: {
      ...baths,
      p1: { common: { ...baths.p1.common, ...baths.p1.each } },
      "HF-021": { common: baths["HF-021"].common! },
    },
    points: [
      { ...second!, bath: "HF-021", inputs: { ...second!.inputs, ...own } },
      { ...first!, bath: "p1" },
    ],
  };
  const { inputs } = studyOf(readCalibration(document), "HF-021");
  // Each statement is one input: the stability of the first point and that of the bath called p1 are two.
  expect(Object.keys(inputs).filter((name) => name.startsWith("bathStability"))).toEqual([
    "bathStability_p1",
    "bathStability_xp1",
  ]);
  expect(inputs["bathStability_p1"]).toMatchObject(own.bathStability);
  expect(Object.keys(inputs).filter((name) => name.startsWith("bathAxial"))).toEqual([
    "bathAxial_HF021_3",
    "bathAxial_xp1",
  ]);
});

test("places exchanged: the difference between the places leaves the mean of both runs", () => {
  const one = only(3, 3);
  const [point] = one.points;
  const document = { ...one, points: [point!, { ...point!, exchanged: true }] };
  const study = readStudy(studyOf(readCalibration(document), "HF-021"));
  const { linear } = prepare(modelOf(study), study);
  const coefficient = (name: string): number =>
    linear[name]!.contributions.find(({ input }) => input === "bathAxial_bath4")!.sensitivityCoefficient;
  expect(coefficient("error_p1")).toBeCloseTo(-1, 9);
  expect(coefficient("error_p2")).toBeCloseTo(1, 9);
});

test("two baths at one temperature are compared, free of what both share; a fluid out of its range is named with its bath", () => {
  const one = only(1, 3);
  const [first] = one.points;
  const document: CalibrationDocument = {
    ...one,
    baths: {
      ...one.baths,
      "bath-2": { ...one.baths["bath-2"], bath: { fluid: "water", setTemperature: 4 } },
      second: one.baths["bath-2"]!,
    },
    points: [first!, { ...first!, bath: "second" }],
  };
  const calibration = readCalibration({ ...document, instruments: [{ ...document.instruments[0]!, fit: "none" }] });
  const study = readStudy(studyOf(calibration, "HF-021"));
  const record = runWithoutExplanation(modelOf(study), study);
  const { repeats } = calibrationResult(calibration, "HF-021", record);
  expect(repeats).toMatchObject([{ nominal: 4, between: [1, 2], kind: "baths", differs: false }]);
  // Certificate, drift and readout are one for both: what is left are the two baths and nothing else.
  const u = record.measurands["error_p1"]!.linear.standardUncertainty;
  expect(repeats[0]!.standardUncertainty).toBeLessThan(u);
  expect(record.cautions[0]).toMatch(
    /^Warning: Bath bath-2: 4 °C is outside the usable range of the fluid, 5 °C to 90 °C/,
  );
});

test("quantities stated point by point though their cause is shared: correlated by the coefficient stated", () => {
  const base = only(1, 3);
  const { referenceCertificate, ...common } = base.common!;
  const at = (estimate: number, expandedUncertainty: number) =>
    ({ ...referenceCertificate, estimate, expandedUncertainty }) as NonNullable<typeof referenceCertificate>;
  const document: CalibrationDocument = {
    ...base,
    common,
    points: base.points.map((point, i) => ({
      ...point,
      inputs: { ...point.inputs, referenceCertificate: i === 0 ? at(0.01, 0.02) : at(0.02, 0.03) },
    })),
    together: [{ input: "referenceCertificate", coefficient: 1 }],
  };
  const study = readStudy(studyOf(readCalibration(document), "HF-021"));
  expect(study.correlations).toMatchObject([
    { between: ["referenceCertificate_p1", "referenceCertificate_p2"], coefficient: 1 },
  ]);
  const apart = readStudy(studyOf(readCalibration({ ...document, together: [] }), "HF-021"));
  const covariance = (of: Study): number => runWithoutExplanation(modelOf(of), of).joint!.linear.covariance[0]![1]!;
  // Two corrections of one cause: their covariance is the product of their standard uncertainties.
  expect(covariance(study) - covariance(apart)).toBeCloseTo(0.01 * 0.015, 12);
});

test("a whole record passes the checks of its schema and names no more than it should", () => {
  const document = only(1, 3);
  const study = studyOf(readCalibration({ ...document, trials: 2000 }), "HF-021");
  const record = propagate(modelOf(readStudy(study)), readStudy(study));
  expect(record.calibrationCurve).toBeNull();
  expect(Object.values(record.measurands).map(({ meaning }) => meaning)).toEqual([
    "error of the thermometer, point 1 at 4 °C",
    "error of the thermometer, point 2 at 72 °C",
  ]);
  expect(record.inputs["referenceCertificate"]!.symbol).toBe("δt_cal");
  expect(record.inputs["bathAxial_bath4"]!.meaning).toContain("point 2 at 72 °C");
});
