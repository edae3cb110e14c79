// Calibrations that cannot be used: every message has its place, the value and what is accepted.
import { describe, expect, test } from "vitest";
import { InputError } from "../../../engine/index.ts";
import { calibrationPoints, readCalibration, studyOf } from "../../../models/index.ts";
import type { CalibrationDocument } from "../../../models/index.ts";
import { fiveBaths } from "./five-baths.ts";

type Point = CalibrationDocument["points"][number];

const constant = (value: number) => ({ distribution: "constant", value }) as const;
const problemsOf = (document: unknown): readonly string[] => {
  try {
    const calibration = readCalibration(document);
    for (const { id } of calibration.instruments) studyOf(calibration, id);
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.problems.map(({ place, value, accepted }) => `${place}: got ${value}; expected ${accepted}`);
  }
};
/** The five baths with one point changed. */
const withPoint = (i: number, change: (point: Point) => object): unknown => {
  const document = fiveBaths();
  return { ...document, points: document.points.map((point, j) => (i === j ? { ...point, ...change(point) } : point)) };
};
const base = fiveBaths();
const [instrument] = base.instruments;

describe("a calibration is refused", () => {
  test.each<[string, unknown, RegExp]>([
    [
      "a bath that does not exist",
      withPoint(2, () => ({ bath: "bath-9" })),
      /^points\.2\.bath: got "bath-9"; expected one of the baths bath-1/,
    ],
    [
      "an instrument that does not exist",
      withPoint(1, (point) => ({ instruments: { ...point.instruments, "HF-999": {} } })),
      /^points\.1\.instruments\.HF-999: got "HF-999"; expected one of the instruments HF-021/,
    ],
    [
      "readings that are missing",
      withPoint(1, () => ({ instruments: {} })),
      /^points\.1\.probeResistance: got nothing; expected at 4 °C R_X, resistance of the probe/,
    ],
    [
      "a missing survey",
      { ...base, baths: { ...base.baths, "bath-3": {} } },
      /^points\.2\.bathAxial: got nothing; expected at 37 °C δt_ax.*a survey of the bath \(baths\.bath-3\.survey\)/,
    ],
    [
      "a missing certificate",
      { ...base, common: { referenceReadout: constant(0) } },
      /^points\.0\.referenceCertificate: got nothing; .*the certificate of the reference \(reference\.certificate\)/,
    ],
    [
      "an input that two levels state",
      { ...base, each: { referenceReadout: constant(0) } },
      /^each\.referenceReadout: got "constant"; expected nothing: common states it for this point too/,
    ],
    [
      "an input that the model does not have",
      { ...base, common: { ...base.common, bathWarp: constant(0) } },
      /^common\.bathWarp: got "constant"; expected nothing: the model of a point has only probeResistance/,
    ],
    [
      "two instruments of one designation",
      { ...base, instruments: [instrument, instrument] },
      /^instruments\.1\.id: got "HF-021"; expected another designation/,
    ],
    [
      "a point far from what its bath is set to",
      { ...base, baths: { ...base.baths, "bath-4": { ...base.baths["bath-4"], bath: { setTemperature: 37 } } } },
      /^points\.3\.nominal: got 72; expected a temperature within 5 °C of 37 °C, which bath bath-4 is set to/,
    ],
    [
      "readings of another temperature than the point's",
      withPoint(3, () => ({ nominal: 134 })),
      /^points\.3\.nominal: got 134; expected a temperature within 2 °C of 72\.0\d* °C, which the reference gives/,
    ],
    [
      "too few temperatures for the coefficients",
      { ...base, points: base.points.slice(0, 2) },
      /^points: got \[-40,4\]; expected points at 3 temperatures or more/,
    ],
    [
      "C without a point below zero",
      { ...base, instruments: [{ ...instrument, fit: "R0-A-B-C" }], points: base.points.slice(1) },
      /^points: got none below 0 °C; expected a point below 0 °C, or no C of its own/,
    ],
    [
      "a temperature outside the class",
      { ...base, instruments: [{ ...instrument, tolerance: { class: "AA", element: "film" } }] },
      /^points\.0\.nominal: got -40; expected a temperature from 0 °C to 150 °C, where class AA of instruments\.0 holds/,
    ],
    [
      "a quantity that is not stated point by point",
      { ...base, together: [{ input: "referenceDrift" }] },
      /^together\.0\.input: got "referenceDrift"; expected an input quantity that is stated point by point/,
    ],
    [
      "a statement that cannot be used, by its place in the calibration",
      withPoint(1, () => ({ inputs: { referenceReading: { distribution: "readings", values: [4, 4, 4] } } })),
      /^points\.1\.inputs\.referenceReading\.values: got \[4,4,4\]; expected indications that are not all equal/,
    ],
    [
      "R_0 stated as an input beside the instrument's",
      {
        ...base,
        instruments: [{ ...instrument, common: { ...instrument!.common, nominalResistance: constant(1000) } }],
      },
      /^instruments\.0\.common\.nominalResistance: got .*; expected nothing: instruments\.0\.nominalResistance states it/,
    ],
    [
      "a certificate that is issued before the calibration ends",
      { ...base, calibrated: "2026-03-02", certificate: { issued: "2026-03-01" } },
      /^certificate\.issued: got "2026-03-01"; expected a day no earlier than the last of the calibration, 2026-03-02/,
    ],
    [
      "an instrument that arrives after the calibration begins",
      {
        ...base,
        calibrated: "2026-03-02",
        instruments: [{ ...instrument, certificate: { received: "2026-03-03" } }],
      },
      /^instruments\.0\.certificate\.received: got "2026-03-03"; expected a day no later than .* 2026-03-02/,
    ],
    [
      "a country that is no code",
      { ...base, certificate: { customer: { country: "Britain" } } },
      /^certificate\.customer\.country: got "Britain"; expected two capital letters of ISO 3166-1/,
    ],
    [
      "points out of order",
      {
        ...base,
        points: [base.points[3], { ...base.points[1], direction: "rising" }, ...base.points.slice(2)],
      },
      /^points\.1\.direction: got "rising"; expected "falling" at 4 °C after 72 °C, another order of the points/,
    ],
    [
      "a field that is unknown",
      { ...base, point: [] },
      /^point: got \[\]; expected nothing: there is no such field here/,
    ],
  ])("%s", (_, document, message) => {
    const problems = problemsOf(document);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.join("\n")).toMatch(new RegExp(message.source, "m"));
  });

  test("one missing statement of a level is one problem a point, not one a quantity of it", () => {
    expect(problemsOf({ ...base, common: {} }).filter((text) => text.includes("referenceDrift"))).toHaveLength(5);
  });
});

describe("parameters of the model are refused", () => {
  const parameters = studyOf(readCalibration(base), "HF-021").parameters as Record<string, unknown> & {
    points: { name: string; nominal: number; inputs: Record<string, string> }[];
  };
  const changed = (change: (points: typeof parameters.points) => unknown): unknown => ({
    ...parameters,
    points: change(parameters.points),
  });
  test.each<[string, unknown, string]>([
    ["an unknown model of a point", { ...parameters, pointModel: "gauge-block" }, "parameters.pointModel"],
    ["an unknown parameter", { ...parameters, colour: "red" }, "parameters.colour"],
    [
      "a point without an input",
      changed((p) => [{ ...p[0]!, inputs: {} }]),
      "parameters.points.0.inputs.probeResistance",
    ],
    ["two points of one name", changed((p) => [p[0], { ...p[1]!, name: "p1" }]), "parameters.points.1.name"],
    [
      "one input for two quantities of a point",
      changed((p) => [{ ...p[0]!, inputs: { ...p[0]!.inputs, hysteresis: p[0]!.inputs["immersion"]! } }]),
      "parameters.points.0.inputs.hysteresis",
    ],
    [
      "one input for two quantities of two points",
      changed((p) => [
        p[0],
        { ...p[1]!, inputs: { ...p[1]!.inputs, hysteresis: p[0]!.inputs["bathAxial"]! } },
        ...p.slice(2),
      ]),
      "parameters.points.",
    ],
    [
      "a covariance of another size",
      { ...parameters, fit: { nominalResistance: 100, covariance: [[1]] } },
      "parameters.fit.covariance",
    ],
    [
      "a covariance that no quantities have",
      {
        ...parameters,
        fit: { nominalResistance: 100, covariance: parameters.points.map(() => parameters.points.map(() => 1)) },
      },
      "parameters.fit.covariance",
    ],
  ])("%s", (_, given, place) => {
    expect(() => calibrationPoints.build(given as Record<string, unknown>)).toThrow(place);
  });
});
