// The points of a calibration, their fit and the curve between them as one program: values of the plain path, bit for bit.
import { beforeAll, expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { openTrialColumns, provideProgram } from "../../../engine/internal.ts";
import { programOf } from "../../../engine/native/programs.ts";
import { calibrationPoints, readCalibration, studyOf, type CalibrationDocument } from "../../../models/index.ts";
import { makePrograms } from "../../../server/shelves/build-programs.ts";
import { fiveBaths } from "../../models/calibration/five-baths.ts";
import { compared } from "../programs/compared.ts";
import { importByHost } from "../programs/paths.ts";

beforeAll(async () => {
  const { models } = await makePrograms(importByHost);
  for (const part of calibrationPoints.parts!) provideProgram(part.evaluate, () => models[part.id]!);
});

const TRIALS = 501;
const ALL_EQUAL = { equal: TRIALS, left: 0, different: 0, told: true };
const withFit = (fit: "none" | "R0-A-B" | "R0-A-B-C", more: Partial<CalibrationDocument> = {}): CalibrationDocument => {
  const document = fiveBaths(more);
  const [instrument] = document.instruments;
  return { ...document, instruments: [{ ...instrument!, fit }] };
};
/** Below 0 °C the curve has its fourth power, and C can be fitted; places exchanged at one point. */
const cold = (document: CalibrationDocument): CalibrationDocument => ({
  ...document,
  points: document.points.map((point, i) => ({ ...point, exchanged: i === 1 })),
});

test.each<[string, CalibrationDocument]>([
  ["no fit", withFit("none")],
  ["all points alike", withFit("R0-A-B", { weights: "equal" })],
  ["weights by the joint covariance, places exchanged", cold(withFit("R0-A-B"))],
  ["C too", withFit("R0-A-B-C")],
])("%s", (_, document) => {
  const study = readStudy(studyOf(readCalibration(document), "HF-021"));
  const prepared = prepare(calibrationPoints.build(study.parameters ?? {}), study);
  const { model } = prepared;
  const { inputs } = openTrialColumns(prepared.source)(0, TRIALS);
  const trials = Array.from({ length: TRIALS }, (__, t) => inputs.map((column) => column[t]!));
  expect(compared(model, programOf(model.evaluate)!.program()!, trials)).toEqual(ALL_EQUAL);

  const { calibrationCurve: curve } = model;
  if (curve === undefined) return;
  const names = Object.keys(model.measurands);
  const along = {
    ...model,
    inputs: { ...model.measurands, argument: curve.argument },
    measurands: { value: curve.value },
    evaluate: (y: Readonly<Record<string, number>>) => curve.evaluate(y, y["argument"]!),
  };
  const columns = openTrialColumns(prepared.source)(0, TRIALS).measurands;
  const places = [-40, -3.5, 0, 20, 72, 134];
  const given = Array.from({ length: TRIALS }, (__, t) => [
    ...names.map((___, j) => columns[j]![t]!),
    places[t % places.length]!,
  ]);
  expect(compared(along, programOf(curve.evaluate)!.program()!, given)).toEqual(ALL_EQUAL);
});
