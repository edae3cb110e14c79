// What a server makes of a record's file: report, PDF, verification, dossier, and every way in which it refuses.
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import request from "supertest";
import type { Express } from "express";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { createApp } from "../../../server/app.ts";
import { unpackBag } from "../../../server/dossier/archive.ts";
import { bagProblems } from "../../../server/dossier/bag.ts";
import { findChromium } from "../../../server/report/chromium.ts";
import { recordText, type SealedRecord } from "../../../server/record/seal.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openVerifier } from "../../../server/verify/verifier.ts";
import type { VerificationEvent } from "../../../viewer/api/records.ts";
import { recordWithEvidence } from "../dossier/dossiers.ts";
import { FixedRuns } from "../../viewer/page/fixed-runs.ts";
import { LONG } from "../../setup/long.ts";

let record: SealedRecord;
let text: string;
let app: Express;
let runs: FixedRuns;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "trialband-record-files-"));
  record = await recordWithEvidence();
  text = recordText(record);
  runs = new FixedRuns();
  const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
  app = createApp({ runs, shelf, workers: 1, page: folder, hosts: null });
});
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => vi.unstubAllEnvs());

const send = (path: string, body: string, to = app): request.Test =>
  request(to).post(`/api/records/${path}`).set("content-type", "application/octet-stream").buffer(true).send(body);
const binary = (response: request.Response, done: (error: Error | null, body: Buffer) => void): void => {
  const parts: Buffer[] = [];
  response.on("data", (part: Buffer) => parts.push(part));
  response.on("end", () => done(null, Buffer.concat(parts)));
};
const eventsIn = (body: string): VerificationEvent[] =>
  body
    .split("\n\n")
    .filter((part) => part !== "")
    .map((part) => JSON.parse(part.replace("data: ", "")) as VerificationEvent);
const altered = (): string => {
  const copy = JSON.parse(text) as { measurands: { y: { monteCarlo: { estimate: number } } } };
  copy.measurands.y.monteCarlo.estimate += 0.25;
  return recordText(copy as never);
};

describe("a report", () => {
  test("comes in the language asked for, and may neither run nor load anything", async () => {
    const { status, headers, text: html } = await send("report?language=de", text);
    expect({ status, type: headers["content-type"] }).toEqual({ status: 200, type: "text/html; charset=utf-8" });
    expect(headers["content-security-policy"]).toMatch(/^default-src 'none'; style-src 'unsafe-inline'/);
    expect(html).toContain('<html lang="de">');
  });

  test("without a language is in that of the laboratory", async () => {
    const { version: _, ...defaults } = (await request(app).get("/api/laboratory")).body as { version: number };
    expect((await send("report", text)).text).toContain('<html lang="en">');
    const set = (language: string): Promise<{ status: number }> =>
      request(app)
        .put("/api/laboratory")
        .set("if-match", "*")
        .send({ ...defaults, language });
    expect((await set("de")).status).toBe(200);
    expect((await send("report", text)).text).toContain('<html lang="de">');
    await set("en");
  });

  test("of a run is refused in words", async () => {
    const id = runs.addFinished("harrowfen/cold-store-4");
    expect((await request(app).get("/api/runs/none/report")).body).toMatchObject({ code: "no-such-run" });
    expect((await request(app).get(`/api/runs/${id}/report?language=fr`)).body).toMatchObject({
      problems: [{ place: "language", accepted: "en or de" }],
    });
  });

  const chromium = ((): string | null => {
    try {
      return findChromium();
    } catch {
      return null;
    }
  })();
  test.skipIf(chromium === null)("comes as a PDF, on the paper asked for", LONG, async () => {
    const { status, headers, body } = await send("report?as=pdf&paper=Letter", text).parse(binary as never);
    expect({ status, type: headers["content-type"] }).toEqual({ status: 200, type: "application/pdf" });
    expect((body as Buffer).subarray(0, 5).toString()).toBe("%PDF-");
    // 8.5 × 11 inches of 72 points.
    expect((body as Buffer).toString("latin1")).toMatch(/\/MediaBox \[0 0 612 792\]/);
  });

  test("as a PDF is refused in words without a Chromium, and with one that gives none", async () => {
    vi.stubEnv("TRIALBAND_CHROMIUM", join(folder, "nowhere"));
    expect((await send("report?as=pdf", text)).body).toMatchObject({ code: "no-such-file", status: 404 });
    const broken = join(folder, "broken");
    writeFileSync(broken, "#!/bin/sh\necho it fails >&2\nexit 1\n");
    chmodSync(broken, 0o755);
    vi.stubEnv("TRIALBAND_CHROMIUM", broken);
    expect((await send("report?as=pdf", text)).body).toMatchObject({ code: "cannot-write" });
  });

  test.each([
    ["an altered record", () => altered(), 422, "bad-input"],
    ["no JSON", () => "no JSON", 400, "not-json"],
    ["another document", () => "{}", 422, "bad-input"],
  ])("is not made of %s", async (_what, body, status, code) => {
    expect((await send("report", body())).body).toMatchObject({ status, code });
    expect((await send("dossier", body())).body).toMatchObject({ status, code });
  });

  test("asks for bytes, and for no more of them than a record has", async () => {
    const sent = await request(app).post("/api/records/report").send({});
    expect(sent.body).toMatchObject({ code: "bad-input", problems: [{ value: '"application/json"' }] });
    expect((await send("report", "x".repeat(33 * 1024 * 1024))).status).toBe(413);
  });
});

describe("a verification", () => {
  test("tells how far it is and how it ended", async () => {
    const { status, text: body } = await send("verification", text);
    expect(status).toBe(200);
    const events = eventsIn(body);
    expect(events[0]).toMatchObject({ type: "progress", repetition: 1, limit: 20_000 });
    expect(events.at(-1)).toMatchObject({ type: "done", verification: { outcome: "bits", differences: [] } });
  });

  test("names the figure that was altered, and what it is", async () => {
    const found = eventsIn((await send("verification", altered())).text).at(-1)!;
    expect(found).toMatchObject({ type: "done", verification: { outcome: "refused" } });
    if (found.type !== "done") return;
    expect(found.verification.differences).toEqual([
      {
        place: "measurands.y.monteCarlo.estimate",
        filed: String(record.measurands["y"]!.monteCarlo.estimate! + 0.25),
        repeated: String(record.measurands["y"]!.monteCarlo.estimate),
      },
    ]);
  });

  test("is refused while another goes on, and ends in time", async () => {
    const verifier = openVerifier(undefined, 0.001);
    const first = verifier.verify(Buffer.from(text), "r", new AbortController().signal, () => undefined);
    await expect(
      verifier.verify(Buffer.from(text), "r", new AbortController().signal, () => undefined),
    ).rejects.toMatchObject({ code: "busy" });
    await first.then(
      ({ outcome }) => expect(outcome).toBe("bits"),
      (error: unknown) => expect(error).toMatchObject({ code: "took-too-long" }),
    );
  });
});

test("a dossier is a bag with the evidence that the server has", async () => {
  const { status, headers, body } = await send("dossier", text).parse(binary as never);
  expect({ status, type: headers["content-type"], missing: headers["x-missing-evidence"] }).toEqual({
    status: 200,
    type: "application/zip",
    missing: "1",
  });
  expect(headers["content-disposition"]).toMatch(/^attachment; filename="?dossier-[0-9a-f]{16}\.zip"?$/);
  const files = unpackBag(body as Buffer, "d.zip");
  expect(bagProblems(files)).toEqual([]);
  // The log lies beside the examples, and is known by its digest.
  expect([...files.keys()].some((path) => path.endsWith("-pasteuriser-72.csv"))).toBe(true);
});
