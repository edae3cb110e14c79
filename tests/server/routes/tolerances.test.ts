import request from "supertest";
import { describe, expect, test } from "vitest";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();
const ask = (body: object) => request(app).post("/api/tolerances").send(body);

describe("the limits of a class before a run (IEC 60751:2008, 5.1)", () => {
  test.each([
    // Class A at 72 °C: 0.15 + 0.002·72 = 0.294 °C; W 0.3 at 100 °C: 0.3 + 0.005·100 = 0.8 °C.
    [{ class: "A", temperature: 72, element: "film" }, "°C", 0.294],
    [{ class: "W 0.3", temperature: 100 }, "mK", 800],
  ])("%j in %s", async (parameters, unit, limit) => {
    const { status, body } = await ask({ parameters, unit });
    expect([status, body.lower, body.upper]).toEqual([200, expect.closeTo(-limit, 9), expect.closeTo(limit, 9)]);
    expect(body.basis).toContain(`class ${parameters.class} at ${parameters.temperature} °C`);
  });

  test("what cannot be used is named with its place", async () => {
    const { status, body } = await ask({ parameters: { class: "F 0.1", temperature: -40 }, unit: "°C" });
    expect(status).toBe(422);
    expect(JSON.stringify(body)).toContain("from 0 °C to 150 °C");
    expect((await ask({ parameters: { class: "A", temperature: 20 }, unit: "V" })).status).toBe(422);
    expect((await ask({ unit: "°C" })).status).toBe(422);
  });
});

test("a model with a calibration curve says over which range, another has none", async () => {
  const line = await request(app)
    .post("/api/models/thermometer-line")
    .send({
      parameters: { temperatures: [21.521, 22.012, 26.511], reference: 20, use: 30 },
    });
  // JCGM 100, H.3: a line about 20 °C through readings from 21.5 °C on, used at 30 °C.
  expect(line.body.calibrationCurve).toMatchObject({ argument: { symbol: "t", unit: "°C", from: 20, to: 30 } });
  const bath = await request(app).post("/api/models/bath-comparison").send({});
  expect(bath.body.calibrationCurve).toBeNull();
});
