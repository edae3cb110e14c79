// Files that requests bring are read beside the thread that serves. Needs dist/.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import request from "supertest";
import { createApp } from "../../../server/app.ts";
import { openReader, type Reader } from "../../../server/checks/reader.ts";
import { Fault } from "../../../server/errors.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { LONG } from "../../setup/long.ts";

const survey = (file: string): Buffer => readFileSync(join(import.meta.dirname, "../../../examples/survey", file));
const waiting = (): AbortSignal => new AbortController().signal;

describe("while a large file is read", () => {
  let serving: Serving;
  beforeAll(async () => {
    serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
  });
  afterAll(() => serving.close());

  const log = `time / s,HS-11 / °C,HS-12 / °C\n${Array.from({ length: 200_000 }, (_, i) => `${i},72.00${i % 10},72.0001`).join("\n")}\n`;
  test.each<[string, string, number, () => Uint8Array]>([
    [
      "a budget with a quote that stays open",
      "budget-tables?name=b.csv",
      200,
      () => Buffer.from(`"${"a\n".repeat(2_000_000)}`),
    ],
    [
      "a survey with a log of some megabytes",
      `surveys?name=a.json&size=${survey("pasteuriser-72.json").length}&name=pasteuriser-72.csv&size=${Buffer.byteLength(log)}`,
      201,
      () => Buffer.concat([survey("pasteuriser-72.json"), Buffer.from(log)]),
    ],
  ])("the server answers others: %s", LONG, async (_name, path, status, content) => {
    const reading = { goesOn: true };
    const sent = fetch(new URL(`api/${path}`, serving.url), {
      method: "POST",
      headers: { "content-type": "application/octet-stream" },
      body: content() as Uint8Array<ArrayBuffer>,
    }).then(async (answer) => {
      reading.goesOn = false;
      await answer.text();
      return answer.status;
    });
    let answers = 0;
    while (reading.goesOn) {
      expect((await fetch(new URL("healthz", serving.url))).status).toBe(200);
      if (reading.goesOn) answers += 1;
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    expect(await sent).toBe(status);
    // On the thread that serves it would be read in one piece, with one answer before and one after it.
    expect(answers).toBeGreaterThan(5);
  });
});

test("a reading that takes too long is refused in words, and the next one is made", async () => {
  const reader = openReader(0.3);
  try {
    const slow = { name: "b.csv", bytes: Buffer.from(`"${"a\n".repeat(4_000_000)}`) };
    await expect(reader.budget(slow, {}, waiting())).rejects.toMatchObject({
      code: "bad-input",
      problems: [{ place: "file", value: expect.stringContaining("more than 0.3 s") as string }],
    });
  } finally {
    await reader.close();
  }
  const patient = openReader();
  try {
    const { reading } = await patient.budget({ name: "budget-72.csv", bytes: survey("budget-72.csv") }, {}, waiting());
    expect(reading.study).not.toBeNull();
    await expect(patient.survey([{ name: "a.csv", bytes: Buffer.from("a") }], waiting())).rejects.toMatchObject({
      code: "bad-input",
      problems: [{ place: "files", value: expect.stringContaining("a.csv") as string }],
    });
  } finally {
    await patient.close();
  }
});

test("evidence, listed surveys and logs are read by the reader alone: a route that cannot ask it answers nothing", async () => {
  const asked: string[] = [];
  const reader = new Proxy({} as Reader, {
    get: (_, name) => () => {
      asked.push(String(name));
      return Promise.reject(new Fault("busy", "The reader was asked."));
    },
  });
  const { evidence } = openStore({ folder: null });
  const runs = new Runs(() => new Promise<never>(() => undefined), openStore({ folder: null }));
  const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
  const app = createApp({ runs, shelf, evidence, reader, workers: 1, page: "/nowhere", hosts: null });
  const file = evidence.keepFile("log.csv", Buffer.from("time,a\n1,2\n"));
  const files = [{ name: file.name, sha256: file.sha256 }];
  const document = { title: "Ours" };
  const { id, draft } = evidence.create("readings", { title: "Ours", document, files: [] }, null);
  const kept = evidence.create("survey", { title: "Ours", document, files: [] }, null);
  const save = { document, files: [], save: true };
  const post = (path: string, body: object): request.Test => request(app).post(`/api/${path}`).send(body);
  const put = (of: string, seen: number): request.Test =>
    request(app)
      .put(`/api/evidence/${of}`)
      .send({ ...save, seen });
  const answers = [
    await request(app).get("/api/surveys/cold-store-4"),
    await post("log-looks", { files }),
    await post("log-series", { document, files }),
    await post("evidence-evaluations", { kind: "readings", document, files: [], use: {} }),
    await post(`evidence/${id}/study`, { study: "harrowfen/cold-store-4", into: { a: "b" }, use: {} }),
    await put(id, draft),
    await put(kept.id, kept.draft),
    await request(app)
      .post("/api/evidence-openings?name=a.json")
      .set("content-type", "application/octet-stream")
      .send(Buffer.from("{}")),
  ];
  expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 503));
  expect(asked).toEqual([
    "listedSurvey",
    "looks",
    "series",
    "evidence",
    "evidence",
    "evidence",
    "ownSurvey",
    "evidenceFile",
  ]);
});
