import request from "supertest";
import { describe, expect, test } from "vitest";
import { equationAnswer, functionList } from "../../../viewer/api/equations.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();
const ask = (body: object) => request(app).post("/api/equations").send(body);

describe("an equation that is being typed", () => {
  test("is answered with its tree, its quantities and its text as a model", async () => {
    const quantities = { bath: { symbol: "t_S", meaning: "temperature of the bath", unit: "°C" } };
    const { status, body } = await ask({ equation: "e = t(R_X, R_0) − t_S", quantities, title: "Error of a probe" });
    expect(status).toBe(200);
    const { problems, read } = equationAnswer.parse(body);
    expect(problems).toEqual([]);
    expect(read).toMatchObject({
      texts: ["e = t(R_X, R_0) − t_S"],
      inputs: { R_X: { unit: "1" }, R_0: {}, bath: quantities.bath },
      measurands: { e: {} },
      symbols: { bath: "t_S" },
      withoutUnit: ["R_X", "R_0", "e"],
      typescript: { file: "error-of-a-probe.ts" },
    });
  });

  test.each([
    ["e = 2 x", { from: 6, to: 7 }],
    ["", { from: 0, to: 0 }],
    [`e = ${"a+".repeat(4000)}a`, { from: 0, to: 8005 }],
  ])("%s: what is wrong comes with its place", async (equation, place) => {
    const { status, body } = await ask({ equation });
    expect(status).toBe(200);
    const { problems, read } = equationAnswer.parse(body);
    expect(read).toBeNull();
    expect(problems[0]!.place).toEqual(place);
  });

  test.each([
    [{}, "equation"],
    [{ equation: 3 }, "equation"],
    [{ equation: "e = a", quantities: [] }, "quantities"],
    [{ equation: "e = a", quantities: { a: { unit: 3 } } }, "parameters.quantities.a.unit"],
    [{ equation: "e = a", quantities: { a: { colour: "red" } } }, "parameters.quantities.a.colour"],
  ])("%j is refused", async (body, place) => {
    const { status, body: refusal } = await ask(body);
    expect(status).toBe(422);
    expect(refusal.problems.map((problem: { place: string }) => problem.place)).toContain(place);
  });

  test("the functions are listed, each with how it is written and what it gives", async () => {
    const { body } = await request(app).get("/api/equations/functions");
    const listed = functionList.parse(body);
    expect(listed.map(({ name }) => name)).toEqual(expect.arrayContaining(["t", "R", "t_90", "W_r", "exp", "arctan"]));
    for (const { usage, meaning } of listed) expect(usage.length * meaning.length).toBeGreaterThan(0);
  });
});
