import { connect, type AddressInfo } from "node:net";
import { createServer, type Server } from "node:http";
import { gzipSync } from "node:zlib";
import { join } from "node:path";
import { pino } from "pino";
import request from "supertest";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { FAULTS, type FaultCode } from "../../../server/errors.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { Refusal } from "../../../viewer/api/fault.ts";
import { readExample } from "../../read-example.ts";

const root = join(import.meta.dirname, "../../..");
const noPool = (): Promise<never> => Promise.reject(new Error("not wanted here"));
const lines: Readonly<Record<string, unknown>>[] = [];
const log = pino(
  { formatters: { level: (level) => ({ level }) } },
  { write: (line) => void lines.push(JSON.parse(line)) },
);
const runs = new Runs(noPool, openStore({ folder: null }));
const app = createApp({
  runs,
  shelf: studyShelf(join(root, "examples")),
  workers: 1,
  page: join(root, "viewer/page"),
  hosts: new Set(["127.0.0.1"]),
  log,
});
let server: Server;
let port = 0;
beforeAll(async () => {
  server = createServer(app);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => void server.close());
beforeEach(() => void (lines.length = 0));

/** Sends bytes as they are; resolves with the answer whole. */
const raw = (text: string): Promise<string> =>
  new Promise((resolve, reject) => {
    let answer = "";
    const socket = connect(port, "127.0.0.1", () => socket.write(text));
    socket
      .on("data", (part) => (answer += part.toString("latin1")))
      .on("end", () => resolve(answer))
      .on("error", reject);
  });

/** RFC 9457, 3.1: the members of a problem; `application/problem+json` is its media type (6.1). */
function expectProblem(
  answer: { status: number; headers: Record<string, string>; text: string },
  code: FaultCode,
): void {
  expect(answer.text).not.toBe("");
  const body = JSON.parse(answer.text) as Refusal;
  expect({ status: answer.status, code: body.code }).toEqual({ status: FAULTS[code].status, code });
  expect(answer.headers["content-type"]).toMatch(/^application\/problem\+json/);
  expect(body).toEqual({
    type: `/api/problems/${code}`,
    title: FAULTS[code].title,
    status: answer.status,
    detail: expect.stringMatching(/\.$/),
    instance: `urn:uuid:${answer.headers["x-request-id"]}`,
    code,
    problems: expect.any(Array),
  });
}

const nested = (depth: number): string => "[".repeat(depth) + "]".repeat(depth);

describe("a fault of the client is refused as one, and its problem says which", () => {
  const post = (path: string, type: string, body: string | Buffer, headers: Record<string, string> = {}) =>
    request(server)
      .post(path)
      .set({ "content-type": type, ...headers })
      .serialize((sent: unknown) => sent as string)
      .send(body);

  test.each<[string, () => PromiseLike<request.Response>, FaultCode]>([
    ["%-encoding that is none", () => request(server).get("/api/runs/%E0%A4%A"), "bad-request"],
    ["%-encoding that is none, in the page's files", () => request(server).get("/%E0%A4%A"), "no-such-route"],
    [
      "a character set that is not read",
      () => post("/api/runs", "application/json; charset=klingon", "{}"),
      "unsupported-media-type",
    ],
    [
      "an encoding that is not read",
      () => post("/api/runs", "application/json", "{}", { "content-encoding": "zebra" }),
      "unsupported-media-type",
    ],
    [
      "gzip that is none",
      () => post("/api/runs", "application/json", "{}", { "content-encoding": "gzip" }),
      "bad-request",
    ],
    ["JSON that ends early", () => post("/api/runs", "application/json", '{"study": '), "not-json"],
    ["a body of 17 MB", () => post("/api/runs", "application/json", `"${"x".repeat(17 * 2 ** 20)}"`), "too-large"],
    ["JSON 101 deep", () => post("/api/runs", "application/json", nested(101)), "bad-input"],
    ["JSON 2 million deep", () => post("/api/records", "application/json", nested(2e6)), "bad-input"],
    [
      "deep JSON in a study",
      () => post("/api/studies/check", "application/json", `{"study":${nested(50_000)}}`),
      "bad-input",
    ],
    ["another server's name", () => request(server).get("/api/about").set("host", "elsewhere.example"), "other-host"],
    [
      "a range beyond the end",
      () => request(server).get("/index.html").set("range", "bytes=999999-"),
      "range-not-satisfiable",
    ],
    ["a precondition that fails", () => request(server).get("/index.html").set("if-match", '"x"'), "changed-meanwhile"],
    ["a way out of the page's folder", () => request(server).get("/..%2f..%2fpackage.json"), "no-such-route"],
    ["no route", () => request(server).get("/api/nothing"), "no-such-route"],
    ["no such method", () => request(server).patch("/api/runs"), "no-such-route"],
    ["no such page", () => request(server).get("/nothing"), "no-such-route"],
    ["no such run", () => request(server).get("/api/runs/none"), "no-such-run"],
  ])("%s", async (_, ask, code) => {
    const answer = await ask();
    expectProblem(
      { status: answer.status, headers: answer.headers as Record<string, string>, text: answer.text },
      code,
    );
    // Their faults leave no trace in the log of the server's own.
    expect(lines.filter(({ level }) => level === "error")).toEqual([]);
  });

  test("gzip that holds JSON is read", async () => {
    const answer = await post("/api/studies/check", "application/json", gzipSync('{"study":"none"}'), {
      "content-encoding": "gzip",
    });
    expect(answer.status).toBe(200);
  });

  test("JSON 100 deep is read", async () => {
    const { body } = await post("/api/runs", "application/json", nested(100));
    expect((body as Refusal).problems).toEqual([
      { place: "", value: expect.any(String), accepted: "a JSON object with a study, sent as application/json" },
    ]);
  });

  test("HTTP/1.0 without Host", async () => {
    const [head, body] = (await raw("GET /api/about HTTP/1.0\r\n\r\n")).split("\r\n\r\n");
    expect(head).toMatch(/^HTTP\/1\.1 400 /);
    expect(JSON.parse(body!)).toMatchObject({
      code: "bad-request",
      detail: "The request has no Host header; expected one.",
    });
  });

  test("bytes that are no HTTP", async () => {
    expect(await raw("\u0000\u0001\r\n\r\n")).toMatch(/^HTTP\/1\.1 400 /);
  });

  test("readings beyond what numbers hold", async () => {
    const scaled = (value: unknown): unknown => {
      if (typeof value === "number") return value * 1e298;
      if (Array.isArray(value)) return value.map(scaled);
      return value;
    };
    let found = 0;
    for (const name of ["published/impedance", "verdicts/few-readings"]) {
      const study = readExample(name) as { model: string; inputs: Record<string, Record<string, unknown>> };
      for (const [input, statement] of Object.entries(study.inputs))
        for (const [field, value] of Object.entries(statement)) {
          if (typeof value !== "number" && !Array.isArray(value)) continue;
          found += 1;
          const changed = { ...study, inputs: { ...study.inputs, [input]: { ...statement, [field]: scaled(value) } } };
          for (const [path, body] of [
            ["/api/studies/check", { study: changed }],
            ["/api/runs", { study: changed }],
          ] as const) {
            const answer = await request(server).post(path).send(body);
            expect(answer.status, `${path} ${input}.${field}: ${answer.text}`).toBeLessThan(500);
          }
        }
    }
    expect(found).toBeGreaterThan(3);
  });
});

describe("the kind of a fault", () => {
  test.each(Object.keys(FAULTS) as FaultCode[])("%s is described where its type leads", async (code) => {
    const { body, status } = await request(server).get(`/api/problems/${code}`);
    expect({ body, status }).toEqual({
      status: 200,
      body: { code, status: FAULTS[code].status, title: FAULTS[code].title },
    });
  });

  test.each(["none", "constructor", "__proto__"])("%s is none", async (code) => {
    expect((await request(server).get(`/api/problems/${code}`)).status).toBe(404);
  });
});

describe("the log", () => {
  test("has a line for each answer, with the id that the answer carries and without what is secret", async () => {
    const answer = await request(server)
      .get("/api/about?token=hush")
      .set("authorization", "Bearer hush")
      .set("cookie", "a=hush");
    expect(answer.headers["x-request-id"]).toMatch(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
    await expect.poll(() => lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({
      level: "info",
      id: answer.headers["x-request-id"],
      method: "GET",
      path: "/api/about",
      status: 200,
      ms: expect.any(Number),
    });
    expect(JSON.stringify(lines)).not.toContain("hush");
  });

  test("a fault of the server is there with its trace, and its answer has its id and no trace", async () => {
    const broken = createApp({
      runs: Object.assign(Object.create(runs) as Runs, { list: () => JSON.parse("{") as never }),
      shelf: studyShelf(join(root, "examples")),
      workers: 1,
      page: "/nowhere",
      hosts: null,
      log,
    });
    const answer = await request(broken).get("/api/runs");
    expectProblem(
      { status: answer.status, headers: answer.headers as Record<string, string>, text: answer.text },
      "internal",
    );
    const line = lines.find(({ level }) => level === "error");
    expect(line).toMatchObject({
      id: answer.headers["x-request-id"],
      path: "/api/runs",
      code: "internal",
      err: { stack: expect.stringContaining("SyntaxError") },
    });
    expect(answer.text).not.toMatch(/SyntaxError|Expected property/);
  });
});
