import { confirmationOf } from "../../models/index.ts";
import { calibrationFilesQuery } from "../../viewer/api/calibrations.ts";
import {
  confirmationRequest,
  openedOutlook,
  OUTLOOK_KINDS,
  planConfirmation,
  type OpenedOutlook,
  type OutlookKind,
  type PlanConfirmation,
} from "../../viewer/api/outlooks.ts";
import { refused } from "../errors.ts";
import { bytes, json, type Described } from "../openapi/described.ts";
import { filesOf } from "../shelves/survey-uploads.ts";
import { bodyOf } from "./body.ts";
import { recordOf } from "./exports.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

const OPENED = { description: "The evaluation; of a plan also the study to run.", content: json(openedOutlook) };
const OPEN = {
  id: "openOutlook",
  summary: "Evaluate a plan, a history or a comparison of laboratories from its files",
  description: "The document and every file that it names, their bytes one after the other. Nothing is kept.",
  query: calibrationFilesQuery,
  body: bytes,
  answers: { 200: OPENED },
  faults: ["busy", "worker-lost"],
} satisfies Described;
const EXAMPLE = {
  id: "openExampleOutlook",
  summary: "Evaluate the plan, the history or the comparison among the examples",
  path: { kind: "One of plan, history, comparison." },
  answers: { 200: OPENED },
  faults: ["bad-input", "busy", "worker-lost"],
} satisfies Described;
const CONFIRM = {
  id: "confirmPlan",
  summary: "What the run of a plan's proposed study found, beside what was predicted",
  body: json(confirmationRequest),
  answers: { 200: { description: "Every point, and whether the target is met.", content: json(planConfirmation) } },
  faults: ["no-such-run", "not-finished"],
} satisfies Described;

/** Plans, histories and comparisons: what is said of a laboratory over its range and over years. */
export const outlooks: RouteRegistration = (router, { runs, reader }) => {
  router.post("/outlooks", "run", OPEN, async (request, response) => {
    const files = await filesOf(request, bodyOf(calibrationFilesQuery, request.query));
    response.json((await reader.outlook(files, leaving(response))) satisfies OpenedOutlook);
  });
  router.get("/outlooks/examples/:kind", "read", EXAMPLE, async (request, response) => {
    const { kind } = request.params;
    if (!OUTLOOK_KINDS.some((one) => one === kind)) throw refused("kind", kind, `one of ${OUTLOOK_KINDS.join(", ")}`);
    response.json((await reader.outlook(kind as OutlookKind, leaving(response))) satisfies OpenedOutlook);
  });
  router.post("/outlooks/confirmation", "read", CONFIRM, async (request, response) => {
    const { plan, run } = bodyOf(confirmationRequest, request.body);
    response.json(confirmationOf(plan, await recordOf(runs, run)) satisfies PlanConfirmation);
  });
};
