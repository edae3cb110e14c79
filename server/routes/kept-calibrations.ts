import {
  calibrationList,
  calibrationNaming,
  changedCalibration,
  keptCalibration,
  newCalibration,
  runOfInstrument,
  type CalibrationList,
  type KeptCalibration,
} from "../../viewer/api/kept-calibrations.ts";
import { identityOf } from "../access/identity.ts";
import { json, type Described } from "../openapi/described.ts";
import { headOf } from "../shelves/brought-calibration.ts";
import { bodyOf } from "./body.ts";
import { versionSeen } from "./if-match.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

const ONE = { id: "Id of the calibration." };
const SEEN = { "If-Match": 'Revision that the writer has seen, such as "3": 412 if it has another by now.' };
const REVISION = { ETag: 'Its revision, such as "4".' };
const KEPT = { description: "The calibration as it is kept.", content: json(keptCalibration), headers: REVISION };
const READING = ["no-such-calibration", "busy", "worker-lost"] as const;
const WRITING = [...READING, "cannot-keep"] as const;

const LIST = {
  id: "listCalibrations",
  summary: "The calibrations that are kept, the one changed last first",
  answers: { 200: { description: "Each in short.", content: json(calibrationList) } },
} satisfies Described;
const REMOVED = {
  id: "listRemovedCalibrations",
  summary: "The calibrations that were removed, the last first",
  answers: { 200: { description: "Each in short: it can be put back.", content: json(calibrationList) } },
} satisfies Described;
const KEEP = {
  id: "keepCalibration",
  summary: "Keep a calibration that was read",
  description:
    "As openCalibration gave it. Its certificates' fields and the runs of its studies are then kept with it.",
  body: json(newCalibration),
  answers: { 201: KEPT },
  faults: ["busy", "worker-lost", "cannot-keep"],
} satisfies Described;
const READ = {
  id: "getCalibration",
  summary: "A kept calibration with the studies of its instruments",
  path: ONE,
  answers: { 200: KEPT },
  faults: READING,
} satisfies Described;
const CHANGE = {
  id: "changeCalibration",
  summary: "Another document in the place of the one that was seen: the fields of its certificates filled in",
  description: "With other points or readings, its runs are those of another study: their results are then refused.",
  path: ONE,
  reads: SEEN,
  body: json(changedCalibration),
  answers: { 200: KEPT },
  faults: [...WRITING, "changed-meanwhile"],
} satisfies Described;
const SET_RUN = {
  id: "setRunOfInstrument",
  summary: "Say which run is that of an instrument's study",
  path: { ...ONE, instrument: "Id of the instrument." },
  body: json(runOfInstrument),
  answers: { 200: KEPT },
  faults: [...WRITING, "no-such-run"],
} satisfies Described;
const NAME = {
  id: "nameCalibration",
  summary: "Name a kept calibration, and write a note beside it",
  path: ONE,
  reads: SEEN,
  body: json(calibrationNaming),
  answers: { 200: KEPT },
  faults: [...WRITING, "changed-meanwhile"],
} satisfies Described;
const REMOVE = {
  id: "removeCalibration",
  summary: "Take a calibration off the list",
  description: "It stays in the store, and the removal can be undone. Its runs stay in the library.",
  path: ONE,
  answers: { 204: { description: "It is removed." } },
  faults: ["no-such-calibration", "cannot-keep", "busy"],
} satisfies Described;
const BRING_BACK = {
  id: "bringBackCalibration",
  summary: "Put a removed calibration back",
  path: ONE,
  answers: { 200: KEPT },
  faults: WRITING,
} satisfies Described;

/** Calibrations that are kept: begun today, their certificates finished tomorrow. */
export const keptCalibrations: RouteRegistration = (router, { desk, reader, runs }) => {
  const kept = async (id: string, signal: AbortSignal): Promise<KeptCalibration> => {
    const { content, ...listed } = desk.calibrations.read(id);
    return { ...listed, prepared: await reader.keptCalibration(content, signal) };
  };
  const etag = ({ revision }: KeptCalibration): string => `"${revision}"`;

  router.get("/kept-calibrations", "read", LIST, (_request, response) => {
    response.set("cache-control", "no-cache").json(desk.calibrations.list() satisfies CalibrationList);
  });

  router.get("/removed-calibrations", "read", REMOVED, (_request, response) => {
    response.set("cache-control", "no-cache").json(desk.calibrations.removed() satisfies CalibrationList);
  });

  router.post("/kept-calibrations", "run", KEEP, async (request, response) => {
    const content = bodyOf(newCalibration, request.body);
    const prepared = await reader.keptCalibration(content, leaving(response));
    const id = desk.calibrations.keep(content, headOf(prepared), identityOf(response).name);
    const { content: _content, ...listed } = desk.calibrations.read(id);
    const answer = { ...listed, prepared } satisfies KeptCalibration;
    response.status(201).location(`/api/kept-calibrations/${id}`).set("etag", etag(answer)).json(answer);
  });

  router.get("/kept-calibrations/:id", "read", READ, async (request, response) => {
    const answer = await kept(request.params.id, leaving(response));
    response.set("cache-control", "no-cache").set("etag", etag(answer)).json(answer);
  });

  router.put("/kept-calibrations/:id", "run", CHANGE, async (request, response) => {
    const { id } = request.params;
    const { calibration } = bodyOf(changedCalibration, request.body);
    const seen = versionSeen(request.headers["if-match"]);
    const signal = leaving(response);
    // What cannot be used is refused before anything is written over.
    const prepared = await reader.keptCalibration({ ...desk.calibrations.read(id).content, calibration }, signal);
    desk.calibrations.change(id, calibration, headOf(prepared), seen, identityOf(response).name);
    const answer = await kept(id, signal);
    response.set("etag", etag(answer)).json(answer);
  });

  router.put("/kept-calibrations/:id/runs/:instrument", "run", SET_RUN, async (request, response) => {
    const { id, instrument } = request.params;
    const { run } = bodyOf(runOfInstrument, request.body);
    // One that is not there is refused.
    runs.get(run);
    desk.calibrations.setRun(id, instrument, run, identityOf(response).name);
    const answer = await kept(id, leaving(response));
    response.set("etag", etag(answer)).json(answer);
  });

  router.put("/kept-calibrations/:id/name", "run", NAME, async (request, response) => {
    const { id } = request.params;
    const { name, note } = bodyOf(calibrationNaming, request.body);
    const naming = { name, note: note === "" ? null : note };
    desk.calibrations.name(id, naming, versionSeen(request.headers["if-match"]), identityOf(response).name);
    const answer = await kept(id, leaving(response));
    response.set("etag", etag(answer)).json(answer);
  });

  router.delete("/kept-calibrations/:id", "administer", REMOVE, (request, response) => {
    desk.calibrations.remove(request.params.id, identityOf(response).name);
    response.status(204).end();
  });

  router.post("/kept-calibrations/:id/undo-removal", "administer", BRING_BACK, async (request, response) => {
    const { id } = request.params;
    desk.calibrations.bringBack(id, identityOf(response).name);
    const answer = await kept(id, leaving(response));
    response.set("etag", etag(answer)).json(answer);
  });
};
