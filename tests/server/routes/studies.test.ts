import request from "supertest";
import { describe, expect, test } from "vitest";
import { readExample } from "../../read-example.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();

describe("a study that is being written", () => {
  const check = async (study: unknown): Promise<{ place: string }[]> =>
    (await request(app).post("/api/studies/check").send({ study })).body.problems;

  test("has no problems once it can be run", async () => {
    expect(await check(readExample("harrowfen/cold-store-4"))).toEqual([]);
  });

  const cold = readExample("harrowfen/cold-store-4");
  const withInput = (statement: unknown): object => ({
    ...cold,
    inputs: { ...(cold["inputs"] as object), bathAxial: statement },
  });
  test.each<[string, unknown, string]>([
    [
      "a text for a number",
      withInput({ distribution: "rectangular", estimate: 0, halfWidth: "wide" }),
      "inputs.bathAxial.halfWidth",
    ],
    [
      "both ways of stating limits",
      withInput({ distribution: "rectangular", estimate: 0, lower: 1 }),
      "inputs.bathAxial",
    ],
    ["no such distribution", withInput({ distribution: "oblong" }), "inputs.bathAxial.distribution"],
    ["no such model", { ...cold, model: "other" }, "model"],
    [
      "correlation with itself",
      { ...cold, correlations: [{ between: ["bathAxial", "bathAxial"], coefficient: 0.5 }] },
      "correlations.0",
    ],
    ["no document", null, ""],
    [
      "a model that is not finite at the estimates",
      {
        ...readExample("harrowfen/steriliser-134"),
        inputs: {
          ...(readExample("harrowfen/steriliser-134")["inputs"] as object),
          probeResistance: { distribution: "normal", estimate: 1e6, standardUncertainty: 1 },
        },
      },
      "inputs",
    ],
  ])("%s is told at its place", async (_, study, place) => {
    const places = (await check(study)).map((problem) => problem.place);
    expect(places.length).toBeGreaterThan(0);
    for (const found of places) expect(found.startsWith(place), found).toBe(true);
  });

  test("learns a family's inputs from its parameters, and what is wrong with them", async () => {
    const described = await request(app)
      .post("/api/models/additive")
      .send({ parameters: { coefficients: { length: 1, thermal: -0.5 } } });
    expect(Object.keys(described.body.inputs)).toEqual(["length", "thermal"]);
    const wrong = await request(app)
      .post("/api/models/additive")
      .send({ parameters: { coefficients: { length: "one" } } });
    expect(wrong.body.problems[0].place).toBe("parameters.coefficients.length");
    expect((await request(app).post("/api/models/bath-comparison").send({})).body.inputs).toHaveProperty(
      "bathAxial.unit",
      "°C",
    );
    expect((await request(app).post("/api/models/none").send({})).body.code).toBe("no-such-model");
    expect((await request(app).get("/api/schema/study")).body).toHaveProperty("properties.inputs");
  });
});
