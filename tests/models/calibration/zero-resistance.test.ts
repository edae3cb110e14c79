// R(0 °C) before and after: against the arithmetic of IEC 60751, 4.2 (R = R_0(1 + At + Bt²) above 0 °C) and JCGM 100, 5.1.2,
// written out here.
import { describe, expect, test } from "vitest";
import { propagate, readStudy } from "../../../engine/index.ts";
import {
  calibrationPoints,
  calibrationResult,
  readCalibration,
  studyOf,
  type CalibrationDocument,
} from "../../../models/index.ts";
import { speechOf } from "../../../viewer/present/speech-of.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { textOfCell } from "../../../viewer/present/tables/table.ts";
import { zeroTable } from "../../../viewer/present/tables/zero-resistance.ts";
import { fiveBaths } from "./five-baths.ts";

const [A, B] = [3.9083e-3, -5.775e-7];
const constant = (value: number) => ({ distribution: "constant", value }) as const;
const normal = (estimate: number, standardUncertainty: number) =>
  ({ distribution: "normal", estimate, standardUncertainty }) as const;

/** A probe at 0 °C, 100 °C and 0 °C again: u of the reference is shared, that of each resistance is not. */
function document(before: number, after: number, uR: number, last = 0): CalibrationDocument {
  const usual = fiveBaths();
  const zero = constant(0);
  const point = (nominal: number, R: number) => ({
    nominal,
    bath: "ice",
    inputs: { referenceReading: constant(nominal), bathStability: zero },
    instruments: { "HF-021": { probeResistance: normal(R, uR) } },
  });
  return {
    ...usual,
    baths: { ice: { common: { bathAxial: zero, bathRadial: zero } } },
    instruments: [
      {
        id: "HF-021",
        fit: "none",
        common: { ...usual.instruments[0]!.common, probeReadout: zero },
      },
    ],
    common: { referenceCertificate: normal(0, 0.01), referenceDrift: zero, referenceReadout: zero },
    points: [point(0, before), point(100, 138.5055), point(last, after)],
    trials: 20_000,
  };
}

const resultOf = (stated: CalibrationDocument) => {
  const calibration = readCalibration(stated);
  const study = readStudy(studyOf(calibration, "HF-021"));
  return calibrationResult(calibration, "HF-021", propagate(calibrationPoints.build(study.parameters ?? {}), study));
};

describe("100.010 Ω before and 100.014 Ω after, u(R) = 0.4 mΩ each, u(t) = 10 mK shared", () => {
  const result = resultOf(document(100.01, 100.014, 4e-4));
  const zero = result.zero!;

  test("R(0 °C) is the resistance at 0 °C, its uncertainty with that of the temperature", () => {
    expect(zero.before).toMatchObject({ number: 1 });
    expect(zero.after).toMatchObject({ number: 3 });
    expect(zero.before.resistance).toBeCloseTo(100.01, 9);
    expect(zero.after.resistance).toBeCloseTo(100.014, 9);
    // dR/dt at the temperature that the probe shows, 0.0256 °C.
    const slope = 100 * (A + 2 * B * 0.0256);
    expect(zero.before.standardUncertainty / Math.hypot(4e-4, slope * 0.01)).toBeCloseTo(1, 4);
  });

  test("the change has the uncertainty of the two resistances alone", () => {
    expect(zero.resistance).toBeCloseTo(0.004, 9);
    expect(zero.resistanceUncertainty / (4e-4 * Math.SQRT2)).toBeCloseTo(1, 4);
    expect(zero.temperature / (0.004 / (100 * A))).toBeCloseTo(1, 4);
    expect(zero.temperatureUncertainty / ((4e-4 * Math.SQRT2) / (100 * A))).toBeCloseTo(1, 4);
    expect(zero.differs).toBe(true);
  });

  test.each([
    ["en", ["before, point 1", "after, point 3", "change, greater than its uncertainty"], "."],
    ["de", ["vorher, Punkt 1", "nachher, Punkt 3", "Änderung, größer als ihre Unsicherheit"], ","],
  ] as const)("its lines in %s: Ω, and the change in mK", (language, heads, mark) => {
    const { rows } = zeroTable(result, speechOf(languages[language]));
    expect(rows.map(({ head }) => head)).toEqual(heads);
    const cells = rows.map((row) => row.cells.map(textOfCell));
    expect(cells[0]!.slice(0, 2)).toEqual([`100${mark}0100`, `0${mark}0079`]);
    expect(cells[2]).toEqual([`0${mark}0040`, `0${mark}0011`, `10${mark}2`, `2${mark}9`]);
  });
});

test("a change within its uncertainty", () => {
  expect(resultOf(document(100.01, 100.011, 4e-4)).zero).toMatchObject({ differs: false });
});

test("one point at 0 °C alone has none", () => {
  const result = resultOf(document(100.01, 100.01 * (1 + A * 4 + B * 16), 4e-4, 4));
  expect(result.zero).toBeNull();
  expect(zeroTable(result, speechOf(languages.en)).rows).toEqual([]);
});
