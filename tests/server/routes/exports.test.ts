// Files of a run and of a filed record: names, types, the same bytes as the command's, and every refusal.
import request from "supertest";
import { beforeAll, describe, expect, test } from "vitest";
import type { ReportedRecord } from "../../../engine/index.ts";
import { dsiOf } from "../../../server/export/d-si.ts";
import { workbookOf } from "../../../server/export/workbook/workbook.ts";
import { readExample } from "../../read-example.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();
let id: string;
let record: ReportedRecord;
beforeAll(async () => {
  const study = { ...readExample("published/additive-normal"), trials: 20_000 };
  ({ id } = (await request(app).post("/api/runs").send({ study })).body as { id: string });
  await new Promise<void>((done) => void runs.follow(id, ({ type }) => type === "finished" && done()));
  record = (await runs.read(id)).record as ReportedRecord;
});

/** The answer whole, as bytes. */
const bytesOf = (asked: request.Test): Promise<request.Response> =>
  asked.buffer(true).parse((response, done) => {
    const parts: Buffer[] = [];
    response.on("data", (part: Buffer) => parts.push(part));
    response.on("end", () => done(null, Buffer.concat(parts)));
  });

describe("of a finished run", () => {
  test("the workbook and the results are those that the command makes, under a name that says what they are", async () => {
    const workbook = await bytesOf(request(app).get(`/api/runs/${id}/workbook?language=de`));
    expect(workbook.body).toEqual(Buffer.from(workbookOf(record, "de")));
    const day = record.environment!.startedAt.slice(0, 10);
    expect(workbook.headers["content-disposition"]).toMatch(
      new RegExp(`filename="?[a-z0-9.-]+-${day}-budget\\.xlsx"?`),
    );
    const results = await request(app).get(`/api/runs/${id}/d-si`).buffer(true);
    expect(results.type).toBe("application/xml");
    expect(Buffer.isBuffer(results.body) ? results.body.toString() : results.text).toBe(dsiOf(record));
  });

  test.each(["parquet", "npy"])("the trials come as %s, also twice", async (format) => {
    for (let time = 0; time < 2; time += 1) {
      const answer = await bytesOf(request(app).get(`/api/runs/${id}/trials?format=${format}`));
      expect(answer.status).toBe(200);
      expect((answer.body as Buffer).length).toBeGreaterThan(8 * 5 * 20_000);
      expect(answer.headers["content-disposition"]).toContain(`-trials.${format}`);
    }
  });
});

test("of a filed record; an altered one is refused", async () => {
  const answer = await bytesOf(request(app).post("/api/records/workbook").send(record));
  expect(answer.body).toEqual(Buffer.from(workbookOf(record, "en")));
  const altered = { ...record, study: { ...record.study, title: "Another" } };
  for (const path of ["workbook", "d-si"]) {
    const { status, body } = await request(app).post(`/api/records/${path}`).send(altered);
    expect([status, (body as { code: string }).code]).toEqual([422, "bad-input"]);
  }
});

test.each<[string, () => request.Test, number, string]>([
  ["no run", () => request(app).get("/api/runs/none/workbook"), 404, "no-such-run"],
  ["another language", () => request(app).get(`/api/runs/${id}/workbook?language=tlh`), 422, "bad-input"],
  ["no format", () => request(app).get(`/api/runs/${id}/trials`), 422, "bad-input"],
  ["no record", () => request(app).post("/api/records/d-si").send({ title: "x" }), 422, "bad-input"],
])("%s", async (_, asked, status, code) => {
  const answer = await asked();
  expect([answer.status, (answer.body as { code: string }).code]).toEqual([status, code]);
});

test("a run that has not ended has no files", async () => {
  const study = { ...readExample("published/additive-normal"), trials: 50_000_000 };
  const started = (await request(app).post("/api/runs").send({ study })).body as { id: string };
  const early = await request(app).get(`/api/runs/${started.id}/workbook`);
  expect([early.status, (early.body as { code: string }).code]).toEqual([409, "not-finished"]);
  await request(app).delete(`/api/runs/${started.id}`);
});
