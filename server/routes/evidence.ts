import {
  changedEvidence,
  evidenceBehind,
  evidenceBehindQuery,
  evidenceDescription,
  evidenceFileQuery,
  evidenceList,
  keptFile,
  logLookRequest,
  logLooks,
  logSeries,
  logSeriesRequest,
  newEvidence,
  ownEvidence,
  savedEvidence,
  type EvidenceBehind,
  type EvidenceList,
  type KeptFile,
  type LogLooks,
  type LogSeries,
  type OwnEvidence,
  type SavedEvidence,
} from "../../viewer/api/evidence.ts";
import { identityOf } from "../access/identity.ts";
import { Fault, refused } from "../errors.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import { descriptionFile, digestsOf, titleOf } from "../shelves/own-evidence.ts";
import { digestId } from "../shelves/surveys.ts";
import { bytesOf, LARGEST_LOG } from "../shelves/survey-uploads.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

const ONE = { id: "Id of a survey, readings, an immersion check or a certificate of one's own." };
const OWN = { description: "The draft with its versions.", content: json(ownEvidence) };
const NONE = ["no-such-evidence"] as const;

const LIST = {
  id: "listEvidence",
  summary: "Evidence of one's own: surveys, readings, immersion checks, certificates",
  answers: { 200: { description: "Each in short, the latest first.", content: json(evidenceList) } },
} satisfies Described;
const MAKE = {
  id: "makeEvidence",
  summary: "Keep a draft",
  body: json(newEvidence),
  answers: { 201: OWN },
} satisfies Described;
const READ = {
  id: "getEvidence",
  summary: "A draft with its versions",
  path: ONE,
  answers: { 200: OWN },
  faults: NONE,
} satisfies Described;
const CHANGE = {
  id: "changeEvidence",
  summary: "Another draft in the place of the one that was seen",
  description:
    "With save it becomes a version, once it can be evaluated; if it cannot, it is kept as a draft and every place is named.",
  path: ONE,
  body: json(changedEvidence),
  answers: { 200: OWN },
  faults: ["no-such-evidence", "changed-meanwhile"],
} satisfies Described;
const DESCRIPTION = {
  id: "getEvidenceDescription",
  summary: "The description as a file, as the command line takes it",
  path: ONE,
  answers: { 200: { description: "The draft's description.", content: json(evidenceDescription) } },
  faults: NONE,
} satisfies Described;
const REMOVE = {
  id: "removeEvidence",
  summary: "Take a draft and its versions off the list",
  path: ONE,
  answers: { 204: { description: "It is off the list; undo-removal brings it back." } },
  faults: NONE,
} satisfies Described;
const BRING_BACK = {
  id: "bringBackEvidence",
  summary: "Bring back what was removed",
  path: ONE,
  answers: { 200: OWN },
  faults: NONE,
} satisfies Described;
const VERSION = {
  id: "readEvidenceVersion",
  summary: "A version as it was saved",
  path: { ...ONE, version: "Its number, from 1." },
  answers: { 200: { description: "Its description and files.", content: json(savedEvidence) } },
  faults: NONE,
} satisfies Described;
const BEHIND = {
  id: "findEvidenceBehind",
  summary: "What is kept here of the files that an input names as its evidence",
  query: evidenceBehindQuery,
  answers: { 200: { description: "The files, and the version they are.", content: json(evidenceBehind) } },
} satisfies Described;
const KEEP_FILE = {
  id: "keepEvidenceFile",
  summary: "Keep a file of a log",
  query: evidenceFileQuery,
  body: bytes,
  answers: { 201: { description: "The file by its digest.", content: json(keptFile) } },
  faults: ["too-large"],
} satisfies Described;
const FILE = {
  id: "getEvidenceFile",
  summary: "A file of a log, as it was sent",
  path: { sha256: "Its SHA-256." },
  answers: { 200: { description: "Its bytes.", content: bytes } },
  faults: ["no-such-file"],
} satisfies Described;
const LOOK = {
  id: "lookAtLogs",
  summary: "How files of a log look: headings, columns, time, and what only a person can tell",
  body: json(logLookRequest),
  answers: { 200: { description: "Each file in turn.", content: json(logLooks) } },
} satisfies Described;
const SERIES = {
  id: "readLogSeries",
  summary: "A log read as its description says, drawn small",
  body: json(logSeriesRequest),
  answers: { 200: { description: "Outlines and plateaus.", content: json(logSeries) } },
} satisfies Described;

/** Evidence of one's own: drafts, versions, and the files they name. */
export const evidence: RouteRegistration = (router, { evidence: store, reader }) => {
  router.get("/evidence", "read", LIST, (_request, response) => {
    response.json(store.list() satisfies EvidenceList);
  });

  router.post("/evidence", "run", MAKE, (request, response) => {
    const { kind, document, files } = bodyOf(newEvidence, request.body);
    const made = store.create(kind, { title: titleOf(document, kind), document, files }, identityOf(response).name);
    response
      .status(201)
      .location(`/api/evidence/${made.id}`)
      .json(made satisfies OwnEvidence);
  });

  router.get("/evidence/:id", "read", READ, (request, response) => {
    response.json(store.read(request.params.id) satisfies OwnEvidence);
  });

  /** Another draft. One that is saved must be whole: it is evaluated first, and nothing is lost if it cannot be. */
  router.put("/evidence/:id", "run", CHANGE, async (request, response) => {
    const { document, files, seen, save } = bodyOf(changedEvidence, request.body);
    const { id, kind } = store.read(request.params.id);
    const actor = identityOf(response).name;
    const content = { title: titleOf(document, kind), document, files };
    const kept = store.change(id, content, seen, null, actor);
    if (!save) return void response.json(kept satisfies OwnEvidence);
    if (kind === "survey") await reader.ownSurvey(content, id, store, leaving(response));
    else await reader.evidence(kind, content, {}, store, leaving(response));
    response.json(store.change(id, content, kept.draft, digestsOf(content), actor) satisfies OwnEvidence);
  });

  router.get("/evidence/:id/versions/:version", "read", VERSION, (request, response) => {
    const { id, version } = request.params;
    const { files, ...saved } = store.version(id, Number(version));
    response.json({
      ...saved,
      files: files.map((file) => ({ ...file, size: store.file(file.sha256)?.length ?? 0 })),
    } satisfies SavedEvidence);
  });

  router.get("/evidence-behind", "read", BEHIND, (request, response) => {
    const { sha256 } = bodyOf(evidenceBehindQuery, request.query);
    const found = store.byDigests(digestId(sha256.map((digest) => ({ name: "", sha256: digest }))));
    response.json({
      kept: store.kept(sha256),
      saved: found === null ? null : { id: found.id, kind: found.kind, version: found.version, title: found.title },
    } satisfies EvidenceBehind);
  });

  /** The description as a file, to be kept elsewhere or evaluated on the command line. */
  router.get("/evidence/:id/description", "read", DESCRIPTION, (request, response) => {
    const { document, title } = store.read(request.params.id);
    response.attachment(`${title.replaceAll(/[^\p{L}\p{N} .-]/gu, "").trim() || "description"}.json`);
    response.type("json").send(descriptionFile(document));
  });

  router.delete("/evidence/:id", "run", REMOVE, (request, response) => {
    store.remove(request.params.id, identityOf(response).name);
    response.status(204).end();
  });

  router.post("/evidence/:id/undo-removal", "run", BRING_BACK, (request, response) => {
    store.bringBack(request.params.id, identityOf(response).name);
    response.json(store.read(request.params.id) satisfies OwnEvidence);
  });

  /** Keeps a file of a log: the body is its bytes. */
  router.post("/evidence-files", "run", KEEP_FILE, async (request, response) => {
    const { name } = bodyOf(evidenceFileQuery, request.query);
    if (request.is("application/octet-stream") === false)
      throw refused("", request.headers["content-type"], "the bytes of a file, sent as application/octet-stream");
    const stated = Number(request.headers["content-length"] ?? 0);
    if (stated > LARGEST_LOG)
      throw new Fault(
        "too-large",
        `${name} has ${stated} bytes; expected at most ${LARGEST_LOG}. The command line takes longer ones: trialband survey.`,
      );
    const content = await bytesOf(request, stated);
    response.status(201).json(store.keepFile(name, content) satisfies KeptFile);
  });

  router.get("/evidence-files/:sha256", "read", FILE, (request, response) => {
    const content = store.file(request.params.sha256);
    if (content === null) throw new Fault("no-such-file", "No file with this digest is kept.");
    response.attachment(request.params.sha256).type("application/octet-stream").send(Buffer.from(content));
  });

  router.post("/log-looks", "read", LOOK, async (request, response) => {
    const { files } = bodyOf(logLookRequest, request.body);
    response.json((await reader.looks(files, store, leaving(response))) satisfies LogLooks);
  });

  router.post("/log-series", "read", SERIES, async (request, response) => {
    const content = bodyOf(logSeriesRequest, request.body);
    response.json((await reader.series(content, store, leaving(response))) satisfies LogSeries);
  });
};
