import type { Request } from "express";
import {
  recordReportQuery,
  reportQuery,
  verificationEvent,
  type VerificationEvent,
  type VerificationOutcome,
} from "../../viewer/api/records.ts";
import { Fault, refused, reportOf } from "../errors.ts";
import { bytes, events, type Content, type Described } from "../openapi/described.ts";
import { findChromium, printToPdf } from "../report/chromium.ts";
import type { Verification } from "../verify/verify.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

/** Largest file of a record; the page opens no larger one. */
const MOST_BYTES = 32 * 1024 * 1024;
/** PDFs that are made at once: each is a browser. */
const MOST_PRINTS = 2;
const RETRY_AFTER = 5;

const HTML: Content = { type: "text/html", schema: "text" };
const PDF: Content = { type: "application/pdf", schema: "bytes" };
const ZIP: Content = { type: "application/zip", schema: "bytes" };

/** A report brings its style within itself, and neither runs nor loads anything. */
const REPORT_POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

const REPORT_OF_RUN = {
  id: "getReportOfRun",
  summary: "The report of a finished run, as a page",
  path: { id: "Id of the run." },
  query: reportQuery,
  answers: { 200: { description: "One HTML document that needs nothing else.", content: HTML } },
  faults: ["no-such-run", "not-finished", "busy", "worker-lost"],
} satisfies Described;

const REPORT = {
  id: "makeReport",
  summary: "The report of a record, as HTML or PDF",
  description: "The body is the record's file. Nothing is kept.",
  query: recordReportQuery,
  body: bytes,
  answers: { 200: { description: "The report.", content: [HTML, PDF] } },
  faults: ["no-such-file", "cannot-write", "busy", "worker-lost"],
} satisfies Described;

const VERIFY = {
  id: "verifyRecord",
  summary: "Run a record again and compare every figure",
  description:
    "The body is the record's file, byte for byte: any other bytes are refused, even if they mean the same. One verification goes on at a time.",
  body: bytes,
  answers: {
    200: { description: "Progress; the last event is done or failed.", content: events(verificationEvent) },
  },
  faults: ["busy"],
} satisfies Described;

const DOSSIER = {
  id: "makeDossier",
  summary: "Everything behind a record in one ZIP file",
  description:
    "A bag (RFC 8493) with the record, its study, the evidence that this server has, the reports and how to verify it. The body is the record's file.",
  body: bytes,
  answers: {
    200: {
      description: "The dossier.",
      content: ZIP,
      headers: { "X-Missing-Evidence": "Number of files that the study names and this server does not have." },
    },
  },
  faults: ["busy", "worker-lost"],
} satisfies Described;

/** What an assessor has made of a record's file. */
export const recordFiles: RouteRegistration = (router, { runs, verifier, evidence, shelf, desk, documents }) => {
  let prints = 0;

  router.get("/runs/:id/report", "read", REPORT_OF_RUN, async (request, response) => {
    const { language = desk.laboratory().language } = bodyOf(reportQuery, request.query);
    const { id } = request.params;
    const { record, state } = await runs.read(id);
    if (record === null || state !== "finished")
      throw new Fault("not-finished", `Run ${id} is ${state}: a report is made of one that is finished.`);
    const of = { record, name: `The record of run ${id}` };
    const document = await documents.report({ of, form: { language } }, leaving(response));
    // The page itself opens it in a frame, for the print dialog.
    response
      .set({ "content-security-policy": `${REPORT_POLICY}; frame-ancestors 'self'`, "x-frame-options": "SAMEORIGIN" })
      .type("html")
      .send(document);
  });

  router.post("/records/report", "read", REPORT, async (request, response) => {
    const { language = desk.laboratory().language, as, paper } = bodyOf(recordReportQuery, request.query);
    const of = { file: await fileOf(request), name: "The record" };
    if (as === "html") {
      const document = await documents.report({ of, form: { language } }, leaving(response));
      response.set("content-security-policy", `${REPORT_POLICY}; frame-ancestors 'none'`).type("html").send(document);
      return;
    }
    const chromium = findChromium();
    if (prints >= MOST_PRINTS)
      throw new Fault("busy", `${MOST_PRINTS} PDFs are being made already; try again in a moment.`, [], RETRY_AFTER);
    prints += 1;
    const abort = new AbortController();
    response.on("close", () => abort.abort());
    try {
      const document = await documents.report({ of, form: { language, paper } }, abort.signal);
      const pdf = await printToPdf(document, chromium, abort.signal);
      response.type("application/pdf").send(Buffer.from(pdf));
    } finally {
      prints -= 1;
    }
  });

  router.post("/records/verification", "run", VERIFY, async (request, response) => {
    const content = await fileOf(request);
    const abort = new AbortController();
    response.on("close", () => abort.abort());
    const begin = (): void => {
      if (!response.headersSent)
        response.writeHead(200, {
          "content-type": "text/event-stream",
          "cache-control": "no-store",
          "x-accel-buffering": "no",
        });
    };
    const tell = (event: VerificationEvent): void => {
      if (abort.signal.aborted) return;
      begin();
      response.write(`data: ${JSON.stringify(event)}\n\n`);
    };
    let told = 0;
    try {
      const verification = await verifier.verify(content, "The record", abort.signal, (progress) => {
        // Batches come by hundreds a second; a reader sees ten.
        if (performance.now() - told < 100) return;
        told = performance.now();
        tell({ type: "progress", ...progress });
      });
      tell({ type: "done", verification: outcomeOf(verification) });
    } catch (error) {
      // Before anything was sent, a refusal is an answer of its own.
      if (error instanceof Fault && error.code === "busy" && !response.headersSent) throw error;
      tell({ type: "failed", error: reportOf(error) });
    }
    response.end();
  });

  router.post("/records/dossier", "read", DOSSIER, async (request, response) => {
    const content = await fileOf(request);
    const signal = leaving(response);
    const found = new Map<string, Uint8Array>();
    for (const file of await documents.evidence({ file: content }, signal)) {
      const cited = evidence.file(file.sha256) ?? (await shelf.file(file));
      if (cited !== null) found.set(file.sha256, cited);
    }
    const dossier = await documents.dossier({ file: content, evidence: found, today: new Date() }, signal);
    response
      .set("x-missing-evidence", String(dossier.missing.length))
      .attachment(dossier.name)
      .type("application/zip")
      .send(Buffer.from(dossier.bytes));
  });
};

const outcomeOf = ({ outcome, reasons, notes, study, figures, differences }: Verification): VerificationOutcome => ({
  outcome,
  reasons,
  notes,
  study,
  figures,
  differences,
});

/** The file in a request's body. @throws {Fault} `bad-input`: sent as JSON, which would lose its bytes; `too-large` */
async function fileOf(request: Request): Promise<Buffer> {
  if (request.is("application/octet-stream") === false)
    throw refused(
      "",
      request.headers["content-type"],
      "the bytes of a record's file, sent as application/octet-stream",
    );
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    size += part.length;
    if (size > MOST_BYTES)
      throw new Fault(
        "too-large",
        `The record is larger than ${MOST_BYTES} bytes; trialband verify and report take larger ones.`,
      );
    parts.push(part);
  }
  return Buffer.concat(parts);
}
