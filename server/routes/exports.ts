import { once } from "node:events";
import type { Response } from "express";
import { z } from "zod";
import type { ReportedRecord } from "../../engine/index.ts";
import { trialsQuery, workbookQuery } from "../../viewer/api/exports.ts";
import { fileNameOf } from "../../viewer/present/file-name.ts";
import { Fault } from "../errors.ts";
import type { NamedDocument, RecordSource } from "../documents/messages.ts";
import { DSI_TYPE } from "../export/d-si.ts";
import { tableOf, trialBytes } from "../export/trials/write-trials.ts";
import { WORKBOOK_TYPE } from "../export/workbook/workbook.ts";
import { json, type Content } from "../openapi/described.ts";
import { studyOfRecord } from "../shelves/record-study.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import { recordFileOf } from "./record-body.ts";
import type { KeptRuns, RouteRegistration } from "./route.ts";

/** Most numbers that this server writes of a run's trials: what is more is a matter of the command line. */
const MOST_NUMBERS = 100_000_000;

const PARQUET_TYPE = "application/vnd.apache.parquet";
const NPY_TYPE = "application/octet-stream";
const workbookContent: Content = { type: WORKBOOK_TYPE, schema: "bytes" };
const dsiContent: Content = { type: DSI_TYPE, schema: "text" };
const path = { id: "Id of a finished run." };
const headers = { "Content-Disposition": "A name for the file: study, day and what it is." };
const record = json(z.unknown().meta({ description: "A record of any version of Trialband, as its file has it." }));

/** Results as files for other programs. */
export const exports: RouteRegistration = (router, { runs, documents }) => {
  router.get(
    "/runs/:id/workbook",
    "read",
    {
      id: "getWorkbook",
      summary: "The budget of a run as a spreadsheet that computes it again",
      path,
      query: workbookQuery,
      answers: { 200: { description: "XLSX, with live formulas.", content: workbookContent, headers } },
      faults: ["no-such-run", "not-finished", "busy", "worker-lost"],
    },
    async (request, response) => {
      const { language } = bodyOf(workbookQuery, request.query);
      const of = await sourceOf(runs, request.params.id);
      const made = await documents.workbook({ of, language }, leaving(response));
      sendAs(response, made, "budget", "xlsx").type(WORKBOOK_TYPE).send(Buffer.from(made.content));
    },
  );

  router.get(
    "/runs/:id/d-si",
    "read",
    {
      id: "getDsi",
      summary: "The results of a run in D-SI, the data model of digital certificates",
      path,
      answers: { 200: { description: "XML.", content: dsiContent, headers } },
      faults: ["no-such-run", "not-finished", "bad-input", "busy", "worker-lost"],
    },
    async (request, response) => {
      const made = await documents.dsi({ of: await sourceOf(runs, request.params.id) }, leaving(response));
      sendAs(response, made, "d-si", "xml").type(DSI_TYPE).send(made.content);
    },
  );

  router.get(
    "/runs/:id/trials",
    "run",
    {
      id: "getTrials",
      summary: "The trials of a run: every input and measurand of each",
      description: "They are drawn again as they are sent, bit for bit.",
      path,
      query: trialsQuery,
      answers: {
        200: {
          description: "The trials, with names and units.",
          content: [
            { type: PARQUET_TYPE, schema: "bytes" },
            { type: NPY_TYPE, schema: "bytes" },
          ],
          headers,
        },
      },
      faults: ["no-such-run", "not-finished", "too-large", "busy"],
    },
    async (request, response) => {
      const { format } = bodyOf(trialsQuery, request.query);
      const found = await recordOf(runs, request.params.id);
      await sendTrials(response, found, format);
    },
  );

  router.post(
    "/records/workbook",
    "read",
    {
      id: "makeWorkbook",
      summary: "The budget of a filed record as a spreadsheet that computes it again",
      description: "Nothing is kept.",
      query: workbookQuery,
      body: record,
      answers: { 200: { description: "XLSX, with live formulas.", content: workbookContent, headers } },
      faults: ["bad-input", "busy", "worker-lost"],
    },
    async (request, response) => {
      const { language } = bodyOf(workbookQuery, request.query);
      const of = { file: recordFileOf(request), name: "The file" };
      const made = await documents.workbook({ of, language }, leaving(response));
      sendAs(response, made, "budget", "xlsx").type(WORKBOOK_TYPE).send(Buffer.from(made.content));
    },
  );

  router.post(
    "/records/d-si",
    "read",
    {
      id: "makeDsi",
      summary: "The results of a filed record in D-SI",
      description: "Nothing is kept.",
      body: record,
      answers: { 200: { description: "XML.", content: dsiContent, headers } },
      faults: ["bad-input", "busy", "worker-lost"],
    },
    async (request, response) => {
      const of = { file: recordFileOf(request), name: "The file" };
      const made = await documents.dsi({ of }, leaving(response));
      sendAs(response, made, "d-si", "xml").type(DSI_TYPE).send(made.content);
    },
  );
};

/** The record of a finished run. @throws {Fault} `no-such-run`, `not-finished` */
export async function recordOf(runs: KeptRuns, id: string): Promise<ReportedRecord> {
  const { state, record: found } = await runs.read(id);
  if (found === null) throw new Fault("not-finished", `Run ${id} is ${state}, not finished.`);
  return found;
}

const sourceOf = async (runs: KeptRuns, id: string): Promise<RecordSource> => ({
  record: await recordOf(runs, id),
  name: `The record of run ${id}`,
});

const sendAs = (
  response: Response,
  { title, startedAt }: Pick<NamedDocument<unknown>, "title" | "startedAt">,
  what: string,
  ending: string,
): Response => response.attachment(fileNameOf(title, startedAt, what, ending));

/** Trials are drawn on the serving thread: one such answer at a time. */
let sending = false;

async function sendTrials(response: Response, found: ReportedRecord, format: "parquet" | "npy"): Promise<void> {
  const columns = Object.keys(found.inputs).length + Object.keys(found.measurands).length;
  if (found.trials.count * columns > MOST_NUMBERS)
    throw new Fault(
      "too-large",
      `The run has ${found.trials.count} trials of ${columns} quantities; expected at most ${MOST_NUMBERS} numbers here. The command trialband trials writes any number.`,
    );
  if (sending) throw new Fault("busy", "The trials of another run are being sent; ask again in a moment.", [], 5);
  sending = true;
  const abort = new AbortController();
  response.on("close", () => abort.abort());
  try {
    const loaded = await studyOfRecord(found, false);
    const table = tableOf(loaded, found, { count: found.trials.count, signal: abort.signal });
    const { study, environment } = found;
    sendAs(response, { title: study.title, startedAt: environment?.startedAt ?? null }, "trials", format).type(
      format === "parquet" ? PARQUET_TYPE : NPY_TYPE,
    );
    for await (const part of trialBytes(table, format))
      if (!response.write(part)) await once(response, "drain", { signal: abort.signal });
    response.end();
  } catch (error) {
    // A reader who left needs no answer; one who has a part of the file must not take it for the whole.
    if (abort.signal.aborted) return;
    if (!response.headersSent) throw error;
    response.destroy();
  } finally {
    sending = false;
  }
}
