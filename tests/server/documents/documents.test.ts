// Documents of records are made beside the thread that serves. Needs dist/ (the tests' set-up builds it).
import request from "supertest";
import { afterAll, beforeAll, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { openDocuments, type Documents } from "../../../server/documents/documents.ts";
import { shownRecordOf } from "../../../server/documents/shown-record.ts";
import { Fault } from "../../../server/errors.ts";
import { dsiOf } from "../../../server/export/d-si.ts";
import { openRecord } from "../../../server/record/open.ts";
import { recordText, type SealedRecord } from "../../../server/record/seal.ts";
import { reportDocument } from "../../../server/report/document.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { readExample } from "../../read-example.ts";
import { leastTurn } from "../longest-turn.ts";

const waiting = (): AbortSignal => new AbortController().signal;

let record: SealedRecord;
let file: Buffer;
let documents: Documents;
beforeAll(async () => {
  const study = await loadStudyDocument({ ...readExample("verdicts/curvature"), trials: 5000 }, null);
  ({ record } = await runStudy(study));
  file = Buffer.from(recordText(record));
  documents = openDocuments();
});
afterAll(() => documents.close());

test("what the thread makes is what would be made here", async () => {
  const of = { file, name: "The record" };
  const form = { language: "de" } as const;
  const opened = openRecord(file, "The record");
  expect(await documents.report({ of, form }, waiting())).toBe(
    await reportDocument(opened.record, "record.json", form),
  );
  expect(await documents.dsi({ of: { record: opened.record, name: "it" } }, waiting())).toEqual({
    content: dsiOf(opened.record),
    title: record.study.title,
    startedAt: record.environment!.startedAt,
  });
  expect(JSON.parse(Buffer.from(await documents.shown(file, waiting())).toString("utf8"))).toEqual(
    JSON.parse(JSON.stringify(shownRecordOf(opened))),
  );
  const workbook = await documents.workbook({ of, language: "en" }, waiting());
  // A ZIP file, as XLSX is.
  expect(Buffer.from(workbook.content.slice(0, 2)).toString("latin1")).toBe("PK");
});

test("a record that was altered, is none or is too deep is refused in words", async () => {
  const altered = Buffer.from(file.toString("utf8").replace(record.study.title, `${record.study.title}!`));
  for (const [content, code] of [
    [altered, "bad-input"],
    [Buffer.from("{"), "not-json"],
    [Buffer.from("[".repeat(200)), "bad-input"],
  ] as const)
    await expect(documents.dsi({ of: { file: content, name: "It" } }, waiting())).rejects.toMatchObject({ code });
});

test("every route that makes something of a record asks the thread, and nothing is made of it where others are served", async () => {
  const asked: string[] = [];
  const stub = new Proxy({} as Documents, {
    get: (_, name) => () => {
      asked.push(String(name));
      return Promise.reject(new Fault("busy", "The thread was asked."));
    },
  });
  const store = openStore({ folder: null });
  const runs = new Runs(() => new Promise<never>(() => undefined), store);
  const shelf = studyShelf("/nowhere");
  const app = createApp({ runs, shelf, documents: stub, workers: 1, page: "/nowhere", hosts: null });
  const sent = (path: string, type: string, body: Buffer): request.Test =>
    request(app)
      .post(`/api/records${path}`)
      .set("content-type", type)
      .serialize((whole: unknown) => whole as string)
      .send(body);
  // Ten megabytes: parsed here they would take half a second.
  const large = Buffer.from(`{"format":"trialband-record/2","x":[${"1.5,".repeat(2_500_000)}1]}`);
  const statuses: number[] = [];
  const longest = await leastTurn(0.1, async () => {
    asked.length = 0;
    statuses.length = 0;
    for (const path of ["", "/workbook", "/d-si"]) statuses.push((await sent(path, "application/json", large)).status);
  });
  expect(longest).toBeLessThan(0.1);
  for (const path of ["/report", "/dossier"])
    statuses.push((await sent(path, "application/octet-stream", file)).status);
  expect(statuses).toEqual([503, 503, 503, 503, 503]);
  expect(asked).toEqual(["shown", "workbook", "dsi", "report", "evidence"]);
  store.close();
});
