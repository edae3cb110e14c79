import { describe, expect, test } from "vitest";
import { BLANK, type Draft } from "../../../../viewer/page/new-study/draft.ts";
import type { Lack } from "../../../../viewer/page/new-study/lacks.ts";
import { byPlace, isTold, nearestPlace, placeInForm, problemWords } from "../../../../viewer/page/new-study/places.ts";
import { BLANK_ROW } from "../../../../viewer/page/new-study/row.ts";

describe("a problem", () => {
  const known = new Set(["inputs.axial", "inputs.axial.halfWidth", "coverage", "title"]);
  test.each([
    ["inputs.axial.halfWidth", "inputs.axial.halfWidth"],
    ["inputs.axial.values.3", "inputs.axial"],
    ["coverage.factor", "coverage"],
    ["inputs.other", ""],
    ["", ""],
  ])("at %j is told at %j", (place, at) => {
    expect(nearestPlace(place, known)).toBe(at);
  });

  test.each([
    ["inputs.axial", ["inputs.axial"], true],
    ["inputs.axial.halfWidth", ["title", "inputs.axial"], true],
    ["inputs.axialTwo", ["inputs.axial"], false],
    ["inputs.axial", ["inputs.axial.halfWidth"], false],
    ["title", [], false],
  ] as const)("at %j is shown once the reader has been at %j: %j", (place, touched, told) => {
    expect(isTold(place, new Set(touched))).toBe(told);
  });

  const quantities = new Map([["bathAxial", "δt ax"]]);
  test.each([
    [
      "inputs.axial.values.3",
      "inputs.axial.values",
      '"x"',
      "a finite number",
      'Got "x"; expected a finite number',
      "4: ",
    ],
    ["inputs.axial", "inputs.axial", "nothing", "a statement", "Expected a statement", ""],
    ["inputs.axial", "inputs.axial", "1", "estimate and halfWidth", "Got 1; expected estimate and half-width", ""],
    ["correlations.0", "correlations.0", "bathAxial", "two inputs", "Got δt ax; expected two inputs", ""],
  ])(
    "at %j, told at %j, is told without names of fields, and items are counted from 1",
    (place, at, value, accepted, told, head) => {
      expect(problemWords({ place, value, accepted }, at, quantities)).toBe(`${head}${told}`);
    },
  );

  test("stands with the others of its field", () => {
    const lack = (place: string): Lack => ({ place, words: "" });
    expect([...byPlace([lack("inputs.axial.values.3"), lack("inputs.axial")], known).keys()]).toEqual(["inputs.axial"]);
  });

  const draft: Draft = {
    ...BLANK,
    rows: [
      { ...BLANK_ROW, key: "row-1", symbol: "δt_ax" },
      { ...BLANK_ROW, key: "drift", symbol: "D" },
    ],
  };
  test.each([
    ["inputs.delta_t_ax.halfWidth", "inputs.row-1.halfWidth"],
    ["inputs.drift.values.3", "inputs.drift.values.3"],
    ["inputs", "rows"],
    ["negligible.drift", "inputs.drift.because"],
    ["parameters.coefficients", "rows"],
    ["parameters.coefficients.delta_t_ax", "inputs.row-1.sensitivity"],
    ["parameters.terms.drift.difference", "inputs.drift.ofTemperature"],
    ["parameters.measurand.unit", "results.result-1.unit"],
    ["parameters.equation", "parameters.equation"],
    ["coverage.factor", "coverage.factor"],
  ])("that the server finds at %j stands in the form at %j", (place, at) => {
    expect(placeInForm(place, draft)).toBe(at);
  });
});
