import { readFileSync } from "node:fs";
import request from "supertest";
import { describe, expect, test } from "vitest";
import type { EvaluatedEvidence, EvidenceInputs, OpenedEvidence } from "../../../viewer/api/evidence-evaluation.ts";
import type { OwnEvidence } from "../../../viewer/api/evidence.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();
const example = (name: string): Buffer => readFileSync(new URL(`../../../examples/survey/${name}`, import.meta.url));
const certificate = JSON.parse(example("reference-HR-02.json").toString("utf8")) as Record<string, unknown>;
const use = { temperature: 72, on: "2026-03-02" };
const readings = (rows: object[], channels: object = { R: {}, X: {} }) => ({
  title: "Ours",
  reference: "R",
  channels,
  rows,
});
const PAIRS = [0.001, 0.002, 0.004].map((d) => ({ readings: { R: 37, X: 37 + d, Y: 37 - d } }));

const evaluate = (kind: string, document: unknown, used: object = {}) =>
  request(app).post("/api/evidence-evaluations").send({ kind, document, files: [], use: used });
type Told = { code: string; problems: { place: string; value: string; accepted: string }[] };
const keep = async (kind: string, document: object): Promise<string> =>
  ((await request(app).post("/api/evidence").send({ kind, document, files: [] })).body as OwnEvidence).id;

describe("evidence of one's own, used", () => {
  test("several probes are evaluated, and one that is named is stated", async () => {
    const document = readings(PAIRS, { R: {}, X: {}, Y: {} });
    const all = (await evaluate("readings", document)).body as EvaluatedEvidence;
    expect(all.probes!.map(({ probe }) => probe)).toEqual(["X", "Y"]);
    expect(all.statements).toEqual({});
    const one = (await evaluate("readings", document, { probe: "Y" })).body as EvaluatedEvidence;
    expect(one.statements["difference"]!.unit).toBe("K");
    expect((await evaluate("readings", document, { probe: "Z" })).body as EvaluatedEvidence).toMatchObject({
      statements: {},
      notStated: expect.stringContaining('probe: got "Z"; expected one of X, Y') as string,
    });
  });

  test.each([
    ["readings", readings([{ readings: { R: "warm" } }]), {}, /rows\.0\.readings\.R/],
    ["immersion", { title: "t", planned: -1, limit: 0.004 }, {}, /planned/],
    ["certificate", { ...certificate, points: [{ temperature: 72, expandedUncertainty: 0.01 }] }, use, /points\.0/],
    ["certificate", certificate, { temperature: 500, on: "2026-03-02" }, /temperature/],
    ["certificate", certificate, { temperature: 72, on: "2020-01-01" }, /on/],
  ])("%s that cannot be evaluated: every problem has its field", async (kind, document, used, place) => {
    const { status, body } = await evaluate(kind, document, used);
    expect(status).toBe(422);
    expect((body as Told).problems.map((problem) => problem.place).join(" ")).toMatch(place);
  });

  test("a request that is none is refused by its fields", async () => {
    expect((await evaluate("survey", {})).status).toBe(422);
    const { body } = await evaluate("certificate", certificate, { temperature: "hot" });
    expect((body as Told).problems[0]).toMatchObject({ place: "use.temperature", accepted: "a temperature in °C" });
  });

  test("files of the command line are opened as drafts", async () => {
    const open = (name: string, content: Buffer) =>
      request(app)
        .post(`/api/evidence-openings?name=${name}`)
        .set("content-type", "application/octet-stream")
        .send(content);
    const of = async (name: string): Promise<OpenedEvidence> =>
      (await open(name, example(name))).body as OpenedEvidence;
    expect(await of("reference-HR-02.json")).toEqual({ kind: "certificate", document: certificate, reasoning: [] });
    expect((await of("readings-72.json")).kind).toBe("readings");
    expect((await of("immersion-134.json")).kind).toBe("immersion");
    const xml = await of("reference-HR-02.xml");
    expect(xml).toMatchObject({ kind: "certificate", document: { thermometer: "HR-02" } });
    expect((await open("x.json", Buffer.from('{"title":1}'))).status).toBe(422);
    expect((await open("x.json", Buffer.from("{"))).status).toBe(400);
  });

  test("quantities go into the inputs that were chosen, each in its unit", async () => {
    const id = await keep("certificate", certificate);
    const study = "harrowfen/pasteuriser-72";
    const { inputs, temperature } = (await request(app).get(`/api/evidence-inputs?study=${study}`))
      .body as EvidenceInputs;
    expect(temperature).toBe(72);
    expect(inputs.find(({ name }) => name === "referenceDrift")).toMatchObject({ unit: "°C", stated: true });
    const into = { referenceCertificate: "referenceCertificate", referenceDrift: "referenceDrift" };
    const put = (body: object) => request(app).post(`/api/evidence/${id}/study`).send(body);
    const made = (await put({ study, into, use })).body as { study: { inputs: Record<string, object> } };
    expect(made.study.inputs["referenceDrift"]).toMatchObject({ halfWidth: 0.004, evidence: { files: [{}] } });
    expect(made.study.inputs["referenceDrift"]).not.toHaveProperty("unit");
    const milli = {
      title: "In mK",
      model: "equation",
      parameters: {
        equation: "y = a + b",
        quantities: {
          y: { meaning: "result", unit: "mK" },
          a: { meaning: "first", unit: "mK" },
          b: { meaning: "second", unit: "mK" },
        },
      },
      inputs: {
        a: { distribution: "rectangular", estimate: 0, halfWidth: 1 },
        b: { distribution: "rectangular", estimate: 0, halfWidth: 1 },
      },
    };
    const inMilli = await put({ study: milli, into: { referenceDrift: "b" }, use });
    expect(inMilli.body, JSON.stringify(inMilli.body)).toMatchObject({
      study: { inputs: { b: { halfWidth: 0.004, unit: "K" } } },
    });
    for (const [wrong, place] of [
      [{ study, into: {}, use }, "into"],
      [{ study, into: { referenceDrift: "nowhere" }, use }, "into.referenceDrift"],
      [{ study, into: { difference: "referenceDrift" }, use }, "into.difference"],
      [{ study, into: { ...into, referenceDrift: "referenceCertificate" }, use }, "into.referenceDrift"],
    ] as const) {
      const { status, body } = await put(wrong);
      expect(status).toBe(422);
      expect((body as Told).problems[0]!.place).toBe(place);
    }
    expect((await put({ study: "none", into, use })).status).toBe(404);
    const survey = await keep("survey", {});
    expect((await request(app).post(`/api/evidence/${survey}/study`).send({ study, into })).status).toBe(422);
  });
});
