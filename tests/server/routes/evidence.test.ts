import type { Evidence } from "../../../engine/index.ts";
import express, { Router } from "express";
import request from "supertest";
import { readFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import { openReader } from "../../../server/checks/reader.ts";
import { nameIdentity, OWNER } from "../../../server/access/identity.ts";
import { quiet } from "../../../server/http/log.ts";
import { refuse } from "../../../server/http/refuse.ts";
import { evidence } from "../../../server/routes/evidence.ts";
import { guarded } from "../../../server/routes/guarded.ts";
import { surveys } from "../../../server/routes/surveys.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { KeptFile, LogLooks, LogSeries, OwnEvidence, SavedEvidence } from "../../../viewer/api/evidence.ts";
import type { EvaluatedSurvey, FittingStudies, SurveyList } from "../../../viewer/api/surveys.ts";

const example = (path: string): Buffer => readFileSync(new URL(`../../../examples/${path}`, import.meta.url));
const description = JSON.parse(example("survey/pasteuriser-72.json").toString("utf8")) as Record<string, unknown>;
const log = example("survey/pasteuriser-72.csv");
const ownStudy = JSON.parse(example("harrowfen/pasteuriser-72.json").toString("utf8")) as Record<string, unknown>;

const reader = openReader();
afterAll(() => reader.close());

let app: express.Express;
let store: ReturnType<typeof openStore>;
beforeEach(() => {
  store = openStore({ folder: null });
  const api = Router();
  api.use((_request, response, next) => {
    nameIdentity(response, OWNER);
    next();
  });
  const dependencies = {
    shelf: studyShelf(new URL("../../../examples", import.meta.url).pathname),
    evidence: store.evidence,
    reader,
    desk: { ownStudies: () => [{ id: "p1", name: "Our pasteuriser" }] },
    runs: {
      list: () => [{ id: "r1", own: "p1" }],
      read: async () => ({ document: { ...ownStudy, title: "Our pasteuriser" } }),
    },
  };
  for (const register of [surveys, evidence])
    register(
      guarded(api, "/api", () => undefined),
      dependencies as never,
    );
  app = express();
  app.use(express.json({ limit: "2mb" }));
  app.use("/api", api);
  app.use(refuse(quiet));
});

const sendFile = async (name: string, bytes: Buffer): Promise<KeptFile> => {
  const { body, status } = await request(app)
    .post(`/api/evidence-files?name=${encodeURIComponent(name)}`)
    .set("content-type", "application/octet-stream")
    .send(bytes);
  expect(status).toBe(201);
  return body as KeptFile;
};
const named = ({ name, sha256 }: KeptFile) => ({ name, sha256 });
type Told = { code: string; problems: { place: string; value: string; accepted: string }[] };

describe("evidence of one's own", () => {
  test("is drafted, saved, evaluated by its digests, put into a study of one's own, changed, removed and brought back", async () => {
    const file = await sendFile("pasteuriser-72.csv", log);
    expect((await request(app).get(`/api/evidence-files/${file.sha256}`)).body).toEqual(log);
    const files = [named(file)];
    const made = (await request(app).post("/api/evidence").send({ kind: "survey", document: {}, files }))
      .body as OwnEvidence;
    expect(made).toMatchObject({ draft: 1, version: 0, title: "Survey without a name", versions: [] });
    const put = (change: object) =>
      request(app)
        .put(`/api/evidence/${made.id}`)
        .send({ files, ...change });

    // A draft that cannot be evaluated is kept, and told by its fields.
    const refused = await put({ document: { title: "Ours" }, seen: 1, save: true });
    expect(refused.status).toBe(422);
    expect((refused.body as Told).problems.map(({ place }) => place)).toContain("calibrationMinutes");
    expect((await request(app).get(`/api/evidence/${made.id}`)).body).toMatchObject({
      draft: 2,
      title: "Ours",
      version: 0,
    });
    expect((await put({ document: {}, seen: 1, save: false })).body).toMatchObject({ code: "changed-meanwhile" });

    const saved = (await put({ document: description, seen: 2, save: true })).body as OwnEvidence;
    expect(saved).toMatchObject({ version: 1, title: description["title"] });
    const { digests } = saved.versions[0]!;
    const evaluated = (await request(app).get(`/api/surveys/${digests}`)).body as EvaluatedSurvey;
    expect(evaluated).toMatchObject({ id: digests, own: made.id, opened: false });
    const shelf = (await request(app).get("/api/surveys/pasteuriser-72")).body as EvaluatedSurvey;
    expect(evaluated.evaluation).toEqual(shelf.evaluation);

    const studies = (await request(app).get(`/api/surveys/${digests}/studies`)).body as FittingStudies;
    expect(studies[0]).toEqual({ id: "own:p1", title: "Our pasteuriser", sameBath: true, fits: true });
    const { study } = (await request(app).post(`/api/surveys/${digests}/study`).send({ study: "own:p1" })).body as {
      study: { title: string; inputs: Record<string, unknown> };
    };
    expect(study.title).toBe("Our pasteuriser");
    expect(study.inputs["bathAxial"]).toEqual(evaluated.statements["bathAxial"]);

    // The same content is no new version; another calibration time is.
    const again = (await put({ document: description, seen: saved.draft, save: true })).body as OwnEvidence;
    expect(again.version).toBe(1);
    const changed = (await put({ document: { ...description, calibrationMinutes: 40 }, seen: again.draft, save: true }))
      .body as OwnEvidence;
    expect(changed.versions.map(({ version }) => version)).toEqual([2, 1]);
    expect(((await request(app).get(`/api/surveys/${digests}`)).body as EvaluatedSurvey).calibrationMinutes).toBe(25);

    // Each version stays as it was saved, and a record's digests lead to it.
    const first = (await request(app).get(`/api/evidence/${made.id}/versions/1`)).body as SavedEvidence;
    expect(first).toMatchObject({
      version: 1,
      document: description,
      files: [{ sha256: file.sha256, size: log.length }],
    });
    expect((await request(app).get(`/api/evidence/${made.id}/versions/3`)).status).toBe(404);
    const digests64 = [...(evaluated.statements["bathAxial"]!.evidence as Evidence).files].map(({ sha256 }) => sha256);
    const behind = await request(app).get(`/api/evidence-behind?${digests64.map((one) => `sha256=${one}`).join("&")}`);
    expect(behind.body).toEqual({
      kept: [file.sha256],
      saved: { id: made.id, kind: "survey", version: 1, title: description["title"] },
    });
    const nobody = await request(app).get(`/api/evidence-behind?sha256=${"0".repeat(64)}`);
    expect(nobody.body).toEqual({ kept: [], saved: null });
    expect((await request(app).get("/api/evidence-behind?sha256=abc")).status).toBe(422);

    const listed = (await request(app).get("/api/surveys")).body as SurveyList;
    expect(listed[0]).toMatchObject({ draft: made.id, id: changed.versions[0]!.digests });
    expect((await request(app).delete(`/api/evidence/${made.id}`)).status).toBe(204);
    expect((await request(app).get("/api/evidence")).body).toEqual([]);
    expect((await request(app).get(`/api/evidence/${made.id}`)).body).toMatchObject({ code: "no-such-evidence" });
    await request(app).post(`/api/evidence/${made.id}/undo-removal`);
    expect((await request(app).get("/api/evidence")).body).toHaveLength(1);
    expect(store.audit().problems).toEqual([]);
  });

  test("says how a log looks, draws it, and names what cannot be read", async () => {
    const text = "Bath room\ntime,HS-11 / °C,HS-12 / °C\n03/04/2026 08:00:00,1,2\n03/04/2026 08:00:10,1,warm\n";
    const file = named(await sendFile("log.csv", Buffer.from(text)));
    const [look] = (
      await request(app)
        .post("/api/log-looks")
        .send({ files: [file] })
    ).body as LogLooks;
    expect(look!.proposal).toMatchObject({ headingRow: 2, ambiguous: "03/04/2026 08:00:00", time: "time" });
    expect(look!.proposal.columns[2]).toMatchObject({ others: 1, firstOther: { row: 4, text: "warm" } });
    expect(look!.rows[0]).toEqual({ row: 2, cells: ["time", "HS-11 / °C", "HS-12 / °C"] });
    const series = (fields: object) =>
      request(app)
        .post("/api/log-series")
        .send({
          files: [file],
          document: { log: { file: "log.csv", ...fields }, thermometers: { "HS-11": {}, "HS-12": {} } },
        });
    expect(((await series({})).body as Told).problems[0]).toMatchObject({
      place: expect.stringContaining("row 3, column time") as string,
    });
    expect(((await series({ dates: "day-first" })).body as Told).problems[0]).toMatchObject({ value: '"warm"' });
    const read = (await series({ dates: "day-first", noReading: ["warm"] })).body as LogSeries;
    expect(read.outlines.map(({ thermometer, times }) => [thermometer, times.length])).toEqual([
      ["HS-11", 2],
      ["HS-12", 1],
    ]);
    expect(read.notes.join()).toContain("HS-12: 1 × warm, no reading");
  });

  test.each<[string, () => request.Test, number, string]>([
    ["nothing of that id", () => request(app).get("/api/evidence/none"), 404, "no-such-evidence"],
    ["no such file", () => request(app).get(`/api/evidence-files/${"0".repeat(64)}`), 404, "no-such-file"],
    [
      "a kind that is none",
      () => request(app).post("/api/evidence").send({ kind: "recipe", document: {}, files: [] }),
      422,
      "bad-input",
    ],
    [
      "a file that was never sent",
      () =>
        request(app)
          .post("/api/evidence")
          .send({ kind: "survey", document: {}, files: [{ name: "a.csv", sha256: "0".repeat(64) }] }),
      422,
      "bad-input",
    ],
    [
      "a file with a folder",
      () =>
        request(app).post("/api/evidence-files?name=..%2Fa").set("content-type", "application/octet-stream").send("x"),
      422,
      "bad-input",
    ],
    [
      "an empty log",
      () =>
        request(app)
          .post("/api/log-looks")
          .send({ files: [{ name: "a", sha256: "x" }] }),
      422,
      "bad-input",
    ],
  ])("refuses %s", async (_, asked, status, code) => {
    const answer = await asked();
    expect([answer.status, (answer.body as Told).code]).toEqual([status, code]);
  });
});
