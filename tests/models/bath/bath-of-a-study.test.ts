import * as z from "zod";
import { describe, expect, test } from "vitest";
import { defineModel, InputError, prepare, propagate, readStudy, type Model } from "../../../engine/index.ts";
import { readBySchema, schemaProblems } from "../../../engine/internal.ts";
import { BATH_CAUTIONS, bathComparison, sprtBath } from "../../../models/index.ts";
import { readExample, runExample } from "../../read-example.ts";

const plain = {
  id: "one",
  title: "one",
  cautions: ["Mind your head."],
  measurands: { y: { symbol: "y", meaning: "y", unit: "1" } },
  inputs: { a: { symbol: "a", meaning: "a", unit: "1" } },
  evaluate: ({ a }: { a: number }) => a,
} as const;
const judging = defineModel({
  ...plain,
  safety: (bath) => {
    const { depth } = readBySchema(z.strictObject({ depth: z.number().gt(0) }), bath, "bath");
    return { warnings: depth > 2 ? ["it is deep."] : [], cautions: ["Learn to swim."] };
  },
});
const study = (change: object) => ({
  title: "t",
  model: "one",
  inputs: { a: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
  trials: 10_000,
  ...change,
});
const problemsOf = (model: Model, document: unknown) => {
  try {
    prepare(model, readStudy(document));
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
};

describe("the bath of a study", () => {
  test("is judged by the model: warnings first, then its cautions in place of the usual ones", () => {
    expect(propagate(judging, readStudy(study({}))).cautions).toEqual(["Mind your head."]);
    expect(propagate(judging, readStudy(study({ bath: { depth: 1 } }))).cautions).toEqual(["Learn to swim."]);
    expect(propagate(judging, readStudy(study({ bath: { depth: 3 } }))).cautions).toEqual([
      "Warning: it is deep.",
      "Learn to swim.",
    ]);
  });

  test("changes no figure", () => {
    expect(propagate(judging, readStudy(study({ bath: { depth: 3 } }))).measurands).toEqual(
      propagate(judging, readStudy(study({}))).measurands,
    );
  });

  test("is refused by a model that judges none, and together with every other problem", () => {
    expect(problemsOf(defineModel(plain), study({ bath: { depth: 1 } }))).toEqual([
      { place: "bath", value: '{"depth":1}', accepted: "nothing: model one does not judge a bath" },
    ]);
    const places = problemsOf(judging, study({ bath: { depth: -1, colour: 1 }, inputs: {} })).map(({ place }) => place);
    expect(places).toEqual(expect.arrayContaining(["inputs.a", "bath.depth", "bath.colour"]));
  });
});

describe("bath-comparison", () => {
  const model = bathComparison;
  const with134 = (change: object) => ({
    ...readExample("harrowfen/steriliser-134"),
    bath: { fluid: "silicone-20", setTemperature: 134, ...change },
  });

  test("every bath of the scenario is described, and warned of only where water is near its freezing point", () => {
    for (const [id, fluid] of [
      ["freezer-minus-40", "silicone-2"],
      ["cold-store-4", "water"],
      ["pasteuriser-72", "water"],
      ["steriliser-134", "silicone-20"],
    ] as const) {
      expect(readExample(`harrowfen/${id}`)["bath"]).toMatchObject({ fluid });
      const { cautions } = runExample(`harrowfen/${id}`, { trials: 4000 });
      expect(cautions).toEqual(expect.arrayContaining([...BATH_CAUTIONS]));
      expect(
        cautions.filter((text) => text.startsWith("Warning: ")).map((text) => text.slice(0, 50)),
        id,
      ).toEqual(id === "cold-store-4" ? ["Warning: 4 °C is outside the usable range of the f"] : []);
    }
  });

  test("warns of a cut-out at the flash point, first of all cautions", () => {
    const document = with134({ flashPoint: 230, overTemperatureCutOut: 228 });
    expect(propagate(model, readStudy({ ...document, trials: 4000 })).cautions[0]).toMatch(
      /^Warning: the cut-out at 228 °C is not 10 K below the flash point 230 °C/,
    );
  });

  test("states what could not be judged", () => {
    const document = with134({ overTemperatureCutOut: 165 });
    expect(propagate(model, readStudy({ ...document, trials: 4000 })).cautions[0]).toMatch(
      /^Warning: the flash point of the fluid is not stated: state the closed-cup one of its own safety data sheet/,
    );
  });

  test.each<[object, string, RegExp]>([
    [{ fluid: "soup" }, "bath.fluid", /"water" or "water-glycol"/],
    [{ setTemperature: "hot" }, "bath.setTemperature", /a finite number/],
    [{ usableRange: [1] }, "bath.usableRange", /a list of at least 2 values/],
    [{ flashPointMargin: 0 }, "bath.flashPointMargin", /a number greater than 0/],
    [{ colour: "red" }, "bath.colour", /nothing: there is no such field/],
  ])("refuses %j at its place", (change, place, accepted) => {
    const problems = problemsOf(model, with134(change));
    expect(problems.map((problem) => problem.place)).toContain(place);
    expect(problems.find((problem) => problem.place === place)!.accepted).toMatch(accepted);
  });

  test("the comparison with a standard thermometer judges its bath the same way", () => {
    const document = readExample("platinum/sprt-bath-72");
    const sprt = sprtBath.build(document["parameters"] as Record<string, unknown>);
    expect(
      propagate(sprt, readStudy({ ...document, bath: { fluid: "water", setTemperature: 95 }, trials: 4000 }))
        .cautions[0],
    ).toMatch(/^Warning: 95 °C is outside the usable range/);
  });
});

test("a schema's problems are placed within the document they are part of", () => {
  const schema = z.strictObject({ depth: z.number() });
  const parsed = schema.safeParse([]);
  expect(schemaProblems(parsed.error!, [], "bath")).toEqual([{ place: "bath", value: "[]", accepted: "an object" }]);
  expect(() => readBySchema(schema, { depth: "x" })).toThrow('depth: got "x"; expected a finite number');
});
