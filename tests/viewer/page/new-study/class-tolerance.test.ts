// A class of IEC 60751 as a tolerance that is chosen in the form, down to the limits that the engine judges by.
import { expect, test } from "vitest";
import { prepare, readStudy, type Model } from "../../../../engine/index.ts";
import { models } from "../../../../models/index.ts";
import { classParameters, classSpecification, takesClass } from "../../../../viewer/page/new-study/class-tolerance.ts";
import { BLANK, type Draft } from "../../../../viewer/page/new-study/draft.ts";
import { draftOf } from "../../../../viewer/page/new-study/from-study.ts";
import { BLANK_ROW } from "../../../../viewer/page/new-study/row.ts";
import { documentOf } from "../../../../viewer/page/new-study/to-study.ts";
import { kinds } from "./kinds.ts";

const draft = (unit: string, parameters: Parameters<typeof classSpecification>[0], estimate = "0"): Draft => ({
  ...BLANK,
  title: "Class",
  results: [{ key: "result", symbol: "e", meaning: "error", unit, ofTemperature: unit === "Ω" ? "" : "difference" }],
  rows: [
    {
      ...BLANK_ROW,
      key: "a",
      symbol: "a",
      unit,
      ofTemperature: unit === "Ω" ? "" : "difference",
      how: "standard",
      fields: { estimate, standardUncertainty: "0,01" },
    },
  ],
  conformity: [
    {
      measurand: "result",
      lower: "",
      upper: "",
      basis: "",
      guard: "",
      priorMean: "",
      priorDeviation: "",
      priorSource: "",
      specification: classSpecification(parameters),
    },
  ],
});
const additive = models.find(({ id }) => id === "additive")!;
const limitsOf = (one: Draft): readonly [number, number] => {
  const study = readStudy(documentOf(one, Object.keys(one.rows), kinds));
  const model = (additive as Extract<typeof additive, { build: unknown }>).build(study.parameters ?? {}) as Model;
  const { tolerance } = prepare(model, study).requirements["result"]!;
  return [tolerance.lower!, tolerance.upper!];
};

// IEC 60751:2008, 5.1.3, table 12: AA ±(0.1 + 0.0017|t|), A ±(0.15 + 0.002|t|), B ±(0.3 + 0.005|t|), C ±(0.6 + 0.01|t|).
test.each([
  ["°C", { class: "AA", temperature: "72", element: "film", nominal: "" }, 0.1 + 0.0017 * 72],
  ["°C", { class: "A", temperature: "−38,8", element: "wire", nominal: "" }, 0.15 + 0.002 * 38.8],
  ["mK", { class: "B", temperature: "134", element: "", nominal: "" }, 1000 * (0.3 + 0.005 * 134)],
  ["K", { class: "C", temperature: "0", element: "", nominal: "" }, 0.6],
])("in %s: %j", (unit, parameters, limit) => {
  const [lower, upper] = limitsOf(draft(unit, parameters));
  expect(upper).toBeCloseTo(limit, 9);
  expect(lower).toBe(-upper);
});

test("of a resistance lies about R(t), with the resistance at 0 °C that is typed", () => {
  const [lower, upper] = limitsOf(draft("Ω", { class: "A", temperature: "0", element: "", nominal: "1000" }, "1000"));
  // The slope at 0 °C is R₀·A, A = 3.9083·10⁻³ °C⁻¹ (IEC 60751, clause 4).
  expect((lower + upper) / 2).toBeCloseTo(1000, 9);
  expect((upper - lower) / 2).toBeCloseTo(0.15 * 3.9083, 9);
});

test("what the form writes it reads back, and what is left empty is left out", () => {
  const typed = draft("°C", { class: "A", temperature: "72,5", element: "", nominal: "" });
  const study = documentOf(typed, [], kinds);
  expect(study["conformity"]).toEqual({
    result: { tolerance: { specification: "iec60751", parameters: { class: "A", temperature: 72.5 } } },
  });
  expect(classParameters(draftOf(study).conformity[0]!.specification)).toEqual({
    class: "A",
    temperature: "72.5",
    element: "",
    nominal: "",
  });
  expect(documentOf(draftOf(study), [], kinds)["conformity"]).toEqual(study["conformity"]);
});

test.each([
  ["°C", true],
  [" mΩ ", true],
  ["mm", false],
  ["", false],
  ["1", false],
])("is offered for a result in %j: %s", (unit, offered) => expect(takesClass(unit)).toBe(offered));
