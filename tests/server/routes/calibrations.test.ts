// Calibrations through the interface: read from files, results from a run of their own study alone, certificates.
import request from "supertest";
import { beforeAll, describe, expect, test } from "vitest";
import type { PreparedCalibration } from "../../../viewer/api/calibrations.ts";
import { readCalibration, studyOf } from "../../../models/index.ts";
import { documentWith, REFERENCE } from "../export/certificate/made-certificate.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();
const calibration = readCalibration(documentWith({ trials: 20_000 }));
const instrument = "HF-021";

/** Starts a study and waits for its end. */
const finished = async (study: object): Promise<string> => {
  const { body } = await request(app).post("/api/runs").send({ study });
  const { id } = body as { id: string };
  await new Promise<void>((resolve) => {
    runs.follow(id, ({ type }) => {
      if (type !== "progress" && type !== "snapshot") resolve();
    });
  });
  return id;
};

describe("results and certificates", () => {
  let own: string;
  let other: string;
  beforeAll(async () => {
    const study = studyOf(calibration, instrument);
    own = await finished(study);
    // One reading differs by a microohm: another study.
    const inputs = { ...study.inputs } as Record<string, { values?: number[] }>;
    const [name, statement] = Object.entries(inputs).find(([key]) => key.startsWith("probeResistance"))!;
    const values = statement.values!.map((value, i) => (i === 0 ? value + 1e-6 : value));
    other = await finished({ ...study, inputs: { ...inputs, [name]: { ...statement, values } } });
  });
  const asked = (more: object): object => ({ calibration, reference: REFERENCE, instrument, run: own, ...more });

  test("the result of a run of its study, with what the certificate lacks", async () => {
    const { status, body } = await request(app).post("/api/calibrations/result").send(asked({}));
    expect(status).toBe(200);
    expect(body.lacking).toEqual([]);
    expect(body.result.points).toHaveLength(5);
  });

  test("the run of another study is refused", async () => {
    const { status, body } = await request(app)
      .post("/api/calibrations/result")
      .send(asked({ run: other }));
    expect(status).toBe(422);
    expect(body.problems[0]).toMatchObject({ place: "run", accepted: expect.stringContaining("HF-021") });
  });

  test("a run that is not there", async () => {
    const { status } = await request(app)
      .post("/api/calibrations/result")
      .send(asked({ run: "none" }));
    expect(status).toBe(404);
  });

  test.each([
    ["html", "text/html", "Kalibrierschein"],
    ["json", "application/json", "trialband-certificate/1"],
  ])("the certificate as %s", async (form, type, words) => {
    const { status, headers, text } = await request(app)
      .post("/api/calibrations/certificate")
      .send(asked({ form, language: "de" }));
    expect(status).toBe(200);
    expect(headers["content-type"]).toContain(type);
    expect(text).toContain(words);
  });

  test("a form that there is not", async () => {
    const { status } = await request(app)
      .post("/api/calibrations/certificate")
      .send(asked({ form: "docx", language: "de" }));
    expect(status).toBe(422);
  });
});

test("the example is read on the server's side, its studies with the evidence of surveys and certificate", async () => {
  const { status, body } = await request(app).get("/api/calibrations/example");
  expect(status).toBe(200);
  const { instruments, files } = body as PreparedCalibration;
  expect(instruments.map(({ id }) => id)).toEqual(["HF-034", "HF-035"]);
  expect(files).toHaveLength(10);
  expect(JSON.stringify(instruments[0]!.study)).toContain("cold-store-4.csv");
});
