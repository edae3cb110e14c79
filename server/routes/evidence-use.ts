import {
  evaluatedEvidence,
  evidenceEvaluationRequest,
  evidenceInputs,
  evidenceInputsQuery,
  evidenceOpeningQuery,
  evidenceStudy,
  evidenceStudyRequest,
  openedEvidence,
  type EvaluatedEvidence,
  type EvidenceInputs,
  type EvidenceStudy,
  type OpenedEvidence,
} from "../../viewer/api/evidence-evaluation.ts";
import { Fault, refused } from "../errors.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import { inputsOf, studyWith } from "../shelves/evidence-study.ts";
import { bytesOf, LARGEST_DESCRIPTION } from "../shelves/survey-uploads.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";
import { withOwn } from "./survey-study.ts";

const STUDY_FAULTS = ["no-such-study", "no-such-model", "model-not-finite"] as const;

const EVALUATE = {
  id: "evaluateEvidence",
  summary: "Evaluate readings, an immersion check or a certificate, and keep nothing",
  description: "Differences in K, temperatures in °C, lengths in mm.",
  body: json(evidenceEvaluationRequest),
  answers: {
    200: { description: "What it gives, and what a study may state of it.", content: json(evaluatedEvidence) },
  },
} satisfies Described;
const OPEN = {
  id: "openEvidenceFile",
  summary: "Read a file as the command line takes it, as a draft",
  description: "A description in JSON, or a certificate in XML: the body is its bytes. Nothing is kept.",
  query: evidenceOpeningQuery,
  body: bytes,
  answers: { 200: { description: "What it is, and the draft.", content: json(openedEvidence) } },
  faults: ["not-json", "too-large"],
} satisfies Described;
const INPUTS = {
  id: "listEvidenceInputs",
  summary: "The inputs of a study that evidence may go into",
  query: evidenceInputsQuery,
  answers: { 200: { description: "Every input of its model.", content: json(evidenceInputs) } },
  faults: STUDY_FAULTS,
} satisfies Described;
const STUDY = {
  id: "makeStudyFromEvidence",
  summary: "A study with the quantities of evidence in place of its own",
  path: { id: "Id of readings, an immersion check or a certificate of one's own." },
  body: json(evidenceStudyRequest),
  answers: { 200: { description: "The study, ready to be run.", content: json(evidenceStudy) } },
  faults: ["no-such-evidence", ...STUDY_FAULTS],
} satisfies Described;

/** What evidence gives, and the way into a study. */
export const evidenceUse: RouteRegistration = (router, { evidence: store, shelf, runs, desk, reader }) => {
  const studies = withOwn(shelf, { runs, desk });

  router.post("/evidence-evaluations", "read", EVALUATE, async (request, response) => {
    const { kind, use, ...content } = bodyOf(evidenceEvaluationRequest, request.body);
    response.json((await reader.evidence(kind, content, use, store, leaving(response))) satisfies EvaluatedEvidence);
  });

  router.post("/evidence-openings", "read", OPEN, async (request, response) => {
    const { name } = bodyOf(evidenceOpeningQuery, request.query);
    if (request.is("application/octet-stream") === false)
      throw refused("", request.headers["content-type"], "the bytes of a file, sent as application/octet-stream");
    const stated = Number(request.headers["content-length"] ?? 0);
    if (stated > LARGEST_DESCRIPTION)
      throw new Fault("too-large", `${name} has ${stated} bytes; expected at most ${LARGEST_DESCRIPTION}.`);
    const file = { name, bytes: await bytesOf(request, stated) };
    response.json((await reader.evidenceFile(file, leaving(response))) satisfies OpenedEvidence);
  });

  router.get("/evidence-inputs", "read", INPUTS, async (request, response) => {
    const { study } = bodyOf(evidenceInputsQuery, request.query);
    const document = (await studies.read(study)) as Readonly<Record<string, unknown>>;
    response.json((await inputsOf(document)) satisfies EvidenceInputs);
  });

  router.post("/evidence/:id/study", "read", STUDY, async (request, response) => {
    const { study, into, use } = bodyOf(evidenceStudyRequest, request.body);
    const { kind, document, files } = store.read(request.params.id);
    if (kind === "survey") throw refused("id", request.params.id, "readings, an immersion check or a certificate");
    const evaluated = await reader.evidence(kind, { document, files }, use, store, leaving(response));
    const chosen: unknown = typeof study === "string" ? await studies.read(study) : study;
    if (typeof chosen !== "object" || chosen === null || Array.isArray(chosen))
      throw refused("study", chosen, "the id of a study, or a study");
    response.json(
      (await studyWith(evaluated, { into }, chosen as Readonly<Record<string, unknown>>)) satisfies EvidenceStudy,
    );
  });
};
