// A real answer of every route, of each status that is no refusal, held against the document.
import { fileURLToPath } from "node:url";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { documentOf } from "../../../server/openapi/document.ts";
import { readCalibration, studyOf } from "../../../models/index.ts";
import { documentWith } from "../export/certificate/made-certificate.ts";
import { everyOperation } from "../../../server/routes/operations.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { judgeBy, type Came } from "./conforms.ts";
import { LONG } from "../../setup/long.ts";

const operations = everyOperation();
const judge = judgeBy(documentOf(operations));
const example = (path: string): Buffer => readFileSync(new URL(`../../../examples/${path}`, import.meta.url));
const study: unknown = JSON.parse(example("published/additive-normal.json").toString("utf8"));
const json = (body: unknown): RequestInit => ({
  body: JSON.stringify(body),
  headers: { "content-type": "application/json" },
});
const bytes = (body: Buffer): RequestInit => ({
  body: new Uint8Array(body),
  headers: { "content-type": "application/octet-stream" },
});

const folder = mkdtempSync(join(tmpdir(), "trialband-answers-"));
let serving: Serving;
let id: string;
let record: unknown;
let own: string;
let template: string;
let file: { readonly name: string; readonly sha256: string };
let survey: string;
let calibration: string;
let reference: string;
/** A plan, and the run of its study. */
let planned: { readonly run: string; readonly plan: object };
/** What is asked of the run of a calibration's study. */
let calibrated: {
  readonly calibration: object;
  readonly reference: null;
  readonly instrument: string;
  readonly run: string;
};
beforeAll(async () => {
  const watch = [fileURLToPath(new URL("../../../examples/survey/pasteuriser-72.csv", import.meta.url))];
  serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: folder, warn: () => undefined, watch });
  id = await serving.runListed("published/additive-normal");
  await new Promise<void>((resolve) => void serving.runs.follow(id, ({ type }) => type === "finished" && resolve()));
  record = (await serving.runs.read(id)).record;
  const start = { method: "POST", ...json({ study, trials: 20_000 }) };
  const started = (await (await fetch(new URL("api/runs", serving.url), start)).json()) as { id: string };
  await new Promise<void>((done) => void serving.runs.follow(started.id, ({ type }) => type === "finished" && done()));
  const read = async (path: string): Promise<unknown> => (await fetch(new URL(path, serving.url))).json();
  const send = async (path: string, request: RequestInit): Promise<unknown> =>
    (await fetch(new URL(path, serving.url), { method: "POST", ...request })).json();
  const { name, sha256 } = (await send(KEPT_FILE, bytes(log))) as typeof file;
  file = { name, sha256 };
  const kept = json({ kind: "survey", document: JSON.parse(description.toString("utf8")), files: [file] });
  ({ id: survey } = (await send("api/evidence", kept)) as { id: string });
  const certificate = json({ kind: "certificate", document: CERTIFICATE, files: [] });
  ({ id: reference } = (await send("api/evidence", certificate)) as { id: string });
  const fiveBaths = readCalibration(documentWith({ trials: 20_000 }));
  const ofCalibration = json({ study: studyOf(fiveBaths, "HF-021") });
  const { id: run } = (await send("api/runs", ofCalibration)) as { id: string };
  await new Promise<void>((done) => void serving.runs.follow(run, ({ type }) => type === "finished" && done()));
  const points = [0, 1].map((at) => ({ at, inputs: {} }));
  const swept = { ...(study as object), sweep: { quantity: "place", unit: "1", points }, trials: 20_000 };
  const { id: ofPlan } = (await send("api/runs", json({ study: swept }))) as { id: string };
  await new Promise<void>((done) => void serving.runs.follow(ofPlan, ({ type }) => type === "finished" && done()));
  const found = (await serving.runs.read(ofPlan)).record!.sweep!.points;
  planned = {
    run: ofPlan,
    plan: {
      measurand: "y",
      points: found.map(({ at, measurands }) => {
        const linear = measurands["y"]!.linear.expandedUncertainty;
        return { at, part: null, target: 5, proposed: { linear, claimed: linear } };
      }),
    },
  };
  calibrated = { calibration: fiveBaths, reference: null, instrument: "HF-021", run };
  ({ id: calibration } = (await send("api/kept-calibrations", json(keptCalibration()))) as { id: string });
  [{ id: own }] = (await read("api/own-studies")) as [{ id: string }];
  [
    {
      files: [template],
    },
  ] = (await read("api/templates")) as [{ files: [string] }];
});
afterAll(async () => {
  await serving.close();
  rmSync(folder, { recursive: true });
});

/** The record as it is filed. */
const recordFile = (): Buffer => Buffer.from(`${JSON.stringify(record, null, 2)}\n`);
const description = example("survey/pasteuriser-72.json");
const log = example("survey/pasteuriser-72.csv");
const calibrationFile = Buffer.from(JSON.stringify(documentWith()));
const keptCalibration = () => ({ calibration: calibrated.calibration, reference: null, overdue: null, files: [] });
const calibrationAt = (): string => `api/kept-calibrations/${calibration}`;
const comparison = example("interlaboratory/bath-72.json");
const KEPT_FILE = "api/evidence-files?name=pasteuriser-72.csv";
const DRAFT = "api/drafts/d-12345678";
const DEFAULTS = {
  name: "Harrowfen",
  coverage: "factor",
  probability: 0.95,
  factor: 2,
  digits: 2,
  language: "en",
  seed: "same",
};
const CERTIFICATE = JSON.parse(example("survey/reference-HR-02.json").toString("utf8")) as unknown;
const IMMERSION = JSON.parse(example("survey/immersion-134.json").toString("utf8")) as unknown;
const PAIRS = [0.001, 0.002, 0.004].map((d) => ({ readings: { R: 37, X: 37 + d } }));
const USE = { temperature: 72, on: "2026-03-02" };
const BUDGET = "quantity,estimate,unit,standard uncertainty,distribution\nlength,1,K,0.1,normal\n";

/** A new route gets a line here. What is asked to get an answer, by the name of the operation: path below the server, and the rest of the request. */
const ASKED: Readonly<Record<string, () => readonly [path: string, asked?: RequestInit, status?: number]>> = {
  getHealth: () => ["healthz"],
  getMetrics: () => ["metrics"],
  getAbout: () => ["api/about"],
  getQueue: () => ["api/queue"],
  getSession: () => ["api/session"],
  listModels: () => ["api/models"],
  describeModel: () => ["api/models/bath-comparison", json({})],
  exploreStudy: () => ["api/explorations", json({ study })],
  readEquation: () => ["api/equations", json({ equation: "y = 2*a + sin(b)" })],
  readTolerance: () => ["api/tolerances", json({ parameters: { class: "A", temperature: 72 }, unit: "°C" })],
  listFunctions: () => ["api/equations/functions"],
  listTemplates: () => ["api/templates"],
  getTemplate: () => [`api/templates/${template}`],
  getLaboratory: () => ["api/laboratory"],
  setLaboratory: () => ["api/laboratory", json(DEFAULTS)],
  listDrafts: () => ["api/drafts"],
  writeDraft: () => [DRAFT, json({ title: "A draft", own: null, form: { title: "A draft" } })],
  getDraft: () => [DRAFT],
  discardDraft: () => [DRAFT, {}, 204],
  undoDiscarding: () => [`${DRAFT}/undo-discarding`],
  getStudySchema: () => ["api/schema/study"],
  listStudies: () => ["api/studies"],
  checkStudy: () => ["api/studies/check", json({ study })],
  getStudy: () => ["api/studies/published/additive-normal"],
  listSurveys: () => ["api/surveys"],
  openSurvey: () => [
    `api/surveys?name=pasteuriser-72.json&size=${description.length}&name=pasteuriser-72.csv&size=${log.length}`,
    bytes(Buffer.concat([description, log])),
    201,
  ],
  openCalibration: () => [
    `api/calibrations?name=calibration.json&size=${calibrationFile.length}`,
    bytes(calibrationFile),
  ],
  openExampleCalibration: () => ["api/calibrations/example"],
  openOutlook: () => [`api/outlooks?name=comparison.json&size=${comparison.length}`, bytes(comparison)],
  openExampleOutlook: () => ["api/outlooks/examples/history"],
  confirmPlan: () => ["api/outlooks/confirmation", json(planned)],
  getCalibrationResult: () => ["api/calibrations/result", json(calibrated)],
  listCalibrations: () => ["api/kept-calibrations"],
  keepCalibration: () => ["api/kept-calibrations", json(keptCalibration()), 201],
  getCalibration: () => [calibrationAt()],
  changeCalibration: () => [calibrationAt(), json({ calibration: calibrated.calibration })],
  setRunOfInstrument: () => [`${calibrationAt()}/runs/HF-021`, json({ run: calibrated.run })],
  nameCalibration: () => [`${calibrationAt()}/name`, json({ name: "Dairy", note: "" })],
  removeCalibration: () => [calibrationAt(), {}, 204],
  listRemovedCalibrations: () => ["api/removed-calibrations"],
  bringBackCalibration: () => [`${calibrationAt()}/undo-removal`],
  makeCertificate: () => ["api/calibrations/certificate", json({ ...calibrated, form: "html", language: "en" })],
  getSurvey: () => ["api/surveys/pasteuriser-72"],
  listStudiesForSurvey: () => ["api/surveys/pasteuriser-72/studies"],
  makeStudyFromSurvey: () => ["api/surveys/pasteuriser-72/study"],
  listEvidence: () => ["api/evidence"],
  makeEvidence: () => ["api/evidence", json({ kind: "survey", document: {}, files: [] }), 201],
  getEvidence: () => [`api/evidence/${survey}`],
  changeEvidence: () => [
    `api/evidence/${survey}`,
    json({ document: JSON.parse(description.toString("utf8")) as unknown, files: [file], seen: 1, save: true }),
  ],
  readEvidenceVersion: () => [`api/evidence/${survey}/versions/1`],
  findEvidenceBehind: () => [`api/evidence-behind?sha256=${file.sha256}`],
  getEvidenceDescription: () => [`api/evidence/${survey}/description`],
  keepEvidenceFile: () => [KEPT_FILE, bytes(log), 201],
  getEvidenceFile: () => [`api/evidence-files/${file.sha256}`],
  lookAtLogs: () => ["api/log-looks", json({ files: [file] })],
  readLogSeries: () => [
    "api/log-series",
    json({ document: JSON.parse(description.toString("utf8")) as unknown, files: [file] }),
  ],
  removeEvidence: () => [`api/evidence/${survey}`, {}, 204],
  bringBackEvidence: () => [`api/evidence/${survey}/undo-removal`],
  evaluateEvidence: () => [
    "api/evidence-evaluations",
    json({
      kind: "readings",
      document: { title: "t", reference: "R", channels: { R: {}, X: {} }, rows: PAIRS },
      files: [],
    }),
  ],
  openEvidenceFile: () => ["api/evidence-openings?name=i.json", bytes(Buffer.from(JSON.stringify(IMMERSION)))],
  listEvidenceInputs: () => ["api/evidence-inputs?study=harrowfen/pasteuriser-72"],
  makeStudyFromEvidence: () => [
    `api/evidence/${reference}/study`,
    json({ study: "harrowfen/pasteuriser-72", into: { referenceDrift: "referenceDrift" }, use: USE }),
  ],
  listWatchedLogs: () => ["api/watched-logs"],
  followLog: () => ["api/watched-logs/1/events?criterion=5&time=25"],
  readBudgetTable: () => ["api/budget-tables?name=b.csv", bytes(Buffer.from(BUDGET))],
  openRecord: () => ["api/records", json(record)],
  getReportOfRun: () => [`api/runs/${id}/report?language=de`],
  makeReport: () => ["api/records/report?language=en", bytes(recordFile())],
  verifyRecord: () => ["api/records/verification", bytes(recordFile())],
  makeDossier: () => ["api/records/dossier", bytes(recordFile())],
  listRuns: () => ["api/runs?limit=1"],
  startRun: () => ["api/runs", json({ study, trials: 20_000 }), 202],
  getRun: () => [`api/runs/${id}`],
  getStudyOfRun: () => [`api/runs/${id}/study`],
  cancelRun: () => [`api/runs/${id}`, {}, 204],
  followRun: () => [`api/runs/${id}/events`],
  writeNote: () => [`api/kept-runs/${id}/note`, json({ note: "kept" })],
  getHistogram: () => [`api/runs/${id}/measurands/y/histogram?bins=20`],
  getInterval: () => [`api/runs/${id}/measurands/y/interval?p=0.9`],
  getWorkbook: () => [`api/runs/${id}/workbook?language=de`],
  getDsi: () => [`api/runs/${id}/d-si`],
  getTrials: () => [`api/runs/${id}/trials?format=parquet`],
  makeWorkbook: () => ["api/records/workbook", json(record)],
  makeDsi: () => ["api/records/d-si", json(record)],
  selfcheck: () => ["api/selfcheck?quick=1"],
  getProblem: () => ["api/problems/bad-input"],
  getDocument: () => ["api/openapi.json"],
  getInterfacePage: () => ["api"],
  // Last: they take the run away.
  listOwnStudies: () => ["api/own-studies"],
  nameOwnStudy: () => [`api/own-studies/${own}/name`, json({ name: "Sum of four", tags: ["sum"] })],
  removeRun: () => [`api/kept-runs/${id}`, {}, 204],
  listRemovedRuns: () => ["api/removed-runs"],
  undoRemoval: () => [`api/kept-runs/${id}/undo-removal`],
  signOut: () => ["api/session", {}, 204],
};

async function ask(operationId: string, path: string, asked: RequestInit = {}): Promise<Came> {
  const { method, path: at } = operations.find(({ described }) => described.id === operationId)!;
  const stop = new AbortController();
  const answer = await fetch(new URL(path, serving.url), { method, signal: stop.signal, ...asked });
  let text = "";
  const decoder = new TextDecoder();
  try {
    for await (const chunk of answer.body ?? []) {
      text += decoder.decode(chunk as Uint8Array, { stream: true });
      // A selfcheck goes on for long: its first lines say enough.
      if (operationId === "selfcheck" && text.split("\n\n").length > 4) stop.abort();
      // A log goes on for ever.
      if (operationId === "followLog" && text.includes("\n\n")) stop.abort();
    }
  } catch (error) {
    if (!stop.signal.aborted) throw error;
  }
  return { method, path: at.replaceAll(/:(\w+)/g, "{$1}"), status: answer.status, headers: answer.headers, text };
}

test("every route is asked here", () => {
  expect(Object.keys(ASKED).toSorted()).toEqual(operations.map(({ described }) => described.id).toSorted());
});

test.each(Object.keys(ASKED))("the answer of %s is as the document says", LONG, async (operationId) => {
  const [path, asked, status = 200] = ASKED[operationId]!();
  const came = await ask(operationId, path, asked);
  expect(came.status, came.text.slice(0, 300)).toBe(status);
  expect(judge(came)).toEqual([]);
});

test.each<[string, string, RequestInit, number]>([
  ["a list that has not changed", "listModels", {}, 304],
  ["a stream whose reader has its end", "followRun", { headers: { "last-event-id": "end" } }, 204],
])("%s", async (_what, operationId, asked, status) => {
  const [path] = ASKED[operationId]!();
  const etag = (await fetch(new URL(path, serving.url), { method: "HEAD" })).headers.get("etag");
  // Without a word on caching, fetch asks for no cached answer.
  const headers = etag === null ? {} : { "if-none-match": etag, "cache-control": "max-age=0" };
  const came = await ask(operationId, path, { ...asked, headers: { ...headers, ...asked.headers } as HeadersInit });
  expect(came.status).toBe(status);
  expect(judge(came)).toEqual([]);
});

test("an answer that is not as the document says is found out", async () => {
  const came = await ask("getAbout", "api/about");
  expect(judge({ ...came, text: came.text.replace('"workers":1', '"workers":"1"') })).toHaveLength(1);
  expect(judge({ ...came, status: 418 })).toHaveLength(1);
  expect(judge({ ...came, headers: new Headers({ "content-type": "application/json" }) })).toHaveLength(2);
});

test.each([
  ["immersion", IMMERSION, {}],
  ["certificate", CERTIFICATE, {}],
  ["certificate", CERTIFICATE, USE],
  ["certificate", CERTIFICATE, { ...USE, drift: "rate" }],
])("an evaluated %s is as the document says", async (kind, document, use) => {
  const came = await ask("evaluateEvidence", "api/evidence-evaluations", json({ kind, document, files: [], use }));
  expect(came.status, came.text.slice(0, 300)).toBe(200);
  expect(judge(came)).toEqual([]);
});
