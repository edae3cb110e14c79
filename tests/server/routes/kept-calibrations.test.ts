// Kept calibrations through the interface: their certificates' fields and runs stay with them, nothing is written over unseen.
import request from "supertest";
import { beforeAll, describe, expect, test } from "vitest";
import type { KeptCalibration, ListedCalibration } from "../../../viewer/api/kept-calibrations.ts";
import { documentWith, REFERENCE } from "../export/certificate/made-certificate.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();
const instrument = "HF-021";
const { certificate: fields, ...bare } = documentWith({ trials: 20_000 }) as Record<string, unknown>;
const NEW = {
  calibration: bare,
  reference: REFERENCE,
  overdue: null,
  files: [{ name: "five-baths.json", sha256: "a".repeat(64) }],
};
const at = (id: string, more = ""): string => `/api/kept-calibrations/${id}${more}`;

let kept: KeptCalibration;
beforeAll(async () => {
  const { status, body, headers } = await request(app).post("/api/kept-calibrations").send(NEW);
  expect(status).toBe(201);
  kept = body as KeptCalibration;
  expect(headers["location"]).toBe(`/api/kept-calibrations/${kept.id}`);
  expect(headers["etag"]).toBe('"1"');
});

const reread = async (): Promise<KeptCalibration> =>
  (await request(app).get(at(kept.id)).expect(200)).body as KeptCalibration;

test("what is kept has the name of its document, and the study of each instrument as the reading gives it", () => {
  expect(kept).toMatchObject({ name: bare["title"], note: null, points: 5, revision: 1 });
  expect(kept.instruments).toEqual([{ id: instrument, run: null }]);
  expect(kept.prepared.files).toEqual(NEW.files);
  expect(kept.prepared.instruments[0]!.study).toMatchObject({ model: "calibration-points" });
});

describe("changes", () => {
  test("the fields of its certificates, over the revision that was seen alone", async () => {
    const { revision } = await reread();
    const calibration = { ...bare, certificate: fields };
    const change = (seen: string) => request(app).put(at(kept.id)).set("If-Match", seen).send({ calibration });
    const { body } = await change(`"${revision}"`).expect(200);
    expect(body.prepared.calibration.certificate.customer.name).toBe("Harrowfen Dairy");
    const late = await change(`"${revision}"`).expect(412);
    expect(late.body).toMatchObject({ code: "changed-meanwhile" });
    expect(late.body.detail).toContain(`has revision ${revision + 1}; expected ${revision}`);
  });

  test("a document that cannot be used is refused with its place, and what is kept stays", async () => {
    const before = await reread();
    const { body } = await request(app)
      .put(at(kept.id))
      .send({ calibration: { ...bare, points: [] } })
      .expect(422);
    expect(body.problems[0].place).toContain("points");
    expect(await reread()).toEqual(before);
  });

  test("the run of an instrument; a run that is not there, and an instrument of another calibration, are refused", async () => {
    const { body } = await request(app).post("/api/runs").send({ study: kept.prepared.instruments[0]!.study });
    const { id: run } = body as { id: string };
    const setRun = (of: string, which: string) =>
      request(app)
        .put(at(kept.id, `/runs/${encodeURIComponent(of)}`))
        .send({ run: which });
    expect((await setRun(instrument, run).expect(200)).body.instruments).toEqual([{ id: instrument, run }]);
    await setRun(instrument, "none").expect(404);
    const { body: refused } = await setRun("HF-999", run).expect(422);
    expect(refused.problems[0]).toMatchObject({
      place: "instrument",
      value: '"HF-999"',
      accepted: `one of ${instrument}`,
    });
    expect((await reread()).instruments).toEqual([{ id: instrument, run }]);
    await runs.cancel(run);
  });

  test("name and note", async () => {
    const { revision } = await reread();
    const { body } = await request(app)
      .put(at(kept.id, "/name"))
      .set("If-Match", `"${revision}"`)
      .send({ name: "  Dairy, March ", note: "waits for the customer's address" })
      .expect(200);
    expect(body).toMatchObject({ name: "Dairy, March", note: "waits for the customer's address" });
    const [listed] = (await request(app).get("/api/kept-calibrations")).body as ListedCalibration[];
    expect(listed).toMatchObject({ id: kept.id, name: "Dairy, March", revision: revision + 1 });
    expect(
      (await request(app).put(at(kept.id, "/name")).send({ name: "Dairy, March", note: "" }).expect(200)).body.note,
    ).toBeNull();
  });

  test.each([
    ["an empty name", { name: " ", note: "" }, "name"],
    ["a name that is too long", { name: "x".repeat(201), note: "" }, "name"],
    ["a note that is a number", { name: "x", note: 3 }, "note"],
  ])("%s", async (_what, naming, place) => {
    const { body } = await request(app).put(at(kept.id, "/name")).send(naming).expect(422);
    expect(body.problems[0].place).toBe(place);
  });
});

test("removed, listed as removed, and put back as it was", async () => {
  const before = await reread();
  await request(app).delete(at(kept.id)).expect(204);
  expect((await request(app).get("/api/kept-calibrations")).body).toEqual([]);
  expect((await request(app).get("/api/removed-calibrations")).body).toMatchObject([{ id: kept.id }]);
  await request(app).get(at(kept.id)).expect(404);
  await request(app).delete(at(kept.id)).expect(404);
  await request(app).put(at(kept.id, "/name")).send({ name: "x", note: "" }).expect(404);
  await request(app).post(at(kept.id, "/undo-removal")).expect(200);
  await request(app).post(at(kept.id, "/undo-removal")).expect(404);
  expect(await reread()).toEqual(before);
});

test.each([
  ["nothing", {}, "calibration"],
  ["no calibration", { ...NEW, calibration: { title: "x" } }, "points"],
  ["half a surrogate pair", { ...NEW, calibration: { ...bare, title: "\ud800" } }, ""],
])("%s is not kept", async (_what, body, place) => {
  const { body: refused, status } = await request(app).post("/api/kept-calibrations").send(body);
  expect(status).toBe(422);
  expect(refused.problems.map((one: { place: string }) => one.place).join(" ")).toContain(place);
  expect((await request(app).get("/api/kept-calibrations")).body).toHaveLength(1);
});
