import request from "supertest";
import { describe, expect, test } from "vitest";
import type { DraftList } from "../../../viewer/api/drafts.ts";
import type { Laboratory } from "../../../viewer/api/laboratory.ts";
import type { OwnStudyList } from "../../../viewer/api/own-studies.ts";
import { readExample } from "../../read-example.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();
type Told = { code: string; problems: { place: string; value: string; accepted: string }[] };

describe("own studies over HTTP", () => {
  const start = async (change: object, own?: string): Promise<string> => {
    const study = { ...readExample("verdicts/few-readings"), ...change };
    const answer = await request(app).post("/api/runs").send({ study, own, trials: 3000 });
    expect(answer.status, JSON.stringify(answer.body)).toBe(202);
    return (answer.body as { id: string }).id;
  };

  test("runs gather under the study they are versions of, which is named and tagged", async () => {
    const first = runs.get(await start({ title: "Probe" }));
    const second = runs.get(await start({ title: "Probe, mended" }, first.own!));
    expect(second).toMatchObject({ own: first.own, studyVersion: 2 });
    const naming = { name: " Probe of bath 3 ", tags: ["bath 3", "2026"] };
    const put = request(app).put(`/api/own-studies/${first.own}/name`);
    const named = await put.set("if-match", '"0"').send(naming);
    expect(named.headers["etag"]).toBe('"1"');
    const list = (await request(app).get("/api/own-studies")).body as OwnStudyList;
    expect(list).toMatchObject([{ id: first.own, name: "Probe of bath 3", tags: naming.tags, runs: 2, versions: 2 }]);
    const stale = await request(app).put(`/api/own-studies/${first.own}/name`).set("if-match", '"0"').send(naming);
    expect(stale.status).toBe(412);
    const wrong = await request(app)
      .put(`/api/own-studies/${first.own}/name`)
      .send({ name: " ", tags: [""] });
    expect((wrong.body as Told).problems).toEqual([
      { place: "name", value: '" "', accepted: "a name of 1 to 200 characters" },
      { place: "tags.0", value: '""', accepted: "a tag of 1 to 40 characters" },
    ]);
    const gone = await request(app).post("/api/runs").send({ study: "verdicts/kept", own: 5 });
    expect((gone.body as Told).problems[0]).toMatchObject({ place: "own", value: "5" });
  });

  test("a study that is not there is refused, and no run is made", async () => {
    const before = runs.list().length;
    const study = readExample("verdicts/few-readings");
    const answer = await request(app).post("/api/runs").send({ study, own: "gone", trials: 3000 });
    expect(answer.status).toBe(404);
    expect(runs.list()).toHaveLength(before);
  });
});

describe("drafts over HTTP", () => {
  const put = (id: string, seen: string, body: object): request.Test =>
    request(app).put(`/api/drafts/${id}`).set("if-match", seen).send(body);

  test("written, read, discarded and taken up again", async () => {
    const form = { title: "Half", custom: "factor" };
    const written = await put("draft-of-mine", '"0"', { title: "Half", own: null, form });
    expect(written.body).toMatchObject({ id: "draft-of-mine", title: "Half", revision: 1 });
    expect((await request(app).get("/api/drafts/draft-of-mine")).body).toMatchObject({ form });
    expect((await put("draft-of-mine", '"0"', { title: "x", own: null, form })).status).toBe(412);
    expect((await request(app).delete("/api/drafts/draft-of-mine")).status).toBe(204);
    expect((await request(app).get("/api/drafts")).body as DraftList).toEqual([]);
    await request(app).post("/api/drafts/draft-of-mine/undo-discarding");
    expect((await request(app).get("/api/drafts")).body as DraftList).toHaveLength(1);
  });

  test.each([
    ["x", { title: "x", own: null, form: {} }, "id"],
    ["draft-of-mine", { title: "x", own: null, form: "text" }, "form"],
    ["draft-of-mine", { title: "x".repeat(501), own: null, form: {} }, "title"],
    ["draft-of-mine", { title: "x", own: 3, form: {} }, "own"],
  ])("%s with %o is refused at its place", async (id, body, place) => {
    const { status, body: told } = await put(id, "*", body);
    expect(status).toBe(422);
    expect((told as Told).problems.map((problem) => problem.place)).toEqual([place]);
  });

  test("one that is not there is told so", async () => {
    for (const answer of [
      await request(app).get("/api/drafts/draft-none"),
      await request(app).delete("/api/drafts/draft-none"),
      await request(app).post("/api/drafts/draft-none/undo-discarding"),
    ])
      expect(answer.body).toMatchObject({ status: 404, code: "no-such-draft" });
  });
});

describe("the laboratory over HTTP", () => {
  test("is stated once for all browsers; what cannot be used is named", async () => {
    const { version, ...usual } = (await request(app).get("/api/laboratory")).body as Laboratory;
    expect(version).toBe(0);
    const stated = { ...usual, name: "Harrowfen Calibration Room", digits: 1, language: "de" };
    const answer = await request(app).put("/api/laboratory").set("if-match", '"0"').send(stated);
    expect(answer.headers["etag"]).toBe('"1"');
    expect((await request(app).get("/api/laboratory")).body).toEqual({ ...stated, version: 1 });
    const wrong = await request(app)
      .put("/api/laboratory")
      .send({ ...stated, probability: 95, digits: 3, seed: "mine" });
    expect((wrong.body as Told).problems.map(({ place, accepted }) => [place, accepted])).toEqual([
      ["probability", "a number above 0 and below 1"],
      ["digits", "1 or 2"],
      ["seed", "same or fresh"],
    ]);
  });
});
