// The points of a calibration, their fit and the curve between them as one program: values of the plain path, bit for bit.
import { beforeAll, expect, test } from "vitest";
import { programOfCurve } from "../../../engine/curve/curve-program.ts";
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
  const places = [-40, -3.5, 0, 20, 72, 134];
  const names = places.map((__, i) => `e${i}`);
  const along = {
    ...model,
    measurands: Object.fromEntries(names.map((name) => [name, curve.value])),
    evaluate: (x: Readonly<Record<string, number>>) => {
      const y = model.evaluate(x) as Readonly<Record<string, number>>;
      return Object.fromEntries(places.map((at, i) => [names[i]!, curve.evaluate(y, at)]));
    },
  };
  expect(compared(along, programOfCurve(model, curve, places, names)!, trials)).toEqual(ALL_EQUAL);
});
