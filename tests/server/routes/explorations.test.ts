import request from "supertest";
import { describe, expect, test } from "vitest";
import { explorationAnswer } from "../../../viewer/api/explorations.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();
const sum = (halfWidth: number): object => ({
  title: "A sum",
  model: "additive",
  parameters: { coefficients: { a: 1, b: 2 } },
  inputs: {
    a: { distribution: "normal", estimate: 3, standardUncertainty: 0.3 },
    b: { distribution: "rectangular", estimate: 1, halfWidth },
  },
});
const ask = async (body: object): Promise<{ status: number; body: unknown }> =>
  request(app).post("/api/explorations").send(body);

describe("POST /api/explorations", () => {
  test("answers estimate, standard uncertainty and interval of each result, with their standard errors", async () => {
    const { status, body } = await ask({ study: sum(0.6), points: 1024 });
    expect(status).toBe(200);
    const { problems, explored } = explorationAnswer.parse(body);
    expect(problems).toEqual([]);
    expect(explored).toMatchObject({ points: 1024, scramblings: 16, probability: 0.95 });
    const { estimate, standardUncertainty, low, high } = explored!.measurands["result"]!;
    // Five standard errors about y = a + 2b and √(0.3² + (2·0.6)²/3), JCGM 100, 5.1.2.
    for (const [figure, expected] of [
      [estimate!, 5],
      [standardUncertainty!, Math.sqrt(0.3 ** 2 + 1.2 ** 2 / 3)],
    ] as const)
      expect(Math.abs(figure.value - expected)).toBeLessThan(5 * figure.standardError);
    expect(low.value).toBeLessThan(5 - standardUncertainty!.value);
    expect(high.value).toBeGreaterThan(5 + standardUncertainty!.value);
  });

  test("answers what is wrong with a study in place of figures", async () => {
    const { status, body } = await ask({ study: sum(-1) });
    expect(status).toBe(200);
    expect(body).toEqual({
      problems: [{ place: "inputs.b.halfWidth", value: "-1", accepted: expect.any(String) as string }],
      explored: null,
    });
  });

  test.each([
    ["another number of points", { study: {}, points: 1000 }],
    ["no object", []],
  ])("refuses %s", async (_, body) => {
    expect((await ask(body)).status).toBe(422);
  });
});
